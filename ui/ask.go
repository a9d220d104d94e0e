package ui

import (
	"slices"
	"wakeline/ui/paint"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"
)

// ask is a dialog of the window. Escape closes it, wherever on it the keys
// are, and nothing else; Enter does what its default button does. Every dialog
// is made here.
type ask struct {
	w       *window
	dialog  *dialog.CustomDialog
	buttons []fyne.CanvasObject
	first   *paint.PushButton // the default

	cancel func() // what Escape does
	accept func() // what Enter does; nil: nothing
	closed func() // after it is gone, where no dialog is left: gives the keys on
}

// newAsk makes a dialog, which is shown by show.
func (w *window) newAsk(title string, body fyne.CanvasObject) *ask {
	a := &ask{w: w, dialog: dialog.NewCustomWithoutButtons(title, body, w.win), closed: w.refocus}
	a.cancel = a.hide
	return a
}

// button adds a button after those there are.
func (a *ask) button(label string, do func()) *paint.PushButton {
	b := paint.NewPageButton(a.w, label, nil, do)
	a.buttons = append(a.buttons, b)
	return b
}

// main adds the default button.
func (a *ask) main(label string, do func()) *paint.PushButton {
	b := a.button(label, do)
	b.Importance = widget.HighImportance
	a.first, a.accept = b, b.Press
	return b
}

// show shows the dialog, no larger than the window, and gives first the keys:
// nil the default button, or else the first there is.
func (a *ask) show(size fyne.Size, first fyne.Focusable) {
	w := a.w
	a.dialog.SetButtons(a.buttons)
	a.dialog.SetOnClosed(paint.Guarded("The dialog", a.gone))
	most := w.win.Canvas().Size().SubtractWidthHeight(40, 40)
	a.dialog.Resize(size.Min(most))
	w.asks = append(w.asks, a)
	a.dialog.Show()
	switch {
	case first != nil:
		w.win.Canvas().Focus(first)
	case a.first != nil:
		w.win.Canvas().Focus(a.first)
	case len(a.buttons) > 0:
		w.win.Canvas().Focus(a.buttons[0].(*paint.PushButton))
	}
}

// hide closes the dialog. One that is closed stays so.
func (a *ask) hide() {
	if slices.Contains(a.w.asks, a) {
		a.dialog.Hide()
	}
}

// gone gives the keys on after the dialog was closed: one under it has its own.
func (a *ask) gone() {
	w := a.w
	w.asks = slices.DeleteFunc(w.asks, func(o *ask) bool { return o == a })
	if len(w.asks) == 0 {
		a.closed()
	}
}

// topAsk is the dialog on top, nil where there is none.
func (w *window) topAsk() *ask {
	if len(w.asks) == 0 {
		return nil
	}
	return w.asks[len(w.asks)-1]
}

// key does what a key does wherever on the dialog it is typed. It reports
// whether it took it.
func (a *ask) key(ev *fyne.KeyEvent) bool {
	switch ev.Name {
	case fyne.KeyEscape:
		a.cancel()
	case fyne.KeyReturn, fyne.KeyEnter:
		if a.accept != nil {
			a.accept()
		}
	case fyne.KeyF1: // the page of keys is a dialog too
	default:
		return false
	}
	return true
}

// newTold is a dialog that says something, in words that can be copied.
func (w *window) newTold(title, text string) *ask {
	box := paint.NewTextBox(w)
	box.SetText(text)
	return w.newAsk(title, box)
}

// overlayKey is what a key does while something lies over the window and has
// not taken the keys. It reports whether there is such a thing.
func (w *window) overlayKey(ev *fyne.KeyEvent) bool {
	over := w.win.Canvas().Overlays().List()
	switch {
	case len(over) == 0:
		return false
	case len(over) == len(w.asks):
		w.topAsk().key(ev)
	case ev.Name == fyne.KeyEscape: // of a menu: as a click beside it
		if menu, ok := over[len(over)-1].(fyne.Tappable); ok {
			menu.Tapped(&fyne.PointEvent{})
		}
	}
	return true
}
