package data

import (
	"slices"
	"strconv"
	"strings"

	"wakeline/timeline"
	"wakeline/ui/grid"
	"wakeline/ui/model"
)

// draftRow holds the cells of a row as typed, and what it lacks first.
type draftRow struct {
	cells []string
	lacks *fault
}

// view is the table that is shown: its rows in their order, the rows that are
// not whole yet, and what is looked for.
type view struct {
	data    *timeline.Project
	kind    model.RowKind
	fighter string    // whose moves, jumps and rises are shown
	table   dataTable // nil where there is no fighter
	order   []int     // the rows in the order shown
	drafts  map[model.DataRow]*draftRow
	needle  string // what is looked for, in small letters
}

// tables are the tables of the move data, by the kind of their rows.
var tables = [...]struct {
	title string
	owned bool // by a fighter
	of    func(p *timeline.Project, f *timeline.Fighter) dataTable
}{
	model.MoveRow:    {"Moves", true, func(p *timeline.Project, f *timeline.Fighter) dataTable { return &moveTable{p.Ruleset, f} }},
	model.JumpRow:    {"Jumps", true, func(p *timeline.Project, f *timeline.Fighter) dataTable { return jumpTable(p.Ruleset, f) }},
	model.RiseRow:    {"Rises", true, func(p *timeline.Project, f *timeline.Fighter) dataTable { return riseTable(p.Ruleset, f) }},
	model.RouteRow:   {"Routes", true, func(p *timeline.Project, f *timeline.Fighter) dataTable { return newRouteTable(p.Ruleset, f) }},
	model.ReplyRow:   {"Replies", true, func(p *timeline.Project, f *timeline.Fighter) dataTable { return &replyTable{p.Ruleset, f} }},
	model.FighterRow: {"Fighters", false, func(p *timeline.Project, _ *timeline.Fighter) dataTable { return fighterTable(p) }},
	model.RulesetRow: {"Ruleset", false, func(p *timeline.Project, _ *timeline.Fighter) dataTable { return &rulesetTable{p} }},
}

// owner is whose rows the table holds, empty for a table of no fighter.
func (v *view) owner() string {
	if tables[v.kind].owned {
		return v.fighter
	}
	return ""
}

// load takes the table of the data as they stand. It reports false where there
// is no fighter to own it.
func (v *view) load(data *timeline.Project) bool {
	v.data = data
	f := data.Fighter(v.fighter)
	if tables[v.kind].owned && f == nil {
		v.table, v.order = nil, nil
		return false
	}
	v.table = tables[v.kind].of(data, f)
	return true
}

// forget drops the drafts of rows that are gone.
func (v *view) forget() {
	for of := range v.drafts {
		if of.Name != "" && of.Kind == v.kind && of.Owner == v.owner() && !v.has(of.Name) {
			delete(v.drafts, of)
		}
	}
}

func (v *view) has(name string) bool {
	return slices.ContainsFunc(v.order, func(row int) bool { return nameAt(v.table, row) == name })
}

// home is the first cell that can be typed in.
func (v *view) home() grid.Place {
	if v.table == nil {
		return grid.Place{}
	}
	return grid.Place{Col: slices.IndexFunc(v.table.columns(), column.typed)}
}

// Heads implements grid.Cells.
func (v *view) Heads() []string {
	if v.table == nil {
		return nil
	}
	columns := v.table.columns()
	out := make([]string, len(columns))
	for i := range columns {
		out[i] = columns[i].heading()
	}
	return out
}

// Len implements grid.Cells: a table that grows ends with a new row.
func (v *view) Len() int {
	switch {
	case v.table == nil:
		return 0
	case v.table.grows():
		return v.table.len() + 1
	}
	return v.table.len()
}

// row is the row of the table that stands there: its len for the new one.
func (v *view) row(at int) int {
	if at < len(v.order) {
		return v.order[at]
	}
	return v.table.len()
}

// named is a row by its name; a new one has none.
func (v *view) named(row int) model.DataRow {
	of := model.DataRow{Owner: v.owner(), Kind: v.kind}
	if row < v.table.len() {
		of.Name = nameAt(v.table, row)
	}
	return of
}

// draft is the draft of a row, nil where it is whole.
func (v *view) draft(row int) *draftRow {
	if len(v.drafts) == 0 {
		return nil
	}
	return v.drafts[v.named(row)]
}

// cellsAt are the cells of a row as they are shown.
func (v *view) cellsAt(row int) []string {
	if draft := v.draft(row); draft != nil {
		return slices.Clone(draft.cells)
	}
	return cellsOf(v.table, row)
}

// plain is what stands in a cell, without an invitation.
func (v *view) plain(at, col int) string {
	row := v.row(at)
	if draft := v.draft(row); draft != nil {
		if v.table.columns()[col].counted { // of the row as it was
			return ""
		}
		return draft.cells[col]
	}
	if row < v.table.len() {
		return v.table.cell(row, col)
	}
	return ""
}

// Text implements grid.Cells.
func (v *view) Text(at, col int) string {
	if col == 0 && at == len(v.order) && v.draft(v.row(at)) == nil {
		return "new " + v.table.rowWord() + "…"
	}
	if row := v.row(at); row < v.table.len() && v.draft(row) == nil {
		return shownOr(v.table, row, col)
	}
	return v.plain(at, col)
}

// Wide implements grid.Wide.
func (v *view) Wide(col int) bool { return v.table != nil && v.table.columns()[col].wide }

// Label implements grid.Cells.
func (v *view) Label(at int) string {
	row := v.row(at)
	label := "new"
	if row < v.table.len() {
		label = rowLabel(at)
	}
	if v.draft(row) != nil {
		label += "*"
	}
	return label
}

// Look implements grid.Cells.
func (v *view) Look(at, col int) grid.Look {
	row := v.row(at)
	draft := v.draft(row)
	switch {
	case draft != nil && draft.lacks != nil && draft.lacks.col == col && draft.cells[col] == "":
		return grid.Needs
	case draft != nil && draft.lacks != nil && draft.lacks.col == col:
		return grid.Wrong
	case v.needle != "" && strings.Contains(strings.ToLower(v.plain(at, col)), v.needle):
		return grid.Found
	case row == v.table.len() && draft == nil, !v.table.columns()[col].typed():
		if c, ok := v.table.(counting); ok && draft == nil && row < v.table.len() && c.doubts(row, col) {
			return grid.Needs
		}
		return grid.Soft
	case draft == nil && row < v.table.len() && v.table.cell(row, col) == "":
		return grid.Soft
	}
	return grid.Plain
}

// placeNamed is where the row of that name stands, -1 where there is none. Names
// that are no one's own, as those of the ruleset, may be written in any case.
func (v *view) placeNamed(name string) int {
	return slices.IndexFunc(v.order, func(row int) bool {
		there := nameAt(v.table, row)
		return there == name || !v.table.grows() && strings.EqualFold(there, strings.TrimSpace(name))
	})
}

// rowLabel writes a row's number.
func rowLabel(row int) string { return strconv.Itoa(row + 1) }
