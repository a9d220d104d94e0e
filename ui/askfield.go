package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

var _ fyne.Focusable = (*askField)(nil)

// askField is a field of a dialog, which Escape gives up.
type askField struct {
	widget.Entry

	OnEscape func() // nil: Escape does nothing
}

func newAskField() *askField {
	f := &askField{}
	f.ExtendBaseWidget(f)
	return f
}

// TypedKey implements fyne.Focusable.
func (f *askField) TypedKey(ev *fyne.KeyEvent) {
	if ev.Name == fyne.KeyEscape && f.OnEscape != nil {
		f.OnEscape()
		return
	}
	f.Entry.TypedKey(ev)
}
