package ui

import (
	"testing"

	"fyne.io/fyne/v2"
)

// TestTheWindowServesTheMoveData asks on the page for what the window has:
// its search by the menu, its keys by F1, and itself again when it was left.
func TestTheWindowServesTheMoveData(t *testing.T) {
	w, d := openData(t, sample())
	item(t, w, "Filter setups").Action()
	if f := w.Canvas().Focused(); f == nil || f == fyne.Focusable(d.grid) {
		t.Errorf("Ctrl+F gives the keys to %T", f)
	}
	typeEscape(w)
	typeKey(w, fyne.KeyF1)
	if w.Canvas().Overlays().Top() == nil {
		t.Error("F1 shows no keys")
	}
	tap(t, w, "Close")
	d.turn(fyne.KeyPageDown, 1)
	w.showTimeline()
	if again := pageOf(t, w); again.Page != d.Page || again.row() != "forward jump" {
		t.Errorf("shown again it is on %q", again.row())
	}
	w.model.Open(inMemory(t, sample()))
	if again := pageOf(t, w); again.Page == d.Page || again.row() != "tide sweep" {
		t.Errorf("of another project it is on %q", again.row())
	}
}
