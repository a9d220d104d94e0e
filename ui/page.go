package ui

import (
	"wakeline/ui/model"
	"wakeline/ui/paint"

	"fyne.io/fyne/v2"
)

// page is what takes the whole window in place of the setups, until it is
// closed.
type page interface {
	content() fyne.CanvasObject
	changed(c model.Change) // of the model; not told of another document: that closes the page
	edits() bool            // undo and redo work while it is shown
	refocus()               // gives it the keys
}

// showPage shows p in place of the setups, or of the page before.
func (w *window) showPage(p page) {
	w.model.Commit()
	defer paint.Survive("The page")
	w.leavePage()
	w.page = p
	w.pages.Objects = []fyne.CanvasObject{w.main, p.content()}
	w.main.Hide()
	w.pages.Refresh()
	w.menu.update()
	w.pageBar.Refresh()
}

// leavePage ends what runs on a page that is no longer shown.
func (w *window) leavePage() {
	if p, ok := w.page.(interface{ left() }); ok {
		p.left()
	}
}

// closePage shows the setups again.
func (w *window) closePage() {
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
