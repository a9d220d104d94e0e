package ui

import (
	"wakeline/ui/page"

	"fyne.io/fyne/v2"
)

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
