package ui

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"wakeline/ui/grid"

	"wakeline/timeline"
)

// draftKey is a row that is not whole yet; a new row has no name.
type draftKey struct {
	kind          int
	fighter, name string
}

// draftRow holds the cells of a row as typed, and what it lacks first.
type draftRow struct {
	cells []string
	lacks *fault
}

// Heads implements grid.Cells.
func (d *dataPage) Heads() []string {
	if d.rows == nil {
		return nil
	}
	columns := d.rows.columns()
	out := make([]string, len(columns))
	for i := range columns {
		out[i] = columns[i].heading()
	}
	return out
}

// Len implements grid.Cells: a table that grows ends with a row for a new
// thing.
func (d *dataPage) Len() int {
	switch {
	case d.rows == nil:
		return 0
	case d.rows.grows():
		return d.rows.len() + 1
	}
	return d.rows.len()
}

// row is the row of the subject that stands there: its len for the new one.
func (d *dataPage) row(view int) int {
	if view < len(d.order) {
		return d.order[view]
	}
	return d.rows.len()
}

func (d *dataPage) key(row int) draftKey {
	k := draftKey{kind: d.kind, fighter: d.owner()}
	if row < d.rows.len() {
		k.name = d.rows.cell(row, 0)
	}
	return k
}

// draft is the draft of a row, nil where it is whole.
func (d *dataPage) draft(row int) *draftRow {
	if len(d.drafts) == 0 {
		return nil
	}
	return d.drafts[d.key(row)]
}

// cellsAt are the cells of a row as they are shown.
func (d *dataPage) cellsAt(row int) []string {
	if draft := d.draft(row); draft != nil {
		return slices.Clone(draft.cells)
	}
	return cellsOf(d.rows, row)
}

// plain is what stands in a cell, without an invitation.
func (d *dataPage) plain(view, col int) string {
	row := d.row(view)
	if draft := d.draft(row); draft != nil {
		return draft.cells[col]
	}
	if row < d.rows.len() {
		return d.rows.cell(row, col)
	}
	return ""
}

// Text implements grid.Cells.
func (d *dataPage) Text(view, col int) string {
	if col == 0 && view == len(d.order) && d.draft(d.row(view)) == nil {
		return "new " + d.rows.thing() + "…"
	}
	return d.plain(view, col)
}

// Label implements grid.Cells.
func (d *dataPage) Label(view int) string {
	row := d.row(view)
	label := "new"
	if row < d.rows.len() {
		label = rowLabel(view)
	}
	if d.draft(row) != nil {
		label += "*"
	}
	return label
}

// Look implements grid.Cells.
func (d *dataPage) Look(view, col int) grid.Look {
	row := d.row(view)
	draft := d.draft(row)
	switch {
	case draft != nil && draft.lacks != nil && draft.lacks.col == col && draft.cells[col] == "":
		return grid.Needs
	case draft != nil && draft.lacks != nil && draft.lacks.col == col:
		return grid.Wrong
	case d.needle != "" && strings.Contains(strings.ToLower(d.plain(view, col)), d.needle):
		return grid.Found
	case row == d.rows.len() && draft == nil, d.rows.columns()[col].fixed:
		return grid.Soft
	}
	return grid.Plain
}

// Sort implements grid.Edits: the cursor stays on what it was.
func (d *dataPage) Sort() {
	at := d.row(d.grid.At().Row)
	d.arrange()
	to := slices.Index(d.order, at)
	if to < 0 { // the new one
		to = len(d.order)
	}
	d.grid.Place(grid.Place{Row: to, Col: d.grid.At().Col})
}

// arrange orders the rows.
func (d *dataPage) arrange() {
	d.order = make([]int, d.rows.len())
	for i := range d.order {
		d.order[i] = i
	}
	col := d.grid.Sorted
	if col < 0 || col >= len(d.rows.columns()) {
		return
	}
	keys := make([]string, len(d.order))
	for i := range keys {
		keys[i] = d.rows.cell(i, col)
	}
	slices.SortStableFunc(d.order, func(a, b int) int {
		if order := compareCells(keys[a], keys[b]); !d.grid.Falling || keys[a] == "" || keys[b] == "" {
			return order
		} else {
			return -order
		}
	})
}

// compareCells orders cells: by the number they begin with where both do,
// else as text; empty ones last.
func compareCells(a, b string) int {
	if a == "" || b == "" {
		return cmp.Compare(len(b), len(a))
	}
	if n, ok := leadingNumber(a); ok {
		if m, ok := leadingNumber(b); ok && n != m {
			return cmp.Compare(n, m)
		}
	}
	return cmp.Or(strings.Compare(strings.ToLower(a), strings.ToLower(b)), strings.Compare(a, b))
}

func leadingNumber(s string) (int, bool) {
	end := 0
	for end < len(s) && (s[end] >= '0' && s[end] <= '9' || end == 0 && s[end] == '-') {
		end++
	}
	n, err := strconv.Atoi(s[:end])
	return n, err == nil
}

// lookFor marks the cells that hold text, and goes to the first of them from
// the cursor on.
func (d *dataPage) lookFor(text string) {
	d.needle = strings.ToLower(strings.TrimSpace(text))
	if d.needle == "" || d.rows == nil {
		d.Moved()
		d.grid.Refresh()
		return
	}
	d.step(0, 1)
}

// next goes to the next cell that holds what is looked for, or the one before.
func (d *dataPage) next(by int) {
	if d.needle != "" && d.rows != nil {
		d.step(by, by)
	}
}

// step goes to the first cell that holds what is looked for, from so many
// cells past the cursor on, in that direction and around the ends.
func (d *dataPage) step(past, by int) {
	if !d.Leave() {
		return
	}
	wide := len(d.rows.columns())
	n := d.Len() * wide
	from := d.grid.At().Row*wide + max(d.grid.At().Col, 0)
	for i := range n {
		at := ((from+past+i*by)%n + n) % n
		if strings.Contains(strings.ToLower(d.plain(at/wide, at%wide)), d.needle) {
			d.grid.Place(grid.Place{Row: at / wide, Col: at % wide})
			return
		}
	}
	d.grid.Refresh()
	d.foot.say(fmt.Sprintf("No cell of this table holds %q.", d.needle))
}

// about says what may stand in the cell under the cursor, or what its row
// still lacks.
func (d *dataPage) about() string {
	if d.rows == nil {
		return ""
	}
	row := d.row(d.grid.At().Row)
	if draft := d.draft(row); draft != nil && draft.lacks != nil {
		where := ""
		if draft.lacks.col >= 0 {
			where = d.rows.columns()[draft.lacks.col].heading() + ": "
		}
		return "Not saved yet. " + where + draft.lacks.words() + ". Escape discards the row."
	}
	if d.grid.At().Col == grid.LabelColumn {
		if d.rows.grows() {
			return "Press Delete, or Ctrl and -, to remove the row."
		}
		return ""
	}
	c := d.rows.columns()[d.grid.At().Col]
	if c.about == "" {
		return ""
	}
	if row == d.rows.len() {
		return c.heading() + ": " + c.about + ". " + d.nextStep()
	}
	return c.heading() + ": " + c.about
}

// nextStep says what a fighter still lacks for a setup, empty where it lacks
// nothing.
func (d *dataPage) nextStep() string {
	f := d.w.model.Data().Fighter(d.owner())
	if f == nil {
		return ""
	}
	has := func(is func(m *timeline.Move) bool) bool {
		return slices.ContainsFunc(f.Moves, func(m timeline.Move) bool { return is(&m) })
	}
	switch {
	case !has(func(m *timeline.Move) bool { return m.Knockdown.Midscreen.Given || m.Knockdown.Wall.Given }):
		return f.Name + " still needs a move that knocks down: fill in knockdown midscreen."
	case len(f.Jumps) == 0:
		return f.Name + " still needs a jump: see the table Jumps."
	case !has(func(m *timeline.Move) bool { return m.Air }):
		return f.Name + " still needs an air attack: a strike with yes under air."
	}
	return ""
}
