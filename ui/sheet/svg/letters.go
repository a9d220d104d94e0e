package svg

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"wakeline/ui/sheet"
	"wakeline/ui/sheet/lettering"
)

// svgLetters are the texts of an SVG by their outlines.
type svgLetters struct {
	lines map[lineKey]shapedLine
	words map[string]int // by their letters: how often they are there
	ids   map[string]int // of the words that are there more than once, by their place among those drawn so far
	order []string       // of ids
	used  map[glyphKey]bool
}

// lineKey is one line of text in one font.
type lineKey struct {
	str  string
	bold bool
}

// shapedLine is a line laid out: its words, and its width in font units.
type shapedLine struct {
	words []shapedWord
	width int
}

// shapedWord is a run of letters without a space, from x on, in font units.
type shapedWord struct {
	x       int
	letters []lettering.Glyph // from the word's own start
	key     string            // the same for the same letters in the same places
}

// newSVGLetters lays out all texts of shapes that are drawn so many times.
func newSVGLetters(shapes []sheet.Shape, times int) svgLetters {
	l := svgLetters{lines: map[lineKey]shapedLine{}, words: map[string]int{}, ids: map[string]int{}, used: map[glyphKey]bool{}}
	for _, s := range shapes {
		t, ok := s.(sheet.Text)
		if !ok || t.Str == "" {
			continue
		}
		if lettering.Of(t.Bold).Covers(t.Str) {
			l.count(&t, times)
			continue
		}
		for _, piece := range sheet.Spelled(&t) {
			if t, ok := piece.(sheet.Text); ok {
				l.count(&t, times)
			}
		}
	}
	return l
}

// count lays one text out, and counts its words.
func (l *svgLetters) count(t *sheet.Text, times int) {
	for _, w := range l.line(t).words {
		l.words[w.key] += times
	}
}

// line is a text laid out.
func (l *svgLetters) line(t *sheet.Text) shapedLine {
	key := lineKey{t.Str, t.Bold}
	if kept, ok := l.lines[key]; ok {
		return kept
	}
	letters, width := lettering.Of(t.Bold).Line(t.Str)
	out := shapedLine{width: width}
	var word *shapedWord
	for _, g := range letters {
		if outline(glyphKey{g.ID, t.Bold}) == "" {
			word = nil
			continue
		}
		if word == nil {
			out.words = append(out.words, shapedWord{x: g.X})
			word = &out.words[len(out.words)-1]
		}
		word.letters = append(word.letters, lettering.Glyph{ID: g.ID, X: g.X - word.x, Y: g.Y})
	}
	for i := range out.words {
		out.words[i].key = wordKey(out.words[i].letters, t.Bold)
	}
	l.lines[key] = out
	return out
}

func wordKey(letters []lettering.Glyph, bold bool) string {
	b := strconv.AppendBool(nil, bold)
	for _, g := range letters {
		for _, n := range [...]int{int(g.ID), g.X, g.Y} {
			b = strconv.AppendInt(append(b, ' '), int64(n), 10)
		}
	}
	return string(b)
}

// drawLetters draws a text by its outlines and returns how wide it is, in units.
func (s *writer) drawLetters(t *sheet.Text) (width float64) {
	line := s.letters.line(t)
	scale := t.Size / lettering.UnitsPerEm
	width = float64(line.width) * scale
	s.str(`<g transform="translate(`)
	s.num(t.Start(width))
	s.str(" ")
	s.num(t.At.Y)
	s.str(") scale(")
	s.b = strconv.AppendFloat(s.b, scale, 'g', 6, 64)
	s.str(`)"`)
	s.paint("fill", s.colour(t.Role))
	if s.halo > 0 {
		s.line(t.Role, 2*s.halo/scale)
		s.str(` stroke-linejoin="round"`)
	}
	s.str(">")
	for _, w := range line.words {
		if len(w.letters) == 1 || s.letters.words[w.key] == 1 {
			s.glyphs(w.letters, w.x, t.Bold)
			continue
		}
		id, ok := s.letters.ids[w.key]
		if !ok {
			id = len(s.letters.order)
			s.letters.ids[w.key] = id
			s.letters.order = append(s.letters.order, w.key)
		}
		s.use("w"+strconv.Itoa(id), w.x, 0)
	}
	s.str("</g>\n")
	return width
}

// glyphs draws letters from x on.
func (s *writer) glyphs(letters []lettering.Glyph, x int, bold bool) {
	for _, l := range letters {
		k := glyphKey{l.ID, bold}
		s.letters.used[k] = true
		s.use(k.id(), x+l.X, -l.Y)
	}
}

func (s *writer) use(id string, x, y int) {
	s.str(`<use xlink:href="#` + id + `"`)
	if x != 0 {
		s.attr("x", float64(x))
	}
	if y != 0 {
		s.attr("y", float64(y))
	}
	s.str("/>")
}

// define writes the outlines of the letters and the words that are used, in a
// fixed order.
func (s *writer) define() {
	if len(s.letters.used)+len(s.letters.order) == 0 {
		return
	}
	words := s.letters.defined()
	s.str("<defs>\n")
	for _, k := range slices.SortedFunc(maps.Keys(s.letters.used), glyphKey.compare) {
		s.str(`<path id="` + k.id() + `" d="` + outline(k) + "\"/>\n")
	}
	for i, w := range words {
		s.str(`<g id="w` + strconv.Itoa(i) + `">`)
		s.glyphs(w.letters, 0, w.bold)
		s.str("</g>\n")
	}
	s.str("</defs>\n")
}

// definedWord is a word that stands in a document once for all its places.
type definedWord struct {
	letters []lettering.Glyph
	bold    bool
}

// defined are the words used more than once, in the order of their ids; their
// letters count as used.
func (l *svgLetters) defined() []definedWord {
	out := make([]definedWord, len(l.order))
	for key, line := range l.lines {
		for _, w := range line.words {
			if id, ok := l.ids[w.key]; ok && out[id].letters == nil {
				out[id] = definedWord{w.letters, key.bold}
				for _, g := range w.letters {
					l.used[glyphKey{g.ID, key.bold}] = true
				}
			}
		}
	}
	return out
}

// compare orders the letters of a document.
func (k glyphKey) compare(o glyphKey) int {
	if k.bold != o.bold {
		return strings.Compare(k.id()[:1], o.id()[:1])
	}
	return int(k.glyph) - int(o.glyph)
}
