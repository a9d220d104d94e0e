package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"
)

// fail says what went wrong, with the error's words to select and copy.
func (w *window) fail(title string, err error) {
	text := widget.NewLabel(err.Error())
	text.Wrapping = fyne.TextWrapBreak
	text.Selectable = true
	d := dialog.NewCustom(title, "Close", container.NewVScroll(text), w.win)
	d.SetOnClosed(w.refocus)
	d.Resize(fyne.NewSize(560, 230))
	d.Show()
}

// refocus gives the keys back to the sheet, or to a page that takes them.
func (w *window) refocus() {
	if p, ok := w.page.(interface{ refocus() }); ok {
		p.refocus()
		return
	}
	if buttons := w.empty.buttons.Objects; w.empty.box.Visible() && len(buttons) > 0 {
		w.win.Canvas().Focus(buttons[0].(*pushButton))
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
	text := widget.NewLabel("This project has edits that were not saved.")
	d := dialog.NewCustomWithoutButtons(question, text, w.win)
	save := newButton("Save", func() {
		d.Hide()
		if w.model.Path() == "" {
			w.askSave()
		} else if w.saveTo(w.model.Path()) {
			do()
		}
	})
	save.Importance = widget.HighImportance
	d.SetButtons([]fyne.CanvasObject{
		newButton("Stay", d.Hide),
		newButton("Don't save", func() {
			d.Hide()
			do()
		}),
		save,
	})
	d.Show()
}

// tellLines says several things, each on a line, to select and copy.
func (w *window) tellLines(title string, lines []string) {
	text := widget.NewLabel(strings.Join(lines, "\n"))
	text.Wrapping, text.Selectable = fyne.TextWrapWord, true
	d := dialog.NewCustom(title, "Close", container.NewVScroll(text), w.win)
	d.SetOnClosed(w.refocus)
	d.Resize(fyne.NewSize(600, min(110+22*float32(len(lines)+1), 420)))
	d.Show()
}

func (w *window) dialogSize() fyne.Size {
	s := w.win.Canvas().Size()
	return fyne.NewSize(min(s.Width-80, 860), min(s.Height-80, 580))
}
