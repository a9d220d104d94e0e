package ui

import (
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/timeline"
	"wakeline/timeline/words"
	"wakeline/ui/model"
	"wakeline/ui/sheet"
)

// held takes what a window has run behind it and later, to be run when a test
// says so.
type held struct{ behind, later []func() }

// holdTasks has the window's tasks wait in h from now on.
func holdTasks(w *window) *held {
	h := &held{}
	w.tasks.Spawn = func(do func()) { h.behind = append(h.behind, do) }
	w.tasks.Later = func(do func()) { h.later = append(h.later, do) }
	return h
}

// run runs one of those that wait, and takes it from them.
func run(from *[]func(), i int) {
	do := (*from)[i]
	*from = append((*from)[:i:i], (*from)[i+1:]...)
	do()
}

// all runs everything that waits, and what follows from it.
func (h *held) all() {
	for len(h.later)+len(h.behind) > 0 {
		if len(h.later) > 0 {
			run(&h.later, 0)
		} else {
			run(&h.behind, 0)
		}
	}
}

// holdingShown checks that what the window shows of where the setup holds is
// that of the setup as it stands, or nothing. It reports whether it was shown.
func holdingShown(t *testing.T, w *window, after string) bool {
	t.Helper()
	plan := w.model.Plan()
	want := plan.Holds(w.delay())
	got, ok := w.holding.Now()
	if ok && !reflect.DeepEqual(got, want) {
		t.Fatalf("after %s it holds %+v, want %+v", after, got, want)
	}
	shown := map[string]string{}
	for _, f := range w.numbers.Facts.Facts {
		shown[f.Name] = f.Value
	}
	if w.holds.Known != ok || len(w.holds.Rows) != len(words.Holdings(plan, &want)) {
		t.Fatalf("after %s, known %v, the strip says it is known: %v, in %d rows", after, ok, w.holds.Known, len(w.holds.Rows))
	}
	for i, h := range words.Holdings(plan, &want) {
		row := &w.holds.Rows[i]
		if row.Holding.At != h.At || ok && !reflect.DeepEqual(row.Holding, h) || !ok && !slices.Equal(row.Say, []string{"…"}) {
			t.Fatalf("after %s, known %v, the strip shows %+v, want %+v", after, ok, row, h)
		}
		say := "…"
		if ok {
			say = h.List()
		}
		if name := "holds at " + h.By; shown[name] != say {
			t.Fatalf("after %s, known %v, the numbers say %s: %q, want %q", after, ok, name, shown[name], say)
		}
	}
	say := ""
	if want.HoldsStartup.Given {
		say = words.OrSlower(want.HoldsStartup.N)
	}
	if got := shown["holds at reversals of"]; got != say {
		t.Fatalf("after %s the numbers say it holds at reversals of %q, want %q", after, got, say)
	}
	return ok
}

// TestWhereItHoldsIsNeverStale edits, chooses and takes back while what was
// asked for before comes in late, or never, or out of order.
func TestWhereItHoldsIsNeverStale(t *testing.T) {
	p := spaced()
	other := p.Setups[0]
	other.Name, other.Distance = other.Name+" again", timeline.Some(90)
	p.Setups = append(p.Setups, other)
	w := open(t, p, laptop)
	h := holdTasks(w)
	g := rand.New(rand.NewPCG(3, 9))
	known, unknown := 0, 0
	for range 1500 {
		after := ""
		switch n := g.IntN(32); {
		case n == 0:
			after = "another delay"
			w.model.SetDelay(g.IntN(10))
		case n == 1:
			after = "another distance"
			w.model.SetDistance(60 + g.IntN(160))
		case n == 2:
			after = "another advantage"
			w.model.SetAdvantage(52 + g.IntN(10))
		case n == 3:
			after = "another setup"
			w.model.Choose([]int{0, len(p.Setups) - 1}[g.IntN(2)])
		case n == 4:
			after = "undo"
			w.undo()
		case n < 19 && len(h.later) > 0:
			after = "something that came later"
			run(&h.later, g.IntN(len(h.later)))
		case len(h.behind) > 0:
			after = "something behind the window"
			run(&h.behind, g.IntN(len(h.behind)))
		}
		if holdingShown(t, w, after) {
			known++
		} else {
			unknown++
		}
	}
	if known < 50 || unknown < 50 {
		t.Errorf("it was known %d times and unknown %d times, want each 50 times", known, unknown)
	}
	if h.all(); !holdingShown(t, w, "everything has come in") {
		t.Error("it isn't known when everything has come in")
	}
}

// TestADragStepEndsWhatTheOneBeforeAskedFor: it begins after the step is drawn,
// and what runs behind the window has nothing left to tell after the next.
func TestADragStepEndsWhatTheOneBeforeAskedFor(t *testing.T) {
	m := model.NewModel(inMemory(t, spaced()))
	h := &held{}
	holding := model.NewHolding(t.Context(), m, func(do func()) { h.behind = append(h.behind, do) }, func(do func()) { h.later = append(h.later, do) })
	step := func(delay int) {
		m.SetDelay(delay)
		holding.Ask()
	}
	step(4)
	if len(h.behind) != 0 || len(h.later) != 1 {
		t.Fatalf("in the step itself %d things run behind the window and %d wait for it to be drawn, want 0 and 1", len(h.behind), len(h.later))
	}
	run(&h.later, 0)
	if len(h.behind) != 1 {
		t.Fatalf("after the step %d things run behind the window, want 1", len(h.behind))
	}
	step(5)
	run(&h.behind, 0)
	if len(h.later) != 1 {
		t.Errorf("what the first step asked for has told something; %d things wait, want the second step's alone", len(h.later))
	}
	step(6)
	run(&h.later, 0)
	if len(h.behind) != 0 {
		t.Error("what the second step asked for has begun after the third")
	}
	h.all()
	if got, ok := holding.Now(); !ok || !reflect.DeepEqual(got, m.Plan().Holds(6)) {
		t.Errorf("after the third step it holds %+v, known %v, want %+v", got, ok, m.Plan().Holds(6))
	}
}

// TestTheStripOfWhereItHoldsFits shows both bars, at every size of the text that
// the smallest window may have: the sheet, the words and what is under them keep
// their least height, also where that is a side view.
func TestTheStripOfWhereItHoldsFits(t *testing.T) {
	for _, size := range []fyne.Size{small, laptop, fyne.NewSize(1707, 960)} {
		for _, numbers := range []string{"shown", "hidden"} {
			w := open(t, spaced(), size)
			w.Preferences().SetString(prefNumbers, numbers)
			w.panes.Layout(nil, w.main.Size())
			if len(w.holds.Rows) != 2 || !w.holds.Known {
				t.Fatalf("%v: the strip has %d rows, known %v", size, len(w.holds.Rows), w.holds.Known)
			}
			w.toggleSide()
			w.upDown.Refresh()
			words := w.lower.Objects[0]
			for name, c := range map[string]struct{ got, least float32 }{
				"the strip": {w.holds.Size().Height, w.holds.MinSize().Height}, "the sheet": {w.sheet.Size().Height, sheet.MinH},
				"the words": {words.Size().Height, wordsLine}, "the side view": {w.side.Size().Height, sheet.MinSideH},
			} {
				if c.got < c.least {
					t.Errorf("%v, numbers %s: %s is %g high, want %g", size, numbers, name, c.got, c.least)
				}
			}
			if end := w.holds.Position().Y + w.holds.Size().Height; words.Position().Y < end {
				t.Errorf("%v: the words begin on %g, over the strip that ends on %g", size, words.Position().Y, end)
			}
			if got := w.win.Content().MinSize(); got.Width > size.Width || got.Height > size.Height {
				t.Errorf("%v: the window needs %v", size, got)
			}
		}
	}
}

// BenchmarkDragStepHolds drags the delay with 40 replies on 3 rises and a
// distance of 400, so that 600 units are tried: behind the window, as it is
// while a hand drags; and in the step itself, as a comparison.
func BenchmarkDragStepHolds(b *testing.B) {
	for _, behind := range []bool{true, false} {
		b.Run(map[bool]string{true: "behind", false: "in the step"}[behind], func(b *testing.B) {
			p := crowd(40)
			p.Setups[0].Distance = timeline.Some(400)
			for i := range p.Fighters {
				f := &p.Fighters[i]
				for k := range f.Moves {
					f.Moves[k].Reach = &timeline.Interval{Near: -40, Far: 420}
				}
			}
			w := open(b, p, fyne.NewSize(1440, 900))
			waits := 0
			if behind {
				w.tasks.Later = func(func()) { waits++ }
			}
			at := grip(b, w, timeline.PartDelay, 0)
			press(w, at)
			scale := w.sheet.Drawing().View.Scale
			n, step := 0, 1
			b.ReportAllocs()
			for b.Loop() {
				if n += step; n == 6 || n == 0 {
					step = -step
				}
				ev := &fyne.DragEvent{Dragged: fyne.NewDelta(float32(step)*float32(scale), 0)}
				ev.Position = fyne.NewPos(float32(at.X+float64(n)*scale), float32(at.Y))
				w.sheet.Dragged(ev)
			}
			if (waits > 0) != behind {
				b.Fatalf("%d steps left something for later", waits)
			}
			w.sheet.MouseUp(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
		})
	}
}
