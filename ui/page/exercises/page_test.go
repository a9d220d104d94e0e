package exercises

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"wakeline/samples"
	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/timeline/exercise"
	"wakeline/ui/page/pagetest"
)

// open shows the page of the sample, which picks the least number always.
func open(t *testing.T) (*pagetest.Host, *Page, *string) {
	t.Helper()
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	w := pagetest.OpenFile(t, p)
	csv := new(string)
	e := New(w, Asks{Keys: func() fyne.KeyModifier { return 0 }, Export: func(text string) { *csv = text }})
	e.pick = func(int) int { return 0 }
	e.now = func() time.Time { return time.Date(2026, 11, 29, 12, 0, 0, 0, time.UTC) }
	w.Show(e)
	e.Refocus()
	return w, e, csv
}

// press types a key where the keys are.
func press(w *pagetest.Host, keys ...fyne.KeyName) {
	for _, k := range keys {
		w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: k})
	}
}

// only ticks one kind.
func only(e *Page, kind exercise.Kind) {
	for k, tick := range e.kinds {
		tick.SetChecked(k == kind)
	}
}

// right gives the question a right answer, by the keys.
func right(t *testing.T, w *pagetest.Host, e *Page) {
	t.Helper()
	r, a := e.sitting.round, e.asking
	switch {
	case r.Kind == exercise.WhereSafe:
		good := r.Plan.SafeDelays()
		if good.Empty() {
			test.Tap(a.none)
			return
		}
		for a.sheet.Delay != good.First() {
			key := fyne.KeyRight
			if good.First() < a.sheet.Delay {
				key = fyne.KeyLeft
			}
			press(w, key)
		}
	case len(r.Fields) > 0:
		v := r.Plan.Verdict(r.Delay)
		c := v.Rises[r.Rise].Replies[r.Line]
		for i, n := range []int{v.Advantage, c.Meeting.N, c.Spare.N}[:len(r.Fields)] {
			a.entries[i].SetText(fmt.Sprint(n))
		}
	default:
		for a.choice < r.RightChoices()[0] {
			press(w, fyne.KeyDown)
		}
	}
	press(w, fyne.KeyReturn)
}

// TestAStudentAnswersEachKind goes through a run of every kind by keys: each
// right answer is told and kept, and nothing of the project is changed.
func TestAStudentAnswersEachKind(t *testing.T) {
	followed := 0 // answers that draw what follows their meeting
	for _, kind := range exercise.Kinds {
		w, e, _ := open(t)
		before, err := w.Model().Document().Whole()
		if err != nil {
			t.Fatal(err)
		}
		only(e, kind)
		e.student.SetText(" Mara ")
		e.count.SetText("3")
		press(w, fyne.KeyReturn) // Start has the keys
		for n := range 3 {
			if e.sitting == nil || e.sitting.over() || e.sitting.round.Kind != kind {
				t.Fatalf("%s: question %d is not asked: %s", kind, n+1, e.results.Text)
			}
			if got := e.asking.head.Text; !strings.HasPrefix(got, fmt.Sprintf("Question %d of 3", n+1)) {
				t.Errorf("%s: head %q", kind, got)
			}
			right(t, w, e)
			if !e.sitting.round.Right || !strings.HasPrefix(e.asking.said.Text, "Right. ") {
				t.Fatalf("%s, %s: a right answer is told as %q", kind, e.sitting.round.Setup, e.asking.said.Text)
			}
			if e.asking.answer.Drawing == nil && !e.asking.answer.Visible() {
				t.Errorf("%s: the answer isn't drawn", kind)
			}
			if e.asking.answer.Scene.Then != "" {
				followed++
			}
			press(w, fyne.KeyReturn) // Next
		}
		if !e.sitting.over() || !strings.HasPrefix(e.overIn.Text, "The run is over: 6 of 6 points.") {
			t.Errorf("%s: at the end %q", kind, e.overIn.Text)
		}
		got, err := w.Model().Document().Answers()
		if err != nil || len(got) != 3 {
			t.Fatalf("%s: %d results, %v", kind, len(got), err)
		}
		for _, r := range got {
			if r.Student != "Mara" || r.Kind != kind || r.Points != 2 || r.Tries != 1 || r.Date != "2026-11-29T12:00:00Z" {
				t.Errorf("%s: kept is %+v", kind, r)
			}
		}
		after, err := w.Model().Document().Whole()
		if err != nil || string(timeline.WriteText(after)) != string(timeline.WriteText(before)) {
			t.Errorf("%s: the project is another, %v", kind, err)
		}
		if undo, _ := w.Model().Document().Next(); undo.What != "" {
			t.Errorf("%s: undo would take back %q", kind, undo.What)
		}
	}
	if followed == 0 {
		t.Error("no answer draws what follows")
	}
}

func TestAWrongAnswerIsTriedAgainAndThenTold(t *testing.T) {
	w, e, csv := open(t)
	only(e, exercise.WhatBreaks)
	e.order.SetSelected(inOrder)
	e.count.SetText("2")
	test.Tap(e.start)
	wrong := func() int {
		r := e.sitting.round
		for i := range r.Choices {
			if !r.Weigh(exercise.Answer{Choice: i}).Right {
				return i
			}
		}
		t.Fatal("every choice is right")
		return 0
	}
	press(w, fyne.KeyReturn)
	if e.asking.said.Text != "Choose one first, with a click or with Space." || e.sitting.round.Tries != 0 {
		t.Errorf("nothing chosen: %q", e.asking.said.Text)
	}
	e.asking.choices.Select(wrong())
	press(w, fyne.KeyReturn)
	if e.sitting.round.Done || !strings.HasSuffix(e.asking.said.Text, "One more try.") || !e.asking.sheet.Visible() || e.asking.answer.Visible() {
		t.Fatalf("a first wrong answer: %q", e.asking.said.Text)
	}
	test.Tap(e.asking.hint)
	if !strings.HasPrefix(e.asking.said.Text, "Hint 1: ") {
		t.Errorf("the hint is %q", e.asking.said.Text)
	}
	press(w, fyne.KeyReturn)
	if !e.sitting.round.Done || !strings.HasPrefix(e.asking.said.Text, "The answer: ") || e.asking.sheet.Visible() {
		t.Fatalf("a second wrong answer: %q", e.asking.said.Text)
	}
	press(w, fyne.KeyReturn)
	test.Tap(e.asking.tell)
	press(w, fyne.KeyReturn)
	if !strings.Contains(e.overIn.Text, "0 of 4 points") {
		t.Errorf("at the end: %q", e.overIn.Text)
	}
	press(w, fyne.KeyEscape)
	test.Tap(e.exports)
	lines := strings.Split(strings.TrimSpace(strings.TrimPrefix(*csv, "\ufeff")), "\n")
	if len(lines) != 3 || strings.TrimSpace(lines[0]) != "student,date,setup,kind,right,tries,hints,points" || !strings.Contains(lines[1], ",no,2,1,0") {
		t.Errorf("the table is %q", *csv)
	}
	test.Tap(e.deletes)
	w.Tap(t, "Cancel")
	if got, _ := w.Model().Document().Answers(); len(got) != 2 {
		t.Errorf("cancelled, %d results are left", len(got))
	}
	test.Tap(e.deletes)
	w.Tap(t, "Delete")
	if got, err := w.Model().Document().Answers(); err != nil || len(got) != 0 {
		t.Errorf("%d results are left, %v", len(got), err)
	}
}

// TestWhatCanNotBegin says why.
func TestWhatCanNotBegin(t *testing.T) {
	for _, c := range []struct {
		name string
		make func(w *pagetest.Host, e *Page)
		want string
	}{
		{"no kind", func(_ *pagetest.Host, e *Page) { only(e, "none") }, "Tick at least one kind"},
		{"no number", func(_ *pagetest.Host, e *Page) { e.count.SetText("many") }, "Expected a number of questions from 1 to 500."},
		{"a number below 1", func(_ *pagetest.Host, e *Page) { e.count.SetText("0") }, "Expected a number"},
		{"a long name", func(_ *pagetest.Host, e *Page) { e.student.SetText(strings.Repeat("a", timeline.MaxName+1)) }, "Expected a name of at most"},
		{"an empty list", func(w *pagetest.Host, _ *Page) { w.Filter = func(*timeline.Setup) bool { return false } }, "The list shows no setups"},
	} {
		w, e, _ := open(t)
		c.make(w, e)
		test.Tap(e.start)
		if e.sitting != nil || !strings.Contains(e.results.Text, c.want) {
			t.Errorf("%s: %q", c.name, e.results.Text)
		}
	}
}

// TestWhatWasGotWrongComesBack answers one setup wrongly, and finds its weight
// in what is drawn next.
func TestWhatWasGotWrongComesBack(t *testing.T) {
	w, e, _ := open(t)
	only(e, exercise.WhatBreaks)
	e.student.SetText("Ilo")
	names := []string{}
	for i := range 4 {
		s, err := w.Model().Document().Setup(i)
		if err != nil {
			t.Fatal(err)
		}
		names = append(names, s.Name)
	}
	for range 3 {
		for _, r := range []exercise.Record{{Student: "Ilo", Setup: names[0], Kind: exercise.WhatBreaks, Right: true, Points: 2},
			{Student: "Ilo", Setup: names[1], Kind: exercise.WhatBreaks, Right: true, Points: 2}, {Student: "Ilo", Setup: names[2], Kind: exercise.WhatBreaks},
			{Student: "Mara", Setup: names[1], Kind: exercise.WhatBreaks}} {
			if err := w.Model().Document().KeepAnswer(r); err != nil {
				t.Fatal(err)
			}
		}
	}
	w.Filter = func(s *timeline.Setup) bool { return s.Name == names[0] || s.Name == names[1] || s.Name == names[2] }
	e.pick = func(n int) int {
		if n == 1+1+7 { // the first draw, among the weights of the three
			return 2
		}
		return 0
	}
	test.Tap(e.start)
	if got := e.sitting.round.Setup; got != names[2] {
		t.Errorf("first comes %q, want %q, which was got wrong", got, names[2])
	}
}

// TestInStudentModeResultsAreNotDeleted keeps the answers, and nothing else.
func TestInStudentModeResultsAreNotDeleted(t *testing.T) {
	w, e, _ := open(t)
	w.Model().SetStudent(true)
	only(e, exercise.WhatBreaks)
	e.count.SetText("1")
	test.Tap(e.start)
	right(t, w, e)
	press(w, fyne.KeyReturn, fyne.KeyEscape)
	if got, err := w.Model().Document().Answers(); err != nil || len(got) != 1 {
		t.Errorf("%d results, %v", len(got), err)
	}
	if !e.deletes.Disabled() || e.exports.Disabled() {
		t.Error("results can be deleted, or not exported")
	}
	if w.Model().SetDelay(w.Model().Setup().Delay + 1); w.Model().ReadOnly() != storage.AnswersOnly {
		t.Errorf("read-only because %q", w.Model().ReadOnly())
	}
	if undo, _ := w.Model().Document().Next(); undo.What != "" {
		t.Errorf("the delay was edited: %q", undo.What)
	}
}
