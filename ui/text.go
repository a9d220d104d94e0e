package ui

import (
	"errors"
	"fmt"
	"unicode"
	"unicode/utf8"
)

// cutText cuts s to at most n letters.
func cutText(s string, n int) string {
	if r := []rune(s); len(r) > n {
		return string(r[:n-1]) + "…"
	}
	return s
}

// countOf writes a number of things.
func countOf(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

// Sentence writes an error's words as a sentence; of nothing it is nothing.
func sentence(words string) string {
	if words == "" {
		return ""
	}
	return capital(words) + "."
}

// capital is s with a capital at its start.
func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}

// NameOr is a name, or the word for none.
func nameOr(name, none string) string {
	if name == "" {
		return none
	}
	return name
}

// errWhole is the error of a text in place of a whole number.
func errWhole(got string) error {
	return errors.New("expected a whole number, got “" + got + "”")
}
