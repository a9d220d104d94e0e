package ui

import (
	"strings"
	"wakeline/ui/paint"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// fail says what went wrong, with the error's words to select and copy.
func (w *window) fail(title string, err error) {
	a := w.newTold(title, err.Error())
	a.main("Close", a.hide)
	a.show(fyne.NewSize(560, 230), nil)
}

// refocus gives the keys back to the sheet, or to a page that takes them.
func (w *window) refocus() {
	if w.page != nil {
		w.page.refocus()
		return
	}
	if buttons := w.empty.buttons.Objects; w.empty.box.Visible() && len(buttons) > 0 {
		w.win.Canvas().Focus(buttons[0].(*paint.PushButton))
		return
	}
	w.win.Canvas().Focus(w.sheet)
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
	a := w.newAsk(question, widget.NewLabel("This project has edits that were not saved."))
	a.button("Cancel", a.hide)
	a.button("Don't save", func() {
		a.hide()
		do()
	})
	a.main("Save", func() {
		a.hide()
		if w.model.Path() == "" {
			w.askSave()
		} else if w.saveTo(w.model.Path()) {
			do()
		}
	})
	a.show(fyne.NewSize(420, 0), nil)
}

// tellLines says several things, each on a line, to select and copy.
func (w *window) tellLines(title string, lines []string) {
	a := w.newTold(title, strings.Join(lines, "\n"))
	a.main("Close", a.hide)
	a.show(fyne.NewSize(600, min(130+22*float32(len(lines)+1), 420)), nil)
}

func (w *window) dialogSize() fyne.Size {
	s := w.win.Canvas().Size()
	return fyne.NewSize(min(s.Width-80, 860), min(s.Height-80, 580))
}
