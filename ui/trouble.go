package ui

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

// troubleWords say in plain words why the file of that name can't be opened.
// The words are empty where the error's own say enough.
func troubleWords(name string, err error) (title, words string) {
	switch {
	case errors.Is(err, storage.ErrDamaged):
		return name + " is damaged", "What can still be read can be saved into a new file. This one stays as it is."
	case errors.Is(err, storage.ErrForeign):
		return name + " is not a Wakeline project", "It doesn't look like a file of Wakeline. Nothing was written to it."
	case errors.Is(err, storage.ErrNewer):
		return name + " needs a newer Wakeline", "It says that a newer version made it, and this one can't read it. Nothing was written to it."
	case errors.Is(err, fs.ErrNotExist):
		return name + " is not there", "The file was moved, renamed or removed."
	case errors.Is(err, fs.ErrPermission):
		return name + " can't be read: permission denied", "Ask the file's owner for the right to read it."
	}
	return name + " could not be opened", ""
}

// copyDate is how the window writes of when a copy is.
const copyDate = "2 January 2006, 15:04:05"

// trouble says why the file at path could not be opened. What can be read of
// a damaged one can be saved; and a copy that is kept of it, restored.
func (w *window) trouble(path string, err error) {
	title, words := troubleWords(filepath.Base(path), err)
	copies := storage.Copies(path)
	if len(copies) > 0 {
		words += fmt.Sprintf(" %s of the project that passed every check %s kept; the newest holds it as it was on %s.",
			[]string{"A copy", "Copies"}[min(len(copies)-1, 1)], []string{"is", "are"}[min(len(copies)-1, 1)], copies[0].Of.Local().Format(copyDate))
	}
	detail := paint.NewTextBox(w)
	detail.SetText(fileWords(path, err))
	var body fyne.CanvasObject = detail
	if words != "" {
		plain := widget.NewLabel(strings.TrimSpace(words))
		plain.Wrapping = fyne.TextWrapWord
		body = container.NewBorder(plain, nil, nil, nil, detail)
	}
	a := w.Dialogs().New(title, body)
	a.Button("Close", a.Hide)
	if errors.Is(err, storage.ErrDamaged) {
		add := a.Main
		if len(copies) > 0 {
			add = a.Button
		}
		add("Save what can be read…", func() {
			a.Hide()
			w.askSalvage(path)
		})
	}
	if len(copies) > 0 {
		a.Main("Restore a copy…", func() {
			a.Hide()
			w.chooseCopy(path, copies)
		})
	}
	a.Show(fyne.NewSize(600, 280), nil)
}

// chooseCopy asks which of the copies of the file at path is to be restored.
func (w *window) chooseCopy(path string, copies []storage.Kept) {
	if len(copies) == 1 {
		w.askRestore(path, copies[0])
		return
	}
	dates := make([]string, len(copies))
	for i, c := range copies {
		dates[i] = c.Of.Local().Format(copyDate)
	}
	pick := paint.NewPick(w, dates, nil)
	pick.SetSelectedIndex(0)
	a := w.Dialogs().New("Restore a copy of "+filepath.Base(path), container.NewVBox(widget.NewLabel("The project as it was on"), pick))
	a.Button("Cancel", a.Hide)
	a.Main("Choose a file…", func() {
		a.Hide()
		w.askRestore(path, copies[max(0, pick.SelectedIndex())])
	})
	a.Show(fyne.NewSize(420, 190), nil)
}

// askRestore asks for a new file for a copy of the one at path.
func (w *window) askRestore(path string, kept storage.Kept) {
	w.askNewFile("Restore a copy of ", path, "-restored", func(to string) {
		w.Task("Restoring the copy", nil, func(at page.Work) error { return storage.Restore(at.Context, kept, to) }, func(err error) {
			switch {
			case errors.Is(err, context.Canceled):
				w.status.Hint("Nothing was restored")
			case err != nil:
				w.Dialogs().Fail("The copy could not be restored", err)
			default:
				w.openPath(to)
				w.status.Hint("This is the project as it was on " + kept.Of.Local().Format(copyDate))
			}
		})
	})
}

// askNewFile asks for a new file beside the one at path, named as that one with
// an ending.
func (w *window) askNewFile(title, path, ending string, do func(to string)) {
	name := filepath.Base(path)
	w.askPath(asked{title: title + name, dir: filepath.Dir(path),
		name: strings.TrimSuffix(name, filepath.Ext(name)) + ending + storage.Ext, ext: storage.Ext, fresh: true}, do)
}

// askSalvage asks for a new file for what can be read of the one at path.
func (w *window) askSalvage(path string) {
	w.askNewFile("Save what can be read of ", path, "-saved", func(to string) { w.salvage(path, to) })
}

// mostTold is how many lines of what was lost the window shows.
const mostTold = 200

// salvage saves what can be read of the file at path in a new file at to, and
// opens that.
func (w *window) salvage(path, to string) {
	var saves *storage.Salvaged
	w.Task("Reading what can be read", nil, func(at page.Work) (err error) {
		saves, err = storage.Salvage(at.Context, path, to)
		return err
	}, func(err error) {
		if errors.Is(err, context.Canceled) {
			w.status.Hint("Nothing was saved")
			return
		}
		if err != nil {
			w.Dialogs().Fail("Nothing could be saved of "+filepath.Base(path), err)
			return
		}
		w.openPath(to)
		lines := saves.Lines()
		if more := len(lines) - mostTold; more > 0 {
			lines = append(lines[:mostTold:mostTold], fmt.Sprintf("and %d more; wakeline check --salvage lists all", more))
		}
		w.Dialogs().Lines("What was saved of "+filepath.Base(path), append([]string{"You see the new file, " + filepath.Base(to) + "."}, lines...))
	})
}
