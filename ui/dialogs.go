package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/paint"
)

// refocus gives the keys back to the sheet, or to a page that takes them.
func (w *window) refocus() {
	if w.page != nil {
		w.page.Refocus()
		return
	}
	if buttons := w.empty.Buttons.Objects; w.empty.Box.Visible() && len(buttons) > 0 {
		w.Canvas().Focus(buttons[0].(*paint.PushButton))
		return
	}
	w.Canvas().Focus(w.sheet)
}

// unlessEdited does something at once, or, where there are unsaved edits,
// when they were saved or given up.
func (w *window) unlessEdited(question string, do func()) {
	w.model.Commit()
	if !w.model.Edited() {
		do()
		return
	}
	w.askEdited(question, do)
}

// askEdited asks whether the unsaved edits are saved before something is done.
func (w *window) askEdited(question string, do func()) {
	a := w.Dialogs().New(question, widget.NewLabel("This project has edits that were not saved."))
	a.Button("Cancel", a.Hide)
	a.Button("Don't save", func() {
		a.Hide()
		do()
	})
	a.Main("Save", func() {
		a.Hide()
		if w.model.Path() == "" {
			w.askSave()
		} else if w.saveTo(w.model.Path()) {
			do()
		}
	})
	a.Show(fyne.NewSize(420, 0), nil)
}
