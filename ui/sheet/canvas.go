package sheet

import (
	"image/color"
	"math"
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

// PutOn draws d on ctx, from its top left corner; one unit is one millimetre,
// and the canvas should be d.W by d.H of them. Every canvas renderer, to pixels or to pages, starts here.
func PutOn(ctx *canvas.Context, d *Drawing, t Theme) {
	_, h := ctx.Size() // of a picture, in whole pixels
	c := brush{ctx: ctx, t: t, h: h}
	for _, s := range d.Shapes {
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
}

// brush puts shapes on a canvas, whose y grows upwards.
type brush struct {
	ctx *canvas.Context
	t   Theme
	h   float64
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
			const r = dotSide / 2
			for _, q := range DotCentres(b) {
				c.rect(p, Point{q.X - r, q.Y - r}, Point{q.X + r, q.Y + r})
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
	align := [...]canvas.TextAlign{AtStart: canvas.Left, AtMiddle: canvas.Center, AtEnd: canvas.Right}[s.Anchor]
	c.ctx.DrawText(s.At.X, c.h-s.At.Y, canvas.NewTextLine(face, s.Str, align))
}
