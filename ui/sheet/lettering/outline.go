package lettering

import (
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Outline is the outline of a glyph in font units, with y growing downwards;
// empty for a space. It must not be changed.
func (f *Face) Outline(glyph uint16) sfnt.Segments {
	if kept, ok := f.outlines.Load(glyph); ok {
		return kept.(sfnt.Segments)
	}
	segments, err := f.font.LoadGlyph(&sfnt.Buffer{}, sfnt.GlyphIndex(glyph), fixed.I(UnitsPerEm), nil)
	if err != nil {
		segments = nil // a glyph that can't be read is left out, as a space is
	}
	f.outlines.Store(glyph, segments)
	return segments
}

// Stands returns the letter that stands for a glyph of a line when it is drawn
// by its letter, and how far the next one stands from it then, in font units;
// ok is false where no letter does.
func (f *Face) Stands(g Glyph) (r rune, advance int, ok bool) {
	var buf sfnt.Buffer
	r = g.Rune
	if id, err := f.font.GlyphIndex(&buf, r); err != nil || uint16(id) != g.ID {
		if r, ok = f.runes()[g.ID]; !ok {
			return 0, 0, false
		}
	}
	w, err := f.font.GlyphAdvance(&buf, sfnt.GlyphIndex(g.ID), fixed.I(UnitsPerEm), 0)
	return r, w.Round(), err == nil
}

// readRunes are the letters of the basic plane by their glyphs, the first where
// several share one.
func (f *Face) readRunes() map[uint16]rune {
	out := map[uint16]rune{}
	var buf sfnt.Buffer
	for r := rune(' '); r <= 0xffff; r++ {
		if id, err := f.font.GlyphIndex(&buf, r); err == nil && id != 0 {
			if _, ok := out[uint16(id)]; !ok {
				out[uint16(id)] = r
			}
		}
	}
	return out
}
