package history

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

var (
	_ page.Page       = (*Page)(nil)
	_ page.Noting     = (*Page)(nil)
	_ page.Recoloured = (*Page)(nil)
)

// Page lists the steps of the history, the newest on top: when, what, and of
// which setup. A click on one leads to the state right after it.
type Page struct {
	host  page.Host
	steps []model.PastStep
	whole bool // nothing came before the steps listed
	at    int  // marked by the keys

	count *widget.Label
	said  *widget.Label
	list  *list
	box   *fyne.Container
}

// New returns the page, or says why the history can't be read.
func New(host page.Host) (*Page, error) {
	h := &Page{host: host, count: widget.NewLabel(""), said: widget.NewLabel("")}
	h.list = newList(h)
	h.count.Importance, h.said.Importance = widget.LowImportance, widget.LowImportance
	title := page.Title("History")
	about := paint.NewLowLabel()
	about.SetText("Click a step, or press Enter, to go to the state after it.")
	top := container.NewVBox(container.NewPadded(container.NewBorder(nil, nil, container.NewHBox(title, h.count), page.CloseButton(host), about)), widget.NewSeparator())
	h.box = container.NewBorder(top, container.NewPadded(container.NewHBox(h.said, layout.NewSpacer())), nil, nil, h.list)
	return h, h.read()
}

// Unread is said where the history can't be read.
const Unread = "The history can't be read"

// read takes the steps in, and marks the one that is done last.
func (h *Page) read() error {
	steps, err := h.host.Model().Past(model.MostHistory)
	if err != nil {
		return err
	}
	h.steps, h.whole = steps, len(steps) < model.MostHistory
	text := model.CountOf(len(steps), "step")
	if !h.whole {
		text = "the last " + text
	}
	h.count.SetText(text)
	h.list.Refresh()
	h.mark(model.NowStep(steps))
	return nil
}

// Steps are those listed.
func (h *Page) Steps() []model.PastStep { return h.steps }

// len is how many lines there are: the last is what was before all steps.
func (h *Page) len() int {
	if h.whole {
		return len(h.steps) + 1
	}
	return len(h.steps)
}

func (h *Page) mark(i int) {
	h.at = min(max(i, 0), h.len()-1)
	h.list.ScrollTo(h.at)
	h.list.Refresh()
}

// goTo leads to the state right after a step.
func (h *Page) goTo(i int) {
	h.at = i
	h.goBack(model.StepsTo(h.steps, i))
	h.list.Refresh()
}

func (h *Page) Content() fyne.CanvasObject { return h.box }
func (h *Page) Edits() bool                { return true }
func (h *Page) Refocus()                   { h.host.Canvas().Focus(h.list) }
func (h *Page) Note(text string)           { h.said.SetText(text) }
func (h *Page) Recolour()                  { h.list.Refresh() }

func (h *Page) Changed(model.Change) {
	if err := h.read(); err != nil {
		h.host.Close()
		h.host.Dialogs().Fail(Unread, err)
	}
}
