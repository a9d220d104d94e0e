package paint

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// WholeRow is the height of a list's row, near to high, at which every row
// begins on a whole pixel: its marks stay sharp.
func WholeRow(list fyne.CanvasObject, high float32) float32 {
	scale, gap := ScaleOf(list), theme.Padding()
	return float32(math.Round(float64((high+gap)*scale)))/scale - gap
}
