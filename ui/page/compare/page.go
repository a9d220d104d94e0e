package compare

import (
	"context"
	"errors"
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage"
	"wakeline/timeline/patch"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

var (
	_ page.Page    = (*Page)(nil)
	_ page.Ending  = (*Page)(nil)
	_ page.Leaving = (*Page)(nil)

	_ page.Exported = (*Page)(nil)
)

// Asks is what the page needs of the window besides: other pages, opened for
// the setup at that place, or to export what changed.
type Asks struct {
	Find, Mix func(at int)
	Export    func()
}

// Page shows what changed from one revision of the move data to another: the
// answer, a list in sections, and what is chosen there before and after.
type Page struct {
	host page.Host
	doc  *model.Document
	asks Asks

	from, to *paint.Pick
	answer   *page.Answer
	list     *list
	detail   *detail
	busy     page.Running
	box      *fyne.Container

	patch  *model.Patch // nil: nothing was compared yet
	open   map[patch.Section]bool
	rows   []entry
	at     int         // the chosen row
	work   page.Newest // weighs the mixes
	done   int         // setups that are weighed
	halted bool        // the weighing was stopped
	quiet  bool        // the selects are set without a run
}

// New returns the page of those two of the revisions. Run compares them, and
// Take shows what was compared already.
func New(host page.Host, d *model.Document, list []storage.Revision, from, to string, asks Asks) *Page {
	c := &Page{host: host, doc: d, asks: asks, open: map[patch.Section]bool{}}
	c.work = page.Newest{Host: host, What: "The mixes", Busy: func(on bool) { c.busy.Set(on) }}
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
	title := page.Title("Compare")
	c.busy = page.NewRunning(host, "Weighing…", func() { c.EndOwn() })
	shut := page.CloseButton(host)
	picks := container.NewGridWithColumns(2, c.from, container.NewBorder(nil, nil, widget.NewLabel("with"), nil, c.to))
	top := container.NewPadded(container.NewBorder(nil, nil, title, container.NewHBox(c.busy, paint.NewPageButton(host, "Export…", nil, asks.Export), shut), picks))

	c.answer = page.NewAnswer()
	c.list, c.detail = newList(c), newDetail(c)
	split := container.NewHSplit(c.list, c.detail.box)
	split.Offset = 0.34
	c.box = c.answer.Between(container.NewVBox(top, widget.NewSeparator()), split)
	c.quiet = true
	c.from.SetSelected(from)
	c.to.SetSelected(to)
	c.quiet = false
	c.detail.tell("", "", "", nil, "")
	return c
}

// Revisions are the two that are compared.
func (c *Page) Revisions() (from, to string) { return c.from.Selected, c.to.Selected }

// Answer is what the page says in large letters.
func (c *Page) Answer() string { return c.answer.Text.Text }

// Run compares the two revisions that are chosen.
func (c *Page) Run() {
	c.work.Stop()
	from, to := c.Revisions()
	Revisions(c.host, c.doc, from, to, func(p *model.Patch) {
		if c.host.Showing(c) {
			c.Take(p)
		}
	})
}

// Take shows a patch, and weighs its mixes.
func (c *Page) Take(p *model.Patch) {
	c.patch, c.at = p, 0
	clear(c.open)
	p.Day.Weighed = p.ToWeigh() == 0
	c.halted = false
	c.fill()
	for _, r := range c.rows { // the first answer, not what stands in the tables
		if r.section != patch.MoveData || len(c.rows) == 1 {
			c.open[r.section] = true
			c.refill(entry{section: r.section, at: c.firstOf(r.section)})
			break
		}
	}
	c.list.lay()
	c.list.ScrollToTop()
	c.tell()
	if len(c.rows) == 0 {
		c.detail.tell("", "", "", nil, fmt.Sprintf("All move data are the same in %s as in %s.", c.to.Selected, c.from.Selected))
	}
	c.Refocus()
	c.weigh()
}

// firstOf is the first thing of a section.
func (c *Page) firstOf(s patch.Section) int {
	c.fill()
	for _, r := range c.rows {
		if r.section == s && !r.head {
			return r.at
		}
	}
	return 0
}

// tell says the answer.
func (c *Page) tell() {
	d := &c.patch.Day
	about := fmt.Sprintf("%d of %s changed from %s to %s.", len(d.Setups), model.CountOf(len(d.Setups)+d.Unchanged, "setup"), c.patch.From, c.patch.To)
	c.answer.Say(d.Answer(), about)
}

// weigh weighs the mixes behind the window.
func (c *Page) weigh() {
	if !c.weighing() {
		return
	}
	p := c.patch
	var moved []patch.Mix
	c.done, c.halted = 0, false
	c.refreshHead()
	last := 0
	c.work.Run(func(ctx context.Context) (err error) {
		moved, err = p.Weigh(ctx, c.doc.File(), func(done int) {
			if done-last < 100 && done < p.ToWeigh() { // a redraw for each would hold the window
				return
			}
			last = done
			c.host.Later(func() {
				if c.patch == p {
					c.done = done
					c.refreshHead()
				}
			})
		})
		return err
	}, func(err error) {
		if c.patch != p {
			return
		}
		if err != nil {
			c.halt()
			if !errors.Is(err, context.Canceled) {
				c.host.Dialogs().Fail("The mixes could not be weighed", err)
			}
			return
		}
		chosen := c.chosen()
		p.Day.Mixes, p.Day.Weighed = moved, true
		c.refill(chosen)
		c.tell()
	})
}

// refreshHead draws the head of the mixes anew.
func (c *Page) refreshHead() {
	for i, r := range c.rows {
		if r.head && r.section == patch.Mixes {
			c.list.RefreshItem(i)
		}
	}
}

func (c *Page) halt() {
	c.halted = true
	c.refreshHead()
}

// EndOwn implements page.Ending.
func (c *Page) EndOwn() bool {
	if !c.work.Stop() {
		return false
	}
	c.halt()
	return true
}

// Left implements page.Leaving.
func (c *Page) Left() { c.work.Stop() }

func (c *Page) Content() fyne.CanvasObject { return c.box }
func (c *Page) Changed(model.Change)       {}
func (c *Page) Edits() bool                { return false }

// Refocus gives the keys to the list, or to the choice where there is none.
func (c *Page) Refocus() {
	if len(c.rows) > 0 {
		c.host.Canvas().Focus(c.list)
	} else {
		c.host.Canvas().Focus(c.to)
	}
}
