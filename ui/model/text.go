package model

import (
	"errors"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"wakeline/timeline/words"
)

// CutText cuts s to at most n letters.
func CutText(s string, n int) string {
	if r := []rune(s); len(r) > n {
		return string(r[:n-1]) + "…"
	}
	return s
}

// CountOf writes a number of things.
func CountOf(n int, thing string) string { return words.Count(n, thing) }

// Sentence writes an error's words as a sentence; of nothing it is nothing.
func Sentence(words string) string {
	if words == "" {
		return ""
	}
	return Capital(words) + "."
}

// Capital is s with a capital at its start.
func Capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}

// NameOr is a name, or the word for none.
func NameOr(name, none string) string {
	if name == "" {
		return none
	}
	return name
}

// ErrWhole is the error of a text in place of a whole number.
func ErrWhole(got string) error {
	return errors.New("expected a whole number, got “" + got + "”")
}

// Listed names a few of many.
func Listed(names []string) string {
	const most = 3
	var out []string
	for i, name := range names {
		if i == most {
			out = append(out, fmt.Sprintf("and %d more", len(names)-most))
			break
		}
		out = append(out, CutText(name, 24))
	}
	return strings.Join(out, ", ")
}
