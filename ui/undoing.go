package ui

import (
	"errors"

	"wakeline/storage"
)

// typedIn is a field that a hand types in, which takes back its own typing.
type typedIn interface {
	Undo()
	Redo()
}

// undo takes an edit back: the filter's, while that is typed in.
func (w *window) undo() {
	if e, ok := w.win.Canvas().Focused().(typedIn); ok {
		e.Undo()
		return
	}
	w.undoStep()
}

// undoStep takes the project's last step back.
func (w *window) undoStep() {
	undo, _ := w.model.Document().Next()
	w.travel("Undoing ", undo, w.model.Undo, (*storage.File).Undo)
}

// redo does again what undo took back last.
func (w *window) redo() {
	if e, ok := w.win.Canvas().Focused().(typedIn); ok {
		e.Redo()
		return
	}
	w.redoStep()
}

// redoStep does the project's next step again.
func (w *window) redoStep() {
	_, redo := w.model.Document().Next()
	w.travel("Redoing ", redo, w.model.Redo, (*storage.File).Redo)
}

// travel does the next step back or forward: the edit of one setup at once; a
// step of a file that changed more, such as an import, behind the window.
func (w *window) travel(word string, next NextStep, short func(), long func(f *storage.File) (string, error)) {
	if !w.sheet.idle() || w.busy() || w.page != nil && !w.page.edits() {
		return
	}
	d, ok := w.model.Document().(*FileDocument)
	if !ok || next.At >= 0 || next.What == "" {
		short()
		return
	}
	w.model.Commit()
	w.task(word+cutText(next.What, 40), nil, func(work) error {
		_, err := long(d.File())
		return err
	}, func(err error) {
		if err == nil {
			err = d.Reload()
		}
		d.readOnly = d.file.ReadOnly()
		w.model.Reread()
		w.model.chooseNamed(next.Setup)
		if err != nil && !errors.Is(err, storage.ErrNoStep) {
			w.notKept(err)
		}
	})
}
