package ui

import (
	"testing"

	"fyne.io/fyne/v2"

	"wakeline/ui/page/present"
)

// TestPresentTakesTheScreen: bars and all, until Escape, and gives it back also
// where another page is opened.
func TestPresentTakesTheScreen(t *testing.T) {
	w := open(t, sample(), laptop)
	p := func() *present.Page {
		w.showPresent()
		p, ok := w.page.(*present.Page)
		if !ok {
			t.Fatalf("the window shows %T", w.page)
		}
		return p
	}
	p()
	if !w.win.FullScreen() || w.menuBar.Visible() || w.pageBar.Visible() {
		t.Error("something of the window is left")
	}
	w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.page != nil || w.win.FullScreen() || !w.menuBar.Visible() || !w.pageBar.Visible() {
		t.Errorf("after Escape: page %T, full screen %v, menus %v", w.page, w.win.FullScreen(), w.menuBar.Visible())
	}
	p()
	w.showHistory()
	if w.win.FullScreen() || !w.menuBar.Visible() {
		t.Error("another page is on the full screen")
	}
}
