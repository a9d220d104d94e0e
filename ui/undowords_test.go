package ui

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"wakeline/timeline"
	"wakeline/ui/model"
)

// TestUndoSaysWhatItTookBack undoes and redoes what is not on screen: the foot
// of the window, or of the page, says what changed, and where it is seen.
func TestUndoSaysWhatItTookBack(t *testing.T) {
	for _, w := range []*window{open(t, sample(), laptop), openFile(t, sample())} {
		first := w.model.Setup().Name
		said := func(want string) {
			t.Helper()
			got := w.status.Hinted
			if w.page != nil {
				_, got, _ = strings.Cut(pageText(w), "Undone")
				got = "Undone" + strings.TrimRight(got, "\n")
			}
			if got != want {
				t.Errorf("it says %q, want %q", got, want)
			}
		}
		w.model.SetDelay(5)
		w.model.Choose(1)
		w.undo()
		said("Undone: delay of “" + first + "”, 5 → 3")
		if w.model.Chosen() != 0 {
			t.Error("the setup is not shown")
		}
		w.model.Choose(1)
		w.redo()
		said("Redone: delay of “" + first + "”, 3 → 5")

		d := pageOf(t, w)
		w.undo()
		said("Undone: delay of “" + first + "”, 5 → 3. The timeline shows it (Ctrl+1)")
		d.enter(t, "low reed", "startup", "6")
		w.Close()
		w.undo()
		said("Undone: startup of low reed: 6. The move data show it (Ctrl+2)")
		s := w.model.Setup()
		s.Note = "other"
		w.model.Edit(s)
		w.undo()
		said("Undone: note (“" + first + "”)")
	}
}

// TestUndoShowsTheRow undoes an edit of another table and of another fighter:
// the page goes there.
func TestUndoShowsTheRow(t *testing.T) {
	w, d := openData(t, sample())
	d.enter(t, "low reed", "startup", "6")
	d.turn(fyne.KeyPageDown, 1)
	d.fighters.SetSelected("Maerwyn")
	w.undo()
	if d.fighters.Selected != "Ostrel" || d.row() != "low reed" {
		t.Errorf("it shows %s, the cursor on %q", d.fighters.Selected, d.row())
	}
	d.turn(fyne.KeyPageDown, 6)
	rules := d.grid.Shown().Heads()
	d.enter(t, d.grid.Shown().Text(5, 0), "value", "4")
	d.turn(fyne.KeyPageUp, 2)
	w.undo()
	if got := d.grid.Shown().Heads(); !slices.Equal(got, rules) {
		t.Errorf("it shows a table of %v", got)
	}
}

func TestOneChange(t *testing.T) {
	s := sample().Setups[0]
	for want, edit := range map[string]func(s *timeline.Setup){
		"press auto 3":                  func(s *timeline.Setup) { s.Press = timeline.Some(3) },
		"advantage the ender's 9":       func(s *timeline.Setup) { s.Advantage = timeline.Some(9) },
		"attack falling heel none":      func(s *timeline.Setup) { s.Attack = "" },
		"landing action guard low reed": func(s *timeline.Setup) { s.Landing = "low reed" },
		"  ":                            func(s *timeline.Setup) { s.Delay, s.Landing = 0, "low reed" },
	} {
		next := s
		edit(&next)
		what, was, is := model.OneChange(&s, &next)
		if got := what + " " + was + " " + is; got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
