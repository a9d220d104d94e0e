package ui

import (
	"strings"
	"unicode/utf8"

	"fyne.io/fyne/v2"

	"wakeline/ui/sheet"
)

// wrapper breaks text into lines. It remembers the widths of words, for text
// that changes by a number on every step of a drag.
type wrapper struct {
	size   float32
	widths map[string]float32
}

// widthOf measures a word, or a whole text, in the window's font.
func (w *wrapper) widthOf(s string) float32 {
	if n, ok := w.widths[s]; ok {
		return n
	}
	if w.widths == nil || len(w.widths) > 4096 {
		w.widths = map[string]float32{}
	}
	n := fyne.MeasureText(s, w.size, fyne.TextStyle{}).Width
	w.widths[s] = n
	return n
}

// wrap appends the lines of s, at most width wide, to lines. A word longer
// than a line is broken.
func (w *wrapper) wrap(lines []string, s string, width float32) []string {
	width = max(width, 0)
	space := w.widthOf(" ")
	from, at, used := 0, 0, float32(0) // the line's start, the next word's, and the line's width
	for at < len(s) {
		end := len(s)
		if i := strings.IndexByte(s[at:], ' '); i >= 0 {
			end = at + i
		}
		n := w.widthOf(s[at:end])
		switch {
		case at == from && n > width: // alone on its line, and too long
			cut := from + w.room(s[from:end], width)
			lines = append(lines, s[from:cut])
			from, at, used = cut, cut, 0
			continue
		case at > from && used+space+n > width:
			lines = append(lines, s[from:at-1])
			from, used = at, 0
			continue
		case at > from:
			used += space
		}
		used += n
		at = end + 1
	}
	if from < len(s) {
		lines = append(lines, s[from:])
	}
	return lines
}

// room is how many bytes of s fit the width, at least one letter.
func (w *wrapper) room(s string, width float32) int {
	_, cut := utf8.DecodeRuneInString(s)
	for i := range s {
		if i > cut && fyne.MeasureText(s[:i], w.size, fyne.TextStyle{}).Width > width {
			break
		}
		cut = max(cut, i)
	}
	return cut
}

// fit shortens s with an ellipsis to at most width.
func (w *wrapper) fit(s string, width float32) string {
	if s == "" || w.widthOf(s) <= width {
		return s
	}
	const dots = "…"
	cut := w.room(s, width-w.widthOf(dots))
	return strings.TrimRight(s[:cut], " ,;:") + dots
}

// columnText is a text of the window's own, by its baseline, for a pen.
func columnText(s string, x, baseline float32, role sheet.Role) sheet.Text {
	return sheet.Text{At: sheet.Point{X: float64(x), Y: float64(baseline)}, Str: s, Size: textSize, Role: role}
}
