package sheet

import (
	"encoding/xml"
	"fmt"
	"image/color"
	"io"
	"strconv"
)

// RenderSVG writes d as an SVG 1.1 document of one unit a pixel: every text
// as text, in the sheet's font where the reader has it and never wider than
// it was measured, with title and description. The same drawing gives the same
// bytes.
func RenderSVG(w io.Writer, d *Drawing, t Theme) error {
	s := svg{b: make([]byte, 0, 64<<10), t: t}
	s.str(`<?xml version="1.0" encoding="UTF-8"?>` + "\n")
	s.str(`<svg xmlns="http://www.w3.org/2000/svg" version="1.1" role="img" aria-labelledby="t d"`)
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
	for _, shape := range d.Shapes {
		s.shape(shape)
	}
	s.str("</svg>\n")
	if _, err := w.Write(s.b); err != nil {
		return fmt.Errorf("svg: %w", err)
	}
	return nil
}

// shape writes one shape. A text with letters that the font lacks shows as its
// pieces and boxes; the whole text stands unseen over them, to be found and
// copied.
func (s *svg) shape(shape Shape) {
	switch v := shape.(type) {
	case Box:
		s.box(&v)
	case Line:
		s.lineShape(&v)
	case Path:
		s.path(&v)
	case Text:
		whole := covered(v.Str, v.Bold)
		if !whole {
			s.str(`<g aria-hidden="true">` + "\n")
			for _, piece := range spelled(&v) {
				s.shape(piece)
			}
			s.str("</g>\n")
		}
		s.text(&v, whole)
	}
}

// svg gathers a document.
type svg struct {
	b []byte
	t Theme
}

func (s *svg) str(v string) { s.b = append(s.b, v...) }

// num writes a number with at most two decimals, and no needless zeros.
func (s *svg) num(v float64) {
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

func (s *svg) attr(name string, v float64) {
	s.str(" " + name + `="`)
	s.num(v)
	s.str(`"`)
}

func (s *svg) paint(name string, c color.NRGBA) {
	const digits = "0123456789abcdef"
	s.str(" " + name + `="#`)
	for _, v := range [...]uint8{c.R, c.G, c.B} {
		s.b = append(s.b, digits[v>>4], digits[v&15])
	}
	s.str(`"`)
}

func (s *svg) stroke(r Role, width float64, dashes bool) {
	s.paint("stroke", s.t.Colour(r))
	s.attr("stroke-width", width)
	if dashes {
		on, off := Dashes(width)
		s.str(` stroke-dasharray="`)
		s.num(on)
		s.str(" ")
		s.num(off)
		s.str(`"`)
	}
}

// escape writes text for XML; what XML can't hold becomes U+FFFD.
func (s *svg) escape(v string) {
	// An appender never fails.
	_ = xml.EscapeText((*appender)(&s.b), []byte(v))
}

type appender []byte

// Write appends p.
func (a *appender) Write(p []byte) (int, error) {
	*a = append(*a, p...)
	return len(p), nil
}

func (s *svg) point(cmd string, q Point) {
	s.str(cmd)
	s.num(q.X)
	s.str(" ")
	s.num(q.Y)
}

func (s *svg) rect(b *Box) {
	s.str("<rect")
	s.attr("x", b.Min.X)
	s.attr("y", b.Min.Y)
	s.attr("width", b.Max.X-b.Min.X)
	s.attr("height", b.Max.Y-b.Min.Y)
}

func (s *svg) box(b *Box) {
	if b.Fill != None {
		switch b.Texture {
		case Solid, Tint:
			c := s.t.Colour(b.Fill)
			if b.Texture == Tint {
				c = s.t.Wash(b.Fill)
			}
			s.rect(b)
			s.paint("fill", c)
			s.str("/>\n")
		case Hatch:
			if lines := HatchLines(b); len(lines) > 0 {
				s.str(`<path d="`)
				for _, l := range lines {
					s.point("M", l[0])
					s.point("L", l[1])
				}
				s.str(`"`)
				s.stroke(b.Fill, hatchWidth, false)
				s.str("/>\n")
			}
		case Dots: // one dot is a short thick stroke
			if dots := DotCentres(b); len(dots) > 0 {
				s.str(`<path d="`)
				for _, q := range dots {
					s.point("M", Point{q.X - dotSide/2, q.Y})
					s.str("h")
					s.num(dotSide)
				}
				s.str(`"`)
				s.stroke(b.Fill, dotSide, false)
				s.str("/>\n")
			}
		}
	}
	if b.Stroke == None {
		return
	}
	if b.Dashed {
		for _, l := range edges(b) {
			s.lineShape(&l)
		}
		return
	}
	s.rect(b)
	s.stroke(b.Stroke, b.Width, false)
	s.str("/>\n")
}

func (s *svg) lineShape(l *Line) {
	if l.Stroke == None {
		return
	}
	s.str(`<path d="`)
	s.point("M", l.From)
	s.point("L", l.To)
	s.str(`"`)
	s.stroke(l.Stroke, l.Width, l.Dashed)
	s.str("/>\n")
}

func (s *svg) path(p *Path) {
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
	if p.Closed && p.Fill != None {
		s.paint("fill", s.t.Colour(p.Fill))
	}
	if p.Stroke != None {
		s.stroke(p.Stroke, p.Width, false)
	}
	s.str("/>\n")
}

func (s *svg) text(t *Text, seen bool) {
	if t.Str == "" || t.Role == None {
		return
	}
	s.str("<text")
	s.attr("x", t.At.X)
	s.attr("y", t.At.Y)
	s.attr("font-size", t.Size)
	s.attr("textLength", TextWidth(t.Str, t.Size, t.Bold))
	s.str(` lengthAdjust="spacingAndGlyphs"`)
	if t.Bold {
		s.str(` font-weight="bold"`)
	}
	if t.Anchor != AtStart {
		s.str([...]string{AtMiddle: ` text-anchor="middle"`, AtEnd: ` text-anchor="end"`}[t.Anchor])
	}
	if seen { // else the document's own fill, none
		s.paint("fill", s.t.Colour(t.Role))
	}
	s.str(">")
	s.escape(t.Str)
	s.str("</text>\n")
}
