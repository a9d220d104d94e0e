package ui

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"wakeline/ui/grid"

	"fyne.io/fyne/v2"

	"wakeline/timeline"
	"wakeline/ui/model"
)

// laid is a row that goes into the table: where, and what stands in the columns
// that go with it.
type laid struct {
	view  int // past the last row: a new one
	line  int // of what is pasted, from 1; 0: of nothing
	cells []string
}

// Empty implements grid.Edits: the selected cells become their defaults.
func (d *dataPage) Empty() {
	a, b := d.grid.Selection()
	if d.mayType() {
		d.fill(a, b, "", "clear", true)
	}
}

// fill puts one text into every cell from a to b.
func (d *dataPage) fill(a, b grid.Place, text, what string, waits bool) {
	cols := columnsFrom(a.Col, b.Col-a.Col+1)
	var rows []laid
	for view := a.Row; view <= b.Row; view++ {
		rows = append(rows, laid{view: view, cells: slices.Repeat([]string{text}, len(cols))})
	}
	d.put(cols, rows, what+" "+model.CountOf(len(rows)*len(cols), "cell"), waits)
}

// columnsFrom are n columns from the first on.
func columnsFrom(first, n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = first + i
	}
	return out
}

// Paste implements grid.Edits: a block of cells goes in from the selection's
// corner on; one cell fills the whole selection; one whose first row names
// columns goes where its headings say.
func (d *dataPage) Paste(c fyne.Clipboard) {
	if !d.mayType() {
		return
	}
	block, err := grid.ParseBlock(c.Content())
	if err != nil {
		d.refused(model.Sentence(err.Error()))
		return
	}
	if len(block) == 0 {
		d.refused("There is no text to paste.")
		return
	}
	a, b := d.grid.Selection()
	if len(block) == 1 && len(block[0]) == 1 {
		d.fill(a, b, block[0][0], "paste", false)
		return
	}
	if head, ok := d.headOf(block[0], a.Col); ok {
		d.pasteByHead(head, block, a.Row)
		return
	}
	if room := len(d.rows.columns()) - a.Col; len(block[0]) > room {
		d.refused(fmt.Sprintf("The pasted cells are %s wide, and from here on there are %s. Nothing was changed.", model.CountOf(len(block[0]), "column"), model.CountOf(room, "column")))
		return
	}
	if !d.hasRoom(a.Row, len(block)) {
		return
	}
	var rows []laid
	for i := range block {
		rows = append(rows, laid{a.Row + i, i + 1, block[i]})
	}
	d.put(columnsFrom(a.Col, len(block[0])), rows, "paste "+model.CountOf(len(block)*len(block[0]), "cell"), false)
}

// hasRoom reports whether n rows fit from the row at view on, and says so
// where they don't.
func (d *dataPage) hasRoom(view, n int) bool {
	room := d.rows.len() - view
	if d.rows.grows() || n <= room {
		return true
	}
	d.refused(fmt.Sprintf("The pasted cells are %s high, and from here on there are %s. Nothing was changed.", model.CountOf(n, "row"), model.CountOf(room, "row")))
	return false
}

// put lays rows over those columns, all or none and as one step. Rows past the
// last become new ones. The first cell that can't stand is named, and put
// reports false. A draft stays one where waits is set.
func (d *dataPage) put(cols []int, rows []laid, what string, waits bool) bool {
	var edits []timeline.Edit
	type later struct {
		row   int
		cells []string
		lacks *fault
	}
	var drafts []later
	var whole []draftKey
	taken := map[string]string{} // the names that are given, and where
	where := func(l *laid) string {
		if l.line > 0 {
			return fmt.Sprintf("Line %d of the paste (row %s)", l.line, rowLabel(l.view))
		}
		return "Row " + rowLabel(l.view)
	}
	refuse := func(l *laid, f *fault) bool {
		place := where(l)
		if f.col >= 0 {
			place += ", " + d.rows.columns()[f.col].heading()
		}
		d.refused(place + ": " + f.words() + ". Nothing was changed.")
		return false
	}
	for i := range rows {
		l := &rows[i]
		row := d.row(l.view)
		cells := make([]string, len(d.rows.columns()))
		if l.view <= d.rows.len() {
			cells = d.cellsAt(row)
		}
		was := slices.Clone(cells)
		for k, col := range cols {
			switch {
			case l.cells[k] == cells[col]:
			case d.rows.columns()[col].fixed:
				return refuse(l, &fault{col: col, want: "this column to stay as it is"})
			default:
				cells[col] = l.cells[k]
			}
		}
		if slices.Equal(cells, was) {
			continue
		}
		for _, col := range cols {
			if f := d.rows.alone(row, col, cells); f != nil {
				return refuse(l, f)
			}
		}
		e, f := d.rows.read(row, cells)
		switch {
		case f != nil && waits && (d.draft(row) != nil || row == d.rows.len()):
			drafts = append(drafts, later{row, cells, f})
			continue
		case f != nil:
			return refuse(l, f)
		}
		if at, again := taken[cells[0]]; again {
			return refuse(l, &fault{col: 0, want: "a unique name", got: fmt.Sprintf("%q again, as in %s", cells[0], strings.ToLower(at))})
		}
		taken[cells[0]] = where(l)
		edits, whole = append(edits, e), append(whole, d.key(row))
	}
	if len(edits) > 0 {
		if why := d.apply(what, edits...); why != "" {
			d.refused(why + " Nothing was changed.")
			return false
		}
		for _, key := range whole {
			delete(d.drafts, key)
		}
	}
	for _, l := range drafts {
		d.keepDraft(l.row, l.cells, l.lacks)
	}
	d.mark(cols, rows)
	return true
}

// mark selects what was put in, where it lies in one block; else its first
// cell.
func (d *dataPage) mark(cols []int, rows []laid) {
	first, last := grid.Place{Row: rows[0].view, Col: slices.Min(cols)}, grid.Place{Row: rows[len(rows)-1].view, Col: slices.Max(cols)}
	d.grid.Place(first)
	if last.Row-first.Row == len(rows)-1 && last.Col-first.Col == len(cols)-1 {
		d.grid.Stretch(last)
	}
}

// rowLabel writes a row's number.
func rowLabel(row int) string { return strconv.Itoa(row + 1) }
