package ui

import (
	"errors"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/page/data"
)

// typedIn is a field that a hand types in, which takes back its own typing.
type typedIn interface {
	Undo()
	Redo()
}

// undo takes an edit back: the filter's, while that is typed in.
func (w *window) undo() {
	if e, ok := w.Canvas().Focused().(typedIn); ok {
		e.Undo()
		return
	}
	w.undoStep()
}

// undoStep takes the project's last step back.
func (w *window) undoStep() {
	undo, _ := w.model.Document().Next()
	w.travel(undoWords, undo, w.model.Undo, (*storage.File).Undo)
}

// redo does again what undo took back last.
func (w *window) redo() {
	if e, ok := w.Canvas().Focused().(typedIn); ok {
		e.Redo()
		return
	}
	w.redoStep()
}

// redoStep does the project's next step again.
func (w *window) redoStep() {
	_, redo := w.model.Document().Next()
	w.travel(redoWords, redo, w.model.Redo, (*storage.File).Redo)
}

// The words for a step back and for one forward, while it runs and after it.
var (
	undoWords = [2]string{"Undoing ", "Undone: "}
	redoWords = [2]string{"Redoing ", "Redone: "}
)

// travel does the next step back or forward: the edit of one setup at once; a
// step of a file that changed more, such as an import, behind the window. It
// tells what was changed, and shows it where the page can.
func (w *window) travel(words [2]string, next model.NextStep, short func() bool, long func(f *storage.File) (string, error)) {
	if !w.sheet.Idle() || w.busy() || w.page != nil && !w.page.Edits() {
		return
	}
	d := w.model.Document()
	if next.At >= 0 || next.What == "" {
		before, data := w.setupAt(next.At), w.model.Data().Bare()
		if short() {
			after := w.setupAt(next.At)
			w.travelled(words[1]+model.StepWords(next, &before, &after), data)
		}
		return
	}
	w.model.Commit()
	data := w.model.Data().Bare()
	w.Task(words[0]+model.CutText(next.What, 40), nil, func(page.Work) error {
		_, err := long(d.File())
		return err
	}, func(err error) {
		if err == nil {
			err = d.Reload()
		}
		d.AskReadOnly()
		w.model.Reread()
		w.model.ChooseNamed(next.Setup)
		switch {
		case err == nil:
			w.travelled(words[1]+model.StepWords(next, nil, nil), data)
		case !errors.Is(err, storage.ErrNoStep):
			w.notKept(err)
		}
	})
}

// setupAt is the setup at that place, the zero value where there is none.
func (w *window) setupAt(i int) (s timeline.Setup) {
	if i >= 0 && i < w.model.Len() {
		s, _ = w.model.Document().Setup(i)
	}
	return s
}

// travelled tells what a step back or forward has done, and has the move data
// show what of them it changed.
func (w *window) travelled(words string, before *timeline.Project) {
	at, changed := model.ChangedRow(before, w.model.Data())
	switch d, ok := w.page.(*data.Page); {
	case ok && changed:
		d.Reveal(at)
	case ok:
		words += ". The timeline shows it (Ctrl+1)"
	case changed:
		words += ". The move data show it (Ctrl+2)"
	}
	w.Note(words)
}
