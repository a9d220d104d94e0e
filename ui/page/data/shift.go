package data

import (
	"slices"

	"wakeline/timeline"
	"wakeline/ui/grid"
	"wakeline/ui/model"
)

// lists are the lists that the tables show, by the kind of their rows.
var lists = map[model.RowKind]timeline.List{
	model.MoveRow: timeline.MoveList, model.JumpRow: timeline.JumpList, model.RiseRow: timeline.RiseList,
	model.RouteRow: timeline.RouteList, model.ReplyRow: timeline.ReplyList, model.FighterRow: timeline.FighterList,
}

// Shift implements grid.Edits: it puts the rows of the selection one place up
// or down, as one step, and the selection stays on them.
func (e *editor) Shift(by int) {
	if !e.mayType() {
		return
	}
	list, ok := lists[e.kind]
	a, b := e.grid.Selection()
	switch {
	case !ok:
		e.refused("These rows have a fixed order.")
		return
	case e.grid.Sorted >= 0:
		e.refused("Rows can be moved while none of the columns sorts them: click the heading with the arrow until it is gone.")
		return
	case b.Row >= e.table.len(), a.Row+by < 0, b.Row+by >= e.table.len():
		return // the new row stays last
	}
	rows := []int{}
	for row := a.Row; row <= b.Row; row++ {
		rows = append(rows, row)
	}
	if by > 0 { // the last one goes first, to make room
		slices.Reverse(rows)
	}
	var edits []timeline.Edit
	for _, row := range rows {
		edits = append(edits, timeline.PlaceEdit{Owner: e.owner(), List: list, Name: nameAt(e.table, row), By: by})
	}
	what := "move " + nameAt(e.table, rows[0])
	if len(rows) > 1 {
		what = "move " + model.CountOf(len(rows), e.table.rowWord())
	}
	if why := e.apply(what, edits...); why != "" {
		e.refused(why)
		return
	}
	e.grid.Place(grid.Place{Row: a.Row + by, Col: a.Col})
	e.grid.Stretch(grid.Place{Row: b.Row + by, Col: b.Col})
}
