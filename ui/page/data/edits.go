package data

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"wakeline/timeline"
	"wakeline/ui/grid"
	"wakeline/ui/model"
	"wakeline/ui/page"
)

// editor edits the rows of the table that is shown, and says why one can't be
// edited.
type editor struct {
	*view
	host    page.Host
	grid    *grid.Grid
	reason  *reasonBox
	over    *cellLayout
	foot    *foot
	effects *effects
	refresh func() // shows the table anew
	refocus func() // gives the keys to the cell that is typed in, else to the table
}

// mayType reports whether the table may be edited now, and says why not.
func (e *editor) mayType() bool {
	why := e.host.Model().ReadOnly()
	if why != "" {
		e.refused("This project is read-only: " + why)
	}
	return why == "" && !e.host.Model().Held && e.table != nil
}

// refused says beside the cursor why something was not done. The grid is
// painted again with it: what was hidden so far has no canvas yet on which it
// could ask for that itself.
func (e *editor) refused(why string) {
	e.reason.say(why)
	e.over.follow()
	e.grid.Refresh()
}

// apply does edits as one step, and says which setups they changed; or it
// returns why they can't be done.
func (e *editor) apply(what string, edits ...timeline.Edit) (why string) {
	err := e.effects.commit(edits, func() error { return e.host.Model().Apply(what, edits...) })
	if err == nil {
		return ""
	}
	return model.Sentence(strings.TrimPrefix(model.ErrorWords(e.host.Model().Data(), err), what+": "))
}

// keepDraft keeps a row that is not whole yet; where its cells are
// those of the row as it stands there is nothing to keep.
func (e *editor) keepDraft(row int, draft *draftRow) {
	if slices.Equal(draft.cells, cellsOf(e.table, row)) {
		delete(e.drafts, e.named(row))
		return
	}
	e.drafts[e.named(row)] = draft
}

// Drop implements grid.Edits: it removes the rows of the selection.
func (e *editor) Drop() {
	if !e.mayType() {
		return
	}
	a, b := e.grid.Selection()
	var edits []timeline.Edit
	name := ""
	for at := a.Row; at <= b.Row; at++ {
		row := e.row(at)
		if row == e.table.len() {
			delete(e.drafts, e.named(row))
			continue
		}
		if removed := e.table.remove(row); removed != nil {
			name = nameAt(e.table, row)
			edits = append(edits, removed)
		}
	}
	if !e.table.grows() {
		e.refused("These rows can't be removed.")
		return
	}
	if len(edits) == 0 {
		e.refresh()
		return
	}
	what := "remove " + name
	if len(edits) > 1 {
		what = "remove " + model.CountOf(len(edits), e.table.rowWord())
	}
	if why := e.apply(what, edits...); why != "" {
		e.refused(why)
	}
}

// Copy implements grid.Events.
func (e *editor) Copy(c fyne.Clipboard) {
	if e.table == nil {
		return
	}
	a, b := e.grid.Selection()
	var rows [][]string
	for at := a.Row; at <= b.Row; at++ {
		var row []string
		for col := a.Col; col <= b.Col; col++ {
			row = append(row, e.plain(at, col))
		}
		rows = append(rows, row)
	}
	c.SetContent(grid.FormatBlock(rows))
}
