package ui

import (
	"fmt"
	"reflect"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/ui/model"
	"wakeline/ui/page/lesson"
	"wakeline/ui/paint"
)

// begun shows the lesson of the chosen setup, in which an exercise has begun.
func begun(t *testing.T, w *window) *lesson.Page {
	t.Helper()
	l, ok := w.page.(*lesson.Page)
	if !ok {
		l = lessonOf(t, w)
	}
	if l.Refocus(); !l.Edits() {
		typeKey(w, fyne.KeyEscape)
	}
	typeKey(w, fyne.KeyReturn)
	if _, _, _, ok := l.Taught(); ok {
		t.Fatal("Enter begins no exercise")
	}
	return l
}

// everyKey are the keys of a keyboard.
var everyKey = func() (keys []fyne.KeyName) {
	keys = []fyne.KeyName{fyne.KeyEscape, fyne.KeyReturn, fyne.KeyTab, fyne.KeyBackspace, fyne.KeyInsert, fyne.KeyDelete, fyne.KeyRight, fyne.KeyLeft,
		fyne.KeyDown, fyne.KeyUp, fyne.KeyPageUp, fyne.KeyPageDown, fyne.KeyHome, fyne.KeyEnd, fyne.KeyEnter, fyne.KeySpace, fyne.KeyMinus, fyne.KeyPlus, fyne.KeyAsterisk,
		fyne.KeyComma, fyne.KeyPeriod, fyne.KeySlash, fyne.KeyBackslash, fyne.KeyLeftBracket, fyne.KeyRightBracket, fyne.KeyEqual, fyne.KeySemicolon, fyne.KeyApostrophe, fyne.KeyBackTick}
	for n := range 12 {
		keys = append(keys, fyne.KeyName(fmt.Sprintf("F%d", n+1)))
	}
	for c := 'A'; c <= 'Z'; c++ {
		keys = append(keys, fyne.KeyName(c))
	}
	for c := '0'; c <= '9'; c++ {
		keys = append(keys, fyne.KeyName(c))
	}
	return keys
}()

// stages bring an exercise that has begun to each of its steps.
var stages = []struct {
	name  string
	reach func(t *testing.T, w *window)
}{
	{"begun", func(*testing.T, *window) {}},
	{"wrong, with both hints", func(t *testing.T, w *window) {
		typeKey(w, fyne.KeyReturn)
		pressOn(t, w, "Hint")
		pressOn(t, w, "Hint")
	}},
	{"answered", func(t *testing.T, w *window) {
		typeKey(w, fyne.KeyReturn)
		pressOn(t, w, "Show the answer")
	}},
}

// mouseActs are all that can be done with the mouse on the page, and what the
// menu does.
func mouseActs(w *window) (out []func()) {
	seenOn(w.page.Content(), func(o fyne.CanvasObject) {
		switch o := o.(type) {
		case *paint.PushButton:
			out = append(out, func() { o.Tapped(&fyne.PointEvent{}) })
		case *paint.Pick:
			for i := range o.Options {
				out = append(out, func() { o.SetSelectedIndex(i) })
			}
		case *paint.ScrolledSheet:
			out = append(out, func() { o.Tapped(&fyne.PointEvent{}) })
		case interface {
			fyne.CanvasObject
			fyne.Draggable
			desktop.Mouseable
		}:
			out = append(out, func() { sweep(o, o, o.Size()) })
		}
	})
	for _, top := range w.menu.main.Items {
		for _, i := range top.Items {
			if i.Action != nil && !i.Disabled && !i.IsQuit {
				out = append(out, i.Action)
			}
		}
	}
	return out
}

// sweep presses and drags over all of a widget.
func sweep(m desktop.Mouseable, d fyne.Draggable, size fyne.Size) {
	for x := float32(5); x < size.Width; x += 40 {
		for y := float32(5); y < size.Height; y += 40 {
			ev := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
			ev.Position = fyne.NewPos(x, y)
			m.MouseDown(ev)
			to := &fyne.DragEvent{}
			to.Position = fyne.NewPos(x+60, y+9)
			d.Dragged(to)
			m.MouseUp(ev)
			d.DragEnd()
		}
	}
}

// TestTheExerciseEditsNothing: whatever is pressed or clicked at any step of
// an exercise, and then the keys that move a delay, and undo: the project
// stays as it is, and so does its history.
func TestTheExerciseEditsNothing(t *testing.T) {
	w := openFile(t, sample())
	before, _ := onDisk(t, w)
	setup := w.model.Setup()
	done, least, every := 0, 300, 1
	if testing.Short() {
		least, every = 60, 4
	}
	asked := 0
	try := func(stage string, reach func(t *testing.T, w *window), what string, do func()) {
		t.Helper()
		if asked++; asked%every != 0 {
			return
		}
		w.model.Choose(0)
		l := begun(t, w)
		reach(t, w)
		do()
		w.model.SetStudent(false) // what it forbids is tried too
		for d := w.Dialogs().Top(); d != nil; d = w.Dialogs().Top() {
			d.Hide()
		}
		for top := w.Canvas().Overlays().Top(); top != nil; top = w.Canvas().Overlays().Top() {
			w.Canvas().Overlays().Remove(top)
		}
		if w.Showing(l) && !l.Edits() {
			l.Refocus()
			for _, k := range []fyne.KeyName{fyne.KeyLeft, fyne.KeyLeft, fyne.KeyRight, fyne.KeyDelete} {
				if w.Showing(l) && !l.Edits() {
					typeKey(w, k)
				}
			}
			w.undo()
			w.redo()
		}
		done++
		w.model.Choose(0)
		after := w.model.Setup()
		undo, redo := w.model.Document().Next()
		if !model.SameSetup(&setup, &after) || undo.What != "" || redo.What != "" || w.model.Len() != len(before.Setups) {
			t.Fatalf("%s, then %s: %+v became %+v; undo would %q, redo %q", stage, what, setup, after, undo.What, redo.What)
		}
	}
	for _, s := range stages {
		for _, k := range everyKey {
			for _, with := range []fyne.KeyModifier{0, fyne.KeyModifierShift} {
				w.sheet.Keys = func() fyne.KeyModifier { return with }
				if arrow := k == fyne.KeyLeft || k == fyne.KeyRight || k == fyne.KeyHome; with != 0 && !arrow {
					continue
				}
				try(s.name, s.reach, string(k), func() {
					typeKey(w, k)
					if f := w.Canvas().Focused(); f != nil && len(k) == 1 {
						f.TypedRune(rune(k[0]))
					}
				})
			}
		}
		w.sheet.Keys = func() fyne.KeyModifier { return 0 }
		w.model.Choose(0)
		begun(t, w)
		s.reach(t, w)
		for i := range mouseActs(w) {
			try(s.name, s.reach, fmt.Sprintf("click %d", i), func() { mouseActs(w)[i]() })
		}
	}
	if after, steps := onDisk(t, w); !reflect.DeepEqual(before, after) || len(steps) != 0 {
		t.Errorf("the file holds another project, and %d steps", len(steps))
	}
	if done < least {
		t.Errorf("only %d things done", done)
	}
}
