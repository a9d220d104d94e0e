// Package book reads the cells of a table file, whatever it was saved by: text
// with commas, semicolons, tabs or bars between its cells, in UTF-8 or UTF-16,
// with the marks and line breaks that programs put in. It keeps the line that
// each cell begins on. What headings and cells mean is left to package table.
package book

// Limits of a file. What is larger is refused with an error.
const (
	MaxSize   = 64 << 20   // bytes of a file
	MaxFields = 1000       // cells of a row
	MaxRows   = 200_000    // rows after the header
	MaxCells  = 10_000_000 // cells of a file
)

// Book is what a file holds.
type Book struct {
	Sheets []Sheet // one at least
	Size   int64   // of what was read, in bytes
}

// Sheet is one table of a file.
type Sheet struct {
	Name   string // empty in a file that has one table alone
	Rows   []Row  // empty lines are none
	Strict bool   // a row must have as many cells as the headings: RFC 4180
}

// Row is one row of a sheet. Rows of one sheet may differ in length.
type Row struct {
	Line  int // of the file or sheet, from 1, where the row begins
	Cells []string
	End   int64 // bytes of the file up to its end

	lines []int32 // where each cell begins; nil: on the row's line
}

// At returns the line on which a cell begins; past the last, the row's.
func (r *Row) At(cell int) int {
	if cell < len(r.lines) {
		return int(r.lines[cell])
	}
	return r.Line
}
