package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

var (
	_ fyne.Focusable    = (*textBox)(nil)
	_ fyne.Shortcutable = (*textBox)(nil)
)

// textBox holds words that can be selected and copied, but not typed in. It
// scrolls where they are long. Escape does what it does on the page or in the
// dialog.
type textBox struct {
	widget.Entry
	w    keyTaker
	text string // all of it
}

func newTextBox(w keyTaker) *textBox {
	b := &textBox{w: w}
	b.MultiLine, b.Wrapping = true, fyne.TextWrapWord
	b.ExtendBaseWidget(b)
	return b
}

// SetText shows a text, of a long one the beginning.
func (b *textBox) SetText(text string) {
	b.text = text
	b.Entry.SetText(shortened(text, seam, listMost))
}

// TypedRune implements fyne.Focusable: nothing can be typed.
func (b *textBox) TypedRune(rune) {}

// TypedKey moves the cursor.
func (b *textBox) TypedKey(ev *fyne.KeyEvent) {
	defer survive("The text")
	if b.w.PageKey(ev) {
		return
	}
	switch ev.Name {
	case fyne.KeyUp, fyne.KeyDown, fyne.KeyLeft, fyne.KeyRight, fyne.KeyHome, fyne.KeyEnd, fyne.KeyPageUp, fyne.KeyPageDown:
		b.Entry.TypedKey(ev)
	}
}

// TypedShortcut copies and selects.
func (b *textBox) TypedShortcut(s fyne.Shortcut) {
	defer survive("The text")
	switch of := s.(type) {
	case *fyne.ShortcutCopy:
		if b.SelectedText() == b.Text { // all of it, also what is not shown
			of.Clipboard.SetContent(b.text)
			return
		}
		b.Entry.TypedShortcut(&fyne.ShortcutCopy{Clipboard: seamed{of.Clipboard}})
	case *fyne.ShortcutSelectAll:
		b.Entry.TypedShortcut(s)
	}
}

// TappedSecondary offers to copy.
func (b *textBox) TappedSecondary(ev *fyne.PointEvent) {
	c := canvasOf(b)
	if c == nil {
		return
	}
	focusOn(b)
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("",
		menuItem("Copy", func() { b.TypedShortcut(&fyne.ShortcutCopy{Clipboard: fyne.CurrentApp().Clipboard()}) }),
		menuItem("Select all", func() { b.TypedShortcut(&fyne.ShortcutSelectAll{}) }),
	), c, ev.AbsolutePosition)
}

// AcceptsTab implements fyne.Tabbable: Tab leads on.
func (b *textBox) AcceptsTab() bool { return false }
