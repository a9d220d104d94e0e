package page

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/model"
	"wakeline/ui/paint"
)

// Dialogs are those of a window. Every dialog is made here.
type Dialogs struct {
	Refocus func() // gives the keys on when the last dialog is gone

	in fyne.Window
	up []*Dialog // the topmost last
}

// NewDialogs returns the dialogs of a window.
func NewDialogs(in fyne.Window, refocus func()) *Dialogs { return &Dialogs{in: in, Refocus: refocus} }

// Dialog is a dialog of the window. Escape closes it, wherever on it the keys
// are, and nothing else; Enter does what its default button does.
type Dialog struct {
	Cancel func() // what Escape does
	Accept func() // what Enter does; nil: nothing
	Closed func() // after it is gone, where no dialog is left: gives the keys on

	of      *Dialogs
	dialog  *dialog.CustomDialog
	buttons []fyne.CanvasObject
	first   *paint.PushButton // the default
}

// PageKey does what a key does in the topmost dialog. It reports whether it
// took the key.
func (d *Dialogs) PageKey(ev *fyne.KeyEvent) bool { return len(d.up) > 0 && d.Top().Key(ev) }

// Count is how many are up.
func (d *Dialogs) Count() int { return len(d.up) }

// Size is that of a large dialog.
func (d *Dialogs) Size() fyne.Size {
	s := d.in.Canvas().Size()
	return fyne.NewSize(min(s.Width-80, 860), min(s.Height-80, 580))
}

// New makes a dialog, which is shown by Show.
func (d *Dialogs) New(title string, body fyne.CanvasObject) *Dialog {
	a := &Dialog{of: d, dialog: dialog.NewCustomWithoutButtons(title, body, d.in), Closed: d.Refocus}
	a.Cancel = a.Hide
	return a
}

// Button adds a button after those there are.
func (a *Dialog) Button(label string, do func()) *paint.PushButton {
	b := paint.NewPageButton(a.of, label, nil, do)
	a.buttons = append(a.buttons, b)
	return b
}

// Main adds the default button.
func (a *Dialog) Main(label string, do func()) *paint.PushButton {
	b := a.Button(label, do)
	b.Importance = widget.HighImportance
	a.first, a.Accept = b, b.Press
	return b
}

// Show shows the dialog, no larger than the window, and gives first the keys:
// nil the default button, or else the first there is.
func (a *Dialog) Show(size fyne.Size, first fyne.Focusable) {
	a.dialog.SetButtons(a.buttons)
	a.dialog.SetOnClosed(paint.Guarded("The dialog", a.gone))
	most := a.of.in.Canvas().Size().SubtractWidthHeight(40, 40)
	a.dialog.Resize(size.Min(most))
	a.of.up = append(a.of.up, a)
	a.dialog.Show()
	switch {
	case first != nil:
		a.of.in.Canvas().Focus(first)
	case a.first != nil:
		a.of.in.Canvas().Focus(a.first)
	case len(a.buttons) > 0:
		a.of.in.Canvas().Focus(a.buttons[0].(*paint.PushButton))
	}
}

// Hide closes the dialog. One that is closed stays so.
func (a *Dialog) Hide() {
	if slices.Contains(a.of.up, a) {
		a.dialog.Hide()
	}
}

// gone gives the keys on after the dialog was closed: one under it has its own.
func (a *Dialog) gone() {
	a.of.up = slices.DeleteFunc(a.of.up, func(o *Dialog) bool { return o == a })
	if len(a.of.up) == 0 {
		a.Closed()
	}
}

// Buttons are the dialog's, as they stand.
func (a *Dialog) Buttons() []fyne.CanvasObject { return a.buttons }

// Top is the dialog on top, nil where there is none.
func (d *Dialogs) Top() *Dialog {
	if len(d.up) == 0 {
		return nil
	}
	return d.up[len(d.up)-1]
}

// Key does what a key does wherever on the dialog it is typed. It reports
// whether it took it.
func (a *Dialog) Key(ev *fyne.KeyEvent) bool {
	switch ev.Name {
	case fyne.KeyEscape:
		a.Cancel()
	case fyne.KeyReturn, fyne.KeyEnter:
		if a.Accept != nil {
			a.Accept()
		}
	case fyne.KeyF1: // the page of keys is a dialog too
	default:
		return false
	}
	return true
}

// Told is a dialog that says something, in words that can be copied.
func (d *Dialogs) Told(title, text string) *Dialog {
	box := paint.NewTextBox(d)
	box.SetText(text)
	return d.New(title, box)
}

// OverlayKey is what a key does while something lies over the window and has
// not taken the keys. It reports whether there is such a thing.
func (d *Dialogs) OverlayKey(ev *fyne.KeyEvent) bool {
	over := d.in.Canvas().Overlays().List()
	switch {
	case len(over) == 0:
		return false
	case len(over) == len(d.up):
		d.Top().Key(ev)
	case ev.Name == fyne.KeyEscape: // of a menu: as a click beside it
		if menu, ok := over[len(over)-1].(fyne.Tappable); ok {
			menu.Tapped(&fyne.PointEvent{})
		}
	}
	return true
}

// Fail says what went wrong, with the error's words to select and copy.
func (d *Dialogs) Fail(title string, err error) {
	a := d.Told(title, err.Error())
	a.Main("Close", a.Hide)
	a.Show(fyne.NewSize(560, 230), nil)
}

// Lines says several things, each on a line, to select and copy.
func (d *Dialogs) Lines(title string, lines []string) {
	a := d.Told(title, strings.Join(lines, "\n"))
	a.Main("Close", a.Hide)
	a.Show(fyne.NewSize(600, min(130+22*float32(len(lines)+1), 420)), nil)
}

// Form asks for what body holds, and does something with it. Where that
// can't be done the reason stands under the body, and the dialog stays. More
// may be done with the dialog before it is shown.
func (d *Dialogs) Form(title, button string, body fyne.CanvasObject, first *paint.PageEntry, do func() error, more ...func(a *Dialog)) {
	why := widget.NewLabel("")
	why.Wrapping = fyne.TextWrapWord
	a := d.New(title, container.NewVBox(body, why))
	a.Button("Cancel", a.Hide)
	a.Main(button, func() {
		if err := do(); err != nil {
			why.SetText(paint.Shortened(model.Sentence(err.Error()), "\n", paint.ShownMost))
			return
		}
		a.Hide()
	})
	first.OnChanged = func(string) { why.SetText("") }
	for _, m := range more {
		m(a)
	}
	a.Show(fyne.NewSize(520, 0), first)
}
