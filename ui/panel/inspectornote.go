package panel

import (
	"fmt"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/paint"
)

var (
	_ fyne.Shortcutable      = (*FieldEntry)(nil)
	_ fyne.SecondaryTappable = (*FieldEntry)(nil)
)

// note makes a row of a text of several lines, also of long ones: the field
// holds them in pieces. One that is too long is shown, and not typed in.
func (n *Inspector) note(label string, show func() string, put func(string) error) *InspectorRow {
	var e *FieldEntry
	r := n.text(label, func() string {
		text := show()
		if paint.TooLong(text, paint.ShownMost) {
			e.Disable()
		} else {
			e.Enable()
		}
		return paint.Shortened(text, paint.Seam, paint.ShownMost)
	}, func(text string) error { return put(paint.Whole(text)) })
	e = r.Field.(*TypedField).Entry
	e.inPieces, e.MultiLine, e.Wrapping = true, true, fyne.TextWrapWord
	e.SetMinRowsVisible(3)
	return r
}

// TypedShortcut copies a text in pieces without its seams, and pastes into it in
// pieces.
func (e *FieldEntry) TypedShortcut(s fyne.Shortcut) {
	defer paint.Survive("The field " + e.Row.Label.Text)
	if e.inPieces {
		switch of := s.(type) {
		case *fyne.ShortcutCopy:
			s = &fyne.ShortcutCopy{Clipboard: paint.Seamed{Clipboard: of.Clipboard}}
		case *fyne.ShortcutCut:
			s = &fyne.ShortcutCut{Clipboard: paint.Seamed{Clipboard: of.Clipboard}}
		case *fyne.ShortcutPaste:
			if n := letterCount(of.Clipboard.Content()) + letterCount(e.Text) - letterCount(e.SelectedText()); n > paint.ShownMost {
				e.Row.refuse(fmt.Errorf("with what is on the clipboard this would have %d letters: at most %d can be typed here", n, paint.ShownMost))
				return
			}
			s = &fyne.ShortcutPaste{Clipboard: paint.Seamed{Clipboard: of.Clipboard}}
		}
	}
	e.Entry.TypedShortcut(s)
}

// TappedSecondary shows the field's menu. That of a text in pieces does what
// its shortcuts do.
func (e *FieldEntry) TappedSecondary(ev *fyne.PointEvent) {
	defer paint.Survive("The field " + e.Row.Label.Text)
	if !e.inPieces {
		e.Entry.TappedSecondary(ev)
		return
	}
	c, clipboard := paint.CanvasOf(e), fyne.CurrentApp().Clipboard()
	c.Focus(e)
	item := func(label string, s fyne.Shortcut) *fyne.MenuItem {
		return fyne.NewMenuItem(label, func() { e.TypedShortcut(s) })
	}
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("",
		item("Cut", &fyne.ShortcutCut{Clipboard: clipboard}),
		item("Copy", &fyne.ShortcutCopy{Clipboard: clipboard}),
		item("Paste", &fyne.ShortcutPaste{Clipboard: clipboard}),
		item("Select all", &fyne.ShortcutSelectAll{})), c, ev.AbsolutePosition)
}

// letterCount is how many letters a text in pieces has.
func letterCount(text string) int { return utf8.RuneCountInString(paint.Whole(text)) }
