package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage"
	"wakeline/ui/model"
	"wakeline/ui/page/compare"
	"wakeline/ui/page/export"
)

// askCompare shows the page with the last two revisions.
func (w *window) askCompare() {
	d, ok := w.model.Document().OnDisk()
	if !ok {
		return
	}
	list, err := d.File().Revisions()
	if err != nil {
		w.Dialogs().Fail("The revisions can't be read", err)
		return
	}
	if len(list) < 2 {
		w.Dialogs().Lines("There is only one revision", []string{
			"A revision is a dated state of the move data, such as a patch of the game. To add one, choose File, New revision…, or import move data and give a name; then the two can be compared."})
		return
	}
	w.compare(d, list, list[len(list)-2].Name, list[len(list)-1].Name).Run()
}

// offerChanges compares behind the window, and offers to show what changed.
func (w *window) offerChanges(d *model.Document, from, to string) {
	compare.Revisions(w, d, from, to, func(p *model.Patch) {
		if len(p.Parts) == 0 {
			w.Dialogs().Lines("Nothing changed", []string{fmt.Sprintf("All move data are the same in %s as in %s.", to, from)})
			return
		}
		w.tellChanges(d, p)
	})
}

// tellChanges says what changed, and offers to show it.
func (w *window) tellChanges(d *model.Document, p *model.Patch) {
	text := widget.NewLabel(p.Day.Answer())
	text.Wrapping = fyne.TextWrapWord
	a := w.Dialogs().New(fmt.Sprintf("%s changed from %s to %s", model.CountOf(len(p.Day.Setups), "setup"), model.CutText(p.From, 40), model.CutText(p.To, 40)), text)
	a.Button("Close", a.Hide)
	a.Main("Show", func() {
		a.Hide()
		if list, err := d.File().Revisions(); err == nil && w.model.Document() == d {
			w.compare(d, list, p.From, p.To).Take(p)
		}
	})
	a.Show(fyne.NewSize(520, 200), nil)
}

// compare shows the page of those two revisions.
func (w *window) compare(d *model.Document, list []storage.Revision, from, to string) *compare.Page {
	with := func(show func()) func(at int) {
		return func(at int) {
			w.model.Choose(at)
			show()
		}
	}
	c := compare.New(w, d, list, from, to, compare.Asks{Find: with(w.showFind), Mix: with(w.showMix), Export: func() { w.showExportOf(export.Compared) }})
	w.showPage(c)
	c.Refocus()
	return c
}
