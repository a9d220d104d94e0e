package ui

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"

	"wakeline/timeline"
)

// empty implements dataEvents: the selected cells become their defaults.
func (d *dataPage) empty() {
	a, b := d.grid.selection()
	if !d.mayType() {
		return
	}
	n := (b.row - a.row + 1) * (b.col - a.col + 1)
	d.put(a, b, func(int, int) string { return "" }, "empty "+countOf(n, "cell"), true)
}

// paste implements dataEvents: a block of cells goes in from the selection's
// corner on; one cell fills the whole selection.
func (d *dataPage) paste(c fyne.Clipboard) {
	if !d.mayType() {
		return
	}
	block, err := parseBlock(c.Content())
	if err != nil {
		d.refused(sentence(err.Error()))
		return
	}
	if len(block) == 0 {
		return
	}
	a, b := d.grid.selection()
	if len(block) == 1 && len(block[0]) == 1 {
		d.put(a, b, func(int, int) string { return block[0][0] }, "paste "+countOf((b.row-a.row+1)*(b.col-a.col+1), "cell"), false)
		return
	}
	to := dataPlace{a.row + len(block) - 1, a.col + len(block[0]) - 1}
	if room := len(d.rows.columns()) - a.col; len(block[0]) > room {
		d.refused(fmt.Sprintf("The block is %s wide, and from here on there are %s.", countOf(len(block[0]), "cell"), countOf(room, "column")))
		return
	}
	if room := d.rows.len() - a.row; !d.rows.grows() && len(block) > room {
		d.refused(fmt.Sprintf("The block is %s high, and from here on there are %s.", countOf(len(block), "cell"), countOf(room, "row")))
		return
	}
	text := func(row, col int) string { return block[row-a.row][col-a.col] }
	d.put(a, to, text, "paste "+countOf(len(block)*len(block[0]), "cell"), false)
}

// put lays texts over the cells from a to b, all or none and as one step. Rows
// past the last become new ones. The first cell that can't stand is named. A
// draft stays one where waits is set.
func (d *dataPage) put(a, b dataPlace, text func(row, col int) string, what string, waits bool) {
	var edits []timeline.Edit
	type later struct {
		row   int
		cells []string
		lacks *fault
	}
	var drafts []later
	var whole []draftKey
	taken := map[string]int{} // the names that the block gives, and where
	refuse := func(view int, f *fault) {
		where := "Row " + rowLabel(view)
		if f.col >= 0 {
			where += ", " + d.rows.columns()[f.col].heading()
		}
		d.refused(where + ": " + f.words() + ". Nothing was changed.")
	}
	for view := a.row; view <= b.row; view++ {
		row := d.row(view)
		cells := make([]string, len(d.rows.columns()))
		if view <= d.rows.len() {
			cells = d.cellsAt(row)
		}
		was := slices.Clone(cells)
		for col := a.col; col <= b.col; col++ {
			cell := text(view, col)
			if cell == cells[col] {
				continue
			}
			if d.rows.columns()[col].fixed {
				refuse(view, &fault{col: col, want: "nothing to be put in this column"})
				return
			}
			cells[col] = cell
		}
		if slices.Equal(cells, was) {
			continue
		}
		for col := a.col; col <= b.col; col++ {
			if f := d.rows.alone(row, col, cells); f != nil {
				refuse(view, f)
				return
			}
		}
		e, f := d.rows.read(row, cells)
		switch {
		case f != nil && waits && (d.draft(row) != nil || row == d.rows.len()):
			drafts = append(drafts, later{row, cells, f})
			continue
		case f != nil:
			refuse(view, f)
			return
		}
		if at, again := taken[cells[0]]; again {
			refuse(view, &fault{col: 0, want: "a name that nothing else of the list bears", got: fmt.Sprintf("%q again, as in row %d", cells[0], at+1)})
			return
		}
		taken[cells[0]] = view
		edits, whole = append(edits, e), append(whole, d.key(row))
	}
	if len(edits) > 0 {
		if why := d.apply(what, edits...); why != "" {
			d.refused(why + " Nothing was changed.")
			return
		}
		for _, key := range whole {
			delete(d.drafts, key)
		}
	}
	for _, l := range drafts {
		d.keepDraft(l.row, l.cells, l.lacks)
	}
	d.grid.anchor = a
	d.grid.stretch(b)
}
