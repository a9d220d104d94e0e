package history

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
func (h *Page) goBack(n int) {
	m := h.host.Model()
	if n == 0 || page.Busy(h.host) || !m.MayEdit() {
		return
	}
	m.Commit()
	word, count := "undo", n
	if n < 0 {
		word, count = "redo", -n
	}
	d := m.Document()
	step := d.File().Undo
	if n < 0 {
		step = d.File().Redo
	}
	h.host.Task(strings.TrimSuffix(model.Sentence(word+" "+model.CountOf(count, "step")), "."), page.Counting("step"), func(at page.Work) error {
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
		h.wentBack(word, count, err)
	})
}

// wentBack shows what came of the steps.
func (h *Page) wentBack(word string, count int, err error) {
	h.host.Model().Reread()
	switch {
	case errors.Is(err, context.Canceled):
		h.host.Note("Stopped on the way")
	case err != nil && !errors.Is(err, storage.ErrNoStep):
		h.host.Dialogs().Fail("Not every step could be taken", err)
	default:
		h.host.Note(strings.TrimSuffix(model.Sentence(word+" of "+model.CountOf(count, "step")), "."))
	}
}
