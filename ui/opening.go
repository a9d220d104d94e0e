package ui

import (
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage"
	"wakeline/storage/importer"
	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/panel"
)

// openDocument opens the project file or the project text at path, by its
// extension.
func openDocument(path string) (*model.Document, error) {
	open := storage.Open
	if !isProjectFile(path) {
		open = storage.OpenText
	}
	f, err := open(path)
	if err != nil {
		return nil, err
	}
	return fileDocument(f)
}

// fileDocument is f as a document; where it can't be read f is closed.
func fileDocument(f *storage.File) (*model.Document, error) {
	d, err := model.NewDocument(f)
	if err != nil {
		f.Close()
		return nil, err
	}
	return d, nil
}

func isProjectFile(path string) bool { return strings.EqualFold(filepath.Ext(path), storage.Ext) }

// openPath opens the file at path. What can't be opened is told, and the
// window keeps what it has.
func (w *window) openPath(path string) {
	if whole, err := filepath.Abs(path); err == nil {
		path = whole
	}
	if w.shows(path) {
		w.status.Hint(filepath.Base(path) + " is open here already")
		return
	}
	doc, err := openDocument(path)
	if err != nil {
		w.trouble(path, err)
		return
	}
	w.show(doc)
}

// shows reports whether the project file at path is the one on screen.
func (w *window) shows(path string) bool {
	d, ok := w.model.Document().OnDisk()
	if !ok {
		return false
	}
	is, err := os.Stat(d.Path())
	asked, err2 := os.Stat(path)
	return err == nil && err2 == nil && os.SameFile(is, asked)
}

// show puts doc in place of what is on screen, and remembers its file.
func (w *window) show(doc *model.Document) {
	if path := doc.Path(); path != "" {
		w.lastDir = filepath.Dir(path)
		w.remember(path)
	}
	w.model.Open(doc)
	if d, ok := doc.OnDisk(); ok {
		w.offerOldReplies(d)
		w.Run(func() {
			err := d.File().Sound()
			if w.Context().Err() == nil && (err != nil || d.Checking()) {
				w.Later(func() { w.checked(d, err) })
			}
		})
	}
}

// checked ends the wait for the check of a file, and tells of damage that it
// found.
func (w *window) checked(d *model.Document, err error) {
	d.EndCheck()
	if w.model.Document() != d {
		return
	}
	w.model.Tell(model.StateChanged)
	if err != nil {
		w.trouble(d.Path(), err)
	}
}

// showSample shows the demo.
func (w *window) showSample() {
	doc, err := model.InMemory(w.sample, "")
	if err != nil {
		w.Dialogs().Fail("The sample could not be opened", err)
		return
	}
	doc.Sample = true
	w.show(doc)
}

// prefBegun says that the question of the first start was answered.
const prefBegun = "begun"

// askBeginning asks on the first start, over the sample, what to begin with.
func (w *window) askBeginning() {
	if !w.model.Document().Sample || w.Preferences().Bool(prefBegun) || w.Preferences().String(prefLast) != "" || w.busy() {
		return
	}
	d := w.Dialogs().New("Welcome to Wakeline", widget.NewLabel("Begin with the sample, an invented game with setups to try,\nor with an empty project for your own."))
	begin := func() {
		w.Preferences().SetBool(prefBegun, true)
		d.Hide()
	}
	d.Cancel = begin
	d.Main("Sample", begin)
	d.Button("Empty project", func() {
		begin()
		doc, err := model.InMemory(nil, "")
		if err != nil {
			w.Dialogs().Fail("An empty project could not be opened", err)
			return
		}
		w.show(doc)
	})
	d.Show(fyne.Size{}, nil)
}

// newProject makes an empty project file at path and goes on with it.
func (w *window) newProject(path string) { w.create(path, nil, "The project could not be created") }

// keepAsFile makes a project file at path of what is on screen, and goes on
// with that.
func (w *window) keepAsFile(path string) {
	const trouble = "The project could not be saved as a file"
	w.model.Commit()
	p, err := w.model.Document().Whole()
	if err != nil {
		w.Dialogs().Fail(trouble, err)
		return
	}
	drills, err := w.model.Document().Drills()
	if err != nil {
		w.Dialogs().Fail(trouble, err)
		return
	}
	w.create(path, p, trouble, drills...)
}

// create makes a project file of p and those drills at path, behind the
// window, and shows it, with the setup chosen that was.
func (w *window) create(path string, p *timeline.Project, trouble string, drills ...storage.Drill) {
	var doc *model.Document
	at := w.model.Setup().Name
	w.Task("Creating "+filepath.Base(path), nil, func(page.Work) error {
		f, err := storage.Create(path, p)
		if err != nil {
			return err
		}
		for _, d := range drills {
			if err := f.AddDrill(d); err != nil {
				f.Close()
				return err
			}
		}
		doc, err = fileDocument(f)
		return err
	}, func(err error) {
		if err != nil {
			w.Dialogs().Fail(trouble, err)
			return
		}
		w.show(doc)
		if i := w.model.Find(at); i >= 0 {
			w.model.Choose(i)
		}
		w.status.Hint("From here on every edit is saved in " + filepath.Base(path) + " as it is made")
	})
}

// takeOver makes the file on screen editable, where it can be now.
func (w *window) takeOver() {
	d, ok := w.model.Document().OnDisk()
	if !ok {
		return
	}
	if err := d.TakeOver(); err != nil {
		w.model.Tell(model.StateChanged)
		if d.ReadOnly() == panel.AnotherHasIt {
			w.Dialogs().Lines("Another window still has it open", []string{"Close " + filepath.Base(d.Path()) + " there first, then take over here."})
		} else {
			w.Dialogs().Fail("The file can't be edited yet", err)
		}
		return
	}
	w.model.Reread()
	w.refocus()
	w.status.Hint("You edit " + filepath.Base(d.Path()) + " now")
}

// refused says that nothing can be edited.
func (w *window) refused(why string) {
	w.status.Hint("Nothing was changed: the file is read-only, " + why)
}

// notKept says why an edit was taken back.
func (w *window) notKept(err error) {
	w.Dialogs().Fail("The edit could not be saved and was taken back", err)
}

// dropped opens a file that was dropped on the window, or takes a table in.
func (w *window) dropped(_ fyne.Position, files []fyne.URI) {
	if len(files) != 1 || files[0].Scheme() != "file" || w.busy() {
		return
	}
	path := files[0].Path()
	if importer.IsTable(path) {
		w.importFrom(path)
		return
	}
	w.unlessEdited("Open another project?", func() { w.openPath(path) })
}

// busy reports whether a dialog is up, or a task runs: nothing else can be
// asked for then.
func (w *window) busy() bool { return page.Busy(w) }
