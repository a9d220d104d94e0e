package data

import (
	"fmt"

	"wakeline/timeline"
	"wakeline/ui/grid"
	"wakeline/ui/model"
)

// typing is an edit of the cell under the cursor, key by key.
type typing struct {
	*editor
	enders  *enders
	entry   *cellEntry
	editing bool
	was     string // what stood in the cell
	tried   attempt
}

// attempt is what a text in the cell under the cursor comes to.
type attempt struct {
	text   string
	edit   timeline.Edit // where the row is whole and other than it was
	cells  []string      // of the row
	lacks  *fault        // where the row is no whole yet
	refuse string        // why the text can't stand, empty where it can
}

// Moved implements grid.Events.
func (t *typing) Moved() {
	if !t.editing {
		t.reason.say("")
	}
	t.foot.say(t.about(t.grid.At()))
	t.foot.tell(t.more(t.grid.At()))
	t.over.follow()
}

// Leave implements grid.Edits: a cell that is typed in is taken, if it can be.
func (t *typing) Leave() bool { return !t.editing || t.commit() }

// Edit implements grid.Edits.
func (t *typing) Edit(with string) {
	at := t.grid.At()
	if !t.mayType() || at.Col == grid.LabelColumn {
		return
	}
	if !t.table.columns()[at.Col].typed() {
		t.refused("This column can't be edited.")
		return
	}
	t.grid.Place(at)
	t.was = t.plain(at.Row, at.Col)
	text := t.was
	if with != "" {
		text = with
	}
	t.reason.say("")
	t.entry.SetText(text)
	t.entry.CursorColumn = len([]rune(text))
	t.editing = true
	t.tried = attempt{}
	t.entry.Show()
	t.over.follow()
	t.refocus()
	t.typed()
}

// typed weighs what is typed so far.
func (t *typing) typed() {
	if !t.editing {
		return
	}
	t.over.follow()
	if t.entry.Text == t.was {
		t.reason.say("")
		t.effects.clear()
		return
	}
	t.tried = t.try(t.row(t.grid.At().Row), t.grid.At().Col, t.entry.Text)
	if t.reason.Visible() { // it was refused: say when that ends
		t.refused(t.tried.refuse)
	}
	if t.tried.edit == nil {
		t.effects.clear()
		return
	}
	if told, ok := t.table.(telling); ok {
		t.foot.tell(footMore{words: told.would(t.tried.edit)})
	}
	t.effects.typed([]timeline.Edit{t.tried.edit}, true)
}

// try reads the row with that text in one of its cells.
func (v *view) try(row, col int, text string) attempt {
	draft := v.draft(row)
	a := attempt{text: text, cells: v.cellsAt(row)}
	a.cells[col] = text
	if f := v.table.alone(row, col, a.cells); f != nil {
		a.refuse = model.Sentence(f.words())
		return a
	}
	edit, f := v.table.read(row, a.cells)
	switch waits := draft != nil || row == v.table.len(); {
	case f == nil:
		a.edit = edit
	case f.col == col && !(waits && text == ""):
		a.refuse = model.Sentence(f.words())
	case waits, f.col >= 0 && a.cells[f.col] == "", v.table.turns(col):
		a.lacks = f
	case f.col >= 0:
		a.refuse = model.Sentence(v.table.columns()[f.col].heading() + ": " + f.words())
	default:
		a.refuse = model.Sentence(f.words())
	}
	return a
}

// commit takes what is typed. Where it can't stand, the cell stays typed in
// and the reason stands beside it.
func (t *typing) commit() bool {
	if !t.editing {
		return true
	}
	if t.entry.Text == t.was {
		t.takeBack()
		return true
	}
	row, col := t.row(t.grid.At().Row), t.grid.At().Col
	if t.tried.text != t.entry.Text || t.tried.cells == nil {
		t.tried = t.try(row, col, t.entry.Text)
	}
	a := t.tried
	if a.refuse == "" && a.edit != nil {
		of := t.named(row)
		if a.refuse = t.apply(t.what(row, col, a.cells), a.edit); a.refuse == "" {
			delete(t.drafts, of)
		}
	}
	if a.refuse != "" {
		t.refused(a.refuse)
		t.refocus()
		return false
	}
	if a.edit == nil {
		t.keepDraft(row, &draftRow{a.cells, a.lacks})
		t.effects.clear()
	}
	t.endEdit()
	return true
}

// what names an edit of one cell for undo.
func (v *view) what(row, col int, cells []string) string {
	name := cells[0]
	switch {
	case row == v.table.len():
		return "new " + v.table.rowWord() + " " + name
	case col == 0:
		return "name " + name
	case v.table.grows():
		return fmt.Sprintf("%s of %s: %s", v.table.columns()[col].heading(), name, model.NameOr(cells[col], "none"))
	}
	return fmt.Sprintf("%s: %s", name, model.NameOr(cells[col], "standard"))
}

// takeBack ends the typing and leaves the cell as it was.
func (t *typing) takeBack() {
	t.effects.clear()
	t.endEdit()
}

func (t *typing) endEdit() {
	t.editing = false
	t.tried = attempt{}
	t.reason.say("")
	t.entry.Hide()
	t.refocus()
	t.Moved()
	t.grid.Refresh()
}
