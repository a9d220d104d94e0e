package ui

import (
	"math"
	"wakeline/ui/paint"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// wholeRow is the height of a list's row, near to high, at which every row
// begins on a whole pixel: its marks stay sharp.
func wholeRow(list fyne.CanvasObject, high float32) float32 {
	scale, gap := paint.ScaleOf(list), theme.Padding()
	return float32(math.Round(float64((high+gap)*scale)))/scale - gap
}
