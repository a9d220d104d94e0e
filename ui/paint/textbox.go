package paint

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

var (
	_ fyne.Focusable    = (*TextBox)(nil)
	_ fyne.Shortcutable = (*TextBox)(nil)
)

// TextBox holds words that can be selected and copied, but not typed in. It
// scrolls where they are long. Escape does what it does on the page or in the
// dialog.
type TextBox struct {
	widget.Entry
	w    KeyTaker
	text string // all of it
}

func NewTextBox(w KeyTaker) *TextBox {
	b := &TextBox{w: w}
	b.MultiLine, b.Wrapping = true, fyne.TextWrapWord
	b.ExtendBaseWidget(b)
	return b
}

// SetText shows a text from its first line on, of a long one the beginning.
func (b *TextBox) SetText(text string) {
	b.text = text
	b.CursorRow, b.CursorColumn = 0, 0
	b.Entry.SetText(Shortened(text, Seam, ListMost))
}

// TypedRune implements fyne.Focusable: nothing can be typed.
func (b *TextBox) TypedRune(rune) {}

// TypedKey moves the cursor.
func (b *TextBox) TypedKey(ev *fyne.KeyEvent) {
	defer Survive("The text")
	if b.w.PageKey(ev) {
		return
	}
	switch ev.Name {
	case fyne.KeyUp, fyne.KeyDown, fyne.KeyLeft, fyne.KeyRight, fyne.KeyHome, fyne.KeyEnd, fyne.KeyPageUp, fyne.KeyPageDown:
		b.Entry.TypedKey(ev)
	}
}

// TypedShortcut copies and selects.
func (b *TextBox) TypedShortcut(s fyne.Shortcut) {
	defer Survive("The text")
	switch of := s.(type) {
	case *fyne.ShortcutCopy:
		if b.SelectedText() == b.Text { // all of it, also what is not shown
			of.Clipboard.SetContent(b.text)
			return
		}
		b.Entry.TypedShortcut(&fyne.ShortcutCopy{Clipboard: Seamed{of.Clipboard}})
	case *fyne.ShortcutSelectAll:
		b.Entry.TypedShortcut(s)
	}
}

// TappedSecondary offers to copy.
func (b *TextBox) TappedSecondary(ev *fyne.PointEvent) {
	defer Survive("The text")
	c := CanvasOf(b)
	if c == nil {
		return
	}
	FocusOn(b)
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("",
		MenuItem("Copy", func() { b.TypedShortcut(&fyne.ShortcutCopy{Clipboard: fyne.CurrentApp().Clipboard()}) }),
		MenuItem("Select all", func() { b.TypedShortcut(&fyne.ShortcutSelectAll{}) }),
	), c, ev.AbsolutePosition)
}

// AcceptsTab implements fyne.Tabbable: Tab leads on.
func (b *TextBox) AcceptsTab() bool { return false }
