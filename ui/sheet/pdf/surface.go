package pdf

import (
	"fmt"
	"image/color"
	"strings"
	"unicode/utf16"

	"codeberg.org/go-pdf/fpdf"

	"wakeline/ui/sheet"
	"wakeline/ui/sheet/brush"
	"wakeline/ui/sheet/lettering"
)

const pointsPerMillimetre = 72 / 25.4

// surface is a page that is drawn on: a brush.Surface.
type surface struct {
	doc         *fpdf.Fpdf
	x, y, scale float64 // where the drawing begins, and the millimetres of a unit
	ink         color.NRGBA
	size        float64 // of the letters, in points
	bold        bool
}

// dip sets the colour of what is drawn next.
func (s *surface) dip(c color.NRGBA) {
	if c != s.ink {
		s.doc.SetFillColor(int(c.R), int(c.G), int(c.B))
		s.doc.SetTextColor(int(c.R), int(c.G), int(c.B))
		s.ink = c
	}
}

func (s *surface) place(p sheet.Point) (x, y float64) { return s.x + p.X*s.scale, s.y + p.Y*s.scale }

// Rects fills upright rectangles, as one figure: readers widen a single one to
// whole pixels, which would make small dots dark.
func (s *surface) Rects(rects []brush.Rect, c color.NRGBA) {
	s.dip(c)
	_, high := s.doc.GetPageSize()
	for _, r := range rects {
		x, y := s.place(r.Min)
		w, h := (r.Max.X-r.Min.X)*s.scale, (r.Max.Y-r.Min.Y)*s.scale
		s.doc.RawWriteStr(fmt.Sprintf("%.2f %.2f %.2f %.2f re", x*pointsPerMillimetre, (high-y)*pointsPerMillimetre, w*pointsPerMillimetre, -h*pointsPerMillimetre))
	}
	s.doc.DrawPath("F")
}

// Fill fills a figure.
func (s *surface) Fill(f brush.Figure, c color.NRGBA) {
	s.dip(c)
	for _, outline := range f {
		for i, p := range outline {
			if x, y := s.place(p); i == 0 {
				s.doc.MoveTo(x, y)
			} else {
				s.doc.LineTo(x, y)
			}
		}
		s.doc.ClosePath()
	}
	s.doc.DrawPath("F")
}

// Write writes a line of letters as text, in pieces: each goes on to where the
// next letter doesn't stand as far from it as the font has it.
func (s *surface) Write(from sheet.Point, line []lettering.Glyph, size float64, bold bool, c color.NRGBA) {
	s.dip(c)
	if points := size * s.scale * pointsPerMillimetre; points != s.size || bold != s.bold {
		style := ""
		if bold {
			style = "B"
		}
		s.doc.SetFont(family, style, points)
		s.size, s.bold = points, bold
	}
	face, unit := lettering.Of(bold), size/lettering.UnitsPerEm
	var piece strings.Builder
	var start lettering.Glyph // of the piece
	next := 0                 // where its next letter would stand
	flush := func() {
		if piece.Len() > 0 {
			x, y := s.place(sheet.Point{X: from.X + float64(start.X)*unit, Y: from.Y - float64(start.Y)*unit})
			s.doc.Text(x, y, piece.String())
			piece.Reset()
		}
	}
	for _, g := range line {
		r, advance, ok := face.Stands(g)
		if !ok { // no letter stands for it, so it is drawn, and its letter laid over it, unseen
			flush()
			if f := brush.Outline(face, g, from, size); len(f) > 0 {
				s.Fill(f, c)
			}
			s.doc.SetTextRenderingMode(3)
			start = g
			piece.WriteRune(g.Rune)
			flush()
			s.doc.SetTextRenderingMode(0)
			next = -1 // the next letter begins a piece
			continue
		}
		if g.X != next || g.Y != start.Y {
			flush()
		}
		if piece.Len() == 0 {
			start = g
		}
		piece.WriteRune(r)
		next = g.X + advance
	}
	flush()
}

// surrogates is text with letters past the basic plane as two of it, as the
// writer makes UTF-16 of three bytes at most.
func surrogates(text string) string {
	var b strings.Builder
	for _, r := range text {
		if r <= 0xffff {
			b.WriteRune(r)
			continue
		}
		high, low := utf16.EncodeRune(r)
		for _, u := range [...]rune{high, low} {
			b.Write([]byte{0xe0 | byte(u>>12), 0x80 | byte(u>>6)&0x3f, 0x80 | byte(u)&0x3f})
		}
	}
	return b.String()
}
