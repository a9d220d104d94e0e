package timeline

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// MaxName is how many letters (code points) a name or a tag may have.
const MaxName = 200

// CheckName asks that a name is not blank, is UTF-8 without control
// characters, and has at most MaxName letters. The error is a *FieldError at
// path.
func CheckName(path *Path, name string) error {
	c := checker{}
	c.label(path, name)
	if strings.TrimSpace(name) == "" {
		c.err = &FieldError{Path: path, Want: "a name", Got: "an empty text"}
	}
	return c.first()
}

// CutName is name, shortened so that as many letters as room can be added to it:
// a name that is too long for that is cut and ends in three dots.
func CutName(name string, room int) string {
	const dots = "..."
	letters := []rune(name)
	if len(letters) <= MaxName-room {
		return name
	}
	return strings.TrimSpace(string(letters[:MaxName-room-len(dots)])) + dots
}

// name checks that a name is valid, and isn't in seen.
func (c *checker) name(path *Path, name string, seen names) {
	path = path.At("name")
	switch {
	case c.err != nil:
	case seen[name]:
		c.fail(path, "a unique name", fmt.Sprintf("%q again", name))
	default:
		if err, ok := CheckName(path, name).(*FieldError); ok {
			c.err = err
		}
	}
	seen[name] = true
}

// label checks for a text of one line that a screen and a terminal can show.
func (c *checker) label(path *Path, text string) {
	switch letters := utf8.RuneCountInString(text); {
	case letters > MaxName:
		c.fail(path, fmt.Sprintf("a name of at most %d letters", MaxName), fmt.Sprint(letters))
	case !utf8.ValidString(text):
		c.fail(path, "a name in UTF-8", fmt.Sprintf("%q", text))
	case strings.ContainsFunc(text, Unprintable):
		c.fail(path, "a name without control characters", fmt.Sprintf("%q", text))
	}
}

// plain checks for a text in UTF-8, of any length.
func (c *checker) plain(path *Path, text string) {
	if !utf8.ValidString(text) {
		c.fail(path, "a text in UTF-8", "other bytes")
	}
}

// Unprintable reports whether a letter has no place in a name: a control
// character, a line break of any kind, or one that changes the direction of
// what follows.
func Unprintable(r rune) bool {
	return unicode.IsControl(r) || r == '\u2028' || r == '\u2029' || '\u202a' <= r && r <= '\u202e' || '\u2066' <= r && r <= '\u2069'
}

// Printable writes a text for a screen or a terminal: every letter that has
// no place in a name as an escape such as \n or \x1b, and so every byte that
// is no UTF-8.
func Printable(text string) string {
	if utf8.ValidString(text) && !strings.ContainsFunc(text, Unprintable) {
		return text
	}
	var b strings.Builder
	for len(text) > 0 {
		r, n := utf8.DecodeRuneInString(text)
		if r == utf8.RuneError && n == 1 || Unprintable(r) {
			escaped := strconv.QuoteToASCII(text[:n])
			b.WriteString(escaped[1 : len(escaped)-1])
		} else {
			b.WriteString(text[:n])
		}
		text = text[n:]
	}
	return b.String()
}
