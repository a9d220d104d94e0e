// Package svg writes drawings as SVG.
package svg

import (
	"encoding/xml"
	"fmt"
	"image/color"
	"io"
	"strconv"

	"wakeline/ui/sheet"
	"wakeline/ui/sheet/lettering"
)

// Render writes d as an SVG 1.1 document of one unit a pixel, with title and
// description. It looks the same in every viewer, whatever fonts that has: the
// letters are drawn by their outlines, which stand in the file once each, as do
// the words that are there more than once. Every text lies unseen over its letters, to be found and copied. The same drawing
// gives the same bytes.
func Render(w io.Writer, d *sheet.Drawing, t sheet.Theme) error {
	times := 1
	if d.Halo > 0 {
		times = 2
	}
	s := writer{b: make([]byte, 0, 64<<10), t: t, letters: newSVGLetters(d.Shapes, times)}
	if d.Halo > 0 {
		s.halo = d.Halo
		s.str(`<g aria-hidden="true">` + "\n")
		s.shapes(d.Shapes)
		s.str("</g>\n")
		s.halo = 0
	}
	s.shapes(d.Shapes)
	s.str("</svg>\n")
	body := s.b

	s.b = make([]byte, 0, 64<<10)
	s.str(`<?xml version="1.0" encoding="UTF-8"?>` + "\n")
	s.str(`<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" version="1.1" role="img" aria-labelledby="t d"`)
	s.attr("width", d.W)
	s.attr("height", d.H)
	s.str(` viewBox="0 0 `)
	s.num(d.W)
	s.str(" ")
	s.num(d.H)
	s.str(`" font-family="'Noto Sans', sans-serif" fill="none">` + "\n")
	s.str(`<title id="t">`)
	s.escape(d.Title)
	s.str("</title>\n" + `<desc id="d">`)
	s.escape(d.Desc)
	s.str("</desc>\n")
	s.define()
	for _, part := range [][]byte{s.b, body} {
		if _, err := w.Write(part); err != nil {
			return fmt.Errorf("svg: %w", err)
		}
	}
	return nil
}

func (s *writer) shapes(shapes []sheet.Shape) {
	for _, shape := range shapes {
		s.shape(shape)
	}
}

// shape writes one shape; of a halo, the ground's colour around it.
func (s *writer) shape(shape sheet.Shape) {
	switch v := shape.(type) {
	case sheet.Box:
		s.box(&v)
	case sheet.Line:
		s.lineShape(&v)
	case sheet.Path:
		s.path(&v)
	case sheet.Text:
		s.texts(&v)
	}
}

// writer gathers a document.
type writer struct {
	b       []byte
	t       sheet.Theme
	letters svgLetters
	halo    float64 // above 0: not the inks are written, but the ground's colour as far around them
}

func (s *writer) str(v string) { s.b = append(s.b, v...) }

// num writes a number with at most two decimals, and no needless zeros.
func (s *writer) num(v float64) {
	n := len(s.b)
	s.b = strconv.AppendFloat(s.b, v, 'f', 2, 64)
	for s.b[len(s.b)-1] == '0' {
		s.b = s.b[:len(s.b)-1]
	}
	if s.b[len(s.b)-1] == '.' {
		s.b = s.b[:len(s.b)-1]
	}
	if string(s.b[n:]) == "-0" {
		s.b = append(s.b[:n], '0')
	}
}

func (s *writer) attr(name string, v float64) {
	s.str(" " + name + `="`)
	s.num(v)
	s.str(`"`)
}

func (s *writer) paint(name string, c color.NRGBA) {
	const digits = "0123456789abcdef"
	s.str(" " + name + `="#`)
	for _, v := range [...]uint8{c.R, c.G, c.B} {
		s.b = append(s.b, digits[v>>4], digits[v&15])
	}
	s.str(`"`)
}

// colour is the colour of r, or of the halo under it.
func (s *writer) colour(r sheet.Role) color.NRGBA {
	if s.halo > 0 {
		r = sheet.Paper
	}
	return s.t.Colour(r)
}

// line says with what a line is drawn.
func (s *writer) line(r sheet.Role, width float64) {
	s.paint("stroke", s.colour(r))
	s.attr("stroke-width", width)
}

// dashes says that a line of that width is dashed; the halo goes around each
// dash.
func (s *writer) dashes(width float64) {
	if on, off := sheet.Dashes(width); off > 2*s.halo {
		s.dashArray(on+2*s.halo, off-2*s.halo)
	}
}

func (s *writer) dashArray(on, off float64) {
	s.str(` stroke-dasharray="`)
	s.num(on)
	s.str(" ")
	s.num(off)
	s.str(`"`)
}

// escape writes text for XML; what XML can't hold becomes U+FFFD.
func (s *writer) escape(v string) {
	// An appender never fails.
	_ = xml.EscapeText((*appender)(&s.b), []byte(v))
}

type appender []byte

// Write appends p.
func (a *appender) Write(p []byte) (int, error) {
	*a = append(*a, p...)
	return len(p), nil
}

func (s *writer) point(cmd string, q sheet.Point) {
	s.str(cmd)
	s.num(q.X)
	s.str(" ")
	s.num(q.Y)
}

func (s *writer) rect(a, b sheet.Point) {
	s.str("<rect")
	s.attr("x", a.X)
	s.attr("y", a.Y)
	s.attr("width", b.X-a.X)
	s.attr("height", b.Y-a.Y)
}

func (s *writer) box(b *sheet.Box) {
	fine := sheet.TextureHalo(s.halo, b.Texture)
	if b.Fill != sheet.None {
		switch b.Texture {
		case sheet.Solid, sheet.Tint:
			c := s.colour(b.Fill)
			if b.Texture == sheet.Tint {
				c = s.t.Wash(b.Fill)
			}
			s.rect(sheet.Point{X: b.Min.X - s.halo, Y: b.Min.Y - s.halo}, sheet.Point{X: b.Max.X + s.halo, Y: b.Max.Y + s.halo})
			s.paint("fill", c)
			s.str("/>\n")
		case sheet.Hatch:
			if lines := sheet.HatchLines(b); len(lines) > 0 {
				s.str(`<path d="`)
				for _, l := range lines {
					s.point("M", l[0])
					s.point("L", l[1])
				}
				s.str(`"`)
				s.line(b.Fill, sheet.HatchWidth+2*fine)
				s.str("/>\n")
			}
		case sheet.Dots: // a row of dots is a dashed line
			if dots := sheet.DotCentres(b); len(dots) > 0 {
				side := sheet.DotSide + 2*fine
				s.str(`<path d="`)
				for i, q := range dots {
					if i == 0 || dots[i-1].Y != q.Y {
						s.point("M", sheet.Point{X: q.X - side/2, Y: q.Y})
					}
					if i+1 == len(dots) || dots[i+1].Y != q.Y {
						s.str("H")
						s.num(q.X + side/2)
					}
				}
				s.str(`"`)
				s.line(b.Fill, side)
				s.dashArray(side, sheet.DotStep-side)
				s.str("/>\n")
			}
		}
	}
	if b.Stroke == sheet.None {
		return
	}
	if b.Dashed {
		for _, l := range b.Edges() {
			s.lineShape(&l)
		}
		return
	}
	s.rect(b.Min, b.Max)
	s.line(b.Stroke, b.Width+2*s.halo)
	s.str("/>\n")
}

func (s *writer) lineShape(l *sheet.Line) {
	if l.Stroke == sheet.None {
		return
	}
	from, to := sheet.Longer(l.From, l.To, s.halo)
	s.str(`<path d="`)
	s.point("M", from)
	s.point("L", to)
	s.str(`"`)
	if s.line(l.Stroke, l.Width+2*s.halo); l.Dashed {
		s.dashes(l.Width)
	}
	s.str("/>\n")
}

func (s *writer) path(p *sheet.Path) {
	if len(p.Points) < 2 {
		return
	}
	s.str(`<path d="`)
	for i, q := range p.Points {
		if i == 0 {
			s.point("M", q)
		} else {
			s.point("L", q)
		}
	}
	if p.Closed {
		s.str("Z")
	}
	s.str(`"`)
	filled := p.Closed && p.Fill != sheet.None
	if filled {
		s.paint("fill", s.colour(p.Fill))
	}
	switch {
	case p.Stroke != sheet.None:
		s.line(p.Stroke, p.Width+2*s.halo)
	case filled && s.halo > 0:
		s.line(p.Fill, 2*s.halo)
	}
	if s.halo > 0 {
		s.str(` stroke-linecap="round"`)
	}
	s.str("/>\n")
}

// texts writes a text: its letters, drawn, and over them the text, unseen. One
// with letters that the font lacks is drawn in pieces and boxes.
func (s *writer) texts(t *sheet.Text) {
	if t.Str == "" || t.Role == sheet.None {
		return
	}
	width := sheet.TextWidth(t.Str, t.Size, t.Bold)
	if lettering.Of(t.Bold).Covers(t.Str) {
		width = s.drawLetters(t)
	} else {
		for _, piece := range sheet.Spelled(t) {
			if part, ok := piece.(sheet.Text); ok {
				s.drawLetters(&part)
				continue
			}
			s.shape(piece)
		}
	}
	if s.halo > 0 {
		return
	}
	s.str("<text")
	s.attr("x", t.At.X)
	s.attr("y", t.At.Y)
	s.attr("font-size", t.Size)
	s.attr("textLength", width)
	s.str(` lengthAdjust="spacingAndGlyphs"`)
	if t.Bold {
		s.str(` font-weight="bold"`)
	}
	if t.Anchor != sheet.AtStart {
		s.str([...]string{sheet.AtMiddle: ` text-anchor="middle"`, sheet.AtEnd: ` text-anchor="end"`}[t.Anchor])
	}
	s.str(">")
	s.escape(t.Str)
	s.str("</text>\n")
}
