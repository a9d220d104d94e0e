package sheet

import (
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"wakeline/assets"
)

// What a line of text takes above and below its baseline, in sizes.
const (
	ascent  = 0.80
	descent = 0.22
)

const (
	ellipsis = "…"
	common   = 0x250 // runes below it have their advances in a table
	lacking  = 1.0   // the room kept for a glyph that the font lacks, in sizes
	maxMarks = 2     // combining marks kept on one letter: more would leave the line
)

// face knows the advances of one font, in sizes. It is safe for use by
// several goroutines.
type face struct {
	font  *sfnt.Font
	table [common]float64
	gaps  [common]bool // runes of the table that the font lacks
	mu    sync.RWMutex
	rare  map[rune]rare
	buf   sfnt.Buffer
}

// rare is a rune that is not in the table.
type rare struct {
	width float64
	has   bool
}

// faces holds the regular and the bold font, read on first use.
var faces = sync.OnceValue(func() [2]*face {
	return [2]*face{newFace(assets.NotoSans), newFace(assets.NotoSansBold)}
})

func newFace(ttf []byte) *face {
	f, err := sfnt.Parse(ttf)
	if err != nil {
		panic("sheet: the built-in font can't be read: " + err.Error())
	}
	out := &face{font: f, rare: map[rune]rare{}}
	for r := range out.table {
		v := out.ask(rune(r))
		out.table[r], out.gaps[r] = v.width, !v.has
	}
	return out
}

// ask reads the advance of r from the font.
func (f *face) ask(r rune) rare {
	g, err := f.font.GlyphIndex(&f.buf, r)
	if err != nil || g == 0 {
		return rare{lacking, false}
	}
	if isMark(r) {
		return rare{0, true}
	}
	em := fixed.I(int(f.font.UnitsPerEm()))
	w, err := f.font.GlyphAdvance(&f.buf, g, em, font.HintingNone)
	if err != nil {
		return rare{lacking, false}
	}
	return rare{float64(w) / float64(em), true}
}

func (f *face) advance(r rune) float64 {
	if r < common {
		return f.table[r]
	}
	return f.look(r).width
}

// has reports whether the font has r.
func (f *face) has(r rune) bool {
	if r < common {
		return !f.gaps[r]
	}
	return f.look(r).has
}

func (f *face) look(r rune) rare {
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

func pick(bold bool) *face {
	if bold {
		return faces()[1]
	}
	return faces()[0]
}

// TextWidth is the width of s at that size, in units: the sum of its glyphs'
// advances. Kerning makes the drawn text a little narrower.
func TextWidth(s string, size float64, bold bool) float64 {
	f, w := pick(bold), 0.0
	for _, r := range s {
		w += f.advance(r)
	}
	return w * size
}

// clean makes a name fit for one line of any renderer: white space and
// controls become spaces, invisible format characters go, broken UTF-8 shows
// as U+FFFD, and no letter keeps more than two combining marks.
func clean(s string) string {
	plain, marks := true, 0
	for _, r := range s {
		if marks = countMarks(marks, r); marks > maxMarks || r < ' ' || r >= 0x7f && unfit(r) {
			plain = false
			break
		}
	}
	if plain && s == strings.TrimSpace(s) {
		return s
	}
	var b strings.Builder
	marks = 0
	for _, r := range s {
		marks = countMarks(marks, r)
		switch {
		case marks > maxMarks:
		case unicode.IsSpace(r), unicode.IsControl(r):
			b.WriteByte(' ')
		case unicode.Is(unicode.Cf, r):
		case r >= 0xfdd0 && r <= 0xfdef, r&0xfffe == 0xfffe:
			b.WriteRune(utf8.RuneError)
		default:
			b.WriteRune(r)
		}
	}
	return strings.TrimSpace(b.String())
}

func unfit(r rune) bool {
	return r == utf8.RuneError || unicode.IsSpace(r) || unicode.IsControl(r) || unicode.Is(unicode.Cf, r) ||
		r >= 0xfdd0 && r <= 0xfdef || r&0xfffe == 0xfffe
}

// countMarks is how many combining marks stand on one letter so far.
func countMarks(n int, r rune) int {
	if r >= 0x300 && isMark(r) {
		return n + 1
	}
	return 0
}

func isMark(r rune) bool { return unicode.In(r, unicode.Mn, unicode.Me) }

// fit shortens s with an ellipsis to at most room units; it is empty where not
// even a letter and the ellipsis have room.
func fit(s string, size float64, bold bool, room float64) string {
	f := pick(bold)
	room /= size
	dots := f.advance('…')
	w, cut := 0.0, 0 // cut: the end of the longest beginning that leaves room for the dots
	for i, r := range s {
		if w+dots <= room && !isMark(r) {
			cut = i
		}
		if w += f.advance(r); w > room {
			if s = strings.TrimRight(s[:cut], " ,;:·"); s == "" {
				return ""
			}
			return s + ellipsis
		}
	}
	return s
}

// wrap breaks s into at most most lines of at most room units, at spaces
// where it can. whole is false where it had to end with an ellipsis.
func wrap(s string, size float64, bold bool, room float64, most int) (lines []string, whole bool) {
	f := pick(bold)
	limit := room / size
	for s != "" {
		if len(lines) == most-1 {
			last := fit(s, size, bold, room)
			return append(lines, last), last == s
		}
		w, space, end := 0.0, -1, len(s)
		for i, r := range s {
			if r == ' ' {
				space = i
			}
			if w += f.advance(r); w > limit && r != ' ' && i > 0 && !isMark(r) {
				end = i
				break
			}
		}
		if end < len(s) && space > 0 {
			end = space
		}
		lines = append(lines, strings.TrimRight(s[:end], " "))
		s = strings.TrimLeft(s[end:], " ")
	}
	return lines, true
}

// share shortens the longest of parts until all of them have room together.
func share(parts []string, size float64, bold bool, room float64) {
	widths := make([]float64, len(parts))
	total := 0.0
	for i, p := range parts {
		widths[i] = TextWidth(p, size, bold)
		total += widths[i]
	}
	if total <= room {
		return
	}
	// The level that cuts the wide ones to the same width and leaves the rest.
	level, left, n := 0.0, room, len(parts)
	for done := make([]bool, len(parts)); n > 0; {
		level = left / float64(n)
		any := false
		for i, w := range widths {
			if !done[i] && w <= level {
				done[i], any = true, true
				left -= w
				n--
			}
		}
		if !any {
			break
		}
	}
	for i := range parts {
		if widths[i] > level {
			parts[i] = fit(parts[i], size, bold, level)
		}
	}
}
