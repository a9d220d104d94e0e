package sheet

import (
	"fmt"
	"image"
	"image/draw"
	"io"
	"math"

	"github.com/tdewolff/canvas"
	"github.com/tdewolff/canvas/renderers/rasterizer"
)

const maxPixels = 1 << 28 // of one picture: four bytes each

// Picture draws d in pixels, scale pixels a unit.
func Picture(d *Drawing, t Theme, scale float64) (*image.RGBA, error) {
	w, h := math.Round(d.W*scale), math.Round(d.H*scale)
	if !(scale > 0) || !(w >= 1) || !(h >= 1) || w*h > maxPixels {
		return nil, fmt.Errorf("picture: expected a scale above 0 and at most %d pixels, got scale %v for %v by %v units", maxPixels, scale, d.W, d.H)
	}
	img := image.NewRGBA(image.Rect(0, 0, int(w), int(h)))
	if d.onGround() { // the ground reaches to the edge also where a pixel passes the drawing's
		draw.Draw(img, img.Rect, image.NewUniform(t.Colour(Paper)), image.Point{}, draw.Src)
	}
	ras := rasterizer.FromImage(img, canvas.DPMM(scale), canvas.LinearColorSpace{})
	ctx := canvas.NewContext(ras)
	_, high := ctx.Size() // in whole pixels
	(&brush{ctx: ctx, t: t, h: high, byWords: true}).draw(d)
	ras.Close()
	return img, nil
}

// onGround reports whether the drawing begins with a ground over all of it.
func (d *Drawing) onGround() bool {
	if len(d.Shapes) == 0 {
		return false
	}
	b, ok := d.Shapes[0].(Box)
	return ok && b.Fill == Paper && b.Texture == Solid && b.Min.X <= 0 && b.Min.Y <= 0 && b.Max.X >= d.W && b.Max.Y >= d.H
}

// RenderPNG writes d as a PNG of scale pixels a unit, with its title and
// description as text chunks; what d leaves open, as a Clear drawing does, is
// transparent. The same drawing gives the same bytes.
func RenderPNG(w io.Writer, d *Drawing, t Theme, scale float64) error {
	img, err := Picture(d, t, scale)
	if err != nil {
		return err
	}
	if err := EncodePNG(w, img, d.Title, d.Desc); err != nil {
		return fmt.Errorf("png: %w", err)
	}
	return nil
}
