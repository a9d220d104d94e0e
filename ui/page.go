package ui

import (
	"fyne.io/fyne/v2"

	"wakeline/ui/page"
	"wakeline/ui/paint"
)

// showPage shows p in place of the setups, or of the page before.
func (w *window) showPage(p page.Page) {
	w.model.Commit()
	defer paint.Survive("The page")
	w.leavePage()
	w.page = p
	w.pages.Objects = []fyne.CanvasObject{w.main, p.Content()}
	w.main.Hide()
	w.pages.Refresh()
	w.menu.update()
	w.pageBar.Refresh()
}

// leavePage ends what runs on a page that is no longer shown.
func (w *window) leavePage() {
	if p, ok := w.page.(page.Leaving); ok {
		p.Left()
	}
}

// Close shows the setups again.
func (w *window) Close() {
	if w.page == nil {
		return
	}
	w.leavePage()
	w.page = nil
	w.pages.Objects = []fyne.CanvasObject{w.main}
	w.main.Show()
	w.pages.Refresh()
	w.menu.update()
	w.pageBar.Refresh()
	w.refocus()
}

// PageKey is what Escape, F1 and F10 do on a page, and Escape and Enter in a dialog
// over it. It reports whether it took the key.
func (w *window) PageKey(ev *fyne.KeyEvent) bool {
	if a := w.Dialogs().Top(); a != nil {
		return a.Key(ev)
	}
	switch ev.Name {
	case fyne.KeyEscape:
		if p, ok := w.page.(page.Ending); !ok || !p.EndOwn() {
			w.Close()
		}
	case fyne.KeyF1:
		w.showKeys()
	case fyne.KeyF10:
		w.menuBar.show(0, false)
	default:
		return false
	}
	return true
}
