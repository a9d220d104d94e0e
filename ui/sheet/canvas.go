package sheet

import (
	"image/color"
	"math"
	"strings"
	"sync"

	"github.com/tdewolff/canvas"

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
}

// draw draws all of d.
func (c *brush) draw(d *Drawing) {
	for _, s := range d.Shapes {
		if t, ok := s.(Text); ok && !covered(t.Str, t.Bold) {
			for _, s := range spelled(&t) {
				c.shape(s)
			}
			continue
		}
		c.shape(s)
	}
}

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

func (c *brush) box(b *Box) {
	if b.Fill != None && b.Texture != Blank {
		p := &canvas.Path{}
		col := c.t.Colour(b.Fill)
		switch b.Texture {
		case Tint:
			col = c.t.Wash(b.Fill)
			fallthrough
		case Solid:
			c.rect(p, b.Min, b.Max)
		case Hatch:
			for _, l := range HatchLines(b) {
				c.bar(p, l[0], l[1], hatchWidth)
			}
		case Dots:
			const r, some = dotSide / 2, 24 // dots at a time: a row of many is slow to fill
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
				c.bar(p, q[0], q[1], l.Width)
			}
			continue
		}
		u, v := l.From, l.To // longer by half a width at both ends, so that corners close
		n := math.Hypot(v.X-u.X, v.Y-u.Y)
		if n > 0 {
			dx, dy := (v.X-u.X)/n*l.Width/2, (v.Y-u.Y)/n*l.Width/2
			u, v = Point{u.X - dx, u.Y - dy}, Point{v.X + dx, v.Y + dy}
		}
		c.bar(p, u, v, l.Width)
	}
	if !p.Empty() {
		c.fill(p, c.t.Colour(b.Stroke))
	}
}

func (c *brush) line(l *Line) {
	if l.Stroke == None {
		return
	}
	p := &canvas.Path{}
	if l.Dashed {
		for _, q := range dashed(l) {
			c.bar(p, q[0], q[1], l.Width)
		}
	} else {
		c.bar(p, l.From, l.To, l.Width)
	}
	if !p.Empty() {
		c.fill(p, c.t.Colour(l.Stroke))
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
	if s.Closed && s.Fill != None {
		c.ctx.SetFillColor(c.t.Colour(s.Fill))
	}
	c.ctx.SetStrokeColor(canvas.Transparent)
	if s.Stroke != None {
		c.ctx.SetStrokeColor(c.t.Colour(s.Stroke))
		c.ctx.SetStrokeWidth(s.Width)
		c.ctx.SetStrokeJoiner(canvas.MiterJoin)
		c.ctx.SetStrokeCapper(canvas.ButtCap)
	}
	c.ctx.DrawPath(0, 0, p)
}

func (c *brush) text(s *Text) {
	if s.Str == "" || s.Role == None {
		return
	}
	style := canvas.FontRegular
	if s.Bold {
		style = canvas.FontBold
	}
	face := family().Face(s.Size*pointsPerUnit, c.t.Colour(s.Role), style)
	if c.byWords && len(s.Str) > piece {
		c.pieces(s, face)
		return
	}
	align := [...]canvas.TextAlign{AtStart: canvas.Left, AtMiddle: canvas.Center, AtEnd: canvas.Right}[s.Anchor]
	c.ctx.DrawText(s.At.X, c.h-s.At.Y, canvas.NewTextLine(face, s.Str, align))
}

const piece = 16 // bytes of a text that are drawn at a time, and the word that they end in

// pieces draws a long text a few words at a time.
func (c *brush) pieces(s *Text, face *canvas.FontFace) {
	var parts []string
	for rest := s.Str; rest != ""; {
		n := len(rest)
		if n > piece {
			if i := strings.IndexByte(rest[piece:], ' '); i >= 0 {
				n = piece + i + 1
			}
		}
		parts, rest = append(parts, rest[:n]), rest[n:]
	}
	x := s.At.X
	widths, all := make([]float64, len(parts)), 0.0
	for i, part := range parts {
		widths[i] = face.TextWidth(part)
		all += widths[i]
	}
	switch s.Anchor {
	case AtMiddle:
		x -= all / 2
	case AtEnd:
		x -= all
	}
	for i, part := range parts {
		c.ctx.DrawText(x, c.h-s.At.Y, canvas.NewTextLine(face, part, canvas.Left))
		x += widths[i]
	}
}
