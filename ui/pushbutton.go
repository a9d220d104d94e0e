package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

var _ fyne.Focusable = (*pushButton)(nil)

// pushButton is a button that Enter presses too. Space presses it when the
// letter comes, so that none is left for the field that it may lead to.
type pushButton struct {
	widget.Button

	OnKey func(ev *fyne.KeyEvent) // a key that does not press it; may be nil
}

func newButton(label string, tapped func()) *pushButton { return newIconButton(label, nil, tapped) }

func newIconButton(label string, icon fyne.Resource, tapped func()) *pushButton {
	b := &pushButton{Button: widget.Button{Text: label, Icon: icon, OnTapped: guarded("The button "+label, tapped)}}
	b.ExtendBaseWidget(b)
	return b
}

// TypedKey implements fyne.Focusable.
func (b *pushButton) TypedKey(ev *fyne.KeyEvent) {
	defer survive("The button")
	switch {
	case ev.Name == fyne.KeyReturn, ev.Name == fyne.KeyEnter:
		b.press()
	case b.OnKey != nil:
		b.OnKey(ev)
	}
}

// TypedRune implements fyne.Focusable.
func (b *pushButton) TypedRune(r rune) {
	if r == ' ' {
		b.press()
	}
}

// press does what Fyne's own button does on a key.
func (b *pushButton) press() { b.Button.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace}) }
