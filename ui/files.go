package ui

import (
	"path/filepath"

	"fyne.io/fyne/v2"
)

// save writes the project text to where it came from, or asks where to. A
// project file is saved already.
func (w *window) save() {
	switch {
	case w.model.ReadOnly() != "":
		w.refused(w.model.ReadOnly())
	case !w.isText():
		w.status.Hint("Every edit is in " + filepath.Base(w.model.Path()) + " already")
	case w.model.Path() == "":
		w.askSave()
	default:
		w.saveTo(w.model.Path())
	}
}

// isText reports whether a project in memory is on screen.
func (w *window) isText() bool {
	_, onDisk := w.model.Document().OnDisk()
	return !onDisk
}

// saveTo writes the project text to path, whole or not at all. It reports
// whether it stands there.
func (w *window) saveTo(path string) bool {
	w.model.Commit()
	if err := w.model.Document().File().ExportText(path); err != nil {
		w.Dialogs().Fail("The project could not be saved", err)
		return false
	}
	w.lastDir = filepath.Dir(path)
	w.remember(path)
	w.model.Saved(path)
	return true
}

// needsFile says why something stands in a project file alone, and offers to make
// one of the project on screen.
func (w *window) needsFile(title, why string) {
	a := w.Dialogs().Told(title, why)
	a.Button("Close", a.Hide)
	a.Main("Save as project file…", func() {
		a.Hide()
		w.askKeep()
	})
	a.Show(fyne.NewSize(600, 175), nil)
}

// folder is where a new file is offered: beside the project, or where the
// last one went.
func (w *window) folder() string {
	dir := w.lastDir
	if dir == "" && w.model.Path() != "" {
		dir = filepath.Dir(w.model.Path())
	}
	if abs, err := filepath.Abs(dir); err == nil {
		return abs
	}
	return dir
}

// quit closes the window; where there are unsaved edits it asks first.
func (w *window) quit() {
	w.unlessEdited("Quit?", func() {
		w.rememberWindow()
		w.win.SetCloseIntercept(nil)
		w.win.Close()
	})
}

// title is the document's name, and whether what was edited is on disk.
func (w *window) title() string {
	d, onDisk := w.model.Document().OnDisk()
	name := "new project"
	switch {
	case d.Sample:
		name = "sample"
	case d.Path() != "":
		name = filepath.Base(d.Path())
	}
	switch why := d.ReadOnly(); {
	case why != "":
		name += " · read-only: " + why
	case onDisk:
		name += " · saved"
	case d.Edited():
		name += " · edited"
	}
	return name + " — Wakeline"
}
