package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// keyTaker is what stands around a page or a dialog, and takes keys before its
// controls do. It reports whether it took one.
type keyTaker interface {
	PageKey(ev *fyne.KeyEvent) bool
}

// newPageButton returns a button on a page or in a dialog: Escape does what it
// does there.
func newPageButton(w keyTaker, label string, icon fyne.Resource, tapped func()) *pushButton {
	b := newIconButton(label, icon, tapped)
	b.OnKey = func(ev *fyne.KeyEvent) { w.PageKey(ev) }
	return b
}

// pageTick is a tick on a page or in a dialog: Escape does what it does there.
type pageTick struct {
	widget.Check
	w keyTaker
}

func newPageTick(w keyTaker, words string, changed func(bool)) *pageTick {
	c := &pageTick{w: w}
	c.ExtendBaseWidget(c)
	c.Text, c.OnChanged = words, guardedOf("The tick "+words, changed)
	return c
}

// TypedKey implements fyne.Focusable.
func (c *pageTick) TypedKey(ev *fyne.KeyEvent) {
	defer survive("The page")
	if !c.w.PageKey(ev) {
		c.Check.TypedKey(ev)
	}
}

// pick is a choice on a page or in a dialog: Escape does what it does there.
type pick struct {
	widget.Select
	w keyTaker
}

func newPick(w keyTaker, options []string, changed func(string)) *pick {
	p := &pick{w: w}
	p.ExtendBaseWidget(p)
	p.PlaceHolder, p.Options, p.OnChanged = "(none)", options, guardedOf("The choice", changed)
	return p
}

// TypedKey shows the list, or chooses the one before or after.
func (p *pick) TypedKey(ev *fyne.KeyEvent) {
	defer survive("The page")
	if !p.w.PageKey(ev) {
		p.Select.TypedKey(ev)
	}
}

// pageEntry is a field on a page or in a dialog: Escape does what it does there.
type pageEntry struct {
	widget.Entry
	w keyTaker
}

func newPageEntry(w keyTaker) *pageEntry {
	e := &pageEntry{w: w}
	e.Wrapping = fyne.TextWrap(fyne.TextTruncateClip)
	e.ExtendBaseWidget(e)
	return e
}

// TypedKey types.
func (e *pageEntry) TypedKey(ev *fyne.KeyEvent) {
	defer survive("The page")
	if !e.w.PageKey(ev) {
		e.Entry.TypedKey(ev)
	}
}

// pickEntry is a field with a list of what may be typed in it.
type pickEntry struct {
	pageEntry
	options []string
}

func newPickEntry(w keyTaker, options []string) *pickEntry {
	e := &pickEntry{pageEntry: pageEntry{w: w}, options: options}
	e.Wrapping = fyne.TextWrap(fyne.TextTruncateClip)
	e.ExtendBaseWidget(e)
	e.ActionItem = newPageButton(w, "", theme.MenuDropDownIcon(), e.offer)
	return e
}

// offer shows the list under the field.
func (e *pickEntry) offer() {
	var items []*fyne.MenuItem
	for _, o := range e.options {
		items = append(items, fyne.NewMenuItem(o, func() { e.SetText(o) }))
	}
	if c := canvasOf(e); c != nil && len(items) > 0 {
		widget.ShowPopUpMenuAtRelativePosition(fyne.NewMenu("", items...), c, fyne.NewPos(0, e.Size().Height), e)
	}
}

// pageList is a list on a page or in a dialog: Escape does what it does there.
type pageList struct {
	rowList
	w keyTaker
}

func newPageList(w keyTaker, length func() int, create func() fyne.CanvasObject, update func(widget.ListItemID, fyne.CanvasObject)) *pageList {
	l := &pageList{w: w}
	l.ExtendBaseWidget(l)
	l.Length = func() int {
		defer survive("The list")
		return length()
	}
	l.CreateItem = func() (o fyne.CanvasObject) {
		defer survive("The list")
		o = canvas.NewRectangle(nil) // what stands there where none can be made
		return create()
	}
	l.UpdateItem = guardedOf2("The list", update)
	return l
}

// TypedKey implements fyne.Focusable.
func (l *pageList) TypedKey(ev *fyne.KeyEvent) {
	defer survive("The page")
	if !l.w.PageKey(ev) {
		l.List.TypedKey(ev)
	}
}
