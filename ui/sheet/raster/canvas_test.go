package raster

import (
	"image/color"
	"math"
	"testing"

	"wakeline/ui/sheet"
	"wakeline/ui/sheet/brush"
)

var black = color.NRGBA{A: 255}

// canvas is an empty one of that size.
func canvas(t *testing.T, w, h, scale float64) *Canvas {
	t.Helper()
	c, err := NewCanvas(w, h, scale, color.NRGBA{})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// area is how many pixels are covered, in all.
func area(c *Canvas) (sum float64) {
	for i := 3; i < len(c.Image.Pix); i += 4 {
		sum += float64(c.Image.Pix[i]) / 255
	}
	return sum
}

func rectangle(x0, y0, x1, y1 float64) brush.Rect {
	return brush.Rect{Min: sheet.Point{X: x0, Y: y0}, Max: sheet.Point{X: x1, Y: y1}}
}

// TestRectsCoverTheirArea: pixel by pixel as the same rectangle filled as a
// figure, small, large, within one pixel and past the edge.
func TestRectsCoverTheirArea(t *testing.T) {
	for _, c := range []struct {
		r    brush.Rect
		area float64
	}{
		{rectangle(3, 4, 9, 6), 12},
		{rectangle(3.25, 4.5, 9.75, 6.25), 6.5 * 1.75},
		{rectangle(3.25, 4.5, 3.5, 4.75), 1. / 16},
		{rectangle(3.5, 4, 4.25, 20.5), 0.75 * 16.5},
		{rectangle(-5, -5, 300, 2.5), 200 * 2.5},
		{rectangle(10.5, 10.5, 180.25, 140.75), 169.75 * 130.25},
		{rectangle(210, 4, 220, 6), 0},
	} {
		a, b := canvas(t, 200, 150, 1), canvas(t, 200, 150, 1)
		a.Rects([]brush.Rect{c.r}, black)
		b.Fill(brush.Figure{c.r.Outline()}, black)
		if got := area(a); math.Abs(got-c.area) > 0.01*c.area+0.01 {
			t.Errorf("%v covers %v pixels, want %v", c.r, got, c.area)
		}
		for i := range a.Image.Pix {
			if d := int(a.Image.Pix[i]) - int(b.Image.Pix[i]); d > 1 || d < -1 {
				t.Errorf("%v: byte %d is %d, as a figure %d", c.r, i, a.Image.Pix[i], b.Image.Pix[i])
				break
			}
		}
	}
}

// TestLargeFiguresAreWhole: filled in parts, they cover what they would at once,
// with what lies open in them.
func TestLargeFiguresAreWhole(t *testing.T) {
	disc := func(r float64, turns float64) (out []sheet.Point) {
		for i := range 720 {
			sin, cos := math.Sincos(turns * float64(i) / 720 * 2 * math.Pi)
			out = append(out, sheet.Point{X: 250 + r*cos, Y: 250 + r*sin})
		}
		return out
	}
	c := canvas(t, 500, 500, 1)
	c.Fill(brush.Figure{disc(230, 1), disc(120, -1)}, black)
	if got, want := area(c), math.Pi*(230*230-120*120); math.Abs(got-want) > 0.001*want {
		t.Errorf("a ring covers %v pixels, want %v", got, want)
	}
	for y := range 500 {
		for x := range 500 {
			far := math.Hypot(float64(x)-249.5, float64(y)-249.5)
			want := far > 121 && far < 229
			if got := c.Image.RGBAAt(x, y).A; (want && got != 255) || (far < 119 || far > 231) && got != 0 {
				t.Fatalf("pixel %d, %d, %.1f from the middle, is covered %d", x, y, far, got)
			}
		}
	}
}

// TestPart: a part of a canvas has a place and a scale of its own.
func TestPart(t *testing.T) {
	c := canvas(t, 30, 20, 2)
	c.Part(5, 3, 0.5).Rects([]brush.Rect{rectangle(0, 0, 4, 2)}, black)
	if got := area(c); got != 8 || c.Image.RGBAAt(10, 6).A != 255 || c.Image.RGBAAt(13, 7).A != 255 {
		t.Errorf("%v pixels are covered, want the 8 from 10, 6 on", got)
	}
}
