package data

import (
	"fyne.io/fyne/v2"

	"wakeline/ui/model"
	"wakeline/ui/paint"
)

// Menu implements grid.Edits.
func (p *Page) Menu() []*fyne.MenuItem {
	if p.table == nil || p.editing {
		return nil
	}
	clip := fyne.CurrentApp().Clipboard()
	out := []*fyne.MenuItem{
		paint.MenuItem("Cut (Ctrl+X)", func() { p.Copy(clip); p.Empty() }),
		paint.MenuItem("Copy (Ctrl+C)", func() { p.Copy(clip) }),
		paint.MenuItem("Paste (Ctrl+V)", func() { p.Paste(clip) }),
		paint.MenuItem("Clear (Delete)", p.Empty),
		fyne.NewMenuItemSeparator(),
		paint.MenuItem("Sort ascending (Alt+Down)", func() { p.grid.SortBy(p.grid.At().Col, false) }),
		paint.MenuItem("Sort descending (Alt+Up)", func() { p.grid.SortBy(p.grid.At().Col, true) }),
	}
	if p.kind == model.RouteRow {
		out = append(out, fyne.NewMenuItemSeparator(), paint.MenuItem("Add steps…", p.askSteps))
	}
	if p.table.grows() {
		out = append(out, fyne.NewMenuItemSeparator(), paint.MenuItem("Move up (Alt+Shift+Up)", func() { p.Shift(-1) }),
			paint.MenuItem("Move down (Alt+Shift+Down)", func() { p.Shift(1) }))
		a, b := p.grid.Selection()
		what := "Remove row (Ctrl+-)"
		if a.Row != b.Row {
			what = "Remove rows (Ctrl+-)"
		}
		out = append(out, fyne.NewMenuItemSeparator(), paint.MenuItem(what, p.Drop))
	}
	return out
}
