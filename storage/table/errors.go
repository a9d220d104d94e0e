package table

import (
	"fmt"
	"regexp"
	"strconv"
	"unicode/utf8"

	"wakeline/storage/book"
)

// Limits of a table. What is larger is refused with an error.
const (
	MaxSize   = book.MaxSize   // bytes of a file
	MaxField  = 64 << 10       // bytes of a field
	MaxFields = book.MaxFields // fields of a row
	MaxRows   = book.MaxRows   // rows after the header
)

// RowError is a heading or a cell that breaks a rule.
type RowError struct {
	Place
	Want string // what was expected
	Got  string // what stands there
}

// Error says where, what was expected, and what stands there.
func (e *RowError) Error() string {
	return fmt.Sprintf("%s: expected %s, got %s", e.Place, e.Want, e.Got)
}

// SyntaxError is text that is no table, or none that can be read.
type SyntaxError = book.SyntaxError

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

// dateForm is what a spreadsheet makes of 1-8 or 3/4.
var dateForm = regexp.MustCompile(`(?i)^(?:\d{1,2}[-./ ](?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\.?|(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*[-./ ]\d{1,2}|\d{4}-\d\d-\d\d(?:[T ].*)?|\d{1,2}[./]\d{1,2}[./]\d{2,4})$`)

// wanted adds to what was expected what a spreadsheet has done to the cell.
func wanted(want, cell string) string {
	if dateForm.MatchString(cell) {
		return want + " (a spreadsheet has made a date of it: type it there as text)"
	}
	return want
}
