// Package raster makes pixels of drawings: pictures, PNG and GIF.
package raster

import (
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"math"

	"wakeline/ui/sheet"
	"wakeline/ui/sheet/brush"
)

const maxPixels = 1 << 28 // of one picture: four bytes each

// Picture draws d in pixels, scale pixels a unit.
func Picture(d *sheet.Drawing, t sheet.Theme, scale float64) (*image.RGBA, error) {
	ground := color.NRGBA{}
	if d.OnGround() { // it reaches to the edge also where a pixel passes the drawing's
		ground = t.Colour(sheet.Paper)
	}
	c, err := NewCanvas(d.W, d.H, scale, ground)
	if err != nil {
		return nil, err
	}
	brush.Draw(d, t, c)
	return c.Image, nil
}

// NewCanvas is a canvas of w by h units, scale pixels a unit, all of that
// colour.
func NewCanvas(w, h, scale float64, ground color.NRGBA) (*Canvas, error) {
	wide, high := math.Round(w*scale), math.Round(h*scale)
	if !(scale > 0) || !(wide >= 1) || !(high >= 1) || wide*high > maxPixels {
		return nil, fmt.Errorf("picture: expected a scale above 0 and at most %d pixels, got scale %v for %v by %v units", maxPixels, scale, w, h)
	}
	img := image.NewRGBA(image.Rect(0, 0, int(wide), int(high)))
	draw.Draw(img, img.Rect, image.NewUniform(ground), image.Point{}, draw.Src)
	return &Canvas{Image: img, scale: scale}, nil
}
