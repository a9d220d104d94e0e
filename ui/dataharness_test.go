package ui

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"wakeline/timeline"
	"wakeline/ui/grid"
	"wakeline/ui/page/data"
	"wakeline/ui/paint"
)

// moveData is the page of the move data as a person has it: what is on screen.
type moveData struct {
	*data.Page
	w        *window
	grid     *grid.Grid
	fighters *paint.Pick
}

// openData shows the page of the move data over p.
func openData(t testing.TB, p *timeline.Project) (*window, *moveData) {
	t.Helper()
	w := open(t, p, laptop)
	return w, pageOf(t, w)
}

func pageOf(t testing.TB, w *window) *moveData {
	t.Helper()
	w.showData()
	p, ok := w.page.(*data.Page)
	if !ok {
		t.Fatal("the page of the move data is not shown")
	}
	d := &moveData{Page: p, w: w}
	for _, o := range test.LaidOutObjects(p.Content()) {
		switch o := o.(type) {
		case *grid.Grid:
			d.grid = o
		case *paint.Pick:
			d.fighters = o
		}
	}
	return d
}

// turn shows another table.
func (d *moveData) turn(key fyne.KeyName, times int) {
	for range times {
		d.grid.TypedShortcut(&desktop.CustomShortcut{KeyName: key, Modifier: fyne.KeyModifierControl})
	}
}

// row is what the cell under the cursor's row holds in its first column.
func (d *moveData) row() string { return d.grid.Shown().Text(d.grid.At().Row, 0) }

// typeIn types over a cell, key by key, as a hand does.
func (d *moveData) typeIn(t testing.TB, name, col, text string) {
	t.Helper()
	cells := d.grid.Shown()
	to := grid.Place{Row: -1, Col: slices.Index(cells.Heads(), col)}
	for row := range cells.Len() {
		if cells.Text(row, 0) == name {
			to.Row = row
		}
	}
	if to.Row < 0 || to.Col < 0 {
		t.Fatalf("no cell %s of %q", col, name)
	}
	d.grid.Place(to)
	for _, r := range text {
		d.w.Canvas().Focused().TypedRune(r)
	}
}

// enter types over a cell and takes it with Enter.
func (d *moveData) enter(t testing.TB, name, col, text string) {
	t.Helper()
	d.typeIn(t, name, col, text)
	typeKey(d.w, fyne.KeyReturn)
}

// pageText is what the page paints, a line each.
func pageText(w *window) string {
	var b strings.Builder
	for _, o := range test.LaidOutObjects(w.page.Content()) {
		if text, ok := o.(*canvas.Text); ok {
			b.WriteString(text.Text + "\n")
		}
	}
	return b.String()
}
