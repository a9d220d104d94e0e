package paint

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// KeyTaker is what stands around a page or a dialog, and takes keys before its
// controls do. It reports whether it took one.
type KeyTaker interface {
	PageKey(ev *fyne.KeyEvent) bool
}

// NewPageButton returns a button on a page or in a dialog: Escape does what it
// does there.
func NewPageButton(w KeyTaker, label string, icon fyne.Resource, tapped func()) *PushButton {
	b := newIconButton(label, icon, tapped)
	b.OnKey = func(ev *fyne.KeyEvent) { w.PageKey(ev) }
	return b
}

// PageTick is a tick on a page or in a dialog: Escape does what it does there.
type PageTick struct {
	widget.Check
	w KeyTaker
}

func NewPageTick(w KeyTaker, words string, changed func(bool)) *PageTick {
	c := &PageTick{w: w}
	c.ExtendBaseWidget(c)
	c.Text, c.OnChanged = words, GuardedOf("The tick "+words, changed)
	return c
}

// TypedKey implements fyne.Focusable.
func (c *PageTick) TypedKey(ev *fyne.KeyEvent) {
	defer Survive("The page")
	if !c.w.PageKey(ev) {
		c.Check.TypedKey(ev)
	}
}

// Pick is a choice on a page or in a dialog: Escape does what it does there.
type Pick struct {
	widget.Select
	w KeyTaker
}

func NewPick(w KeyTaker, options []string, changed func(string)) *Pick {
	p := &Pick{w: w}
	p.ExtendBaseWidget(p)
	p.PlaceHolder, p.Options, p.OnChanged = "(none)", options, GuardedOf("The choice", changed)
	return p
}

// TypedKey shows the list, or chooses the one before or after.
func (p *Pick) TypedKey(ev *fyne.KeyEvent) {
	defer Survive("The page")
	if !p.w.PageKey(ev) {
		p.Select.TypedKey(ev)
	}
}

// PageEntry is a field on a page or in a dialog: Escape does what it does there.
type PageEntry struct {
	widget.Entry
	W KeyTaker
}

func NewPageEntry(w KeyTaker) *PageEntry {
	e := &PageEntry{W: w}
	e.Wrapping = fyne.TextWrap(fyne.TextTruncateClip)
	e.ExtendBaseWidget(e)
	return e
}

// TypedKey types.
func (e *PageEntry) TypedKey(ev *fyne.KeyEvent) {
	defer Survive("The page")
	if !e.W.PageKey(ev) {
		e.Entry.TypedKey(ev)
	}
}

// PickEntry is a field with a list of what may be typed in it.
type PickEntry struct {
	PageEntry
	options []string
}

func NewPickEntry(w KeyTaker, options []string) *PickEntry {
	e := &PickEntry{PageEntry: PageEntry{W: w}, options: options}
	e.Wrapping = fyne.TextWrap(fyne.TextTruncateClip)
	e.ExtendBaseWidget(e)
	e.ActionItem = NewPageButton(w, "", theme.MenuDropDownIcon(), e.offer)
	return e
}

// SetOptions makes another list of what may be typed.
func (e *PickEntry) SetOptions(options []string) { e.options = options }

// offer shows the list under the field.
func (e *PickEntry) offer() {
	var items []*fyne.MenuItem
	for _, o := range e.options {
		items = append(items, fyne.NewMenuItem(o, func() { e.SetText(o) }))
	}
	if c := CanvasOf(e); c != nil && len(items) > 0 {
		widget.ShowPopUpMenuAtRelativePosition(fyne.NewMenu("", items...), c, fyne.NewPos(0, e.Size().Height), e)
	}
}

// PageList is a list on a page or in a dialog: Escape does what it does there.
type PageList struct {
	RowList
	w KeyTaker
}

func NewPageList(w KeyTaker, length func() int, create func() fyne.CanvasObject, update func(widget.ListItemID, fyne.CanvasObject)) *PageList {
	l := &PageList{w: w}
	l.ExtendBaseWidget(l)
	l.Fill("The list", length, create, update)
	return l
}

// TypedKey implements fyne.Focusable.
func (l *PageList) TypedKey(ev *fyne.KeyEvent) {
	defer Survive("The page")
	if !l.w.PageKey(ev) {
		l.List.TypedKey(ev)
	}
}
