// Package brush puts a drawing's shapes on a surface that can do just three
// things: fill upright rectangles, fill figures, and write lines of letters.
// Strokes are made into the figures that they cover. Renderers to pixels and to
// pages draw with it, so that both show the same.
package brush

import (
	"image/color"

	"wakeline/ui/sheet"
	"wakeline/ui/sheet/lettering"
)

// Figure is an area by its outlines, each closed from its last point to its
// first. Where outlines lie on one another the area counts once.
type Figure [][]sheet.Point

// Rect is an upright rectangle.
type Rect struct{ Min, Max sheet.Point }

// Surface takes what is drawn, in units of the drawing. Colours are opaque.
type Surface interface {
	Rects(r []Rect, c color.NRGBA) // none lies on another
	Fill(f Figure, c color.NRGBA)
	// Write writes a line of letters of that size from a point of its baseline on.
	Write(from sheet.Point, line []lettering.Glyph, size float64, bold bool, c color.NRGBA)
}

// Draw draws all of d: first the halo under its inks, where it has one.
func Draw(d *sheet.Drawing, t sheet.Theme, on Surface) {
	if d.Halo > 0 {
		Shapes(d.Shapes, t, on, d.Halo)
	}
	Shapes(d.Shapes, t, on, 0)
}

// Shapes draws shapes; with a halo above 0 not their inks, but the ground's
// colour as far around them.
func Shapes(shapes []sheet.Shape, t sheet.Theme, on Surface, halo float64) {
	b := brush{on, t, halo}
	for _, s := range shapes {
		b.shape(s)
	}
}

type brush struct {
	on   Surface
	t    sheet.Theme
	halo float64
}

// colour is the colour of r, or of the halo under it.
func (b *brush) colour(r sheet.Role) color.NRGBA {
	if b.halo > 0 {
		r = sheet.Paper
	}
	return b.t.Colour(r)
}

func (b *brush) shape(s sheet.Shape) {
	switch s := s.(type) {
	case sheet.Box:
		b.box(&s)
	case sheet.Line:
		b.line(&s)
	case sheet.Path:
		b.path(&s)
	case sheet.Text:
		b.text(&s)
	}
}

func (b *brush) box(s *sheet.Box) {
	if s.Fill != sheet.None {
		fine := sheet.TextureHalo(b.halo, s.Texture)
		switch s.Texture {
		case sheet.Solid, sheet.Tint:
			c := b.colour(s.Fill)
			if s.Texture == sheet.Tint {
				c = b.t.Wash(s.Fill)
			}
			b.rects(c, around(s.Min, s.Max, b.halo))
		case sheet.Hatch:
			var f Figure
			for _, l := range sheet.HatchLines(s) {
				f = append(f, bar(l[0], l[1], sheet.HatchWidth+2*fine))
			}
			b.fill(f, b.colour(s.Fill))
		case sheet.Dots:
			var dots []Rect
			for _, q := range sheet.DotCentres(s) {
				dots = append(dots, around(q, q, sheet.DotSide/2+fine))
			}
			b.rects(b.colour(s.Fill), dots...)
		}
	}
	if s.Stroke == sheet.None {
		return
	}
	if s.Dashed {
		for _, l := range s.Edges() {
			b.line(&l)
		}
		return
	}
	half := s.Width/2 + b.halo
	if s.Max.X-s.Min.X <= 2*half || s.Max.Y-s.Min.Y <= 2*half { // nothing is left of its inside
		b.rects(b.colour(s.Stroke), around(s.Min, s.Max, half))
		return
	}
	b.on.Fill(Figure{around(s.Min, s.Max, half).Outline(), backwards(around(s.Min, s.Max, -half).Outline())}, b.colour(s.Stroke))
}

func (b *brush) rects(c color.NRGBA, r ...Rect) {
	if len(r) > 0 {
		b.on.Rects(r, c)
	}
}

func (b *brush) line(l *sheet.Line) {
	if l.Stroke == sheet.None {
		return
	}
	strokes := [][2]sheet.Point{{l.From, l.To}}
	if l.Dashed {
		strokes = l.Strokes()
	}
	c, half := b.colour(l.Stroke), l.Width/2+b.halo
	var f Figure
	var upright []Rect
	for _, q := range strokes {
		from, to := sheet.Longer(q[0], q[1], b.halo)
		switch {
		case from == to:
		case from.Y == to.Y:
			upright = append(upright, Rect{sheet.Point{X: min(from.X, to.X), Y: from.Y - half}, sheet.Point{X: max(from.X, to.X), Y: from.Y + half}})
		case from.X == to.X:
			upright = append(upright, Rect{sheet.Point{X: from.X - half, Y: min(from.Y, to.Y)}, sheet.Point{X: from.X + half, Y: max(from.Y, to.Y)}})
		default:
			f = append(f, bar(from, to, 2*half))
		}
	}
	b.rects(c, upright...)
	b.fill(f, c)
}

func (b *brush) fill(f Figure, c color.NRGBA) {
	if len(f) > 0 {
		b.on.Fill(f, c)
	}
}

func (b *brush) path(s *sheet.Path) {
	if len(s.Points) < 2 {
		return
	}
	filled, width := s.Closed && s.Fill != sheet.None, 2*b.halo
	if filled {
		b.on.Fill(Figure{s.Points}, b.colour(s.Fill))
	}
	if s.Stroke != sheet.None {
		width += s.Width
	}
	if width > 0 && (filled || s.Stroke != sheet.None) {
		ends := flat
		if b.halo > 0 {
			ends = round
		}
		b.fill(stroke(s.Points, s.Closed, width, sharp, ends), b.colour(s.Stroke))
	}
}

// text writes a text: one with letters that the font lacks in pieces and boxes.
func (b *brush) text(t *sheet.Text) {
	if t.Str == "" || t.Role == sheet.None {
		return
	}
	face := lettering.Of(t.Bold)
	if !face.Covers(t.Str) {
		for _, s := range sheet.Spelled(t) {
			b.shape(s)
		}
		return
	}
	line, units := face.Line(t.Str)
	from := sheet.Point{X: t.Start(float64(units) * t.Size / lettering.UnitsPerEm), Y: t.At.Y}
	if b.halo > 0 {
		for _, g := range line {
			outline := Outline(face, g, from, t.Size)
			var f Figure
			for _, points := range outline {
				f = append(f, stroke(points, true, 2*b.halo, round, flat)...)
			}
			b.fill(outline, b.colour(t.Role))
			b.fill(f, b.colour(t.Role))
		}
		return
	}
	b.on.Write(from, line, t.Size, t.Bold, b.colour(t.Role))
}
