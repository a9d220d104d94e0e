package paint

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

var _ fyne.Focusable = (*PushButton)(nil)

// PushButton is a button that Enter presses too. Space presses it when the
// letter comes, so that none is left for the field that it may lead to.
type PushButton struct {
	widget.Button

	OnKey func(ev *fyne.KeyEvent) // a key that does not press it; may be nil
}

func NewButton(label string, tapped func()) *PushButton { return newIconButton(label, nil, tapped) }

func newIconButton(label string, icon fyne.Resource, tapped func()) *PushButton {
	b := &PushButton{Button: widget.Button{Text: label, Icon: icon, OnTapped: Guarded("The button "+label, tapped)}}
	b.ExtendBaseWidget(b)
	return b
}

// TypedKey implements fyne.Focusable.
func (b *PushButton) TypedKey(ev *fyne.KeyEvent) {
	defer Survive("The button")
	switch {
	case ev.Name == fyne.KeyReturn, ev.Name == fyne.KeyEnter:
		b.Press()
	case b.OnKey != nil:
		b.OnKey(ev)
	}
}

// TypedRune implements fyne.Focusable.
func (b *PushButton) TypedRune(r rune) {
	if r == ' ' {
		b.Press()
	}
}

// Press does what Fyne's own button does on a key.
func (b *PushButton) Press() { b.Button.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace}) }
