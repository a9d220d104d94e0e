package raster

import (
	"image"
	"sync"

	"wakeline/ui/sheet"
	"wakeline/ui/sheet/brush"
)

// Reel draws the pictures of a film, of which many share a drawing: that is
// drawn once, and what is laid over it on a copy. Many goroutines may ask it.
type Reel struct {
	theme sheet.Theme
	scale float64

	mu   sync.Mutex
	kept *sheet.Drawing
	img  *image.RGBA // of kept
}

// NewReel returns a reel that draws scale pixels a unit.
func NewReel(t sheet.Theme, scale float64) *Reel { return &Reel{theme: t, scale: scale} }

// Picture draws base, and shapes over it with their own halo where base has
// one. The picture is the caller's.
func (r *Reel) Picture(base *sheet.Drawing, over []sheet.Shape) (*image.RGBA, error) {
	under, err := r.drawn(base)
	if err != nil {
		return nil, err
	}
	out := &image.RGBA{Pix: append([]uint8(nil), under.Pix...), Stride: under.Stride, Rect: under.Rect}
	c := &Canvas{Image: out, scale: r.scale}
	if base.Halo > 0 {
		brush.Shapes(over, r.theme, c, base.Halo)
	}
	brush.Shapes(over, r.theme, c, 0)
	return out, nil
}

// drawn is base alone, which must not be changed.
func (r *Reel) drawn(base *sheet.Drawing) (*image.RGBA, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.kept != base {
		img, err := Picture(base, r.theme, r.scale)
		if err != nil {
			return nil, err
		}
		r.kept, r.img = base, img
	}
	return r.img, nil
}
