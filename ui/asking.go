package ui

import (
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage"
	"wakeline/ui/paint"
)

// askOpen asks for a project file or JSON and opens it.
func (w *window) askOpen() {
	w.unlessEdited("Open another project?", func() {
		w.askFile("Open a project file or JSON", "Open", []string{storage.Ext, ".json"}, w.openPath)
	})
}

// askFile asks for a file that is there.
func (w *window) askFile(title, button string, extensions []string, do func(path string)) {
	w.Dialogs().PickFile(title, button, extensions, w.folder(), do)
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
	w.unlessEdited("Create another project?", func() {
		w.askPath(asked{title: "New project file", button: "Create", name: "project" + storage.Ext, ext: storage.Ext, fresh: true},
			w.newProject)
	})
}

func (w *window) askKeep() {
	name := w.baseName(storage.Ext, "project")
	if w.model.Document().Sample {
		name = "sample" + storage.Ext
	}
	w.askPath(asked{title: "Save as a project file, which is saved as you edit", button: "Save", name: name, ext: storage.Ext, fresh: true},
		w.keepAsFile)
}

// askSave asks where the project text goes: a file document's is a copy, a
// text's is where it is saved from then on.
func (w *window) askSave() {
	if _, ok := w.model.Document().OnDisk(); ok {
		w.askPath(asked{title: "Export JSON", name: w.baseName(".json", "project"), ext: ".json"}, w.export)
		return
	}
	w.askPath(asked{title: "Save JSON as", name: w.baseName(".json", "project"), ext: ".json"}, func(path string) { w.saveTo(path) })
}

func (w *window) askCopy() {
	if d, ok := w.model.Document().OnDisk(); ok {
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
	entry := paint.NewPageEntry(w)
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
			note.SetText("A file with this name already exists; it will be replaced.")
			if a.fresh {
				note.SetText("A file with this name already exists. Choose another name.")
			}
		}
	}
	entry.OnChanged = paint.GuardedOf("The dialog", say)
	say("")
	browse := paint.NewPageButton(w, "Folder…", nil, func() {
		w.Dialogs().PickFile("Choose a folder", "Choose", nil, filepath.Dir(path()), func(dir string) {
			entry.SetText(filepath.Join(dir, filepath.Base(entry.Text)))
		})
	})
	d := w.Dialogs().New(a.title, container.NewVBox(container.NewBorder(nil, nil, nil, browse, entry), note))
	d.Button("Cancel", d.Hide)
	d.Main(a.button, func() {
		if a.fresh && there(path()) || entry.Text == "" {
			say("")
			return
		}
		d.Hide()
		do(path())
	})
	d.Show(fyne.NewSize(620, 190), entry)
	entry.CursorColumn = len([]rune(entry.Text))
	entry.Refresh()
}
