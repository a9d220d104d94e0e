package sheet_test

import (
	"math"
	"testing"

	. "wakeline/ui/sheet"
	"wakeline/ui/sheet/lettering"
	"wakeline/ui/sheet/raster"
)

// inkOf is the stretch of a picture's columns that one text inks.
func inkOf(t *testing.T, x Text) (from, to int) {
	t.Helper()
	d := &Drawing{W: 400, H: 40, Shapes: []Shape{Box{Max: Point{400, 40}, Fill: Paper, Texture: Solid}, x}}
	img, err := raster.Picture(d, PaperTheme, 1)
	if err != nil {
		t.Fatal(err)
	}
	from, to = -1, -1
	for col := range 400 {
		for row := range 40 {
			if img.RGBAAt(col, row).R < 160 {
				if from < 0 {
					from = col
				}
				to = col
			}
		}
	}
	return from, to
}

// TestATextOfTwoScriptsKeepsItsPlace: at its middle or its end as at its start.
func TestATextOfTwoScriptsKeepsItsPlace(t *testing.T) {
	for _, s := range []string{"kick", "ab Пры", "kick Прыжок", "Ψηλό kick 2 Прыжок"} {
		_, units := lettering.Of(false).Line(s)
		width := float64(units) * 20 / lettering.UnitsPerEm
		a, b := inkOf(t, Text{At: Point{10, 30}, Str: s, Size: 20, Role: Ink})
		for anchor, x := range map[Anchor]float64{AtMiddle: 10 + width/2, AtEnd: 10 + width} {
			c, d := inkOf(t, Text{At: Point{x, 30}, Str: s, Size: 20, Role: Ink, Anchor: anchor})
			if math.Abs(float64(a-c)) > 1 || math.Abs(float64(b-d)) > 1 {
				t.Errorf("%q, anchor %d: inks columns %d to %d, from its start %d to %d", s, anchor, c, d, a, b)
			}
		}
	}
}
