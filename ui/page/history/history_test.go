package history

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/page/pagetest"
)

// historyLines are the page's lines as it would show them.
func historyLines(h *Page) (out []string) {
	for i, s := range h.steps {
		line := s.What
		if s.Undone {
			line += " undone"
		}
		if i == model.NowStep(h.steps) {
			line = "now: " + line
		}
		out = append(out, line)
	}
	return out
}

// TestAClickInTheHistoryGoesToThatStep clicks through the steps of a file and
// of a project in memory.
func TestAClickInTheHistoryGoesToThatStep(t *testing.T) {
	for kind, w := range map[string]*pagetest.Host{"file": pagetest.OpenFile(t, pagetest.Sample()), "text": pagetest.Open(t, pagetest.Sample())} {
		start := w.Model().Setup().Delay
		for i := 1; i <= 4; i++ {
			w.Model().SetDelay(start + i)
			w.Model().Commit()
		}
		if err := w.Model().Rename("renamed"); err != nil {
			t.Fatal(err)
		}
		h, err := New(w)
		if err != nil {
			t.Fatal(err)
		}
		w.Show(h)
		if got := fmt.Sprint(historyLines(h)); got != fmt.Sprintf("[now: name renamed delay %d delay %d delay %d delay %d]", start+4, start+3, start+2, start+1) {
			t.Fatalf("%s: it lists %s", kind, got)
		}
		if h.len() != 6 || h.at != 0 {
			t.Errorf("%s: %d lines, %d is marked", kind, h.len(), h.at)
		}
		for _, c := range []struct{ line, delay int }{{3, start + 2}, {1, start + 4}, {5, start}, {0, start + 4}, {4, start + 1}, {4, start + 1}} {
			for _, o := range test.LaidOutObjects(h.list) {
				if r, ok := o.(*row); ok && r.At == c.line {
					r.Tapped(&fyne.PointEvent{})
					break
				}
			}
			if got := w.Model().Setup().Delay; got != c.delay {
				t.Fatalf("%s: line %d led to delay %d, want %d", kind, c.line, got, c.delay)
			}
			if now := model.NowStep(h.steps); now != c.line || h.at != c.line {
				t.Errorf("%s: after a click on line %d the present is line %d, marked %d", kind, c.line, now, h.at)
			}
			if name := w.Model().Setup().Name; (name == "renamed") != (c.line == 0) {
				t.Errorf("%s: at line %d it is called %q", kind, c.line, name)
			}
		}
		// By keys, and undo on the page.
		key := func(name fyne.KeyName) { w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: name}) }
		key(fyne.KeyHome)
		key(fyne.KeyDown)
		key(fyne.KeyReturn)
		if got := w.Model().Setup().Delay; got != start+4 || h.at != 1 {
			t.Errorf("%s: Down and Enter led to delay %d, line %d", kind, got, h.at)
		}
		w.Model().Undo()
		if got := w.Model().Setup().Delay; got != start+3 || model.NowStep(h.steps) != 2 {
			t.Errorf("%s: undo led to delay %d, line %d", kind, got, model.NowStep(h.steps))
		}
		key(fyne.KeyEscape)
		if w.Page != nil {
			t.Errorf("%s: Escape stays on the page", kind)
		}
	}
}

// TestTheHistoryOfNothing shows the page where nothing was done.
func TestTheHistoryOfNothing(t *testing.T) {
	w := pagetest.Open(t, nil)
	h, err := New(w)
	if err != nil {
		t.Fatal(err)
	}
	w.Show(h)
	if h.len() != 1 || model.NowStep(h.steps) != 0 {
		t.Errorf("%d lines, now is %d", h.len(), model.NowStep(h.steps))
	}
	w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if page.Busy(w) {
		t.Error("Enter brings a dialog")
	}
}
