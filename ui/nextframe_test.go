package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"wakeline/timeline"
)

// TestNextFrameIsSaidInADrag drags out of the window of delays, in the smallest
// window: on each frame the words say what the next one would break, and are in
// view.
func TestNextFrameIsSaidInADrag(t *testing.T) {
	w := open(t, sample(), small)
	w.model.Choose(1)
	p := grip(t, w, timeline.PartDelay, 0)
	press(w, p)
	broke := false
	for n := range 9 {
		move(w, p, float64(n), 0, 1)
		next := w.model.Verdict().Later
		if next == nil {
			t.Fatal("there is no next frame")
		}
		row := &w.explain.Rows[2]
		if !strings.Contains(row.Text, next.Because) || row.Mark != next.Word.Judgement() {
			t.Errorf("at delay %d the words say %q, want %q", w.delay(), row.Text, next.Because)
		}
		broke = broke || next.Word == timeline.Unsafe && w.model.Verdict().Word == timeline.Safe
		for _, o := range w.lower.Objects {
			if s, ok := o.(*container.Scroll); ok && s.Size().Height < w.explain.MinSize().Height {
				t.Errorf("at delay %d %g of %g units of the words are in view", w.delay(), s.Size().Height, w.explain.MinSize().Height)
			}
		}
	}
	if !broke {
		t.Error("no next frame breaks the setup: the test says nothing")
	}
	release(w)
}

// TestTheWordsSayLessInASmallWindow leaves out what the sheet says itself, and
// never what is said of a reply that a hand selected.
func TestTheWordsSayLessInASmallWindow(t *testing.T) {
	for _, size := range []fyne.Size{small, {Width: 1920, Height: 1080}} {
		w := open(t, sample(), size)
		w.model.Choose(1)
		brief := size == small
		if got := w.explain.Rows[0].Text == ""; got != brief {
			t.Errorf("%v: the deciding reply is left out: %v", size, got)
		}
		if got := w.explain.Rows[3].Text == ""; got != brief {
			t.Errorf("%v: the hand is left out: %v", size, got)
		}
		w.model.Show(0, 1)
		if w.explain.Rows[0].Text == "" || w.explain.Rows[1].Text == "" || w.explain.Rows[2].Text == "" {
			t.Errorf("%v: of a selected reply it says %+v", size, w.explain.Rows)
		}
	}
}
