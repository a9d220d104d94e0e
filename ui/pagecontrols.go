package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// keyedPage is a page on which Escape first ends what runs.
type keyedPage interface {
	key(ev *fyne.KeyEvent)
}

var (
	_ keyedPage = (*findPage)(nil)
	_ keyedPage = (*drillPage)(nil)
)

// pageKey is what Escape and F1 do on a page. It reports whether it took the
// key.
func (w *window) pageKey(ev *fyne.KeyEvent) bool {
	if ev.Name != fyne.KeyEscape && ev.Name != fyne.KeyF1 {
		return false
	}
	if p, ok := w.page.(keyedPage); ok {
		p.key(ev)
	} else if ev.Name == fyne.KeyF1 {
		w.showKeys()
	} else {
		w.closePage()
	}
	return true
}

// newPageButton returns a button on a page: Escape does what it does there.
func newPageButton(w *window, label string, icon fyne.Resource, tapped func()) *pushButton {
	b := newIconButton(label, icon, tapped)
	b.OnEscape = func() { w.pageKey(&fyne.KeyEvent{Name: fyne.KeyEscape}) }
	return b
}

// pageTick is a tick on a page: Escape closes the page.
type pageTick struct {
	widget.Check
	w *window
}

func newPageTick(w *window, words string, changed func(bool)) *pageTick {
	c := &pageTick{w: w}
	c.ExtendBaseWidget(c)
	c.Text, c.OnChanged = words, changed
	return c
}

// TypedKey implements fyne.Focusable.
func (c *pageTick) TypedKey(ev *fyne.KeyEvent) {
	if !c.w.pageKey(ev) {
		c.Check.TypedKey(ev)
	}
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
