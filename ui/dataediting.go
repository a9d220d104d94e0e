package ui

import (
	"fmt"
	"slices"
	"strings"
	"wakeline/ui/grid"

	"fyne.io/fyne/v2"

	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/paint"
)

// attempt is what a text in the cell under the cursor comes to.
type attempt struct {
	text   string
	edit   timeline.Edit // where the row is whole and other than it was
	cells  []string      // of the row
	lacks  *fault        // where the row is no whole yet
	refuse string        // why the text can't stand, empty where it can
}

// Moved implements grid.Events.
func (d *dataPage) Moved() {
	if !d.editing {
		d.reason.say("")
	}
	d.foot.say(d.about())
	d.over.follow()
}

// Leave implements grid.Edits: a cell that is typed in is taken, if it can be.
func (d *dataPage) Leave() bool { return !d.editing || d.commit() }

// mayType reports whether the table may be edited now, and says why not.
func (d *dataPage) mayType() bool {
	why := d.w.model.ReadOnly()
	if why != "" {
		d.refused("This project is read-only: " + why)
	}
	return why == "" && !d.w.model.Held && d.rows != nil
}

// refused says beside the cursor why something was not done. The grid is
// painted again with it: what was hidden so far has no canvas yet on which it
// could ask for that itself.
func (d *dataPage) refused(why string) {
	d.reason.say(why)
	d.over.follow()
	d.grid.Refresh()
}

// Edit implements grid.Edits.
func (d *dataPage) Edit(with string) {
	at := d.grid.At()
	if !d.mayType() || at.Col == grid.LabelColumn {
		return
	}
	if d.rows.columns()[at.Col].fixed {
		d.refused("This column can't be edited.")
		return
	}
	d.grid.Place(at)
	d.was = d.plain(at.Row, at.Col)
	text := d.was
	if with != "" {
		text = with
	}
	d.reason.say("")
	d.entry.SetText(text)
	d.entry.CursorColumn = len([]rune(text))
	d.editing = true
	d.tried = attempt{}
	d.entry.Show()
	d.over.follow()
	d.Refocus()
	d.typed()
}

// typed weighs what is typed so far.
func (d *dataPage) typed() {
	if !d.editing {
		return
	}
	d.over.follow()
	if d.entry.Text == d.was {
		d.reason.say("")
		d.effects.clear()
		return
	}
	d.tried = d.try(d.row(d.grid.At().Row), d.grid.At().Col, d.entry.Text)
	if d.reason.Visible() { // it was refused: say when that ends
		d.refused(d.tried.refuse)
	}
	if d.tried.edit == nil {
		d.effects.clear()
		return
	}
	d.effects.typed([]timeline.Edit{d.tried.edit}, true)
}

// try reads the row with that text in one of its cells.
func (d *dataPage) try(row, col int, text string) attempt {
	draft := d.draft(row)
	t := attempt{text: text, cells: d.cellsAt(row)}
	t.cells[col] = text
	if f := d.rows.alone(row, col, t.cells); f != nil {
		t.refuse = model.Sentence(f.words())
		return t
	}
	edit, f := d.rows.read(row, t.cells)
	switch waits := draft != nil || row == d.rows.len(); {
	case f == nil:
		t.edit = edit
	case f.col == col && !(waits && text == ""):
		t.refuse = model.Sentence(f.words())
	case waits, f.col >= 0 && t.cells[f.col] == "", d.rows.turns(col):
		t.lacks = f
	case f.col >= 0:
		t.refuse = model.Sentence(d.rows.columns()[f.col].heading() + ": " + f.words())
	default:
		t.refuse = model.Sentence(f.words())
	}
	return t
}

// commit takes what is typed. Where it can't stand, the cell stays typed in
// and the reason stands beside it.
func (d *dataPage) commit() bool {
	if !d.editing {
		return true
	}
	if d.entry.Text == d.was {
		d.takeBack()
		return true
	}
	row, col := d.row(d.grid.At().Row), d.grid.At().Col
	if d.tried.text != d.entry.Text || d.tried.cells == nil {
		d.tried = d.try(row, col, d.entry.Text)
	}
	t := d.tried
	if t.refuse == "" && t.edit != nil {
		key := d.key(row)
		what := d.what(row, col, t.cells)
		if t.refuse = d.apply(what, t.edit); t.refuse == "" {
			delete(d.drafts, key)
		}
	}
	if t.refuse != "" {
		d.refused(t.refuse)
		d.Refocus()
		return false
	}
	if t.edit == nil {
		d.keepDraft(row, t.cells, t.lacks)
		d.effects.clear()
	}
	d.endEdit()
	return true
}

// keepDraft keeps the cells of a row that is not whole yet; where they are
// those of the row as it stands there is nothing to keep.
func (d *dataPage) keepDraft(row int, cells []string, lacks *fault) {
	if slices.Equal(cells, cellsOf(d.rows, row)) {
		delete(d.drafts, d.key(row))
		return
	}
	d.drafts[d.key(row)] = &draftRow{cells, lacks}
}

// what names an edit of one cell for undo.
func (d *dataPage) what(row, col int, cells []string) string {
	thing, name := d.rows.thing(), cells[0]
	switch {
	case row == d.rows.len():
		return "new " + thing + " " + name
	case col == 0:
		return "name " + name
	case d.rows.grows():
		return fmt.Sprintf("%s of %s: %s", d.rows.columns()[col].heading(), name, model.NameOr(cells[col], "none"))
	}
	return fmt.Sprintf("%s: %s", name, model.NameOr(cells[col], "standard"))
}

// takeBack ends the typing and leaves the cell as it was.
func (d *dataPage) takeBack() {
	d.effects.clear()
	d.endEdit()
}

func (d *dataPage) endEdit() {
	d.editing = false
	d.tried = attempt{}
	d.reason.say("")
	d.entry.Hide()
	d.Refocus()
	d.Moved()
	d.grid.Refresh()
}

// onward moves the cursor after a cell was taken.
func (d *dataPage) onward(down, right int) {
	switch {
	case right != 0:
		d.grid.Step(right < 0)
	default:
		d.grid.Place(d.grid.Below(down))
	}
}

// apply does edits as one step, and says which setups they changed; or it
// returns why they can't be done.
func (d *dataPage) apply(what string, edits ...timeline.Edit) (why string) {
	err := d.effects.commit(edits, func() error { return d.w.model.Apply(what, edits...) })
	if err == nil {
		return ""
	}
	return model.Sentence(strings.TrimPrefix(model.ErrorWords(d.w.model.Data(), err), what+": "))
}

// Escape implements grid.Events: it takes away what stands in the way, one
// thing at a time, and at last closes the page.
func (d *dataPage) Escape() {
	switch {
	case d.reason.Visible():
		d.reason.say("")
	case d.rows != nil && d.draft(d.row(d.grid.At().Row)) != nil:
		delete(d.drafts, d.key(d.row(d.grid.At().Row)))
		d.Moved()
		d.grid.Refresh()
	default:
		d.close()
	}
}

// Drop implements grid.Edits: it removes the rows of the selection.
func (d *dataPage) Drop() {
	if !d.mayType() {
		return
	}
	a, b := d.grid.Selection()
	var edits []timeline.Edit
	name := ""
	for view := a.Row; view <= b.Row; view++ {
		row := d.row(view)
		if row == d.rows.len() {
			delete(d.drafts, d.key(row))
			continue
		}
		if e := d.rows.remove(row); e != nil {
			name = d.rows.cell(row, 0)
			edits = append(edits, e)
		}
	}
	if !d.rows.grows() {
		d.refused("These rows can't be removed.")
		return
	}
	if len(edits) == 0 {
		d.refresh()
		return
	}
	what := "remove " + name
	if len(edits) > 1 {
		what = "remove " + model.CountOf(len(edits), d.rows.thing())
	}
	if why := d.apply(what, edits...); why != "" {
		d.refused(why)
	}
}

// Copy implements grid.Events.
func (d *dataPage) Copy(c fyne.Clipboard) {
	if d.rows == nil {
		return
	}
	a, b := d.grid.Selection()
	var rows [][]string
	for view := a.Row; view <= b.Row; view++ {
		var row []string
		for col := a.Col; col <= b.Col; col++ {
			row = append(row, d.plain(view, col))
		}
		rows = append(rows, row)
	}
	c.SetContent(grid.FormatBlock(rows))
}

// Menu implements grid.Edits.
func (d *dataPage) Menu() []*fyne.MenuItem {
	if d.rows == nil || d.editing {
		return nil
	}
	clip := d.w.app.Clipboard()
	item := func(label string, do func()) *fyne.MenuItem { return paint.MenuItem(label, do) }
	out := []*fyne.MenuItem{
		item("Cut (Ctrl+X)", func() { d.Copy(clip); d.Empty() }),
		item("Copy (Ctrl+C)", func() { d.Copy(clip) }),
		item("Paste (Ctrl+V)", func() { d.Paste(clip) }),
		item("Clear (Delete)", d.Empty),
		fyne.NewMenuItemSeparator(),
		item("Sort ascending (Alt+Down)", func() { d.grid.SortBy(d.grid.At().Col, false) }),
		item("Sort descending (Alt+Up)", func() { d.grid.SortBy(d.grid.At().Col, true) }),
	}
	if d.rows.grows() {
		a, b := d.grid.Selection()
		what := "Remove row (Ctrl+-)"
		if a.Row != b.Row {
			what = "Remove rows (Ctrl+-)"
		}
		out = append(out, fyne.NewMenuItemSeparator(), item(what, d.Drop))
	}
	return out
}
