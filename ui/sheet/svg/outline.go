package svg

import (
	"strconv"
	"sync"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"wakeline/ui/sheet/lettering"
)

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
	data := pathData(lettering.Of(k.bold).Outline(k.glyph))
	outlines.Store(k, data)
	return data
}

// pathData writes an outline in relative steps, each closed where the next
// begins.
func pathData(segments sfnt.Segments) string {
	w := writer{}
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
