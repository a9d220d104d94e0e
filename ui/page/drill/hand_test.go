package drill

import (
	"math"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"wakeline/timeline"
	"wakeline/ui/page"
	"wakeline/ui/page/pagetest"
	"wakeline/ui/paint"
)

// The last press is discarded in the drill, after it, and off a record of before.
func TestTheLastPressIsDiscarded(t *testing.T) {
	w, d, h := openDrill(t, pagetest.Sample())
	if !d.hand.discards.Disabled() || !d.hand.clears.Disabled() {
		t.Error("there is something to discard before the first press")
	}
	back := func() { d.pad.TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace}) }
	back()
	drillOut(d, h, 5) // a drill of before
	d.pad.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	drillOut(d, h, 10, 20, 30)
	if d.hand.discards.Disabled() || !d.hand.clears.Disabled() {
		t.Error("a drill that runs can't be cleared, but its last press can be discarded")
	}
	late := func(want ...float64) {
		t.Helper()
		got, shown := w.Timing().Drilled(), d.clock.late()
		if !near(got, want) || len(shown) > 0 && !near(shown, want[1:]) {
			t.Errorf("the record is %v, shown are %v, want %v", got, shown, want)
		}
	}
	back()
	if n := len(d.clock.presses); n != 2 || d.said.Text != "The last press is discarded." || !strings.HasPrefix(d.words.Text, "2 presses, ") || !near(w.Timing().Drilled(), []float64{5}) {
		t.Errorf("%d presses, %q, %q", n, d.said.Text, d.words.Text)
	}
	d.pad.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	late(5, 10, 20)
	back()
	late(5, 10)
	d, _ = drillIn(t, w) // what was drilled before
	d.discardPress()
	late(5)
	d.discardPress()
	late()
	if kept, err := w.Model().Document().Drills(); err != nil || !d.hand.discards.Disabled() || len(kept) != 0 {
		t.Error("something is left to discard")
	}
}

func near(got, want []float64) bool {
	return slices.EqualFunc(got, want, func(a, b float64) bool { return math.Abs(a-b) < 0.01 })
}

// Each hand by name has a record of its own, in a project file too; the one that
// is chosen is drilled, and odds and search are of it.
func TestSeveralHands(t *testing.T) {
	for _, kind := range []string{"text", "file"} {
		t.Run(kind, func(t *testing.T) {
			w := map[string]func(testing.TB, *timeline.Project) *pagetest.Host{"text": pagetest.Open, "file": pagetest.OpenFile}[kind](t, pagetest.Sample())
			d, h := drillIn(t, w)
			if got := d.hand.pick.Options; !slices.Equal(got, []string{page.NamelessHand, newHandLabel}) || d.hand.pick.Selected != page.NamelessHand {
				t.Fatalf("at first %q of %q", d.hand.pick.Selected, got)
			}
			drillOut(d, h, tenLate...)
			w.Timing().ChooseHand("Ann")
			if d.record.hand != "Ann" || d.hand.pick.Selected != "Ann" || len(d.clock.presses) != 0 || !w.Timing().Person().Assumed || !strings.HasPrefix(d.words.Text, "There is no drill of Ann yet.") {
				t.Fatalf("Ann before her first drill: %q, %+v, %q", d.hand.pick.Selected, w.Timing().Person(), d.words.Text)
			}
			d.hand.pick.SetSelected(newHandLabel)
			if w.Dialogs().Top() == nil || d.hand.pick.Selected != "Ann" {
				t.Errorf("a new hand: %q, asks %v", d.hand.pick.Selected, w.Dialogs().Top())
			}
			w.Dialogs().Top().Hide()
			slow := make([]float64, 10)
			for i := range slow {
				slow[i] = 60 + float64(i%3)
			}
			drillOut(d, h, slow...)
			if !d.hand.pick.Disabled() && d.clock.running() {
				t.Error("the hand can be changed while it drills")
			}
			is := func(name string, bias float64) {
				t.Helper()
				if p := w.Timing().Person(); p.Name != name || p.Presses != 10 || math.Abs(p.Bias-bias) > 0.1 {
					t.Errorf("the hand is %+v, want %q, %v late", p, name, bias)
				}
			}
			is("Ann", 61)
			d.hand.pick.SetSelected(page.NamelessHand)
			is("", 10)
			// Cleared is the record of the chosen hand alone, after a question.
			d.hand.clears.Press()
			if w.Dialogs().Top() == nil || len(w.Timing().Drilled()) != 10 {
				t.Fatal("nothing asks before the record is cleared")
			}
			w.Dialogs().Top().Buttons()[1].(*paint.PushButton).Press()
			if len(w.Timing().Drilled()) != 0 || !d.hand.clears.Disabled() || !strings.HasPrefix(d.words.Text, "There is no drill yet.") {
				t.Errorf("cleared: %d presses, %q", len(w.Timing().Drilled()), d.words.Text)
			}
			d.hand.pick.SetSelected("Ann")
			is("Ann", 61)
		})
	}
}

func TestNameOfAHand(t *testing.T) {
	for text, want := range map[string]string{" Ann ": "Ann", "": "", "no name": "", "New hand…": "", "a\tb": "", strings.Repeat("x", 41): "", "Åsa 2": "Åsa 2"} {
		if got, err := nameOfHand(text); got != want || (err == nil) != (want != "") {
			t.Errorf("%q is %q, %v, want %q", text, got, err, want)
		}
	}
}
