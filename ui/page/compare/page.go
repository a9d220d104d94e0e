package compare

import (
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

var _ page.Page = (*Page)(nil)

// Page shows which setups two revisions of the move data judge otherwise: a
// list, and the chosen setup before and after.
type Page struct {
	host page.Host
	doc  *model.Document

	from, to      *paint.Pick
	count         *widget.Label
	list          *list
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

// New returns the page of those two of the revisions. Run compares them.
func New(host page.Host, d *model.Document, list []storage.Revision, from, to string) *Page {
	c := &Page{host: host, doc: d}
	var names []string
	for _, r := range list {
		names = append(names, r.Name)
	}
	again := func(string) {
		if !c.quiet {
			c.Run()
		}
	}
	c.from, c.to = paint.NewPick(host, names, again), paint.NewPick(host, names, again)
	c.count = widget.NewLabel("")
	c.count.Importance = widget.LowImportance
	title := widget.NewLabel("Compare")
	title.TextStyle.Bold = true
	shut := paint.NewPageButton(host, "Close", theme.CancelIcon(), host.Close)
	top := container.NewPadded(container.NewHBox(title, c.from, widget.NewLabel("with"), c.to, c.count, layout.NewSpacer(), shut))

	c.list = newList(c)
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
	c.quiet = true
	c.from.SetSelected(from)
	c.to.SetSelected(to)
	c.quiet = false
	return c
}

// say puts words in place of the sheets; none shows them.
func (c *Page) say(words string) {
	c.nothing.SetText(words)
	if words == "" {
		c.right.Show()
	} else {
		c.right.Hide()
	}
}

// Revisions are the two that are compared.
func (c *Page) Revisions() (from, to string) { return c.from.Selected, c.to.Selected }

// Run compares the two revisions that are chosen.
func (c *Page) Run() {
	from, to := c.Revisions()
	Revisions(c.host, c.doc, from, to, func(before, after *timeline.Project, changes []model.Changed) {
		if c.host.Showing(c) {
			c.take(before, after, changes)
		}
	})
}

func (c *Page) take(before, after *timeline.Project, changes []model.Changed) {
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
func (c *Page) choose(i int) {
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
func (c *Page) setup(ch *model.Changed) (timeline.Setup, error) {
	if ch.At < c.doc.Len() {
		if s, err := c.doc.Setup(ch.At); err == nil && s.Name == ch.Setup {
			return s, nil
		}
	}
	at := c.host.Model().Find(ch.Setup)
	if at < 0 {
		return timeline.Setup{}, fmt.Errorf("the setup %q no longer exists", ch.Setup)
	}
	return c.doc.Setup(at)
}

func (c *Page) Content() fyne.CanvasObject { return c.box }
func (c *Page) Changed(model.Change)       {}
func (c *Page) Edits() bool                { return false }

// Refocus gives the keys to the list, or to the choice where there is none.
func (c *Page) Refocus() {
	if len(c.changes) > 0 {
		c.host.Canvas().Focus(c.list)
	} else {
		c.host.Canvas().Focus(c.to)
	}
}
