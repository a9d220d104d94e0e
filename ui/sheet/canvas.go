package sheet

import (
	"image/color"
	"math"
	"strings"
	"sync"

	"github.com/tdewolff/canvas"
	"github.com/tdewolff/font"

	"wakeline/assets"
)

// family is the built-in font for canvases, read on first use.
var family = sync.OnceValue(func() *canvas.FontFamily {
	f := canvas.NewFontFamily("Noto Sans")
	if err := f.LoadFont(assets.NotoSans, 0, canvas.FontRegular); err != nil {
		panic("sheet: the built-in font can't be read: " + err.Error())
	}
	if err := f.LoadFont(assets.NotoSansBold, 0, canvas.FontBold); err != nil {
		panic("sheet: the built-in bold font can't be read: " + err.Error())
	}
	return f
})

const pointsPerUnit = 72 / 25.4 // a canvas measures in millimetres and its fonts in points; one unit is one millimetre there

// brush puts shapes on a canvas, whose y grows upwards; one unit is one
// millimetre. Every renderer to pixels or to pages draws with it.
type brush struct {
	ctx     *canvas.Context
	t       Theme
	h       float64 // where y is 0 on the canvas
	byWords bool    // long texts are drawn in pieces: pixels of one long path are slow to fill
	halo    float64 // above 0: not the inks are drawn, but the ground's colour as far around them
}

// draw draws all of d: first the halo under its inks, where it has one.
func (c *brush) draw(d *Drawing) {
	if d.Halo > 0 {
		under := *c
		under.halo = d.Halo
		under.shapes(d.Shapes)
	}
	c.shapes(d.Shapes)
}

func (c *brush) shapes(shapes []Shape) {
	for _, s := range shapes {
		if t, ok := s.(Text); ok && !covered(t.Str, t.Bold) {
			for _, s := range spelled(&t) {
				c.shape(s)
			}
			continue
		}
		c.shape(s)
	}
}

// colour is the colour of r, or of the halo under it.
func (c *brush) colour(r Role) color.NRGBA {
	if c.halo > 0 {
		r = Paper
	}
	return c.t.Colour(r)
}

// wide is how wide a stroke is drawn.
func (c *brush) wide(width float64) float64 { return width + 2*c.halo }

func (c *brush) shape(s Shape) {
	switch s := s.(type) {
	case Box:
		c.box(&s)
	case Line:
		c.line(&s)
	case Path:
		c.path(&s)
	case Text:
		c.text(&s)
	}
}

func (c *brush) fill(p *canvas.Path, col color.NRGBA) {
	c.ctx.SetStrokeColor(canvas.Transparent)
	c.ctx.SetFillColor(col)
	c.ctx.DrawPath(0, 0, p)
}

func (c *brush) move(p *canvas.Path, q Point) { p.MoveTo(q.X, c.h-q.Y) }
func (c *brush) to(p *canvas.Path, q Point)   { p.LineTo(q.X, c.h-q.Y) }
func (c *brush) rect(p *canvas.Path, a, b Point) {
	c.move(p, a)
	c.to(p, Point{a.X, b.Y})
	c.to(p, b)
	c.to(p, Point{b.X, a.Y})
	p.Close()
}

// bar adds a straight stroke with flat ends as the four-sided figure it is.
func (c *brush) bar(p *canvas.Path, a, b Point, width float64) {
	dx, dy := b.X-a.X, b.Y-a.Y
	n := math.Hypot(dx, dy)
	if n == 0 {
		return
	}
	dx, dy = dx/n*width/2, dy/n*width/2
	c.move(p, Point{a.X - dy, a.Y + dx})
	c.to(p, Point{b.X - dy, b.Y + dx})
	c.to(p, Point{b.X + dy, b.Y - dx})
	c.to(p, Point{a.X + dy, a.Y - dx})
	p.Close()
}

// stroke adds a straight stroke, or the halo around it.
func (c *brush) stroke(p *canvas.Path, a, b Point, width float64) {
	a, b = longer(a, b, c.halo)
	c.bar(p, a, b, c.wide(width))
}

func (c *brush) box(b *Box) {
	if b.Fill != None && b.Texture != Blank {
		p := &canvas.Path{}
		col := c.colour(b.Fill)
		switch b.Texture {
		case Tint:
			col = c.t.Wash(b.Fill)
			fallthrough
		case Solid:
			c.rect(p, Point{b.Min.X - c.halo, b.Min.Y - c.halo}, Point{b.Max.X + c.halo, b.Max.Y + c.halo})
		case Hatch:
			for _, l := range HatchLines(b) {
				c.bar(p, l[0], l[1], hatchWidth+2*textureHalo(c.halo, Hatch))
			}
		case Dots:
			const some = 24 // dots at a time: a row of many is slow to fill
			r := dotSide/2 + textureHalo(c.halo, Dots)
			for i, q := range DotCentres(b) {
				if c.rect(p, Point{q.X - r, q.Y - r}, Point{q.X + r, q.Y + r}); i%some == some-1 {
					c.fill(p, col)
					p = &canvas.Path{}
				}
			}
		}
		if !p.Empty() {
			c.fill(p, col)
		}
	}
	if b.Stroke == None {
		return
	}
	p := &canvas.Path{}
	for _, l := range edges(b) {
		if b.Dashed {
			for _, q := range dashed(&l) {
				c.stroke(p, q[0], q[1], l.Width)
			}
			continue
		}
		u, v := longer(l.From, l.To, l.Width/2) // so that corners close
		c.stroke(p, u, v, l.Width)
	}
	if !p.Empty() {
		c.fill(p, c.colour(b.Stroke))
	}
}

func (c *brush) line(l *Line) {
	if l.Stroke == None {
		return
	}
	p := &canvas.Path{}
	if l.Dashed {
		for _, q := range dashed(l) {
			c.stroke(p, q[0], q[1], l.Width)
		}
	} else {
		c.stroke(p, l.From, l.To, l.Width)
	}
	if !p.Empty() {
		c.fill(p, c.colour(l.Stroke))
	}
}

func (c *brush) path(s *Path) {
	if len(s.Points) < 2 {
		return
	}
	p := &canvas.Path{}
	c.move(p, s.Points[0])
	for _, q := range s.Points[1:] {
		c.to(p, q)
	}
	if s.Closed {
		p.Close()
	}
	c.ctx.SetFillColor(canvas.Transparent)
	filled, width := s.Closed && s.Fill != None, 0.0
	if filled {
		c.ctx.SetFillColor(c.colour(s.Fill))
	}
	c.ctx.SetStrokeColor(canvas.Transparent)
	if s.Stroke != None {
		width = s.Width
	}
	if width = c.wide(width); width > 0 && (filled || s.Stroke != None) {
		c.ctx.SetStrokeColor(c.colour(s.Stroke))
		c.ctx.SetStrokeWidth(width)
		c.ctx.SetStrokeJoiner(canvas.MiterJoin)
		c.ctx.SetStrokeCapper(canvas.ButtCap)
		if c.halo > 0 {
			c.ctx.SetStrokeCapper(canvas.RoundCap)
		}
	}
	c.ctx.DrawPath(0, 0, p)
}

func (c *brush) text(s *Text) {
	if s.Str == "" || s.Role == None {
		return
	}
	if c.halo > 0 {
		c.textHalo(s)
		return
	}
	face := family().Face(s.Size*pointsPerUnit, c.t.Colour(s.Role), styleOf(s.Bold))
	lines := []*canvas.Text{}
	for _, part := range c.parts(s.Str) {
		lines = append(lines, canvas.NewTextLine(face, part, canvas.Left)) // the canvas puts runs of a text that isn't at its start over each other
	}
	width := 0.0
	for _, l := range lines {
		width += l.Width
	}
	x := startOf(s, width)
	for _, l := range lines {
		c.ctx.DrawText(x, c.h-s.At.Y, l)
		x += l.Width
	}
}

const piece = 16 // bytes of a text that are drawn at a time, and the word that they end in

// parts are the pieces in which a text is drawn: all of it, or a few words each.
func (c *brush) parts(text string) (out []string) {
	if !c.byWords || len(text) <= piece {
		return []string{text}
	}
	for text != "" {
		n := len(text)
		if n > piece {
			if i := strings.IndexByte(text[piece:], ' '); i >= 0 {
				n = piece + i + 1
			}
		}
		out, text = append(out, text[:n]), text[n:]
	}
	return out
}

// textHalo draws the halo around a text's letters.
func (c *brush) textHalo(s *Text) {
	letters, units := lettersOf(s.Str, s.Bold)
	scale := s.Size / unitsPerEm
	x := startOf(s, float64(units)*scale)
	c.ctx.SetFillColor(c.colour(s.Role))
	c.ctx.SetStrokeColor(c.colour(s.Role))
	c.ctx.SetStrokeWidth(c.wide(0))
	c.ctx.SetStrokeJoiner(canvas.RoundJoin)
	c.ctx.SetStrokeCapper(canvas.ButtCap)
	face := family().Face(s.Size*pointsPerUnit, canvas.Black, styleOf(s.Bold))
	for _, l := range letters {
		p := &canvas.Path{}
		if err := face.Font.GlyphPath(p, l.glyph, 0, 0, 0, scale, font.NoHinting); err == nil && !p.Empty() {
			c.ctx.DrawPath(x+float64(l.x)*scale, c.h-s.At.Y+float64(l.y)*scale, p)
		}
	}
}
