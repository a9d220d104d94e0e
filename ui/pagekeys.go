package ui

import "fyne.io/fyne/v2"

// endingPage is a page on which Escape first ends what runs there.
type endingPage interface {
	endOwn() bool // false: nothing runs
}

var (
	_ endingPage = (*findPage)(nil)
	_ endingPage = (*drillPage)(nil)
	_ endingPage = (*lessonPage)(nil)
	_ endingPage = (*dataPage)(nil)
)

// PageKey is what Escape, F1 and F10 do on a page, and Escape and Enter in a dialog
// over it. It reports whether it took the key.
func (w *window) PageKey(ev *fyne.KeyEvent) bool {
	if a := w.topAsk(); a != nil {
		return a.key(ev)
	}
	switch ev.Name {
	case fyne.KeyEscape:
		if p, ok := w.page.(endingPage); !ok || !p.endOwn() {
			w.closePage()
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
