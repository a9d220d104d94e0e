package ui

import (
	"testing"
	"wakeline/ui/grid"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"wakeline/timeline"
)

// openData shows the page of the move data over p.
func openData(t testing.TB, p *timeline.Project) (*window, *dataPage) {
	t.Helper()
	w := open(t, p, laptop)
	return w, pageOf(t, w)
}

func pageOf(t testing.TB, w *window) *dataPage {
	t.Helper()
	w.showData()
	d, ok := w.page.(*dataPage)
	if !ok {
		t.Fatal("the page of the move data is not shown")
	}
	return d
}

// at puts the cursor on a cell, by the row's name ("" for the new one) and the
// column's.
func (d *dataPage) goTo(t testing.TB, name, col string) {
	t.Helper()
	to := grid.Place{Row: -1, Col: columnAt(d.rows, col)}
	for view := range d.Len() {
		if d.plain(view, 0) == name {
			to.Row = view
		}
	}
	if name == "" {
		to.Row = d.rows.len()
	}
	if to.Row < 0 || to.Col < 0 {
		t.Fatalf("no cell %s of %q", col, name)
	}
	d.grid.Place(to)
}

// typeIn types over the cell under the cursor, key by key, as a hand does.
func (d *dataPage) typeIn(text string) {
	for i, r := range text {
		if i == 0 {
			d.grid.TypedRune(r)
		} else {
			d.entry.TypedRune(r)
		}
	}
}

// enter types over a cell and takes it with Enter.
func (d *dataPage) enter(t testing.TB, name, col, text string) {
	t.Helper()
	d.goTo(t, name, col)
	d.typeIn(text)
	d.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

func gridKey(d *dataPage, name fyne.KeyName) { d.grid.TypedKey(&fyne.KeyEvent{Name: name}) }

func pasteIn(d *dataPage, text string) {
	c := test.NewClipboard()
	c.SetContent(text)
	d.grid.TypedShortcut(&fyne.ShortcutPaste{Clipboard: c})
}

func copied(d *dataPage) string {
	c := test.NewClipboard()
	d.grid.TypedShortcut(&fyne.ShortcutCopy{Clipboard: c})
	return c.Content()
}

func ctrl(d *dataPage, key fyne.KeyName) {
	d.grid.TypedShortcut(&desktop.CustomShortcut{KeyName: key, Modifier: fyne.KeyModifierControl})
}
