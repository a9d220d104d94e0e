package lesson

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/timeline"
	"wakeline/timeline/words"
	"wakeline/ui/model"
	"wakeline/ui/page/pagetest"
	"wakeline/ui/sheet"
)

func at(p sheet.Point) fyne.Position { return fyne.NewPos(float32(p.X), float32(p.Y)) }

// textsOn is what a control says of itself.
func textsOn(o fyne.CanvasObject) (out []string) {
	v := reflect.Indirect(reflect.ValueOf(o))
	for _, field := range []string{"Selected", "PlaceHolder", "Text"} {
		if f := v.FieldByName(field); f.IsValid() && f.Kind() == reflect.String {
			out = append(out, f.String())
		}
	}
	return out
}

// tells reports what of the exercise's page tells how the setup ends.
func tells(l *Page) (out []string) {
	var look func(o fyne.CanvasObject)
	var words []string
	look = func(o fyne.CanvasObject) {
		if !o.Visible() {
			return
		}
		if c, ok := o.(*fyne.Container); ok {
			for _, in := range c.Objects {
				look(in)
			}
			return
		}
		words = append(words, textsOn(o)...)
	}
	look(l.box)
	words = append(words, texts(l.exercise.Drawing.Shapes)...)
	for _, s := range l.exercise.Drawing.Shapes {
		var roles []sheet.Role
		switch s := s.(type) {
		case sheet.Box:
			roles = []sheet.Role{s.Fill, s.Stroke}
		case sheet.Line:
			roles = []sheet.Role{s.Stroke}
		case sheet.Path:
			roles = []sheet.Role{s.Fill, s.Stroke}
		case sheet.Text:
			roles = []sheet.Role{s.Role}
		}
		if slices.ContainsFunc(roles, func(r sheet.Role) bool { return r >= sheet.Safe }) {
			out = append(out, fmt.Sprintf("%+v", s))
		}
	}
	m := l.host.Model()
	banned := []string{"SAFE", "UNSAFE", "LIMITED", "EVEN", m.Setup().Name, m.Verdict().Because, "spare", "gap ", "safe at", "too late", "no delay is safe"}
	for _, word := range words {
		for _, b := range banned {
			if strings.Contains(word, b) {
				out = append(out, word)
			}
		}
	}
	return out
}

// begun begins an exercise of the chosen setup that starts at its first delay
// outside the window, and so always at the same.
func begun(t *testing.T, w *pagetest.Host) *Page {
	t.Helper()
	l := lessonIn(w)
	l.pick = func(int) int { return 0 }
	lessonKey(l, fyne.KeyReturn)
	if l.state != asked || l.view.Box.Visible() || w.Canvas().Focused() != fyne.Focusable(l.exercise) {
		t.Fatalf("Enter begins no exercise: state %d", l.state)
	}
	return l
}

// TestTheExerciseTellsNothing: at no delay that a student may try does the
// page say or show how it ends, until it is asked; and no setup is edited.
func TestTheExerciseTellsNothing(t *testing.T) {
	w := pagetest.Open(t, pagetest.Sample())
	for i := range w.Model().Len() {
		w.Model().Choose(i)
		before := w.Model().Setup()
		l := begun(t, w)
		lessonKey(l, fyne.KeyHome)
		for d := range w.Model().Plan().LastDelay() {
			if l.exercise.Delay != d {
				t.Fatalf("delay %d, want %d", l.exercise.Delay, d)
			}
			if got := tells(l); len(got) > 0 {
				t.Fatalf("at delay %d it tells %q", d, got)
			}
			lessonKey(l, fyne.KeyRight)
		}
		if l.Picture() != nil || l.Text() != "" {
			t.Error("the answer can be copied")
		}
		if l.Edits() {
			t.Error("undo works in an exercise")
		}
		after := w.Model().Setup()
		if !model.SameSetup(&before, &after) || w.Model().CanUndo() {
			t.Errorf("the exercise edited %+v to %+v", before, after)
		}
		w.Close()
	}
}

// TestTheExerciseTellsStepByStep: first right or wrong and in which direction,
// then a hint at a time, then all.
func TestTheExerciseTellsStepByStep(t *testing.T) {
	w := pagetest.Open(t, pagetest.Sample())
	l := begun(t, w)
	plan := w.Model().Plan()
	safe := plan.SafeDelays()
	says := func(part string) {
		t.Helper()
		if !l.said.Visible() || !strings.Contains(l.said.Text, part) {
			t.Errorf("it says %q, want %q in it", l.said.Text, part)
		}
	}
	if safe.Has(l.exercise.Delay) || l.answer.Visible() || !l.hint.Visible() {
		t.Fatalf("it starts at %d, the answer offered: %v", l.exercise.Delay, l.answer.Visible())
	}

	try := func(d int, how string) {
		t.Helper()
		lessonKey(l, fyne.KeyHome)
		for range d {
			lessonKey(l, fyne.KeyRight)
		}
		lessonKey(l, fyne.KeyReturn)
		says(fmt.Sprintf("Not right. Delay %d is too %s. Try again", d, how))
		if l.state != asked || l.view.Box.Visible() || !l.answer.Visible() {
			t.Fatalf("a wrong delay shows the answer: state %d", l.state)
		}
	}
	try(safe.Last()+1, "late")
	try(safe.First()-1, "early")

	hints := words.Hints(plan)
	for i, h := range hints {
		if l.hint.Disabled() {
			t.Fatalf("hint %d of %d can't be asked for", i+1, len(hints))
		}
		l.hint.OnTapped()
		says(fmt.Sprintf("Hint %d: %s", i+1, h))
		if i+1 < len(hints) && strings.Contains(l.said.Text, hints[i+1]) {
			t.Error("two hints at once")
		}
	}
	if len(hints) < 2 || !l.hint.Disabled() {
		t.Errorf("%d hints, more offered: %v", len(hints), !l.hint.Disabled())
	}
	if w.Canvas().Focused() != fyne.Focusable(l.exercise) {
		t.Error("after a hint the keys move no delay")
	}

	guess := words.GuessAt(plan, l.exercise.Delay)
	l.answer.OnTapped()
	if l.state != answered || !l.view.Box.Visible() || l.said.Text != "The answer: "+guess.Words {
		t.Fatalf("state %d says %q, want %q", l.state, l.said.Text, guess.Words)
	}
	if !slices.ContainsFunc(l.lesson.Steps, func(s words.Step) bool { return s.Delay == l.exercise.Delay }) {
		t.Errorf("the lesson after it doesn't show delay %d, which was tried", l.exercise.Delay)
	}
	if got := w.Preferences().String(prefNeighbours); got != "" {
		t.Errorf("the frames each way are kept as %q, though nobody chose them", got)
	}
	if w.Note("It is on the clipboard"); !strings.Contains(l.said.Text, "on the clipboard") || !strings.HasSuffix(l.said.Text, guess.Words) {
		t.Errorf("after copying it says %q", l.said.Text)
	}
	if w.Model().Setup().Delay != 3 || l.lesson.Steps[l.lesson.Own].Delay != 3 {
		t.Error("the lesson after it is not the setup's own")
	}
}

// TestARightDelayEndsTheExercise, and a wrong "no delay" doesn't; the next
// setup brings the next exercise.
func TestARightDelayEndsTheExercise(t *testing.T) {
	w := pagetest.Open(t, pagetest.Sample())
	l := begun(t, w)
	l.none.OnTapped()
	if l.state != asked || !strings.HasPrefix(l.said.Text, "Not right. There is a delay that is safe. ") {
		t.Errorf("none is answered with %q", l.said.Text)
	}
	lessonKey(l, fyne.KeyHome)
	for range w.Model().Plan().SafeDelays().First() {
		lessonKey(l, fyne.KeyRight)
	}
	lessonKey(l, fyne.KeyReturn)
	if want := "Right. " + words.GuessAt(w.Model().Plan(), l.exercise.Delay).Words; l.state != answered || l.said.Text != want {
		t.Errorf("state %d says %q, want %q", l.state, l.said.Text, want)
	}
	l.try.OnTapped()
	if l.state != asked || l.said.Text != asking || l.answer.Visible() {
		t.Errorf("tried again, it says %q", l.said.Text)
	}
	l.next.OnTapped()
	if w.Model().Chosen() != 1 || l.state != asked || l.exercise.Question.Plan != w.Model().Plan() {
		t.Errorf("the next exercise is of setup %d, state %d", w.Model().Chosen(), l.state)
	}
	lessonKey(l, fyne.KeyEscape)
	if l.state != shown || !w.Showing(l) {
		t.Error("Escape does not give the exercise up alone")
	}
}

// TestTheExerciseShowsEveryRise: where the rival may get up in several ways a
// student can look at each.
func TestTheExerciseShowsEveryRise(t *testing.T) {
	w := pagetest.Open(t, pagetest.Sample())
	w.Model().Choose(1)
	l := begun(t, w)
	if n := w.Model().Plan().Rises(); n < 2 || len(l.upOn.Options) != n || !l.rises.Visible() {
		t.Fatalf("%d rises, %d to choose from", n, len(l.upOn.Options))
	}
	wake := l.exercise.Scene.Wake
	l.upOn.SetSelectedIndex(1)
	if l.exercise.Scene.Wake <= wake || l.exercise.Question.Line != l.against.SelectedIndex() {
		t.Errorf("the second rise shows the wake-up %d, the first %d", l.exercise.Scene.Wake, wake)
	}
}

// TestABlankSetupHasNoExercise: where there is nothing to judge yet there is no
// delay to look for.
func TestABlankSetupHasNoExercise(t *testing.T) {
	p := pagetest.Sample()
	p.Setups[1].Attack, p.Setups[1].Replies = "", nil
	w := pagetest.Open(t, p)
	l := begun(t, w)
	l.next.OnTapped()
	if l.state != shown || !l.try.Disabled() || !l.view.Box.Visible() {
		t.Errorf("state %d, to be tried: %v", l.state, !l.try.Disabled())
	}
	lessonKey(l, fyne.KeyReturn)
	if l.state != shown {
		t.Error("Enter begins an exercise of it")
	}
	l.next.OnTapped()
	if l.try.Disabled() {
		t.Error("the next setup can't be tried")
	}
}

func TestAStudentDragsTheJump(t *testing.T) {
	w := pagetest.Open(t, pagetest.Sample())
	l := begun(t, w)
	lessonKey(l, fyne.KeyHome)
	e := l.exercise
	var p sheet.Point
	for _, h := range e.Drawing.Hots {
		if h.Part == timeline.PartJump {
			p = sheet.Point{X: (h.Min.X + h.Max.X) / 2, Y: (h.Min.Y + h.Max.Y) / 2}
		}
	}
	down := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
	down.Position = at(p)
	e.MouseDown(down)
	scale := e.Drawing.View.Scale
	for _, c := range []struct {
		frames float64
		want   int
	}{{4, 4}, {4.4, 4}, {7, 7}, {-3, 0}, {2, 2}} {
		ev := &fyne.DragEvent{}
		ev.Position = at(sheet.Point{X: p.X + c.frames*scale, Y: p.Y})
		e.Dragged(ev)
		if e.Delay != c.want || e.Drawing.View.Scale != scale {
			t.Errorf("dragged by %g: delay %d at scale %g, want %d at %g", c.frames, e.Delay, e.Drawing.View.Scale, c.want, scale)
		}
	}
	e.DragEnd()
	if e.Delay != 2 || w.Model().Setup().Delay != 3 {
		t.Errorf("delay %d, the setup's %d", e.Delay, w.Model().Setup().Delay)
	}
	down.Position = fyne.NewPos(2, 2)
	e.MouseDown(down)
	ev := &fyne.DragEvent{}
	ev.Position = fyne.NewPos(300, 2)
	e.Dragged(ev)
	if e.Delay != 2 {
		t.Error("the paper drags the delay")
	}
}
