package book

import "fmt"

// SyntaxError is text that is no table, or none that this package takes.
type SyntaxError struct {
	Sheet     string // of a file with several
	Line      int    // of the file, from 1
	Character int    // of the line, from 1, in characters and not bytes
	Want, Got string
	Err       error // the *csv.ParseError behind it, nil where there is none
}

// Error says where, what was expected, and what stands there.
func (e *SyntaxError) Error() string {
	at := ""
	if e.Sheet != "" {
		at = fmt.Sprintf("sheet %s, ", e.Sheet)
	}
	return fmt.Sprintf("%sline %d, character %d: expected %s, got %s", at, e.Line, e.Character, e.Want, e.Got)
}

// Unwrap returns the error behind e.
func (e *SyntaxError) Unwrap() error { return e.Err }
