package paint

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
	ParagraphMost = 600    // letters of a paragraph that stays whole
	PieceMost     = 200    // letters of a piece
	ShownMost     = 10_000 // letters of a text that is shown, or can be typed
	ListMost      = 20_000 // letters of a text of many short lines
)

// Seam ends a piece in a text that can be typed in: a space without a width
// tells it from a line that a hand has ended.
const Seam = "\u200b\n"

// InPieces breaks paragraphs of more than paragraphMost letters, after a space
// where there is one.
func InPieces(text, seam string) string {
	if len(text) <= ParagraphMost {
		return text
	}
	var out strings.Builder
	for i, p := range strings.Split(text, "\n") {
		if i > 0 {
			out.WriteByte('\n')
		}
		if len(Beginning(p, ParagraphMost)) < len(p) {
			for piece := Beginning(p, PieceMost); len(piece) < len(p); piece = Beginning(p, PieceMost) {
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

// Whole is a text without its seams.
func Whole(text string) string { return strings.ReplaceAll(text, Seam, "") }

// TooLong reports whether a text has more than most letters.
func TooLong(text string, most int) bool { return len(Beginning(text, most)) < len(text) }

// Beginning is the first letters of a text, at most most.
func Beginning(text string, most int) string {
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

// Shortened is a text as it is shown: in pieces, and of one that is too long the
// beginning, with the words that say so.
func Shortened(text, seam string, most int) string {
	if TooLong(text, most) {
		text = Beginning(text, most) + "… " + shortenedWords(text)
	}
	return InPieces(text, seam)
}

func shortenedWords(text string) string {
	return fmt.Sprintf("(shortened: the text has %d letters)", utf8.RuneCountInString(text))
}

// Seamed is the clipboard of a text in pieces.
type Seamed struct{ fyne.Clipboard }

func (c Seamed) Content() string {
	defer Survive("The clipboard")
	return InPieces(c.Clipboard.Content(), Seam)
}
func (c Seamed) SetContent(of string) {
	defer Survive("The clipboard")
	c.Clipboard.SetContent(Whole(of))
}
