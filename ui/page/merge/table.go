package merge

import (
	"strconv"
	"strings"

	"wakeline/timeline/merge"
	"wakeline/ui/grid"
	"wakeline/ui/model"
)

var (
	_ grid.Cells = (*table)(nil)
	_ grid.Wide  = (*table)(nil)
	_ grid.Cells = (*sides)(nil)
	_ grid.Wide  = (*sides)(nil)
)

// table is the items that are listed, as rows of a grid.
type table struct {
	of      *merge.Comparison
	choices []merge.Choice
	shown   []int // items
	wrong   map[int]error
}

// The columns.
const (
	nameColumn = iota // the grid keeps it in view
	kindColumn
	stateColumn
	choiceColumn
	differsColumn
	columns
)

// The words for states.
var stateWords = map[merge.State]string{merge.Equal: "equal", merge.New: "new", merge.OursAlone: "only here", merge.Different: "different", merge.Clash: "name in use"}

// choiceWord is what was chosen for an item.
func choiceWord(it *merge.Item, c merge.Choice) string {
	switch {
	case it.State == merge.New && c == merge.Theirs:
		return "add"
	case it.State == merge.New || it.State == merge.Clash:
		return "leave out"
	case c == merge.Theirs:
		return "replace"
	case c == merge.Both:
		return "keep both"
	}
	return "keep"
}

// lay lists the items that pass.
func (t *table) lay(passes func(it *merge.Item, i int) bool) {
	t.shown = t.shown[:0]
	for i := range t.of.Items {
		if passes(&t.of.Items[i], i) {
			t.shown = append(t.shown, i)
		}
	}
}

// Heads implements grid.Cells.
func (t *table) Heads() []string { return []string{"Name", "What", "State", "Choice", "Difference"} }

// Len implements grid.Cells.
func (t *table) Len() int { return len(t.shown) }

// Label implements grid.Cells.
func (t *table) Label(row int) string { return strconv.Itoa(row + 1) }

// Wide implements grid.Wide.
func (t *table) Wide(col int) bool { return col == nameColumn }

// Text implements grid.Cells.
func (t *table) Text(row, col int) string {
	it := &t.of.Items[t.shown[row]]
	switch col {
	case kindColumn:
		return model.KindWord(it.Kind)
	case nameColumn:
		return nameOf(it)
	case stateColumn:
		return stateWords[it.State]
	case choiceColumn:
		return choiceWord(it, t.choices[t.shown[row]])
	}
	return t.difference(t.shown[row])
}

// mostDiffering is how many fields of an item the list names.
const mostDiffering = 4

// difference says in which fields an item of both sides differs.
func (t *table) difference(i int) string {
	if t.of.Items[i].State != merge.Different {
		return ""
	}
	var out []string
	for k, d := range t.of.Details(i) {
		if k == mostDiffering {
			out = append(out, "…")
			break
		}
		out = append(out, strings.ToLower(d.Field)+" "+plain(d.Ours)+" → "+plain(d.Theirs))
	}
	return strings.Join(out, "; ")
}

// plain is a text on one line; of nothing it is a dash.
func plain(text string) string {
	if text == "" {
		return "-"
	}
	return strings.Join(strings.Fields(text), " ")
}

// nameOf is an item's name, after that of the fighter who has it.
func nameOf(it *merge.Item) string {
	if it.Owner == "" {
		return it.Name
	}
	return it.Owner + ": " + it.Name
}

// Look implements grid.Cells: what can't be done is marked, and what can't be
// chosen is soft.
func (t *table) Look(row, col int) grid.Look {
	i := t.shown[row]
	switch {
	case t.wrong[i] != nil:
		return grid.Wrong
	case len(t.of.Items[i].Choices()) == 1 && col >= stateColumn:
		return grid.Soft
	}
	return grid.Plain
}

// sides is one item on both sides, a row a field.
type sides struct{ of []merge.Detail }

// Heads implements grid.Cells.
func (s *sides) Heads() []string { return []string{"Field", "This project", "Other project"} }

// Len implements grid.Cells.
func (s *sides) Len() int { return len(s.of) }

// Label implements grid.Cells.
func (s *sides) Label(row int) string { return strconv.Itoa(row + 1) }

// Wide implements grid.Wide.
func (s *sides) Wide(col int) bool { return col > 0 }

// Text implements grid.Cells.
func (s *sides) Text(row, col int) string {
	d := &s.of[row]
	return plain([...]string{d.Field, d.Ours, d.Theirs}[col])
}

// Look implements grid.Cells.
func (s *sides) Look(_, col int) grid.Look {
	if col == 0 {
		return grid.Soft
	}
	return grid.Plain
}
