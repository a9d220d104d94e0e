package data

import (
	"slices"

	"wakeline/timeline"
	"wakeline/ui/grid"
)

// about says what may stand in a cell, or what its row still lacks.
func (v *view) about(at grid.Place) string {
	if v.table == nil {
		return ""
	}
	row := v.row(at.Row)
	if draft := v.draft(row); draft != nil && draft.lacks != nil {
		where := ""
		if draft.lacks.col >= 0 {
			where = v.table.columns()[draft.lacks.col].heading() + ": "
		}
		return "Not saved yet. " + where + draft.lacks.words() + ". Escape discards the row."
	}
	if at.Col == grid.LabelColumn {
		if v.table.grows() {
			return "Press Delete, or Ctrl and -, to remove the row."
		}
		return ""
	}
	c := v.table.columns()[at.Col]
	if c.about == "" {
		return ""
	}
	if row == v.table.len() {
		return c.heading() + ": " + c.about + ". " + v.nextStep()
	}
	return c.heading() + ": " + c.about
}

// nextStep says what a fighter still lacks for a setup, empty where it lacks
// nothing.
func (v *view) nextStep() string {
	f := v.data.Fighter(v.owner())
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
