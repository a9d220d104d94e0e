package data

import (
	"errors"
	"fmt"
	"slices"

	"wakeline/timeline"
	"wakeline/ui/model"
)

// dataTable is one table of the move data, as rows of cells. It shows the data
// that it was made of; other data need another.
type dataTable interface {
	rowWord() string   // what a row is: "move"
	columns() []column // the first is the name
	len() int
	cell(row, col int) string

	// read makes an edit of the cells of a row: of the one there, or of a new
	// one where row is len. It returns the first fault where they make none.
	read(row int, cells []string) (timeline.Edit, *fault)
	// alone returns what is wrong with one cell whatever stands in the others.
	alone(row, col int, cells []string) *fault
	remove(row int) timeline.Edit // nil: its rows stay
	grows() bool                  // a new row can be added
	turns(col int) bool           // another value there needs others in other cells
}

// column is a column of a table.
type column struct {
	name  string
	about string // what may stand in it
	fixed bool   // it can't be typed in
	wide  bool   // it holds long texts
	// counted: it follows from the others. It can't be typed in, and what is
	// pasted over it is let go.
	counted bool
}

// typed reports whether a person types in the column.
func (c column) typed() bool { return !c.fixed && !c.counted }

// counting is a table some of whose empty cells stand for a count.
type counting interface {
	counts(row, col int) string // what an empty cell stands for, empty for nothing
	doubts(row, col int) bool   // a count says that the row can't be used
}

// telling is a table of which more is to be told than its cells hold.
type telling interface {
	tells(row int) string         // of a row
	would(e timeline.Edit) string // of what an edit makes of its row
	ends(row int) string          // the ender that the row leads to, empty where there is none
}

// offering is a table that offers rows to add.
type offering interface{ offers() []offer }

// offer is rows to add: what they are, such as "throws (2)", and the edits that
// add them.
type offer struct {
	words string
	edits []timeline.Edit
}

// keyed is a table in whose rows the first cell is not alone the name.
type keyed interface {
	key(cells []string) string
}

// nameOf is the name of a row of those cells.
func nameOf(t dataTable, cells []string) string {
	if k, ok := t.(keyed); ok {
		return k.key(cells)
	}
	return cells[0]
}

// nameAt is the name of a row.
func nameAt(t dataTable, row int) string {
	if _, ok := t.(keyed); ok {
		return nameOf(t, cellsOf(t, row))
	}
	return t.cell(row, 0)
}

// heading is the column's name as it is read; tables of files keep the name.
func (c column) heading() string { return model.Heading(c.name) }

// fault is what is wrong with a row of cells.
type fault struct {
	col       int // -1: the row as a whole
	want, got string
	plain     string // says it whole, in place of both
}

// words say the fault, without the column.
func (f *fault) words() string {
	if f.plain != "" {
		return f.plain
	}
	return model.ExpectedWords(f.want, f.got)
}

// nothingGot stands in a fault for an empty cell.
const nothingGot = "nothing"

// cellsOf are the cells of a row as they stand; of a new row all are empty.
func cellsOf(s dataTable, row int) []string {
	out := make([]string, len(s.columns()))
	if row < s.len() {
		for col := range out {
			out[col] = s.cell(row, col)
		}
	}
	return out
}

// columnAt is the place of the column of that name, -1 where there is none.
func columnAt(s dataTable, name string) int {
	return slices.IndexFunc(s.columns(), func(c column) bool { return c.name == name })
}

// faultOf is the fault that err finds in the row, by the last field of its
// path.
func faultOf(s dataTable, err error) *fault {
	if err == nil {
		return nil
	}
	broken := (*timeline.FieldError)(nil)
	if !errors.As(err, &broken) {
		return &fault{col: -1, plain: err.Error()}
	}
	return &fault{col: columnAt(s, broken.Path.Field()), want: broken.Want, got: broken.Got}
}

// tryIn does an edit on data made for it, with no more in them than its rules
// look at, and returns what is wrong with it.
func tryIn(s dataTable, p *timeline.Project, e timeline.Edit) *fault {
	_, err := p.With(e)
	return faultOf(s, err)
}

// namesakes is a fighter with nothing but the move and the jump that bear that
// name already; with nothing at all where the name is the row's own, before.
func namesakes(f *timeline.Fighter, before, name string) timeline.Fighter {
	out := timeline.Fighter{Name: f.Name}
	if name == before {
		return out
	}
	if m := f.Move(name); m != nil {
		out.Moves = []timeline.Move{*m}
	}
	if j := f.Jump(name); j != nil {
		out.Jumps = []timeline.Jump{*j}
	}
	return out
}

// quoteCell shows a cell in a fault.
func quoteCell(s string) string {
	if s == "" {
		return nothingGot
	}
	return fmt.Sprintf("%q", model.CutText(s, 60))
}
