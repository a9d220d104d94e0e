package ui

import (
	"image"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"

	"wakeline/timeline"
	"wakeline/ui/paint"
	"wakeline/ui/sheet/raster"
)

// TestScreenShowsWhatIsSaved holds the canvas objects to the picture that a
// file gets of the same drawing: the same places, inks and textures. Lines
// are snapped to pixels on screen and smoothed in the file, so single pixels
// differ; a text or block that lies elsewhere would differ over its whole
// area.
func TestScreenShowsWhatIsSaved(t *testing.T) {
	for _, p := range paint.Palettes {
		w := open(t, sample(), laptop)
		w.setPalette(p)
		w.hideNumbers()
		w.model.SetDelay(4)
		w.Canvas().Unfocus()
		w.sides.Offset, w.upDown.Offset = 0.25, 0.6
		w.sides.Refresh()
		inset, _ := w.Canvas().InteractiveArea() // which the driver takes off its positions
		x := float64(w.app.Driver().AbsolutePositionForObject(w.sheet).X + inset.X)
		w.sides.Offset += (math.Round(x) - x) / float64(w.sides.Size().Width) // to a whole pixel, as the file is
		w.sides.Refresh()
		d := w.sheet.Drawing()
		want, err := raster.Picture(d, p.Theme, 1)
		if err != nil {
			t.Fatal(err)
		}
		at := w.app.Driver().AbsolutePositionForObject(w.sheet).Add(inset)
		got := w.Canvas().Capture()
		x0, y0 := int(at.X+0.5), int(at.Y+0.5)
		const block = 32 // pixels a side
		worst, where := 0.0, image.Point{}
		for y := 0; y+block < want.Rect.Dy(); y += block {
			for x := 0; x+block < want.Rect.Dx(); x += block {
				a := mean(want, x, y, block)
				b := mean(got, x0+x, y0+y, block)
				if diff := max(a-b, b-a); diff > worst {
					worst, where = diff, image.Pt(x, y)
				}
			}
		}
		t.Logf("%s: a block of %d pixels differs by at most %.1f of 255, at %v", p.Name, block, worst, where)
		if worst > 10 {
			t.Errorf("%s: at %v the screen differs from the file by %.1f of 255", p.Name, where, worst)
		}
		if dir := os.Getenv("WAKELINE_SHOTS"); dir != "" {
			save(t, filepath.Join(dir, "screen-"+p.Name+".png"), got)
			save(t, filepath.Join(dir, "file-"+p.Name+".png"), want)
		}
	}
}

// mean is the mean brightness of a block of an image.
func mean(img image.Image, x0, y0, side int) float64 {
	sum := 0.0
	for y := y0; y < y0+side; y++ {
		for x := x0; x < x0+side; x++ {
			r, g, b, _ := img.At(x, y).RGBA()
			sum += float64(r+g+b) / 3 / 257
		}
	}
	return sum / float64(side*side)
}

func save(t *testing.T, path string, img image.Image) {
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := png.Encode(f, img); err != nil {
		t.Fatal(err)
	}
}

// TestPicturesAreUsedAgain drags there and back: what was painted once is
// only moved the second time.
func TestPicturesAreUsedAgain(t *testing.T) {
	w := open(t, sample(), laptop)
	p := grip(t, w, timeline.PartDelay, 0)
	press(w, p)
	pen := &w.sheet.Renderer.Pen
	move(w, p, 10, 0, 10)
	move(w, p, 0, 0, 1)
	n := len(pen.Stamps)
	move(w, p, 10, 0, 10)
	if got := len(pen.Stamps); got != n {
		t.Errorf("%d pictures after dragging there again, had %d", got, n)
	}
	release(w)
	for range 40 {
		w.sheet.TypedRune('+')
		w.sheet.TypedRune('-')
		w.sheet.Zoom(0.01, 300)
	}
	if got := len(pen.Stamps); got > 2*paint.MostStamps {
		t.Errorf("%d pictures kept", got)
	}
}
