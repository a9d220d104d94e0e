package sheet

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"wakeline/ui/sheet/lettering"
)

// What a line of text takes above and below its baseline, in sizes.
const (
	ascent  = 0.80
	descent = 0.22
)

const (
	ellipsis = "…"
	maxMarks = 2 // combining marks kept on one letter: more would leave the line
)

// TextWidth is the width of s at that size, in units: the sum of its glyphs'
// advances. Kerning makes the drawn text a little narrower.
func TextWidth(s string, size float64, bold bool) float64 {
	f, w := lettering.Of(bold), 0.0
	for _, r := range s {
		w += f.Advance(r)
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
	if r >= 0x300 && lettering.IsMark(r) {
		return n + 1
	}
	return 0
}

// fit shortens s with an ellipsis to at most room units; it is empty where not
// even a letter and the ellipsis have room.
func fit(s string, size float64, bold bool, room float64) string {
	f := lettering.Of(bold)
	room /= size
	dots := f.Advance('…')
	w, cut := 0.0, 0 // cut: the end of the longest beginning that leaves room for the dots
	for i, r := range s {
		if w+dots <= room && !lettering.IsMark(r) {
			cut = i
		}
		if w += f.Advance(r); w > room {
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
	f := lettering.Of(bold)
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
			if w += f.Advance(r); w > limit && r != ' ' && i > 0 && !lettering.IsMark(r) {
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
