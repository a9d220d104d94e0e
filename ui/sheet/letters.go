package sheet

import (
	"math"
	"strconv"
	"sync"

	"github.com/tdewolff/canvas"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// letter is one glyph of the built-in font in its place on a line: x to the
// right of the line's start and y above its baseline, in font units.
type letter struct {
	glyph uint16
	x, y  int
}

// unitsPerEm is how many font units a size has, in both built-in fonts.
const unitsPerEm = 1000

// lettersOf lays out a line of text as every renderer does, kerning and all,
// and returns its width too, in font units.
func lettersOf(s string, bold bool) (out []letter, width int) {
	face := family().Face(unitsPerEm*pointsPerUnit, canvas.Black, styleOf(bold)) // one unit of the canvas is one of the font
	canvas.NewTextLine(face, s, canvas.Left).WalkSpans(func(x, _ float64, span canvas.TextSpan) {
		at, high := int(math.Round(x)), 0
		for _, g := range span.Glyphs {
			out = append(out, letter{g.ID, at + int(g.XOffset), high + int(g.YOffset)})
			at += int(g.XAdvance)
			high += int(g.YAdvance)
		}
		width = max(width, at)
	})
	return out, width
}

// startOf is where a line of that width, in units, begins for its text to stand
// at its anchor.
func startOf(t *Text, width float64) float64 {
	switch t.Anchor {
	case AtMiddle:
		return t.At.X - width/2
	case AtEnd:
		return t.At.X - width
	}
	return t.At.X
}

func styleOf(bold bool) canvas.FontStyle {
	if bold {
		return canvas.FontBold
	}
	return canvas.FontRegular
}

// glyphKey names a glyph of the built-in fonts.
type glyphKey struct {
	glyph uint16
	bold  bool
}

// id is the glyph's name in an SVG.
func (k glyphKey) id() string {
	if k.bold {
		return "b" + strconv.Itoa(int(k.glyph))
	}
	return "r" + strconv.Itoa(int(k.glyph))
}

// outlines are the glyphs' outlines as SVG path data, in font units with y
// growing downwards, kept from their first use on.
var outlines sync.Map // of glyphKey: string

// outline is the outline of a glyph as SVG path data; empty for a space.
func outline(k glyphKey) string {
	if kept, ok := outlines.Load(k); ok {
		return kept.(string)
	}
	f := pick(k.bold).font
	segments, err := f.LoadGlyph(&sfnt.Buffer{}, sfnt.GlyphIndex(k.glyph), fixed.I(unitsPerEm), nil)
	if err != nil {
		segments = nil // a glyph that can't be read is left out, as a space is
	}
	data := pathData(segments)
	outlines.Store(k, data)
	return data
}

// pathData writes an outline in relative steps, each closed where the next
// begins.
func pathData(segments sfnt.Segments) string {
	w := svg{}
	var at, start [2]float64
	point := func(p fixed.Point26_6) [2]float64 { return [2]float64{float64(p.X) / 64, float64(p.Y) / 64} }
	step := func(to [2]float64) {
		for i := range to {
			if v := to[i] - at[i]; i > 0 && v >= 0 || i == 0 && v >= 0 && isDigit(w.b) {
				w.str(" ")
				w.num(v)
			} else {
				w.num(v)
			}
		}
	}
	for i, s := range segments {
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			if i > 0 {
				w.str("z")
				at = start
			}
			w.str("m")
			step(point(s.Args[0]))
			at = point(s.Args[0])
			start = at
		case sfnt.SegmentOpLineTo:
			to := point(s.Args[0])
			switch {
			case to[0] == at[0]:
				w.str("v")
				w.num(to[1] - at[1])
			case to[1] == at[1]:
				w.str("h")
				w.num(to[0] - at[0])
			default:
				w.str("l")
				step(to)
			}
			at = to
		case sfnt.SegmentOpQuadTo:
			w.str("q")
			step(point(s.Args[0]))
			step(point(s.Args[1]))
			at = point(s.Args[1])
		case sfnt.SegmentOpCubeTo:
			w.str("c")
			for _, p := range s.Args {
				step(point(p))
			}
			at = point(s.Args[2])
		}
	}
	if len(segments) > 0 {
		w.str("z")
	}
	return string(w.b)
}

func isDigit(b []byte) bool { return len(b) > 0 && b[len(b)-1] >= '0' && b[len(b)-1] <= '9' }
