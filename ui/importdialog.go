package ui

import (
	"context"
	"encoding/json"
	"errors"
	"maps"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage/table"
	"wakeline/timeline"
)

// prefMapping remembers how headings were mapped.
const prefMapping = "import.mapping"

// askImport asks for a file to take into the project file on screen.
func (w *window) askImport() {
	d, ok := w.model.Document().(*FileDocument)
	switch {
	case !ok:
		w.tellLines("Import needs a project file", []string{"Keep this project as a project file first: File, Keep as project file…"})
	case d.ReadOnly() != "":
		w.refused(d.ReadOnly())
	default:
		w.askFile("Import a project text or a move table", "Import", []string{".json", ".csv"}, w.importFrom)
	}
}

// importFrom asks how the file at path is to be taken in.
func (w *window) importFrom(path string) {
	d, ok := w.model.Document().(*FileDocument)
	if !ok || d.ReadOnly() != "" {
		w.askImport()
		return
	}
	in, err := newIntake(path, w.mappings())
	if err != nil {
		w.fail("This file could not be taken in", err)
		return
	}
	w.lastDir = filepath.Dir(path)
	w.showImport(d, in)
}

// mappings are the headings that were mapped before.
func (w *window) mappings() map[string]string {
	out := map[string]string{}
	if err := json.Unmarshal([]byte(w.app.Preferences().StringWithFallback(prefMapping, "{}")), &out); err != nil {
		return map[string]string{}
	}
	return out
}

func (w *window) rememberMapping(m map[string]string) {
	all := w.mappings()
	maps.Copy(all, m)
	if text, err := json.Marshal(all); err == nil {
		w.app.Preferences().SetString(prefMapping, string(text))
	}
}

// showImport is the dialog in which the import is settled. What was chosen
// stands in in already.
func (w *window) showImport(d *FileDocument, in *intake) {
	form := container.New(layout.NewFormLayout())
	row := func(label string, o fyne.CanvasObject) { form.Add(widget.NewLabel(label)); form.Add(o) }
	file := widget.NewLabel(in.path)
	file.Truncation = fyne.TextTruncateEllipsis
	row("File", file)
	revision := widget.NewEntry()
	revision.SetText(in.revision)
	revision.SetPlaceHolder("none: the present revision goes on")
	row("New revision", revision)

	fighter := widget.NewSelectEntry(fighterNames(d.Data()))
	fighter.SetText(in.fighter)
	fighter.SetPlaceHolder("whose moves they are")
	bad := widget.NewCheck("Leave bad rows out", func(on bool) { in.skipBad = on })
	bad.SetChecked(in.skipBad)
	whose := func() {
		if in.saysWhose() {
			fighter.Disable()
			fighter.SetPlaceHolder("the table says")
		} else {
			fighter.Enable()
			fighter.SetPlaceHolder("whose moves they are")
		}
	}
	note := "What bears a name that the project has is replaced, with all that belongs to it; the rest stays. It is one step of undo."
	body := []fyne.CanvasObject{form}
	if isTable(in.path) {
		row("Fighter", fighter)
		row("", bad)
		whose()
		note = "A move whose name the fighter has is replaced; the rest stays. It is one step of undo."
		if strange := in.strange(); len(strange) > 0 {
			body = append(body, w.mappingForm(in, strange, whose))
		}
	}
	words := widget.NewLabel(note)
	words.Wrapping, words.Importance = fyne.TextWrapWord, widget.LowImportance
	body = append(body, words)

	all := container.NewVBox(body...)
	page := dialog.NewCustomWithoutButtons("Import into "+filepath.Base(d.Path()), container.NewVScroll(all), w.win)
	take := func() {
		in.revision, in.fighter = strings.TrimSpace(revision.Text), strings.TrimSpace(fighter.Text)
		page.Hide()
		w.takeIn(d, in)
	}
	ok := widget.NewButton("Import", take)
	ok.Importance = widget.HighImportance
	revision.OnSubmitted = func(string) { take() }
	page.SetButtons([]fyne.CanvasObject{widget.NewButton("Cancel", page.Hide), ok})
	page.SetOnClosed(w.refocus)
	page.Resize(fyne.NewSize(620, min(all.MinSize().Height+150, w.win.Canvas().Size().Height-40)))
	page.Show()
	w.win.Canvas().Focus(revision)
}

// mappingForm lets strange headings be mapped to columns of ours.
func (w *window) mappingForm(in *intake, strange []string, changed func()) fyne.CanvasObject {
	const leave = "leave out"
	form := container.New(layout.NewFormLayout())
	for _, h := range strange {
		key := strings.ToLower(h)
		choice := widget.NewSelect(append([]string{leave}, table.Columns()...), func(ours string) {
			if ours == leave {
				ours = leftOut
			}
			in.mapping[key] = ours
			changed()
		})
		choice.Selected = leave // said to nobody: what is mapped already stands
		if ours := in.mapping[key]; ours != leftOut {
			choice.Selected = ours
		}
		form.Add(widget.NewLabel(h))
		form.Add(choice)
	}
	title := widget.NewLabel("These headings are not known here. Say what they stand for:")
	return container.NewVBox(title, form)
}

func fighterNames(p *timeline.Project) (out []string) {
	for i := range p.Fighters {
		out = append(out, p.Fighters[i].Name)
	}
	return out
}

// takeIn takes the file in behind the window, and offers to show the setups
// that a new revision has changed.
func (w *window) takeIn(d *FileDocument, in *intake) {
	before, from := d.Data(), latestRevision(d)
	var got *taken
	w.task("Importing "+filepath.Base(in.path), nil, func(at work) (err error) {
		if got, err = in.read(before.Ruleset); err != nil {
			return err
		}
		return in.store(at.ctx, d.File(), got)
	}, func(err error) {
		if err != nil {
			d.readOnly = d.file.ReadOnly()
			w.model.tell(StateChanged)
			w.notTaken(d, in, err)
			return
		}
		if err := d.Reload(); err != nil {
			w.fail("The import is in the file, which can't be read now", err)
			return
		}
		w.model.Reread()
		w.rememberMapping(in.mapping)
		w.status.Hint("Imported " + got.summary())
		if in.revision != "" && len(before.Fighters) > 0 {
			w.offerChanges(d, from, in.revision)
		}
	})
}

// notTaken says why nothing of a file was taken, and leads back to the
// import.
func (w *window) notTaken(d *FileDocument, in *intake, err error) {
	if errors.Is(err, context.Canceled) {
		w.status.Hint("Nothing was taken in")
		return
	}
	lines := strings.Split(err.Error(), "\n")
	const most = 200
	if len(lines) > most {
		lines = append(lines[:most], "and "+countOf(len(lines)-most, "more line"))
	}
	text := widget.NewLabel(strings.Join(lines, "\n"))
	text.Wrapping, text.Selectable = fyne.TextWrapWord, true
	page := dialog.NewCustomWithoutButtons("Nothing of "+filepath.Base(in.path)+" was taken", container.NewVScroll(text), w.win)
	back := widget.NewButton("Back to the import", func() {
		page.Hide()
		w.showImport(d, in)
	})
	back.Importance = widget.HighImportance
	page.SetButtons([]fyne.CanvasObject{widget.NewButton("Close", page.Hide), back})
	page.SetOnClosed(w.refocus)
	page.Resize(fyne.NewSize(660, min(140+30*float32(len(lines)), 400)))
	page.Show()
}
