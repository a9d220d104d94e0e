package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// pageKey is what Escape and F1 do on a page. It reports whether it took the
// key.
func (w *window) pageKey(ev *fyne.KeyEvent) bool {
	switch ev.Name {
	case fyne.KeyEscape:
		w.closePage()
	case fyne.KeyF1:
		w.showKeys()
	default:
		return false
	}
	return true
}

// pick is a choice on a page: Escape closes the page.
type pick struct {
	widget.Select
	w *window
}

func newPick(w *window, options []string, changed func(string)) *pick {
	p := &pick{w: w}
	p.ExtendBaseWidget(p)
	p.PlaceHolder, p.Options, p.OnChanged = "(none)", options, changed
	return p
}

// TypedKey shows the list, or chooses the one before or after.
func (p *pick) TypedKey(ev *fyne.KeyEvent) {
	if !p.w.pageKey(ev) {
		p.Select.TypedKey(ev)
	}
}

// pageEntry is a field on a page: Escape closes the page.
type pageEntry struct {
	widget.Entry
	w *window
}

func newPageEntry(w *window) *pageEntry {
	e := &pageEntry{w: w}
	e.Wrapping = fyne.TextWrap(fyne.TextTruncateClip)
	e.ExtendBaseWidget(e)
	return e
}

// TypedKey types.
func (e *pageEntry) TypedKey(ev *fyne.KeyEvent) {
	if !e.w.pageKey(ev) {
		e.Entry.TypedKey(ev)
	}
}
