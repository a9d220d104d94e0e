package lesson

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"

	"wakeline/ui/page/pagetest"
	"wakeline/ui/sheet"
)

// lessonIn shows the lesson of the host's chosen setup.
func lessonIn(w *pagetest.Host) *Page {
	none := func() {}
	l := New(w, Asks{Keys: func() fyne.KeyModifier { return 0 }, CopyPicture: none, CopyText: none, Export: none})
	w.Show(l)
	return l
}

func lessonKey(l *Page, name fyne.KeyName) {
	l.host.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: name})
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
	w := pagetest.Open(t, pagetest.Sample())
	l := lessonIn(w)
	if n := len(l.lesson.Steps); n != 3 || l.lesson.Steps[l.lesson.Own].Delay != 3 {
		t.Fatalf("%d steps, the own at %d", n, l.lesson.Steps[l.lesson.Own].Delay)
	}
	lessonKey(l, fyne.KeyRight)
	if w.Model().Setup().Delay != 4 || l.lesson.Steps[l.lesson.Own].Delay != 4 {
		t.Errorf("Right: delay %d, the lesson at %d", w.Model().Setup().Delay, l.lesson.Steps[l.lesson.Own].Delay)
	}
	w.Model().Undo()
	if l.lesson.Steps[l.lesson.Own].Delay != 3 {
		t.Error("undo left the lesson behind")
	}
	l.each.SetSelected("3")
	if len(l.lesson.Steps) != 7 || l.view.High() <= l.view.Scroll.Size().Height {
		t.Errorf("%d steps, %g high", len(l.lesson.Steps), l.view.High())
	}
	lessonKey(l, fyne.KeyPageDown)
	if l.view.Scroll.Offset.Y == 0 {
		t.Error("Page Down does not read on")
	}
	lessonKey(l, fyne.KeyDown)
	if l.reply.Selected != "guard high" || l.lesson.Steps[0].Scene.Reply != "guard high" {
		t.Errorf("Down chooses %q, and shows %q", l.reply.Selected, l.lesson.Steps[0].Scene.Reply)
	}
	lessonKey(l, fyne.KeyUp)
	if rise, line := w.Model().Plan().Deciding(3); l.reply.Selected != breaks || l.lesson.Steps[3].Scene.Reply != w.Model().Verdict().Rises[rise].Replies[line].Reply {
		t.Errorf("%q shows %q", l.reply.Selected, l.lesson.Steps[3].Scene.Reply)
	}
	l.next.OnTapped()
	if w.Model().Chosen() != 1 || l.lesson.Setup != w.Model().Setup().Name || l.rise.Visible() {
		t.Errorf("the next is %d, %q", w.Model().Chosen(), l.lesson.Setup)
	}
	l.reply.SetSelectedIndex(2)
	if !l.rise.Visible() || len(l.rise.Options) != 2 {
		t.Error("two rises can't be chosen from")
	}
	lessonKey(l, fyne.KeyEscape)
	if w.Page != nil {
		t.Error("Escape does not close the page")
	}
}

func TestALessonOfWhatDoesNotFit(t *testing.T) {
	p := pagetest.Sample()
	p.Setups[0].Fillers = slices.Repeat([]string{"short step"}, 45)
	w := pagetest.Open(t, p)
	l := lessonIn(w)
	if !l.said.Visible() || l.said.Text == "" || !l.try.Disabled() || l.view.Drawing != nil {
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
	w := pagetest.Open(b, pagetest.Sample())
	w.Preferences().SetString(prefNeighbours, "3")
	l := lessonIn(w)
	b.ResetTimer()
	for i := range b.N {
		name := fyne.KeyRight
		if i%2 == 1 {
			name = fyne.KeyLeft
		}
		lessonKey(l, name)
	}
}
