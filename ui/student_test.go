package ui

import (
	"reflect"
	"testing"

	"fyne.io/fyne/v2"

	"wakeline/storage"
)

// TestStudentModeEditsNothing presses every key on the sheet, on the replies and
// in the move data, drags over the sheet, and does all that the menu does: the
// file stays as it is, also where another project is opened meanwhile.
func TestStudentModeEditsNothing(t *testing.T) {
	w := openFile(t, sample())
	path := w.model.Path()
	before, _ := onDisk(t, w)
	item(t, w, "Student mode").Action()
	if w.model.ReadOnly() != storage.AnswersOnly || !namedPage("Exercises").here(w) {
		t.Fatalf("read-only because %q, the page is %T", w.model.ReadOnly(), w.page)
	}
	done := 0
	settle := func() {
		for d := w.Dialogs().Top(); d != nil; d = w.Dialogs().Top() {
			d.Hide()
		}
		for top := w.Canvas().Overlays().Top(); top != nil; top = w.Canvas().Overlays().Top() {
			w.Canvas().Overlays().Remove(top)
		}
		if w.model.Path() != path {
			w.openPath(path)
		}
		done++
	}
	for _, show := range []func(){w.showTimeline, func() { w.showTimeline(); w.showReplies() }, func() { w.goTo(namedPage("Move data")) }} {
		for _, k := range everyKey {
			show()
			typeKey(w, k)
			if f := w.Canvas().Focused(); f != nil && len(k) == 1 {
				f.TypedRune(rune(k[0]))
			}
			typeKey(w, fyne.KeyReturn)
			settle()
		}
	}
	w.showTimeline()
	sweep(w.sheet, w.sheet, w.sheet.Size())
	settle()
	for m := range w.menu.main.Items {
		for i := range w.menu.main.Items[m].Items {
			if of := w.menu.main.Items[m].Items[i]; of.Action != nil && !of.Disabled && !of.IsQuit && of.Label != "Student mode" {
				w.showTimeline()
				of.Action()
				settle()
			}
		}
	}
	w.undo()
	w.redo()
	if w.model.ReadOnly() != storage.AnswersOnly {
		t.Errorf("read-only because %q at the end", w.model.ReadOnly())
	}
	if after, steps := onDisk(t, w); !reflect.DeepEqual(before, after) || len(steps) != 0 {
		t.Errorf("the file holds another project, and %d steps", len(steps))
	}
	if done < 200 {
		t.Errorf("only %d things done", done)
	}
	item(t, w, "Student mode").Action()
	if w.model.ReadOnly() != "" {
		t.Errorf("afterwards read-only because %q", w.model.ReadOnly())
	}
	w.showTimeline()
	w.model.Choose(0)
	w.model.SetDelay(w.model.Setup().Delay + 1)
	if _, steps := onDisk(t, w); len(steps) != 1 {
		t.Errorf("afterwards %d steps", len(steps))
	}
}
