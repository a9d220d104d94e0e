package ui

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

// mostRevised is how many edits are offered as the first of a new revision.
const mostRevised = 100

// beginsNow is the choice that leaves the edits that are done to the revision
// before.
const beginsNow = "now"

// newRevision is a revision that is asked for.
type newRevision struct {
	name, note string
	from       int64 // the step that is its first edit, 0 where its edits are still to come
}

// askRevision asks for the name of a new revision of the move data, where its
// numbers are from, and which edits belong to it already.
func (w *window) askRevision() {
	d, ok := w.model.Document().OnDisk()
	switch {
	case !ok:
		w.needsFile("New revision", "A revision is a dated state of the move data, such as a patch of the game. "+w.lacksRevisions())
		return
	case d.ReadOnly() != "":
		w.refused(d.ReadOnly())
		return
	}
	if !w.settled() {
		return
	}
	w.model.Commit()
	steps, err := d.File().DataSteps(mostRevised)
	if err != nil {
		w.Dialogs().Fail("The history can't be read", err)
		return
	}
	name, note := paint.NewPageEntry(w), paint.NewPageEntry(w)
	name.SetPlaceHolder("such as a version of the game")
	note.SetPlaceHolder("optional, such as where the numbers are from")
	begins := []string{beginsNow}
	for i := range steps {
		begins = append(begins, fmt.Sprintf("before “%s” (%s)", model.CutText(steps[i].What, 40), model.StepDate(steps[i].Date)))
	}
	about := widget.NewLabel("")
	about.Wrapping, about.Importance = fyne.TextWrapWord, widget.LowImportance
	from := paint.NewPick(w, begins, nil)
	from.OnChanged = func(chosen string) {
		defer paint.Survive("The revision")
		words := "edits from now on belong to the new one."
		keeps := "as they are now"
		if n := slices.Index(begins, chosen); n > 0 {
			keeps, words = "as they were before that edit", fmt.Sprintf("%s belong to the new one already.", model.CountOf(n, "edit"))
			if n == 1 {
				words = "that edit belongs to the new one already."
			}
		}
		about.SetText(fmt.Sprintf("The revision “%s” keeps the move data %s; %s", model.CutText(d.Latest.Name, 40), keeps, words))
	}
	from.SetSelected(beginsNow)
	label := func(s string) fyne.CanvasObject { return widget.NewLabel(s) }
	form := container.New(layout.NewFormLayout(), label("Name"), name, label("Note"), note, label("Begins"), from)
	var asked *newRevision
	w.Dialogs().Form("New revision of the move data", "Create", container.NewVBox(form, about), name, func() error {
		r := newRevision{name: strings.TrimSpace(name.Text), note: strings.TrimSpace(note.Text)}
		if r.name == "" {
			return errors.New("a revision needs a name")
		}
		if err := model.FreshRevision(d.File(), r.name); err != nil {
			return err
		}
		if at := slices.Index(begins, from.Selected); at > 0 {
			r.from = steps[at-1].ID
		}
		asked = &r
		return nil
	}, func(a *page.Dialog) {
		a.Closed = func() {
			if w.refocus(); asked != nil {
				w.revise(d, *asked)
			}
		}
	})
}

// revise begins a revision behind the window. Where edits belong to it already
// it offers to show the setups that they have changed.
func (w *window) revise(d *model.Document, r newRevision) {
	before := d.Latest.Name
	w.Task("Creating the revision "+model.CutText(r.name, 40), nil, func(at page.Work) error { return r.begin(at.Context, d.File()) }, func(err error) {
		if again := d.Reload(); err == nil {
			err = again
		}
		w.model.Reread()
		if err != nil {
			w.Dialogs().Fail("The revision could not be created", err)
			return
		}
		w.Note("The move data are the revision " + r.name + " now")
		if r.from != 0 {
			w.offerChanges(d, before, r.name)
		}
	})
}

// begin begins the revision in f, as one step.
func (r *newRevision) begin(ctx context.Context, f *storage.File) (err error) {
	kept := f.Data().Bare()
	if r.from != 0 {
		if kept, err = f.DataBefore(ctx, r.from); err != nil {
			return err
		}
	}
	return f.EditContext(ctx, "new revision "+r.name, func(s *storage.Step) error { return s.BeginRevisionAfter(r.name, r.note, kept) })
}
