package table

import (
	"fmt"

	"wakeline/timeline"
)

// Place is where something stands in a file.
type Place struct {
	Sheet   string // of a file with several
	Line    int    // from 1; of a cell, where it begins
	Column  int    // from 1; 0 for a whole row, and for a column that the table hasn't
	Heading string // as the table has it; the column's own name where the table has none
	Field   string // the column of ours that it stands for; empty: none
}

// of is the place, of that column of ours.
func (p Place) of(field string) Place {
	p.Field = field
	return p
}

// String says where it is.
func (p Place) String() string {
	at := ""
	if p.Sheet != "" {
		at = fmt.Sprintf("sheet %s, ", timeline.Printable(p.Sheet))
	}
	at += fmt.Sprintf("line %d", p.Line)
	if p.Column > 0 {
		at += fmt.Sprintf(", column %d", p.Column)
	}
	if p.Heading != "" {
		at += fmt.Sprintf(" (%s)", timeline.Printable(p.Heading))
	}
	return at
}

// Note is a cell, a heading or a row that was taken for something else than its
// letters say. What is merely written in another way is none: a plus sign, a
// unit, 12.0 for 12, a dash for nothing.
type Note struct {
	Place
	Wrote string // what the table says, empty for a column that it hasn't
	Took  string // what that was taken for; empty: nothing, it was left out
	Why   string
}

// String says where it stands, what was taken, and why.
func (n *Note) String() string {
	took := "left out"
	if n.Took != "" {
		took = "taken as " + timeline.Printable(n.Took)
	}
	if n.Wrote == "" {
		return fmt.Sprintf("%s: %s: %s", n.Place, took, n.Why)
	}
	return fmt.Sprintf("%s: %s %s: %s", n.Place, quote(n.Wrote), took, n.Why)
}
