package ui

import (
	"context"
	"errors"
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

// comparePage shows which setups two revisions of the move data judge
// otherwise: a list, and the chosen setup before and after.
type comparePage struct {
	w   *window
	doc *model.Document

	from, to      *paint.Pick
	count         *widget.Label
	list          *changeList
	because       *widget.Label
	sheets        *sheetPair
	nothing       *widget.Label
	right         *fyne.Container
	box           *fyne.Container
	before, after *timeline.Project
	changes       []model.Changed
	at            int  // the change that is shown
	quiet         bool // the selects are set without a run
}

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
	w.runCompare(d, from, to, func(_, _ *timeline.Project, changes []model.Changed) {
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

// runCompare compares all setups of d under two revisions, behind the window.
func (w *window) runCompare(d *model.Document, from, to string, then func(before, after *timeline.Project, changes []model.Changed)) {
	var before, after *timeline.Project
	var changes []model.Changed
	w.Task("Comparing "+from+" and "+to, page.Counting("setup"), func(at page.Work) (err error) {
		if before, err = d.File().DataOf(from); err != nil {
			return err
		}
		if after, err = d.File().DataOf(to); err != nil {
			return err
		}
		of := d.Len()
		changes, err = model.CompareAll(at.Context, d.File().EachSetup, before, after, func(done int) { at.Tell(done, of) })
		return err
	}, func(err error) {
		switch {
		case errors.Is(err, context.Canceled):
			w.status.Hint("Comparison cancelled")
		case err != nil:
			w.Dialogs().Fail("The revisions could not be compared", err)
		default:
			then(before, after, changes)
		}
	})
}

// compare shows the page of those two revisions.
func (w *window) compare(d *model.Document, list []storage.Revision, from, to string) {
	c := newComparePage(w, d, list)
	c.quiet = true
	c.from.SetSelected(from)
	c.to.SetSelected(to)
	c.quiet = false
	w.showPage(c)
	c.Refocus()
	c.run()
}

func newComparePage(w *window, d *model.Document, list []storage.Revision) *comparePage {
	c := &comparePage{w: w, doc: d}
	var names []string
	for _, r := range list {
		names = append(names, r.Name)
	}
	again := func(string) {
		if !c.quiet {
			c.run()
		}
	}
	c.from, c.to = paint.NewPick(w, names, again), paint.NewPick(w, names, again)
	c.count = widget.NewLabel("")
	c.count.Importance = widget.LowImportance
	title := widget.NewLabel("Compare")
	title.TextStyle.Bold = true
	shut := paint.NewPageButton(w, "Close", theme.CancelIcon(), w.Close)
	top := container.NewPadded(container.NewHBox(title, c.from, widget.NewLabel("with"), c.to, c.count, layout.NewSpacer(), shut))

	c.list = newChangeList(c)
	c.because = widget.NewLabel("")
	c.because.Wrapping = fyne.TextWrapWord
	c.sheets = newSheetPair()
	c.nothing = widget.NewLabel("")
	c.nothing.Wrapping, c.nothing.Alignment = fyne.TextWrapWord, fyne.TextAlignCenter
	sheets := container.NewVScroll(c.sheets)
	c.right = container.NewBorder(c.because, nil, nil, nil, sheets)
	none := container.NewVBox(layout.NewSpacer(), c.nothing, layout.NewSpacer())
	split := container.NewHSplit(c.list, container.NewStack(c.right, none))
	split.Offset = 0.28
	c.box = container.NewBorder(container.NewVBox(top, widget.NewSeparator()), nil, nil, nil, split)
	c.say("")
	return c
}

// say puts words in place of the sheets; none shows them.
func (c *comparePage) say(words string) {
	c.nothing.SetText(words)
	if words == "" {
		c.right.Show()
	} else {
		c.right.Hide()
	}
}

// run compares the two revisions that are chosen.
func (c *comparePage) run() {
	from, to := c.from.Selected, c.to.Selected
	c.w.runCompare(c.doc, from, to, func(before, after *timeline.Project, changes []model.Changed) {
		if c.w.Showing(c) {
			c.take(before, after, changes)
		}
	})
}

func (c *comparePage) take(before, after *timeline.Project, changes []model.Changed) {
	c.before, c.after, c.changes = before, after, changes
	c.count.SetText(fmt.Sprintf("%d of %s changed", len(changes), model.CountOf(c.doc.Len(), "setup")))
	c.list.UnselectAll()
	c.list.Refresh()
	if len(changes) == 0 {
		c.say(fmt.Sprintf("All setups have the same verdict and window in %s as in %s.", c.to.Selected, c.from.Selected))
		return
	}
	c.say("")
	c.list.Select(0)
	c.Refocus()
}

// choose shows change i, before and after.
func (c *comparePage) choose(i int) {
	c.at = i
	ch := &c.changes[i]
	s, err := c.setup(ch)
	if err != nil {
		c.say(err.Error())
		return
	}
	c.say("")
	c.because.SetText(ch.Because)
	c.sheets.show(pairOf(c.before, c.after, s, &ch.Change, "Before: "+c.from.Selected, "After: "+c.to.Selected))
}

// setup reads the setup of a change.
func (c *comparePage) setup(ch *model.Changed) (timeline.Setup, error) {
	if ch.At < c.doc.Len() {
		if s, err := c.doc.Setup(ch.At); err == nil && s.Name == ch.Setup {
			return s, nil
		}
	}
	at := c.w.model.Find(ch.Setup)
	if at < 0 {
		return timeline.Setup{}, fmt.Errorf("the setup %q no longer exists", ch.Setup)
	}
	return c.doc.Setup(at)
}

func (c *comparePage) Content() fyne.CanvasObject { return c.box }
func (c *comparePage) Changed(model.Change)       {}
func (c *comparePage) Edits() bool                { return false }

// Refocus gives the keys to the list, or to the choice where there is none.
func (c *comparePage) Refocus() {
	if len(c.changes) > 0 {
		c.w.Canvas().Focus(c.list)
	} else {
		c.w.Canvas().Focus(c.to)
	}
}
