package pagetest

import (
	"context"

	"fyne.io/fyne/v2"

	"wakeline/ui/model"
	"wakeline/ui/page"
)

// Show shows p in place of the page before.
func (h *Host) Show(p page.Page) {
	h.leave()
	h.Page = p
	h.Window.SetContent(p.Content())
	h.Window.Resize(Laptop)
	p.Refocus()
}

func (h *Host) leave() {
	if p, ok := h.Page.(page.Leaving); ok {
		p.Left()
	}
}

func (h *Host) refocus() {
	if h.Page != nil {
		h.Page.Refocus()
	}
}

// Close implements page.Host.
func (h *Host) Close() {
	h.leave()
	h.Page = nil
}

// PageKey implements page.Host.
func (h *Host) PageKey(ev *fyne.KeyEvent) bool {
	if h.dialogs.Count() > 0 {
		return h.dialogs.PageKey(ev)
	}
	if ev.Name != fyne.KeyEscape {
		return ev.Name == fyne.KeyF1 || ev.Name == fyne.KeyF10
	}
	if p, ok := h.Page.(page.Ending); !ok || !p.EndOwn() {
		h.Close()
	}
	return true
}

// Note implements page.Host.
func (h *Host) Note(text string) {
	if p, ok := h.Page.(page.Noting); ok {
		p.Note(text)
	}
	h.Notes = append(h.Notes, text)
}

// Done implements page.Host.
func (h *Host) Done(title string, err error) bool {
	if err != nil {
		h.dialogs.Fail(title, err)
	}
	return err == nil
}

// Listed implements page.Host: the list is in the project's order.
func (h *Host) Listed() (setups []int, chosen int) {
	chosen = -1
	for i := range h.model.Len() {
		if s, err := h.model.Document().Setup(i); h.Filter != nil && (err != nil || !h.Filter(&s)) {
			continue
		}
		if i == h.model.Chosen() {
			chosen = len(setups)
		}
		setups = append(setups, i)
	}
	return setups, chosen
}

// ShowChosen implements page.Host: nothing hides it.
func (h *Host) ShowChosen() {}

// Showing implements page.Host.
func (h *Host) Showing(p page.Page) bool { return h.Page == p }

// Model implements page.Host.
func (h *Host) Model() *model.Model { return h.model }

// Timing implements page.Host.
func (h *Host) Timing() *model.Timing { return h.timing }

// Preferences implements page.Host.
func (h *Host) Preferences() fyne.Preferences { return fyne.CurrentApp().Preferences() }

// Canvas implements page.Host.
func (h *Host) Canvas() fyne.Canvas { return h.Window.Canvas() }

// Dialogs implements page.Host.
func (h *Host) Dialogs() *page.Dialogs { return h.dialogs }

// Context implements page.Host.
func (h *Host) Context() context.Context { return h.ctx }

// Run implements page.Host.
func (h *Host) Run(do func()) {
	if h.Hold != nil {
		h.Hold(do)
		return
	}
	do()
}

// Later implements page.Host.
func (h *Host) Later(do func()) { h.Tasks.Later(do) }

// Task implements page.Host.
func (h *Host) Task(title string, count func(done, of int) string, do func(page.Work) error, then func(err error)) {
	h.Tasks.Task(title, count, do, then)
}
