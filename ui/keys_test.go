package ui

import (
	"testing"

	"fyne.io/fyne/v2"

	"wakeline/timeline"
)

func TestArrows(t *testing.T) {
	w := open(t, sample(), laptop)
	key(w, fyne.KeyRight, 3)
	if got := w.delay(); got != 6 {
		t.Errorf("delay after Right three times = %d, want 6", got)
	}
	if got := edits(w.model); got != 3 {
		t.Errorf("%d steps, want one a key, 3", got)
	}
	key(w, fyne.KeyLeft, 20)
	if got := w.delay(); got != 0 {
		t.Errorf("delay after Left = %d, want 0", got)
	}
	if got := edits(w.model); got != 9 {
		t.Errorf("%d steps, want 9: at 0 Left does nothing", got)
	}
	w.sheet.Keys = func() fyne.KeyModifier { return fyne.KeyModifierShift }
	key(w, fyne.KeyRight, 1)
	if got := w.delay(); got != 10 {
		t.Errorf("delay after Shift and Right = %d, want 10", got)
	}
	for range 30 {
		w.undo()
	}
	if w.delay() != 3 || w.model.CanUndo() || w.model.Edited() {
		t.Errorf("all undone: delay %d, edited %v", w.delay(), w.model.Edited())
	}
	for range 30 {
		w.redo()
	}
	if w.delay() != 10 || w.model.CanRedo() {
		t.Errorf("all redone: delay %d", w.delay())
	}
}

func TestPressKeys(t *testing.T) {
	w := open(t, sample(), laptop)
	auto := w.model.Plan().Press()
	w.sheet.TypedRune('[')
	w.sheet.TypedRune('[')
	w.sheet.TypedRune(']')
	if got, want := w.model.Setup().Press, timeline.Some(auto-1); got != want {
		t.Errorf("press = %v, want %v", got, want)
	}
}

func TestReplyKeys(t *testing.T) {
	w := open(t, sample(), laptop)
	w.model.Choose(1)
	rise, line := w.model.Shown()
	decidingRise, decidingLine := w.model.Plan().Deciding(w.delay())
	if rise != decidingRise || line != decidingLine {
		t.Fatalf("shows %d, %d, want the deciding %d, %d", rise, line, decidingRise, decidingLine)
	}
	for range 20 {
		key(w, fyne.KeyUp, 1)
	}
	key(w, fyne.KeyDown, 2)
	if _, line = w.model.Shown(); line != 2 || w.model.Follows() {
		t.Errorf("shows line %d, follows %v; want 2", line, w.model.Follows())
	}
	w.sheet.Keys = func() fyne.KeyModifier { return fyne.KeyModifierShift }
	key(w, fyne.KeyUp, 1)
	key(w, fyne.KeyDown, 1)
	if rise, _ = w.model.Shown(); rise != 1 {
		t.Errorf("shows rise %d, want 1", rise)
	}
	w.sheet.Keys = func() fyne.KeyModifier { return 0 }
	key(w, fyne.KeyRight, 4)
	if rise, line = w.model.Shown(); rise != 1 || line != 2 {
		t.Errorf("a chosen reply went to %d, %d", rise, line)
	}
	w.sheet.TypedRune('d')
	decidingRise, decidingLine = w.model.Plan().Deciding(w.delay())
	if rise, line = w.model.Shown(); rise != decidingRise || line != decidingLine || !w.model.Follows() {
		t.Errorf("after D shows %d, %d, want %d, %d", rise, line, decidingRise, decidingLine)
	}
}

func TestZoomKeys(t *testing.T) {
	w := open(t, sample(), laptop)
	fit := w.sheet.Drawing().View
	w.sheet.TypedRune('+')
	if got := w.sheet.Drawing().View.Scale; got <= fit.Scale {
		t.Errorf("scale %g after +, was %g", got, fit.Scale)
	}
	for range 60 {
		w.sheet.TypedRune('-')
	}
	if got := w.sheet.Drawing().View.Scale; got <= 0 || got >= fit.Scale {
		t.Errorf("scale %g after much -", got)
	}
	w.sheet.TypedRune('0')
	if got := w.sheet.Drawing().View; got != fit {
		t.Errorf("view %v after 0, want %v", got, fit)
	}
}

func TestFollowsTheDecidingReplyWhileDragging(t *testing.T) {
	w := open(t, sample(), laptop)
	p := grip(t, w, timeline.PartDelay, 0)
	press(w, p)
	for d := 0.0; d < 8; d++ {
		move(w, p, d-3, 0, 1)
		rise, line := w.model.Plan().Deciding(w.delay())
		if r, l := w.model.Shown(); r != rise || l != line {
			t.Errorf("at delay %d shows %d, %d, want %d, %d", w.delay(), r, l, rise, line)
		}
	}
	release(w)
}
