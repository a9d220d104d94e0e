package table

import (
	"fmt"
	"strconv"
	"unicode/utf8"

	"wakeline/timeline"
)

// Limits of a table. What is larger is refused with an error.
const (
	MaxSize   = 64 << 20 // bytes of a file
	MaxField  = 64 << 10 // bytes of a field
	MaxFields = 1000     // fields of a row
	MaxRows   = 200_000  // rows after the header
)

// RowError is a heading or a cell that breaks a rule.
type RowError struct {
	Line    int    // of the file, from 1, where the field begins; its row's where there is no field
	Column  int    // the field's number in its row, from 1; 0 where the table has no such column
	Heading string // as the table has it; the column's own name where the table has none
	Want    string // what was expected
	Got     string // what stands there
}

// Error says where, what was expected, and what stands there.
func (e *RowError) Error() string {
	at := fmt.Sprintf("line %d", e.Line)
	if e.Column > 0 {
		at += fmt.Sprintf(", column %d", e.Column)
	}
	if e.Heading != "" {
		at += fmt.Sprintf(" (%s)", timeline.Printable(e.Heading))
	}
	return fmt.Sprintf("%s: expected %s, got %s", at, e.Want, e.Got)
}

// SyntaxError is text that is no CSV, or no table that this package takes.
type SyntaxError struct {
	Line      int // of the file, from 1
	Character int // of the line, from 1, in characters and not bytes
	Want, Got string
	Err       error // the *csv.ParseError behind it, nil where there is none
}

// Error says where, what was expected, and what stands there.
func (e *SyntaxError) Error() string {
	return fmt.Sprintf("line %d, character %d: expected %s, got %s", e.Line, e.Character, e.Want, e.Got)
}

// Unwrap returns the error behind e.
func (e *SyntaxError) Unwrap() error { return e.Err }

// quote shows a cell in an error: quoted, cut where it is long, "nothing"
// where it is empty.
func quote(s string) string {
	const most = 60
	if s == "" {
		return "nothing"
	}
	if utf8.RuneCountInString(s) > most {
		return strconv.Quote(string([]rune(s)[:most])) + "..."
	}
	return strconv.Quote(s)
}
