package ui

import (
	"context"
	"errors"
	"io/fs"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage"
)

// troubleWords say in plain words why the file of that name can't be opened.
// The words are empty where the error's own say enough.
func troubleWords(name string, err error) (title, words string) {
	switch {
	case errors.Is(err, storage.ErrForeign):
		return name + " is no Wakeline project", "The file was made by something else, or changed by it. Nothing was written to it."
	case errors.Is(err, storage.ErrNewer):
		return name + " needs a newer Wakeline", "A newer version made this file, and this one can't read it. Nothing was written to it."
	case errors.Is(err, storage.ErrDamaged):
		return name + " is damaged", "What can still be read may be saved into a new file. This one stays as it is: keep it, and look whether there is a copy from before."
	case errors.Is(err, fs.ErrNotExist):
		return name + " is not there", "The file was moved, renamed or removed."
	case errors.Is(err, fs.ErrPermission):
		return name + " may not be read", "The system keeps this file from you."
	}
	return name + " could not be opened", ""
}

// trouble says why the file at path could not be opened. What can be read of
// a damaged one may be saved.
func (w *window) trouble(path string, err error) {
	title, words := troubleWords(filepath.Base(path), err)
	detail := newTextBox(w)
	detail.SetText(err.Error())
	var body fyne.CanvasObject = detail
	if words != "" {
		plain := widget.NewLabel(words)
		plain.Wrapping = fyne.TextWrapWord
		body = container.NewBorder(plain, nil, nil, nil, detail)
	}
	a := w.newAsk(title, body)
	a.button("Close", a.hide)
	if errors.Is(err, storage.ErrDamaged) {
		a.main("Save what can be read…", func() {
			a.hide()
			w.askSalvage(path)
		})
	}
	a.show(fyne.NewSize(600, 250), nil)
}

// askSalvage asks for a new file for what can be read of the one at path.
func (w *window) askSalvage(path string) {
	name := filepath.Base(path)
	w.askPath(asked{title: "Save what can be read of " + name, dir: filepath.Dir(path),
		name: strings.TrimSuffix(name, filepath.Ext(name)) + "-saved" + storage.Ext, ext: storage.Ext, fresh: true,
	}, func(to string) { w.salvage(path, to) })
}

// salvage saves what can be read of the file at path in a new file at to, and
// opens that.
func (w *window) salvage(path, to string) {
	var lost []string
	w.task("Reading what can be read", nil, func(at work) (err error) {
		lost, err = storage.Salvage(at.ctx, path, to)
		return err
	}, func(err error) {
		if errors.Is(err, context.Canceled) {
			w.status.Hint("Nothing was saved")
			return
		}
		if err != nil {
			w.fail("Nothing could be saved of "+filepath.Base(path), err)
			return
		}
		w.openPath(to)
		if len(lost) == 0 {
			w.tellLines("All of it could be read", []string{"Nothing of " + filepath.Base(path) + " was lost. You see the new file, " + filepath.Base(to) + "."})
			return
		}
		w.tellLines("What was lost", append([]string{"You see the new file, " + filepath.Base(to) + ". It lacks:"}, lost...))
	})
}
