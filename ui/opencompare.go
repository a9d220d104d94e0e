package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/page/compare"
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
	w.compare(d, list, list[len(list)-2].Name, list[len(list)-1].Name)
}

// offerChanges compares behind the window, and offers to show what changed.
func (w *window) offerChanges(d *model.Document, from, to string) {
	compare.Revisions(w, d, from, to, func(_, _ *timeline.Project, changes []model.Changed) {
		if len(changes) == 0 {
			w.Dialogs().Lines("No setup changed", []string{fmt.Sprintf("All setups have the same verdict and window in %s as in %s.", to, from)})
			return
		}
		w.tellChanges(d, from, to, len(changes))
	})
}

// tellChanges says how many setups changed, and offers to show them.
func (w *window) tellChanges(d *model.Document, from, to string, n int) {
	text := widget.NewLabel(fmt.Sprintf("%s changed verdict or window from %s to %s.", model.CountOf(n, "setup"), from, to))
	text.Wrapping = fyne.TextWrapWord
	a := w.Dialogs().New(model.CountOf(n, "setup")+" changed", text)
	a.Button("Close", a.Hide)
	a.Main("Show", func() {
		a.Hide()
		if list, err := d.File().Revisions(); err == nil && w.model.Document() == d {
			w.compare(d, list, from, to)
		}
	})
	a.Show(fyne.NewSize(460, 150), nil)
}

// compare shows the page of those two revisions.
func (w *window) compare(d *model.Document, list []storage.Revision, from, to string) {
	c := compare.New(w, d, list, from, to)
	w.showPage(c)
	c.Refocus()
	c.Run()
}
