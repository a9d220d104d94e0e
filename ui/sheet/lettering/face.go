// Package lettering knows the letters of the built-in font, regular and bold:
// how wide each is, how a line of them is laid out, kerning and all, and their
// outlines. Every renderer takes its letters from here.
package lettering

import (
	"bytes"
	"sync"
	"unicode"

	"github.com/go-text/typesetting/font"
	"github.com/go-text/typesetting/font/opentype"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"wakeline/assets"
)

// UnitsPerEm is how many font units a size has, in both fonts.
const UnitsPerEm = 1000

const (
	common  = 0x250 // runes below it have their advances in a table
	lacking = 1.0   // the room kept for a glyph that the font lacks, in sizes
)

// Face is one of the two fonts. It is safe for use by several goroutines.
type Face struct {
	font  *sfnt.Font
	table [common]float64
	gaps  [common]bool // runes of the table that the font lacks
	mu    sync.RWMutex
	rare  map[rune]rare
	buf   sfnt.Buffer

	shapers  sync.Pool // of *shaper
	outlines sync.Map  // of uint16, a glyph: sfnt.Segments, kept from their first use on
	runes    func() map[uint16]rune
}

// rare is a rune that is not in the table.
type rare struct {
	width float64
	has   bool
}

// faces holds the regular and the bold font, read on first use.
var faces = sync.OnceValue(func() [2]*Face {
	return [2]*Face{newFace(assets.NotoSans), newFace(assets.NotoSansBold)}
})

// Of is the regular or the bold font.
func Of(bold bool) *Face {
	if bold {
		return faces()[1]
	}
	return faces()[0]
}

func newFace(ttf []byte) *Face {
	f, err := sfnt.Parse(ttf)
	if err != nil {
		panic("lettering: the built-in font can't be read: " + err.Error())
	}
	loader, err := opentype.NewLoader(bytes.NewReader(ttf))
	if err != nil {
		panic("lettering: the built-in font can't be read: " + err.Error())
	}
	shaped, err := font.NewFont(loader)
	if err != nil {
		panic("lettering: the built-in font can't be read: " + err.Error())
	}
	out := &Face{font: f, rare: map[rune]rare{}}
	out.shapers.New = func() any { return newShaper(shaped) }
	out.runes = sync.OnceValue(out.readRunes)
	for r := range out.table {
		v := out.ask(rune(r))
		out.table[r], out.gaps[r] = v.width, !v.has
	}
	return out
}

// ask reads the advance of r from the font.
func (f *Face) ask(r rune) rare {
	g, err := f.font.GlyphIndex(&f.buf, r)
	if err != nil || g == 0 {
		return rare{lacking, false}
	}
	if IsMark(r) {
		return rare{0, true}
	}
	w, err := f.font.GlyphAdvance(&f.buf, g, fixed.I(UnitsPerEm), 0)
	if err != nil {
		return rare{lacking, false}
	}
	return rare{float64(w) / float64(fixed.I(UnitsPerEm)), true}
}

// Advance is how wide r is, in sizes.
func (f *Face) Advance(r rune) float64 {
	if r < common {
		return f.table[r]
	}
	return f.look(r).width
}

// Has reports whether the font has r.
func (f *Face) Has(r rune) bool {
	if r < common {
		return !f.gaps[r]
	}
	return f.look(r).has
}

// Covers reports whether the font has all of s.
func (f *Face) Covers(s string) bool {
	for _, r := range s {
		if !f.Has(r) {
			return false
		}
	}
	return true
}

func (f *Face) look(r rune) rare {
	f.mu.RLock()
	v, ok := f.rare[r]
	f.mu.RUnlock()
	if !ok {
		f.mu.Lock()
		v = f.ask(r)
		f.rare[r] = v
		f.mu.Unlock()
	}
	return v
}

// IsMark reports whether r stands on the letter before it.
func IsMark(r rune) bool { return unicode.In(r, unicode.Mn, unicode.Me) }
