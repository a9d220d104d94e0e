package ui

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"wakeline/ui/page/export"
	"wakeline/ui/page/lesson"
	"wakeline/ui/paint"
)

func lessonOf(t *testing.T, w *window) *lesson.Page {
	t.Helper()
	w.showLesson()
	l, ok := w.page.(*lesson.Page)
	if !ok {
		t.Fatalf("the page is %T", w.page)
	}
	return l
}

// seenOn walks all that can be seen in o.
func seenOn(o fyne.CanvasObject, do func(o fyne.CanvasObject)) {
	if !o.Visible() {
		return
	}
	do(o)
	switch o := o.(type) {
	case *fyne.Container:
		for _, in := range o.Objects {
			seenOn(in, do)
		}
	case *container.Scroll:
		seenOn(o.Content, do)
	}
}

// pressOn presses the button of that label on the page.
func pressOn(t *testing.T, w *window, label string) {
	t.Helper()
	found := false
	seenOn(w.page.Content(), func(o fyne.CanvasObject) {
		if b, ok := o.(*paint.PushButton); ok && b.Text == label && !found {
			found = true
			b.Press()
		}
	})
	if !found {
		t.Fatalf("no button %q on the page", label)
	}
}

// What is taught is exported; the exercise is not.
func TestTheLessonsExport(t *testing.T) {
	w := open(t, sample(), laptop)
	l := lessonOf(t, w)
	typeKey(w, fyne.KeyDown)
	rise, line, _, ok := l.Taught()
	if !ok || line < 0 {
		t.Fatalf("it teaches %d, %d", rise, line)
	}
	pressOn(t, w, "Export…")
	if _, ok := w.page.(*export.Page); !ok {
		t.Fatalf("the page is %T", w.page)
	}
	var chosen []string
	seenOn(w.page.Content(), func(o fyne.CanvasObject) {
		if p, ok := o.(*paint.Pick); ok {
			chosen = append(chosen, p.Selected)
		}
	})
	if len(chosen) < 4 || chosen[0] != export.Lesson || !slices.Contains(chosen, "Reply on the sheet") || !slices.Contains(chosen, "1") {
		t.Errorf("it is set to %q", chosen)
	}
	if r, k := w.model.Shown(); r != rise || k != line {
		t.Errorf("exports the exchange %d, %d, taught is %d, %d", r, k, rise, line)
	}
	l = lessonOf(t, w)
	pressOn(t, w, "Try it yourself")
	if _, _, _, ok := l.Taught(); ok || l.Picture() != nil {
		t.Error("the exercise is taught")
	}
	w.copyText()
	if hint := w.app.Clipboard().Content(); strings.Contains(hint, "As it is") {
		t.Error("the exercise's answer is copied")
	}
}

// BenchmarkGlossaryScroll scrolls the glossary by a line.
func BenchmarkGlossaryScroll(b *testing.B) {
	w := open(b, sample(), laptop)
	w.showGlossary()
	view := w.Canvas().Focused()
	b.ResetTimer()
	for i := range b.N {
		name := fyne.KeyDown
		if i/20%2 == 1 {
			name = fyne.KeyUp
		}
		view.TypedKey(&fyne.KeyEvent{Name: name})
	}
}
