package cast

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"wakeline/timeline"
	"wakeline/ui/grid"
	"wakeline/ui/model"
)

var (
	_ grid.Cells = (*table)(nil)
	_ grid.Marks = (*table)(nil)
)

// The orders of the rows.
const (
	asProject   = "As in the project"
	mostFirst   = "Most rivals first"
	fewestFirst = "Minimum set first"
)

// table is the judged setups as rows of a grid: the name, how many rivals it
// holds against, and a cell a rival.
type table struct {
	got    *model.CastSetups
	order  []int        // rows of got, as shown
	fewest map[int]bool // rows of got in the minimum set
}

// The columns before the rivals'.
const (
	nameColumn = iota
	coversColumn
	firstRival
)

// lay shows the rows so far, in an order.
func (t *table) lay(got *model.CastSetups, by string) {
	t.got, t.order, t.fewest = got, t.order[:0], map[int]bool{}
	for _, i := range got.Fewest.Sets {
		t.fewest[i] = true
	}
	for i := range got.Rows {
		t.order = append(t.order, i)
	}
	rank := func(i int) int { return 0 }
	switch by {
	case mostFirst:
		rank = func(i int) int { return -got.Rows[i].Covers() }
	case fewestFirst:
		rank = func(i int) int {
			if t.fewest[i] {
				return 0
			}
			return 1
		}
	}
	slices.SortStableFunc(t.order, func(a, b int) int { return cmp.Compare(rank(a), rank(b)) })
}

// Heads implements grid.Cells.
func (t *table) Heads() []string {
	heads := []string{"Setup", "Holds against"}
	if t.got != nil {
		heads = append(heads, t.got.Cast.Rivals...)
	}
	return heads
}

// Len implements grid.Cells.
func (t *table) Len() int { return len(t.order) }

// Label implements grid.Cells.
func (t *table) Label(row int) string { return fmt.Sprint(row + 1) }

// Text implements grid.Cells.
func (t *table) Text(row, col int) string {
	r := &t.got.Rows[t.order[row]]
	switch col {
	case nameColumn:
		return r.Setup
	case coversColumn:
		return r.Covered()
	}
	return r.Cells[col-firstRival].Short()
}

// Look implements grid.Cells: names of the minimum set are underlined, and what
// says nothing of a rival is soft.
func (t *table) Look(row, col int) grid.Look {
	r := &t.got.Rows[t.order[row]]
	switch {
	case col == nameColumn && t.fewest[t.order[row]]:
		return grid.Found
	case col >= firstRival && (r.Cells[col-firstRival].Word == "" || r.Cells[col-firstRival].Unknown()):
		return grid.Soft
	}
	return grid.Plain
}

// Mark implements grid.Marks: what is not known has none.
func (t *table) Mark(row, col int) (timeline.Judgement, bool) {
	if col < firstRival {
		return 0, false
	}
	c := &t.got.Rows[t.order[row]].Cells[col-firstRival]
	return c.Word.Judgement(), c.Word != "" && !c.Unknown()
}

// setup is the setup of a row, and the rival of a column, empty before the
// rivals'.
func (t *table) setup(at grid.Place) (s *timeline.Setup, row int, rival string) {
	if t.got == nil || at.Row < 0 || at.Row >= len(t.order) {
		return nil, -1, ""
	}
	row = t.order[at.Row]
	if at.Col >= firstRival {
		rival = t.got.Cast.Rivals[at.Col-firstRival]
	}
	return &t.got.Setups[row], row, rival
}

// text is the table as shown, its cells apart by tabs: a verdict and its window
// a cell.
func (t *table) text() string {
	var b strings.Builder
	plain := strings.NewReplacer("\t", " ", "\n", " ", "\r", " ")
	line := func(cells []string) {
		for i := range cells {
			cells[i] = plain.Replace(cells[i])
		}
		b.WriteString(strings.Join(cells, "\t") + "\n")
	}
	line(t.Heads())
	for row := range t.order {
		cells := []string{t.Text(row, nameColumn), t.Text(row, coversColumn)}
		for k := range t.got.Rows[t.order[row]].Cells {
			cells = append(cells, t.got.Rows[t.order[row]].Cells[k].Labelled())
		}
		line(cells)
	}
	return b.String()
}
