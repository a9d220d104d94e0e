package ui

import (
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	files "fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage"
)

// askOpen asks for a project file or a project text and opens it.
func (w *window) askOpen() {
	w.unlessEdited("Open another project?", func() {
		w.askFile("Open a project file or a project text", "Open", []string{storage.Ext, ".json"}, w.openPath)
	})
}

// askFile asks for a file that is there.
func (w *window) askFile(title, button string, extensions []string, do func(path string)) {
	d := dialog.NewFileOpen(func(f fyne.URIReadCloser, err error) {
		switch {
		case err != nil:
			w.fail("This file could not be opened", err)
		case f != nil:
			path := f.URI().Path()
			f.Close()
			do(path)
		}
	}, w.win)
	d.SetTitleText(title)
	d.SetConfirmText(button)
	d.SetView(dialog.ListView)
	d.SetFilter(files.NewExtensionFileFilter(extensions))
	if at, err := files.ListerForURI(files.NewFileURI(w.folder())); err == nil {
		d.SetLocation(at)
	}
	d.Resize(w.dialogSize())
	d.Show()
}

// baseName is the name of the file on screen with another extension, or other
// where there is none.
func (w *window) baseName(ext, other string) string {
	path := w.model.Path()
	if path == "" {
		return other + ext
	}
	name := filepath.Base(path)
	return strings.TrimSuffix(name, filepath.Ext(name)) + ext
}

func (w *window) askNew() {
	w.unlessEdited("Begin another project?", func() {
		w.askPath(asked{title: "New project file", button: "Make", name: "project" + storage.Ext, ext: storage.Ext, fresh: true},
			w.newProject)
	})
}

func (w *window) askKeep() {
	name := w.baseName(storage.Ext, "project")
	if d, ok := w.model.Document().(*TextDocument); ok && d.sample {
		name = "sample" + storage.Ext
	}
	w.askPath(asked{title: "Keep as a project file, saved as you edit", button: "Keep", name: name, ext: storage.Ext, fresh: true},
		w.keepAsFile)
}

// askSave asks where the project text goes: a file document's is a copy, a
// text's is where it is saved from then on.
func (w *window) askSave() {
	if _, ok := w.model.Document().(*FileDocument); ok {
		w.askPath(asked{title: "Export project text", name: w.baseName(".json", "project"), ext: ".json"}, w.export)
		return
	}
	w.askPath(asked{title: "Save project text as", name: w.baseName(".json", "project"), ext: ".json"}, func(path string) { w.saveTo(path) })
}

func (w *window) askCopy() {
	if d, ok := w.model.Document().(*FileDocument); ok {
		w.askPath(asked{title: "Save a copy", name: w.baseName("-copy"+storage.Ext, "project"), ext: storage.Ext},
			func(path string) { w.copyTo(d, path) })
	}
}

// asked is a file to write that the hand is asked for.
type asked struct {
	title, button string // the button's word, "Save" where it is empty
	dir, name     string // offered; the folder is where the last file went where it is empty
	ext           string // of a name without one
	fresh         bool   // a file that is there is not replaced
}

// askPath asks for a file to write: nothing is touched before it is known, so
// that a file that stands there is only ever replaced whole.
func (w *window) askPath(a asked, do func(path string)) {
	if a.button == "" {
		a.button = "Save"
	}
	if a.dir == "" {
		a.dir = w.folder()
	}
	entry := newAskField()
	entry.SetText(filepath.Join(a.dir, a.name))
	note := widget.NewLabel("")
	note.Importance = widget.LowImportance
	path := func() string {
		p := entry.Text
		if filepath.Ext(p) == "" {
			p += a.ext
		}
		return p
	}
	say := func(string) {
		note.SetText("")
		if there(path()) {
			note.SetText("There is such a file; it will be replaced.")
			if a.fresh {
				note.SetText("There is such a file already. Give another name.")
			}
		}
	}
	entry.OnChanged = say
	say("")
	browse := newButton("Folder…", func() {
		d := dialog.NewFolderOpen(func(dir fyne.ListableURI, err error) {
			if err == nil && dir != nil {
				entry.SetText(filepath.Join(dir.Path(), filepath.Base(entry.Text)))
			}
		}, w.win)
		d.Resize(w.dialogSize())
		d.Show()
	})
	body := container.NewVBox(container.NewBorder(nil, nil, nil, browse, entry), note)
	d := dialog.NewCustomWithoutButtons(a.title, body, w.win)
	confirm := func() {
		if a.fresh && there(path()) || entry.Text == "" {
			say("")
			return
		}
		d.Hide()
		do(path())
	}
	ok, cancel := newButton(a.button, confirm), newButton("Cancel", d.Hide)
	ok.Importance = widget.HighImportance
	entry.OnEscape, ok.OnEscape, cancel.OnEscape = d.Hide, d.Hide, d.Hide
	d.SetButtons([]fyne.CanvasObject{cancel, ok})
	d.SetOnClosed(w.refocus)
	entry.OnSubmitted = func(string) { confirm() }
	d.Resize(fyne.NewSize(620, 190))
	d.Show()
	w.win.Canvas().Focus(entry)
	entry.CursorColumn = len([]rune(entry.Text))
	entry.Refresh()
}
