package ui

import (
	"errors"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage"
	"wakeline/ui/model"
	"wakeline/ui/paint"
)

// proofResults are what may come of trying a setup in the game.
var proofResults = []string{"worked", "failed", "unclear"}

// askProof asks what came of trying the chosen setup in the game.
func (w *window) askProof() {
	d, ok := w.model.Document().OnDisk()
	switch {
	case w.model.Chosen() < 0 || w.page != nil:
		return
	case !ok:
		w.needsFile("In-game tests", model.ProofsKeptIn)
		return
	case w.model.ReadOnly() != "":
		w.refused(w.model.ReadOnly())
		return
	}
	revisions, err := d.File().Revisions()
	if err != nil {
		w.Dialogs().Fail("The revisions can't be read", err)
		return
	}
	var names []string
	latest := ""
	for _, r := range revisions {
		names = append(names, r.Name)
		if r.Latest {
			latest = r.Name
		}
	}
	date, note := paint.NewPageEntry(w), paint.NewPageEntry(w)
	date.SetText(time.Now().Format(time.DateOnly))
	note.SetPlaceHolder("what you saw")
	revision, result := paint.NewPick(w, names, nil), paint.NewPick(w, proofResults, nil)
	revision.SetSelected(latest)
	result.SetSelected(proofResults[0])
	label := func(s string) fyne.CanvasObject { return widget.NewLabel(s) }
	form := container.New(layout.NewFormLayout(), label("Result"), result, label("On"), date, label("Revision"), revision, label("Note"), note)
	setup := w.model.Setup().Name
	w.Dialogs().Form("In-game test: "+model.CutText(setup, 60), "Save", form, note, func() error {
		if _, err := time.Parse(time.DateOnly, date.Text); err != nil {
			return errors.New("write the date like 2026-03-04")
		}
		return w.model.Prove(storage.Proof{Setup: setup, Revision: revision.Selected, Date: date.Text, Result: result.Selected, Note: note.Text})
	})
}
