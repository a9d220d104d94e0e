package lettering

import (
	"unicode"

	"github.com/go-text/typesetting/font"
	"github.com/go-text/typesetting/harfbuzz"
	"github.com/go-text/typesetting/language"
)

// Glyph is one glyph in its place on a line: X to the right of the line's start
// and Y above its baseline, in font units.
type Glyph struct {
	ID   uint16
	X, Y int
	Rune rune // the first that it is drawn for
}

// shaper lays out lines, one at a time.
type shaper struct {
	font *harfbuzz.Font
	buf  *harfbuzz.Buffer // kept, as it remembers how a script is laid out
}

func newShaper(f *font.Font) *shaper {
	return &shaper{harfbuzz.NewFont(&font.Face{Font: f}), harfbuzz.NewBuffer()}
}

// Line lays out a line of text as every renderer draws it, kerning and all, and
// returns its width too, in font units.
func (f *Face) Line(s string) (out []Glyph, width int) {
	sh := f.shapers.Get().(*shaper)
	defer f.shapers.Put(sh)
	text := []rune(s)
	out = make([]Glyph, 0, len(text))
	for len(text) > 0 {
		n, script := oneScript(text)
		sh.buf.Clear()
		sh.buf.AddRunes(text[:n], 0, n)
		sh.buf.ClusterLevel = harfbuzz.MonotoneCharacters
		sh.buf.Props = harfbuzz.SegmentProperties{Direction: harfbuzz.LeftToRight, Script: script, Language: "en"}
		sh.buf.Shape(sh.font, nil)
		high := 0
		for i, g := range sh.buf.Info {
			p := &sh.buf.Pos[i]
			out = append(out, Glyph{uint16(g.Glyph), width + int(p.XOffset), high + int(p.YOffset), text[g.Cluster]})
			width += int(p.XAdvance)
			high += int(p.YAdvance)
		}
		text = text[n:]
	}
	return out, width
}

// oneScript is how many letters from the first on are of one script, and which.
// What all scripts share belongs to the letters before it, at the start to those
// behind it; a sign for broken text stands alone.
func oneScript(text []rune) (int, language.Script) {
	script := language.Common
	for i, r := range text {
		if i > 0 && (r == unicode.ReplacementChar || text[i-1] == unicode.ReplacementChar) {
			return i, script
		}
		s := language.LookupScript(r)
		switch {
		case !s.Strong(), s == script:
		case script == language.Common:
			script = s
		default:
			return i, script
		}
	}
	return len(text), script
}
