package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/paint"
)

// TestKeysPressAButton types as a driver does: a key, then the letter that it
// makes, each for what has the keys then.
func TestKeysPressAButton(t *testing.T) {
	w := open(t, sample(), laptop)
	field := widget.NewEntry()
	presses := 0
	b := paint.NewButton("Name it", func() {
		presses++
		w.Canvas().Focus(field)
	})
	w.pages.Add(b)
	w.pages.Add(field)
	for i, k := range []struct {
		name   fyne.KeyName
		letter rune
	}{{fyne.KeySpace, ' '}, {fyne.KeyReturn, 0}, {fyne.KeyEnter, 0}, {fyne.KeyX, 'x'}} {
		w.Canvas().Focus(b)
		w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: k.name})
		if k.letter != 0 {
			w.Canvas().Focused().TypedRune(k.letter)
		}
		if want := min(i+1, 3); presses != want || field.Text != "" {
			t.Errorf("after %s %d presses, want %d; the field holds %q", k.name, presses, want, field.Text)
		}
	}
	b.Disable()
	w.Canvas().Focus(b)
	b.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if presses != 3 {
		t.Error("a disabled button is pressed")
	}
}
