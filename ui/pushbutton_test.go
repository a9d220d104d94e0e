package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// TestKeysPressAButton types as a driver does: a key, then the letter that it
// makes, each for what has the keys then.
func TestKeysPressAButton(t *testing.T) {
	w := open(t, sample(), laptop)
	field := widget.NewEntry()
	presses := 0
	b := newButton("Name it", func() {
		presses++
		w.win.Canvas().Focus(field)
	})
	w.pages.Add(b)
	w.pages.Add(field)
	for i, k := range []struct {
		name   fyne.KeyName
		letter rune
	}{{fyne.KeySpace, ' '}, {fyne.KeyReturn, 0}, {fyne.KeyEnter, 0}, {fyne.KeyX, 'x'}} {
		w.win.Canvas().Focus(b)
		w.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: k.name})
		if k.letter != 0 {
			w.win.Canvas().Focused().TypedRune(k.letter)
		}
		if want := min(i+1, 3); presses != want || field.Text != "" {
			t.Errorf("after %s %d presses, want %d; the field holds %q", k.name, presses, want, field.Text)
		}
	}
	b.Disable()
	w.win.Canvas().Focus(b)
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if presses != 3 {
		t.Error("a disabled button is pressed")
	}
}

// TestEscapeGivesADialogUp closes the forms from their field and buttons, and
// nothing is done.
func TestEscapeGivesADialogUp(t *testing.T) {
	w := open(t, sample(), laptop)
	name := w.model.Setup().Name
	for _, ask := range []func(){w.askRename, w.askNewSetup, w.askHand} {
		for tabs := range 3 {
			ask()
			for range tabs {
				w.win.Canvas().FocusNext()
			}
			top := w.win.Canvas().Overlays().Top()
			if top == nil {
				t.Fatal("there is no dialog")
			}
			switch w.win.Canvas().Focused().(type) {
			case *askField, *pushButton:
			default: // a choice, which has keys of its own
				top.Hide()
				continue
			}
			w.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
			if w.win.Canvas().Overlays().Top() != nil {
				t.Errorf("with %T focused the dialog stays", w.win.Canvas().Focused())
				top.Hide()
			}
		}
	}
	if got := w.model.Setup().Name; got != name || edits(w.model) != 0 {
		t.Errorf("%d steps, the setup is called %q", edits(w.model), got)
	}
}
