package ui

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"wakeline/timeline"
	"wakeline/ui/sheet"
)

func lessonOf(t *testing.T, w *window) *lessonPage {
	t.Helper()
	w.showLesson()
	l, ok := w.page.(*lessonPage)
	if !ok {
		t.Fatalf("the page is %T", w.page)
	}
	return l
}

func lessonKey(l *lessonPage, name fyne.KeyName) {
	l.w.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: name})
}

// texts are the words of shapes.
func texts(of []sheet.Shape) (out []string) {
	for _, s := range of {
		if t, ok := s.(sheet.Text); ok {
			out = append(out, t.Str)
		}
	}
	return out
}

func TestALessonFollowsItsSetup(t *testing.T) {
	w := open(t, sample(), laptop)
	l := lessonOf(t, w)
	if n := len(l.lesson.Steps); n != 3 || l.lesson.Steps[l.lesson.Own].Delay != 3 {
		t.Fatalf("%d steps, the own at %d", n, l.lesson.Steps[l.lesson.Own].Delay)
	}
	lessonKey(l, fyne.KeyRight)
	if w.delay() != 4 || l.lesson.Steps[l.lesson.Own].Delay != 4 {
		t.Errorf("Right: delay %d, the lesson at %d", w.delay(), l.lesson.Steps[l.lesson.Own].Delay)
	}
	w.undo()
	if l.lesson.Steps[l.lesson.Own].Delay != 3 {
		t.Error("undo left the lesson behind")
	}
	l.each.SetSelected("3")
	if len(l.lesson.Steps) != 7 || l.view.high() <= l.view.scroll.Size().Height {
		t.Errorf("%d steps, %g high", len(l.lesson.Steps), l.view.high())
	}
	lessonKey(l, fyne.KeyPageDown)
	if l.view.scroll.Offset.Y == 0 {
		t.Error("Page Down does not read on")
	}
	lessonKey(l, fyne.KeyDown)
	if l.reply.Selected != "guard high" || l.lesson.Steps[0].Scene.Reply != "guard high" {
		t.Errorf("Down chooses %q, and shows %q", l.reply.Selected, l.lesson.Steps[0].Scene.Reply)
	}
	lessonKey(l, fyne.KeyUp)
	if rise, line := w.model.Plan().Deciding(3); l.reply.Selected != breaks || l.lesson.Steps[3].Scene.Reply != w.model.Verdict().Rises[rise].Replies[line].Reply {
		t.Errorf("%q shows %q", l.reply.Selected, l.lesson.Steps[3].Scene.Reply)
	}
	l.next.OnTapped()
	if w.model.Chosen() != 1 || l.lesson.Setup != w.model.Setup().Name || l.rise.Visible() {
		t.Errorf("the next is %d, %q", w.model.Chosen(), l.lesson.Setup)
	}
	l.reply.SetSelectedIndex(2)
	if !l.rise.Visible() || len(l.rise.Options) != 2 {
		t.Error("two rises can't be chosen from")
	}
	lessonKey(l, fyne.KeyEscape)
	if w.page != nil {
		t.Error("Escape does not close the page")
	}
}

// TestOnlyWhatIsInViewIsPainted: what scrolls by is not among the objects.
func TestOnlyWhatIsInViewIsPainted(t *testing.T) {
	w := open(t, sample(), laptop)
	w.showGlossary()
	g := w.page.(*glossaryPage)
	painted := func() int { return len(test.WidgetRenderer(g.view).Objects()) }
	top := painted()
	if all := len(g.view.drawing.Shapes); top == 0 || top > all*2/3 {
		t.Errorf("%d objects of %d shapes", top, all)
	}
	g.view.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnd})
	if painted() == 0 || g.view.scroll.Offset.Y < g.view.high()-g.view.scroll.Size().Height-1 {
		t.Errorf("the end shows %d objects at %g of %g", painted(), g.view.scroll.Offset.Y, g.view.high())
	}
}

// tells reports what of the exercise's page tells how the setup ends.
func tells(l *lessonPage) (out []string) {
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
		words = append(words, wordsOf(o))
	}
	look(l.box)
	words = append(words, texts(l.exercise.drawing.Shapes)...)
	for _, s := range l.exercise.drawing.Shapes {
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
	m := l.w.model
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

// TestTheExerciseTellsNothing: at no delay that a student may try does the
// page say or show how it ends, until it is asked; and no setup is edited.
func TestTheExerciseTellsNothing(t *testing.T) {
	w := open(t, sample(), laptop)
	for i := range w.model.Len() {
		w.model.Choose(i)
		before := w.model.Setup()
		l := lessonOf(t, w)
		lessonKey(l, fyne.KeyReturn)
		if l.state != lessonAsked || l.view.box.Visible() || l.exercise.delay != 0 || w.win.Canvas().Focused() != fyne.Focusable(l.exercise) {
			t.Fatalf("Enter begins no exercise: state %d, delay %d", l.state, l.exercise.delay)
		}
		for d := range w.model.Plan().LastDelay() {
			if l.exercise.delay != d {
				t.Fatalf("delay %d, want %d", l.exercise.delay, d)
			}
			if got := tells(l); len(got) > 0 {
				t.Fatalf("at delay %d it tells %q", d, got)
			}
			lessonKey(l, fyne.KeyRight)
		}
		if l.picture() != nil || l.text() != "" {
			t.Error("the answer can be copied")
		}
		w.undo()
		after := w.model.Setup()
		if !sameSetup(&before, &after) || w.model.CanUndo() {
			t.Errorf("the exercise edited %+v to %+v", before, after)
		}
		w.closePage()
	}
}

func TestTheExerciseSaysHowFarOff(t *testing.T) {
	w := open(t, sample(), laptop)
	l := lessonOf(t, w)
	l.try.OnTapped()
	first := w.model.Plan().WindowSet().First()
	for range first + 1 {
		lessonKey(l, fyne.KeyRight)
	}
	guess := w.model.Plan().Guess(l.exercise.delay)
	lessonKey(l, fyne.KeyReturn)
	if l.state != lessonAnswered || !l.view.box.Visible() || !strings.HasSuffix(l.said.Text, guess.Words) || !l.said.Visible() {
		t.Fatalf("state %d says %q, want %q", l.state, l.said.Text, guess.Words)
	}
	if !slices.ContainsFunc(l.lesson.Steps, func(s timeline.Step) bool { return s.Delay == l.exercise.delay }) {
		t.Errorf("the lesson after it doesn't show delay %d, which was guessed", l.exercise.delay)
	}
	if got := w.app.Preferences().String(prefNeighbours); got != "" {
		t.Errorf("the frames each way are kept as %q, though nobody chose them", got)
	}
	if guess.Right != strings.HasPrefix(l.said.Text, "Right. ") {
		t.Errorf("%+v is called %q", guess, l.said.Text)
	}
	if w.copyText(); !strings.Contains(l.said.Text, "on the clipboard") || !strings.HasSuffix(l.said.Text, guess.Words) {
		t.Errorf("after copying it says %q", l.said.Text)
	}
	if w.delay() != 3 || l.lesson.Steps[l.lesson.Own].Delay != 3 {
		t.Error("the lesson after it is not the setup's own")
	}
	l.try.OnTapped()
	if l.state != lessonAsked || l.exercise.delay != 0 {
		t.Error("it can't be tried again")
	}
	l.none.OnTapped()
	if !strings.HasPrefix(l.said.Text, "Not yet. There is one") {
		t.Errorf("none is answered with %q", l.said.Text)
	}
	l.try.OnTapped()
	l.next.OnTapped()
	if w.model.Chosen() != 1 || l.state != lessonAsked || l.exercise.plan != w.model.Plan() {
		t.Errorf("the next exercise is of setup %d, state %d", w.model.Chosen(), l.state)
	}
	lessonKey(l, fyne.KeyEscape)
	if l.state != lessonShown || w.page != page(l) {
		t.Error("Escape does not give the exercise up alone")
	}
}

func TestAStudentDragsTheJump(t *testing.T) {
	w := open(t, sample(), laptop)
	l := lessonOf(t, w)
	l.try.OnTapped()
	e := l.exercise
	var p sheet.Point
	for _, h := range e.drawing.Hots {
		if h.Part == timeline.PartJump {
			p = sheet.Point{X: (h.Min.X + h.Max.X) / 2, Y: (h.Min.Y + h.Max.Y) / 2}
		}
	}
	down := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
	down.Position = position(p)
	e.MouseDown(down)
	scale := e.drawing.View.Scale
	for _, c := range []struct {
		frames float64
		want   int
	}{{4, 4}, {4.4, 4}, {7, 7}, {-3, 0}, {2, 2}} {
		ev := &fyne.DragEvent{}
		ev.Position = position(sheet.Point{X: p.X + c.frames*scale, Y: p.Y})
		e.Dragged(ev)
		if e.delay != c.want || e.drawing.View.Scale != scale {
			t.Errorf("dragged by %g: delay %d at scale %g, want %d at %g", c.frames, e.delay, e.drawing.View.Scale, c.want, scale)
		}
	}
	e.DragEnd()
	if e.delay != 2 || w.delay() != 3 {
		t.Errorf("delay %d, the setup's %d", e.delay, w.delay())
	}
	down.Position = fyne.NewPos(2, 2)
	e.MouseDown(down)
	ev := &fyne.DragEvent{}
	ev.Position = fyne.NewPos(300, 2)
	e.Dragged(ev)
	if e.delay != 2 {
		t.Error("the paper drags the delay")
	}
}

func TestALessonOfWhatDoesNotFit(t *testing.T) {
	p := sample()
	p.Setups[0].Fillers = slices.Repeat([]string{"short step"}, 45)
	w := open(t, nil, laptop)
	w.model.Load(p, "")
	l := lessonOf(t, w)
	if !l.said.Visible() || l.said.Text == "" || !l.try.Disabled() || l.view.drawing != nil {
		t.Errorf("it says %q", l.said.Text)
	}
	l.next.OnTapped()
	if l.try.Disabled() || len(l.lesson.Steps) == 0 {
		t.Error("the next setup has no lesson")
	}
}

// BenchmarkLessonStep moves the delay of a lesson of seven steps by a frame,
// and draws it anew.
func BenchmarkLessonStep(b *testing.B) {
	w := open(b, sample(), laptop)
	w.app.Preferences().SetString(prefNeighbours, "3")
	w.showLesson()
	l := w.page.(*lessonPage)
	b.ResetTimer()
	for i := range b.N {
		name := fyne.KeyRight
		if i%2 == 1 {
			name = fyne.KeyLeft
		}
		lessonKey(l, name)
	}
}

// BenchmarkGlossaryScroll scrolls the glossary by a line.
func BenchmarkGlossaryScroll(b *testing.B) {
	w := open(b, sample(), laptop)
	w.showGlossary()
	g := w.page.(*glossaryPage)
	b.ResetTimer()
	for i := range b.N {
		name := fyne.KeyDown
		if i/20%2 == 1 {
			name = fyne.KeyUp
		}
		g.view.TypedKey(&fyne.KeyEvent{Name: name})
	}
}
