package ui

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"fyne.io/fyne/v2"
)

// The toolkit wraps a paragraph by measuring, for each line, all that is left
// of it, which takes the square of its length. So it is given a long paragraph
// in pieces, and of a very long text the beginning.
const (
	paragraphMost = 600    // letters of a paragraph that stays whole
	pieceMost     = 200    // letters of a piece
	shownMost     = 10_000 // letters of a text that is shown, or can be typed
	listMost      = 20_000 // letters of a text of many short lines
)

// seam ends a piece in a text that can be typed in: a space without a width
// tells it from a line that a hand has ended.
const seam = "\u200b\n"

// inPieces breaks paragraphs of more than paragraphMost letters, after a space
// where there is one.
func inPieces(text, seam string) string {
	if len(text) <= paragraphMost {
		return text
	}
	var out strings.Builder
	for i, p := range strings.Split(text, "\n") {
		if i > 0 {
			out.WriteByte('\n')
		}
		if len(beginning(p, paragraphMost)) < len(p) {
			for piece := beginning(p, pieceMost); len(piece) < len(p); piece = beginning(p, pieceMost) {
				end := len(piece)
				if space := strings.LastIndexByte(piece, ' '); space >= 0 {
					end = space + 1
				}
				out.WriteString(p[:end])
				out.WriteString(seam)
				p = p[end:]
			}
		}
		out.WriteString(p)
	}
	return out.String()
}

// whole is a text without its seams.
func whole(text string) string { return strings.ReplaceAll(text, seam, "") }

// tooLong reports whether a text has more than most letters.
func tooLong(text string, most int) bool { return len(beginning(text, most)) < len(text) }

// beginning is the first letters of a text, at most most.
func beginning(text string, most int) string {
	if len(text) <= most {
		return text
	}
	n := 0
	for i := range text {
		if n == most {
			return text[:i]
		}
		n++
	}
	return text
}

// shortened is a text as it is shown: in pieces, and of one that is too long the
// beginning, with the words that say so.
func shortened(text, seam string, most int) string {
	if tooLong(text, most) {
		text = beginning(text, most) + "… " + shortenedWords(text)
	}
	return inPieces(text, seam)
}

func shortenedWords(text string) string {
	return fmt.Sprintf("(shortened: the text has %d letters)", utf8.RuneCountInString(text))
}

// seamed is the clipboard of a text in pieces.
type seamed struct{ fyne.Clipboard }

func (c seamed) Content() string {
	defer survive("The clipboard")
	return inPieces(c.Clipboard.Content(), seam)
}
func (c seamed) SetContent(of string) {
	defer survive("The clipboard")
	c.Clipboard.SetContent(whole(of))
}
