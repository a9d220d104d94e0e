package data

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/ui/grid"
	"wakeline/ui/model"
	"wakeline/ui/page/pagetest"
	"wakeline/ui/paint"
)

// openData shows the page of the move data over p.
func openData(t testing.TB, p *timeline.Project) (*pagetest.Host, *Page) {
	t.Helper()
	w := pagetest.Open(t, p)
	return w, pageOn(t, w)
}

func pageOn(t testing.TB, w *pagetest.Host) *Page {
	t.Helper()
	d := New(w, func() { t.Error("a revision is asked for") }, func([]string) map[string]string { return nil })
	w.Show(d)
	d.Refresh()
	d.Refocus()
	return d
}

// goTo puts the cursor on a cell, by the row's name ("" for the new one) and
// the column's.
func (p *Page) goTo(t testing.TB, name, col string) {
	t.Helper()
	to := grid.Place{Row: -1, Col: columnAt(p.table, col)}
	for row := range p.Len() {
		if p.plain(row, 0) == name {
			to.Row = row
		}
	}
	if name == "" {
		to.Row = p.table.len()
	}
	if to.Row < 0 || to.Col < 0 {
		t.Fatalf("no cell %s of %q", col, name)
	}
	p.grid.Place(to)
}

// typeIn types over the cell under the cursor, key by key, as a hand does.
func (p *Page) typeIn(text string) {
	for i, r := range text {
		if i == 0 {
			p.grid.TypedRune(r)
		} else {
			p.entry.TypedRune(r)
		}
	}
}

// enter types over a cell and takes it with Enter.
func (p *Page) enter(t testing.TB, name, col, text string) {
	t.Helper()
	p.goTo(t, name, col)
	p.typeIn(text)
	p.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

func gridKey(p *Page, name fyne.KeyName) { p.grid.TypedKey(&fyne.KeyEvent{Name: name}) }

func pasteIn(p *Page, text string) {
	c := test.NewClipboard()
	c.SetContent(text)
	p.grid.TypedShortcut(&fyne.ShortcutPaste{Clipboard: c})
}

func copied(p *Page) string {
	c := test.NewClipboard()
	p.grid.TypedShortcut(&fyne.ShortcutCopy{Clipboard: c})
	return c.Content()
}

func ctrl(p *Page, key fyne.KeyName) {
	p.grid.TypedShortcut(&desktop.CustomShortcut{KeyName: key, Modifier: fyne.KeyModifierControl})
}

// edits is how many steps of the document are done.
func edits(w *pagetest.Host) (n int) {
	past, err := w.Model().Past(model.MostHistory)
	if err != nil {
		panic(err)
	}
	for i := range past {
		if !past[i].Undone {
			n++
		}
	}
	return n
}

// tap taps the button of that text in the dialog on top.
func tap(t testing.TB, w *pagetest.Host, text string) {
	t.Helper()
	for _, o := range test.LaidOutObjects(w.Canvas().Overlays().Top()) {
		if b, ok := o.(*paint.PushButton); ok && b.Text == text {
			test.Tap(b)
			return
		}
	}
	t.Fatalf("no button %q in the dialog", text)
}

// overlayText is what the dialog on top says.
func overlayText(w *pagetest.Host) string {
	var b strings.Builder
	for _, o := range test.LaidOutObjects(w.Canvas().Overlays().Top()) {
		switch o := o.(type) {
		case *widget.Label:
			b.WriteString(o.Text + "\n")
		case *paint.TextBox:
			b.WriteString(o.Text + "\n")
		}
	}
	return b.String()
}
