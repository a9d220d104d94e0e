package ui

import (
	"context"
	"errors"
	"strings"

	"wakeline/storage"
	"wakeline/ui/model"
	"wakeline/ui/page"
)

// goBack takes so many steps back, or does them again where negative, as one
// work.
func (w *window) goBack(n int) {
	switch {
	case n == 0 || w.busy():
		return
	case w.model.ReadOnly() != "":
		w.refused(w.model.ReadOnly())
		return
	}
	w.model.Commit()
	word, count := "undo", n
	if n < 0 {
		word, count = "redo", -n
	}
	d, ok := w.model.Document().(*model.FileDocument)
	if !ok {
		doc := w.model.Document()
		for range count {
			if n > 0 {
				doc.Undo()
			} else {
				doc.Redo()
			}
		}
		w.wentBack(word, count, nil)
		return
	}
	step := d.File().Undo
	if n < 0 {
		step = d.File().Redo
	}
	w.Task(strings.TrimSuffix(model.Sentence(word+" "+model.CountOf(count, "step")), "."), page.Counting("step"), func(at page.Work) error {
		for i := range count {
			if at.Context.Err() != nil {
				return at.Context.Err()
			}
			if _, err := step(); err != nil {
				return err
			}
			at.Tell(i+1, count)
		}
		return nil
	}, func(err error) {
		if again := d.Reload(); err == nil {
			err = again
		}
		d.AskReadOnly()
		w.wentBack(word, count, err)
	})
}

// wentBack shows what came of the steps.
func (w *window) wentBack(word string, count int, err error) {
	w.model.Reread()
	switch {
	case errors.Is(err, context.Canceled):
		w.Note("Stopped on the way")
	case err != nil && !errors.Is(err, storage.ErrNoStep):
		w.Dialogs().Fail("Not every step could be taken", err)
	default:
		w.Note(strings.TrimSuffix(model.Sentence(word+" of "+model.CountOf(count, "step")), "."))
	}
}
