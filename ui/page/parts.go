package page

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/model"
	"wakeline/ui/paint"
)

// Title is the name of a page, above it.
func Title(name string) *widget.Label {
	l := widget.NewLabel(name)
	l.TextStyle.Bold = true
	return l
}

// Wrapped is a label whose words are wrapped.
func Wrapped(words string) *widget.Label {
	l := widget.NewLabel(words)
	l.Wrapping = fyne.TextWrapWord
	return l
}

// CloseButton closes the page.
func CloseButton(h Host) *paint.PushButton {
	return paint.NewPageButton(h, "Close", theme.CancelIcon(), h.Close)
}

// Running is shown while something of a page takes long, hidden at first.
type Running struct{ *fyne.Container }

// NewRunning returns what says that something runs, with a button that stops it
// where stop isn't nil.
func NewRunning(h Host, words string, stop func()) Running {
	b := Running{container.NewHBox(widget.NewLabel(words))}
	if stop != nil {
		b.Add(paint.NewPageButton(h, "Stop", nil, stop))
	}
	b.Hide()
	return b
}

// Set shows it, or hides it.
func (b Running) Set(on bool) {
	b.Hidden = !on
	b.Refresh()
}

// AnySetup are the changes of what is worked out of several setups.
const AnySetup = model.ListChanged | model.DataChanged | model.SetupChanged

// Outdated reports whether what a page shows is to be made anew: something of
// it has changed, and there still is something to show. Where there isn't, the
// page is closed.
func Outdated(h Host, what, of model.Change, possible func() bool) bool {
	if what&of == 0 {
		return false
	}
	if !possible() {
		h.Close()
		return false
	}
	return true
}

// HasFighters reports whether the project has fighters.
func HasFighters(h Host) bool { return len(h.Model().Data().Fighters) > 0 }
