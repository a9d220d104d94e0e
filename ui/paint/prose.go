package paint

import (
	"sort"
	"strings"

	"fyne.io/fyne/v2"

	"wakeline/ui/sheet"
)

// Wrapper breaks text into lines. It remembers the widths of words, for text
// that changes by a number on every step of a drag.
type Wrapper struct {
	Size   float32
	widths map[string]float32
}

const (
	LineMost = 1000 // letters that are looked at for one line: no window has room for more
	LinesMax = 200  // lines of one text
)

// WidthOf measures a word, or a whole text, in the window's font. Of a text of
// more than lineMost letters only those count.
func (w *Wrapper) WidthOf(s string) float32 {
	s = Beginning(s, LineMost)
	if n, ok := w.widths[s]; ok {
		return n
	}
	if w.widths == nil || len(w.widths) > 4096 {
		w.widths = map[string]float32{}
	}
	n := fyne.MeasureText(s, w.Size, fyne.TextStyle{}).Width
	w.widths[s] = n
	return n
}

// Wrap appends the lines of s, at most width wide, to lines. A word longer
// than a line is broken. Of a text of more lines than linesMax the last says
// that it is shortened.
func (w *Wrapper) Wrap(lines []string, s string, width float32) []string {
	width = max(width, 0)
	space := w.WidthOf(" ")
	first := len(lines)
	from, at, end, used := 0, 0, -1, float32(0) // the line's start, the next word's and its end, and the line's width
	for at < len(s) {
		if len(lines)-first == LinesMax {
			return append(lines, "… "+shortenedWords(s))
		}
		if end < at {
			end = len(s)
			if i := strings.IndexByte(s[at:], ' '); i >= 0 {
				end = at + i
			}
		}
		n := w.WidthOf(s[at:end])
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
func (w *Wrapper) room(s string, width float32) int {
	s = Beginning(s, LineMost)
	ends := make([]int, 0, len(s)) // of the letters
	for i := range s {
		if i > 0 {
			ends = append(ends, i)
		}
	}
	ends = append(ends, len(s))
	n := sort.Search(len(ends)-1, func(i int) bool { // the first end, after the first letter's, that is too far
		return fyne.MeasureText(s[:ends[i+1]], w.Size, fyne.TextStyle{}).Width > width
	})
	return ends[n]
}

// Fit shortens s with an ellipsis to at most width.
func (w *Wrapper) Fit(s string, width float32) string {
	line := Beginning(s, LineMost)
	if s == "" || len(line) == len(s) && w.WidthOf(s) <= width {
		return s
	}
	const dots = "…"
	cut := w.room(line, width-w.WidthOf(dots))
	return strings.TrimRight(s[:cut], " ,;:") + dots
}

// ColumnText is a text of the window's own, by its baseline, for a pen.
func ColumnText(s string, x, baseline float32, role sheet.Role) sheet.Text {
	return sheet.Text{At: sheet.Point{X: float64(x), Y: float64(baseline)}, Str: s, Size: TextSize, Role: role}
}
