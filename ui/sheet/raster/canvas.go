package raster

import (
	"image"
	"image/color"
	"math"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"

	"wakeline/ui/sheet"
	"wakeline/ui/sheet/brush"
	"wakeline/ui/sheet/lettering"
)

// Canvas is a picture that is drawn on: a brush.Surface.
type Canvas struct {
	Image  *image.RGBA
	scale  float64 // pixels a unit
	dx, dy float64 // the pixel on which the drawing begins
	filler vector.Rasterizer
}

// Part draws on the canvas from then on with 0, 0 at that place, and a unit so
// much longer.
func (c *Canvas) Part(x, y, scale float64) *Canvas {
	return &Canvas{Image: c.Image, scale: c.scale * scale, dx: c.dx + x*c.scale, dy: c.dy + y*c.scale}
}

func (c *Canvas) pixel(p sheet.Point) (x, y float64) { return p.X*c.scale + c.dx, p.Y*c.scale + c.dy }

// Rects fills upright rectangles: each pixel by the part of it that lies in one.
func (c *Canvas) Rects(rects []brush.Rect, col color.NRGBA) {
	for _, r := range rects {
		x0, y0 := c.pixel(r.Min)
		x1, y1 := c.pixel(r.Max)
		c.rect(x0, y0, x1, y1, col)
	}
}

func (c *Canvas) rect(x0, y0, x1, y1 float64, col color.NRGBA) {
	size := c.Image.Rect.Max
	x0, y0, x1, y1 = max(x0, 0), max(y0, 0), min(x1, float64(size.X)), min(y1, float64(size.Y))
	if x0 >= x1 || y0 >= y1 {
		return
	}
	first, last := int(x0), int(math.Ceil(x1)) // columns
	for y := int(y0); y < int(math.Ceil(y1)); y++ {
		high := min(float64(y+1), y1) - max(float64(y), y0)
		row := c.Image.Pix[y*c.Image.Stride+4*first : y*c.Image.Stride+4*last]
		from, to := 0, len(row)
		if whole := min(float64(first+1), x1) - x0; whole < 1 {
			lay(row[:4], col, whole*high)
			from = 4
		}
		if whole := x1 - float64(last-1); whole < 1 && to > from {
			lay(row[to-4:], col, whole*high)
			to -= 4
		}
		if from == to {
			continue
		}
		lay(row[from:from+4], col, high)
		if high == 1 {
			for n := 4; n < to-from; n *= 2 { // what is there already, twice as much each time
				copy(row[from+n:to], row[from:from+n])
			}
			continue
		}
		for i := from + 4; i < to; i += 4 {
			lay(row[i:i+4], col, high)
		}
	}
}

// lay lays a colour over a pixel, covering a part of it.
func lay(pixel []byte, c color.NRGBA, part float64) {
	if part >= 1 {
		pixel[0], pixel[1], pixel[2], pixel[3] = c.R, c.G, c.B, 255
		return
	}
	const all = 1 << 16
	over := uint32(part*all + 0.5)
	under := all - over
	for i, v := range [...]byte{c.R, c.G, c.B, 255} {
		pixel[i] = byte((uint32(pixel[i])*under + uint32(v)*over + all/2) / all)
	}
}

// tile is the side of the squares that a large figure is filled in, in pixels:
// most of them hold nothing of it, or it all over.
const tile = 32

// Fill fills a figure.
func (c *Canvas) Fill(f brush.Figure, col color.NRGBA) {
	g := make([][]sheet.Point, len(f))
	around := bounds{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for i, outline := range f {
		g[i] = make([]sheet.Point, len(outline))
		for k, p := range outline {
			x, y := c.pixel(p)
			g[i][k] = sheet.Point{X: x, Y: y}
			around.take(x, y)
		}
	}
	box := around.pixels().Intersect(c.Image.Rect)
	if box.Dx()*box.Dy() <= 16*tile*tile {
		c.fill(g, box, col)
		return
	}
	for y := box.Min.Y; y < box.Max.Y; y += tile {
		for x := box.Min.X; x < box.Max.X; x += tile {
			part := image.Rect(x, y, x+tile, y+tile).Intersect(box)
			switch touched, inside := meets(g, part); {
			case touched:
				c.fill(g, part, col)
			case inside:
				c.rect(float64(part.Min.X), float64(part.Min.Y), float64(part.Max.X), float64(part.Max.Y), col)
			}
		}
	}
}

// meets reports whether an edge of figure g may touch a part of the picture,
// and if none does, whether the part lies inside it.
func meets(g [][]sheet.Point, part image.Rectangle) (touched, inside bool) {
	x0, y0, x1, y1 := float64(part.Min.X), float64(part.Min.Y), float64(part.Max.X), float64(part.Max.Y)
	x, y := (x0+x1)/2, (y0+y1)/2
	turns := 0
	for _, outline := range g {
		a := outline[len(outline)-1]
		for _, b := range outline {
			if max(a.X, b.X) >= x0 && min(a.X, b.X) <= x1 && max(a.Y, b.Y) >= y0 && min(a.Y, b.Y) <= y1 {
				return true, false
			}
			if (a.Y <= y) != (b.Y <= y) && a.X+(y-a.Y)/(b.Y-a.Y)*(b.X-a.X) < x {
				if a.Y <= y {
					turns++
				} else {
					turns--
				}
			}
			a = b
		}
	}
	return false, turns != 0
}

// fill fills what of a figure, in pixels, lies in a part of the picture.
func (c *Canvas) fill(g [][]sheet.Point, part image.Rectangle, col color.NRGBA) {
	if part.Empty() {
		return
	}
	c.filler.Reset(part.Dx(), part.Dy())
	for _, outline := range g {
		for i, p := range outline {
			x, y := float32(p.X-float64(part.Min.X)), float32(p.Y-float64(part.Min.Y))
			if i == 0 {
				c.filler.MoveTo(x, y)
			} else {
				c.filler.LineTo(x, y)
			}
		}
		c.filler.ClosePath()
	}
	c.filler.Draw(c.Image, part, image.NewUniform(col), image.Point{})
}

// Write draws a line of letters by their outlines, on a baseline between two
// rows of pixels, which keeps them sharp.
func (c *Canvas) Write(from sheet.Point, line []lettering.Glyph, size float64, bold bool, col color.NRGBA) {
	face, ink := lettering.Of(bold), image.NewUniform(col)
	scale := size * c.scale / lettering.UnitsPerEm
	x0, y0 := c.pixel(from)
	y0 = math.Ceil(y0 - 0.5)
	for _, g := range line {
		outline := face.Outline(g.ID)
		if len(outline) == 0 {
			continue
		}
		x, y := x0+float64(g.X)*scale, y0-float64(g.Y)*scale
		b := outline.Bounds()
		around := bounds{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
		around.take(x+float64(b.Min.X)/64*scale, y+float64(b.Min.Y)/64*scale)
		around.take(x+float64(b.Max.X)/64*scale, y+float64(b.Max.Y)/64*scale)
		box := around.pixels().Intersect(c.Image.Rect)
		if box.Empty() {
			continue
		}
		x, y = x-float64(box.Min.X), y-float64(box.Min.Y)
		at := func(p fixed.Point26_6) (float32, float32) {
			return float32(x + float64(p.X)/64*scale), float32(y + float64(p.Y)/64*scale)
		}
		c.filler.Reset(box.Dx(), box.Dy())
		for i, s := range outline {
			px, py := at(s.Args[0])
			switch s.Op {
			case sfnt.SegmentOpMoveTo:
				if i > 0 {
					c.filler.ClosePath()
				}
				c.filler.MoveTo(px, py)
			case sfnt.SegmentOpLineTo:
				c.filler.LineTo(px, py)
			case sfnt.SegmentOpQuadTo: // the only curves of a TrueType font
				qx, qy := at(s.Args[1])
				c.filler.QuadTo(px, py, qx, qy)
			}
		}
		c.filler.ClosePath()
		c.filler.Draw(c.Image, box, ink, image.Point{})
	}
}

// bounds is the least rectangle around some points.
type bounds struct{ x0, y0, x1, y1 float64 }

func (b *bounds) take(x, y float64) {
	*b = bounds{min(b.x0, x), min(b.y0, y), max(b.x1, x), max(b.y1, y)}
}

// pixels are those that the rectangle lies on.
func (b *bounds) pixels() image.Rectangle {
	const far = 1 << 30
	in := func(v float64) int { return int(max(-far, min(v, far))) }
	return image.Rect(in(math.Floor(b.x0)), in(math.Floor(b.y0)), in(math.Ceil(b.x1)), in(math.Ceil(b.y1)))
}
