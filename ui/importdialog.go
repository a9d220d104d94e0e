package ui

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"sync/atomic"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage/importer"
	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/page/intake"
	"wakeline/ui/paint"
)

// prefHeadings remembers how sets of headings were mapped; prefMapping, of earlier
// versions, how each heading was.
const (
	prefHeadings = "import.headings"
	prefMapping  = "import.mapping"
)

// mayImport reports whether something can be taken into the project on screen,
// and says why not.
func (w *window) mayImport() (d *model.Document, ok bool) {
	d = w.model.Document()
	if why := w.model.ReadOnly(); why != "" {
		w.refused(why)
		return d, false
	}
	return d, true
}

// askImport asks for a file to take into the project on screen.
func (w *window) askImport() {
	if _, ok := w.mayImport(); ok {
		w.askFile("Import JSON or a table", "Import", append([]string{".json"}, importer.TableNames...), w.importFrom)
	}
}

// importPasted asks how the table on the clipboard is to be taken in.
func (w *window) importPasted() {
	d, ok := w.mayImport()
	if !ok {
		return
	}
	in, err := model.NewPaste(w.app.Clipboard().Content(), w.mapped)
	if err != nil {
		w.Dialogs().Fail("What was copied could not be imported", err)
		return
	}
	w.showImport(d, in)
}

// importFrom asks how the file at path is to be taken in.
func (w *window) importFrom(path string) {
	d, ok := w.mayImport()
	if !ok {
		return
	}
	in, err := model.NewImport(path, w.mapped)
	if err != nil {
		w.Dialogs().Fail("This file could not be imported", err)
		return
	}
	w.lastDir = filepath.Dir(path)
	w.showImport(d, in)
}

// headingSets are how the headings of tables were mapped before.
func (w *window) headingSets() (out model.HeadingSets) {
	if err := json.Unmarshal([]byte(w.Preferences().StringWithFallback(prefHeadings, "[]")), &out); err != nil {
		return nil
	}
	return out
}

// mapped is how those headings were mapped before, or else what an earlier
// version remembered of any of them.
func (w *window) mapped(headings []string) map[string]string {
	if known := w.headingSets().Of(headings); known != nil {
		return known
	}
	out := map[string]string{}
	if err := json.Unmarshal([]byte(w.Preferences().StringWithFallback(prefMapping, "{}")), &out); err != nil {
		return nil
	}
	return out
}

func (w *window) rememberMapping(in *model.Import) {
	if text, err := json.Marshal(w.headingSets().With(in.Headings, in.Mapping)); err == nil && in.Table {
		w.Preferences().SetString(prefHeadings, string(text))
	}
}

// showImport is the dialog in which the import is settled. What was chosen
// stands in in already.
func (w *window) showImport(d *model.Document, in *model.Import) {
	form := container.New(layout.NewFormLayout())
	row := func(label string, o fyne.CanvasObject) { form.Add(widget.NewLabel(label)); form.Add(o) }
	file := widget.NewLabel(in.Path)
	file.Truncation = fyne.TextTruncateEllipsis
	row("File", file)
	revision := paint.NewPageEntry(w)
	revision.SetText(in.Revision)
	revision.SetPlaceHolder("none: keep the current revision")
	if _, onDisk := d.OnDisk(); !onDisk {
		revision.SetPlaceHolder("only in a project file (File, Save as project file…)")
		revision.Disable()
	}
	row("New revision", revision)
	words := widget.NewLabel("Items with the same name are replaced, with all that belongs to them; the rest stays. Undo takes the import back in one step.")
	words.Wrapping, words.Importance = fyne.TextWrapWord, widget.LowImportance
	var body fyne.CanvasObject = container.NewVScroll(container.NewVBox(form, words))
	size := fyne.NewSize(620, form.MinSize().Height+190)
	var preview *intake.Preview
	if in.Table {
		preview = intake.New(w, d.Data())
		what := "moves"
		if in.Routes {
			what = "routes"
		}
		words.SetText("A fighter's " + what + " with the same name are replaced; the rest stays. Undo takes the import back in one step.")
		body = w.tableForm(d, in, form, words, preview)
		size = fyne.NewSize(1000, 720)
	}
	into := "this project"
	if d.Path() != "" {
		into = filepath.Base(d.Path())
	}
	a := w.Dialogs().New("Import into "+into, body)
	a.Button("Cancel", a.Hide)
	a.Main("Import", func() {
		in.Revision = strings.TrimSpace(revision.Text)
		a.Hide()
		w.takeIn(d, in)
	})
	a.Closed = func() {
		if preview != nil {
			preview.Stop()
		}
		w.refocus()
	}
	a.Show(size, revision)
	if preview != nil {
		preview.Hide = a.Hide
		preview.Show(in)
	}
}

// tableForm is what a move table asks beside: whose its moves are, what its
// headings stand for; and its preview, which follows.
func (w *window) tableForm(d *model.Document, in *model.Import, form *fyne.Container, words fyne.CanvasObject, preview *intake.Preview) fyne.CanvasObject {
	fighter := paint.NewPickEntry(w, model.FighterNames(d.Data()))
	fighter.SetText(in.Fighter)
	bad := paint.NewPageTick(w, "Skip bad rows", func(on bool) { in.SkipBad = on })
	bad.SetChecked(in.SkipBad)
	whose := func() {
		if in.SaysWhose() {
			fighter.Disable()
			fighter.SetPlaceHolder("given by the table")
			return
		}
		fighter.Enable()
		if fighter.SetPlaceHolder("whose moves these are"); in.Owners {
			fighter.SetPlaceHolder("empty: as the rows between them say")
		}
	}
	whose()
	fighter.OnChanged = func(name string) {
		defer paint.Survive("The import")
		in.Fighter = strings.TrimSpace(name)
		preview.Show(in)
	}
	form.Add(widget.NewLabel("Fighter"))
	form.Add(container.NewBorder(nil, nil, nil, bad, fighter))
	top := container.NewVBox(form)
	if strange := in.Strange(); len(strange) > 0 {
		mapping := intake.Mapping(w, in, func() {
			whose()
			preview.Show(in)
		})
		scroll := container.NewVScroll(mapping)
		room := min(max(w.Canvas().Size().Height-560, 72), 150) // the rest is for the rows
		scroll.SetMinSize(fyne.NewSize(0, min(mapping.MinSize().Height, room)))
		top.Add(widget.NewLabel("Unknown headings: choose the column that each stands for."))
		top.Add(scroll)
	}
	top.Add(words)
	return container.NewBorder(top, nil, nil, nil, preview.Box)
}

// takeIn takes the file in behind the window, and offers to show the setups
// that a new revision has changed.
func (w *window) takeIn(d *model.Document, in *model.Import) {
	before, from := d.Data(), d.Latest.Name
	var got *model.Imported
	var storing atomic.Bool
	w.Task("Importing "+in.Title(), func(done, of int) string {
		if storing.Load() && done == of {
			return "Checking what was saved"
		}
		if storing.Load() {
			return fmt.Sprintf("Saving: %d of %s", done, model.CountOf(of, "move"))
		}
		return fmt.Sprintf("Reading: %d of %d KiB", done>>10, of>>10)
	}, func(at page.Work) (err error) {
		if got, err = in.Read(at.Context, before, at.Tell); err != nil {
			return err
		}
		storing.Store(true)
		return in.Store(at.Context, d.File(), got, at.Tell)
	}, func(err error) {
		if err != nil {
			d.AskReadOnly()
			w.model.Tell(model.StateChanged)
			w.notTaken(d, in, err)
			return
		}
		if err := d.Reload(); err != nil {
			w.Dialogs().Fail("Imported, but the file can't be read now", err)
			return
		}
		w.model.Reread()
		w.rememberMapping(in)
		w.status.Hint("Imported " + got.Summary())
		if in.Revision != "" && len(before.Fighters) > 0 {
			w.offerChanges(d, from, in.Revision)
		}
	})
}

// importWords puts an error of an import into words, without the names that
// only files use.
func importWords(in *model.Import, err error) string {
	if errors.As(err, new(*timeline.FieldError)) {
		return fileWords(in.Path, err)
	}
	return model.Headings.Replace(err.Error())
}

// fileWords puts an error of reading the file at path into words, without the
// path that leads to a field inside it.
func fileWords(path string, err error) string {
	if errors.As(err, new(*timeline.FieldError)) {
		return filepath.Base(path) + ": " + model.ErrorWords(&timeline.Project{}, err)
	}
	return err.Error()
}

// notTaken says why nothing of a file was taken, and leads back to the
// import.
func (w *window) notTaken(d *model.Document, in *model.Import, err error) {
	if errors.Is(err, context.Canceled) {
		w.status.Hint("Nothing was imported")
		return
	}
	lines := strings.Split(importWords(in, err), "\n")
	const most = 200
	if len(lines) > most {
		lines = append(lines[:most], "and "+model.CountOf(len(lines)-most, "more line"))
	}
	a := w.Dialogs().Told("Nothing of "+in.Title()+" was imported", strings.Join(lines, "\n"))
	a.Button("Close", a.Hide)
	a.Main("Back to the import", func() {
		a.Hide()
		w.showImport(d, in)
	})
	a.Show(fyne.NewSize(660, min(140+30*float32(len(lines)), 400)), nil)
}
