package ui

import (
	"os"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"
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

// refocus gives the keys back to the sheet.
func (w *window) refocus() { w.win.Canvas().Focus(w.sheet) }

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
	save := widget.NewButton("Save", func() {
		d.Hide()
		if w.model.Path() == "" {
			w.askSave()
		} else if w.saveTo(w.model.Path()) {
			do()
		}
	})
	save.Importance = widget.HighImportance
	d.SetButtons([]fyne.CanvasObject{
		widget.NewButton("Stay", d.Hide),
		widget.NewButton("Don't save", func() {
			d.Hide()
			do()
		}),
		save,
	})
	d.Show()
}

// askOpen asks for a project text and opens it.
func (w *window) askOpen() {
	w.unlessEdited("Open another project?", func() {
		d := dialog.NewFileOpen(func(f fyne.URIReadCloser, err error) {
			switch {
			case err != nil:
				w.fail("This file could not be opened", err)
			case f != nil:
				path := f.URI().Path()
				f.Close()
				w.openPath(path)
			}
		}, w.win)
		d.SetFilter(storage.NewExtensionFileFilter([]string{".json"}))
		if at, err := storage.ListerForURI(storage.NewFileURI(w.folder())); err == nil {
			d.SetLocation(at)
		}
		d.Resize(w.dialogSize())
		d.Show()
	})
}

func (w *window) askSave() {
	name := "project.json"
	if w.model.Path() != "" {
		name = filepath.Base(w.model.Path())
	}
	w.askPath("Save project text as", name, ".json", func(path string) { w.saveTo(path) })
}

func (w *window) askStrip() {
	if w.sheet.Drawing() != nil {
		w.askPath("Save strip, .png or .svg", w.stripName(), ".png", func(path string) { w.saveStrip(path) })
	}
}

// askPath asks for a file to write: nothing is touched before it is known, so
// that a file that stands there is only ever replaced whole. A name without
// an extension gets ext.
func (w *window) askPath(title, name, ext string, do func(path string)) {
	entry := widget.NewEntry()
	entry.SetText(filepath.Join(w.folder(), name))
	note := widget.NewLabel("")
	note.Importance = widget.LowImportance
	path := func() string {
		p := entry.Text
		if filepath.Ext(p) == "" {
			p += ext
		}
		return p
	}
	say := func(string) {
		note.SetText("")
		if _, err := os.Stat(path()); err == nil {
			note.SetText("There is such a file; it will be replaced.")
		}
	}
	entry.OnChanged = say
	say("")
	browse := widget.NewButton("Folder…", func() {
		d := dialog.NewFolderOpen(func(dir fyne.ListableURI, err error) {
			if err == nil && dir != nil {
				entry.SetText(filepath.Join(dir.Path(), filepath.Base(entry.Text)))
			}
		}, w.win)
		d.Resize(w.dialogSize())
		d.Show()
	})
	body := container.NewVBox(container.NewBorder(nil, nil, nil, browse, entry), note)
	d := dialog.NewCustomConfirm(title, "Save", "Cancel", body, func(ok bool) {
		w.refocus()
		if ok {
			do(path())
		}
	}, w.win)
	entry.OnSubmitted = func(string) { d.Confirm() }
	d.Resize(fyne.NewSize(620, 190))
	d.Show()
	w.win.Canvas().Focus(entry)
	entry.CursorColumn = len([]rune(entry.Text))
	entry.Refresh()
}

func (w *window) dialogSize() fyne.Size {
	s := w.win.Canvas().Size()
	return fyne.NewSize(min(s.Width-80, 860), min(s.Height-80, 580))
}
