package ui

import (
	"context"
	"slices"

	"fyne.io/fyne/v2"

	"wakeline/timeline/words"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/sheet"
)

var _ page.Host = (*window)(nil)

// Model implements page.Host.
func (w *window) Model() *model.Model { return w.model }

// Timing implements page.Host.
func (w *window) Timing() *model.Timing { return w.timing }

// Preferences implements page.Host.
func (w *window) Preferences() fyne.Preferences { return w.app.Preferences() }

// Canvas implements page.Host.
func (w *window) Canvas() fyne.Canvas { return w.win.Canvas() }

// Dialogs implements page.Host.
func (w *window) Dialogs() *page.Dialogs { return w.dialogs }

// Context implements page.Host.
func (w *window) Context() context.Context { return w.ctx }

// Run implements page.Host.
func (w *window) Run(do func()) { w.tasks.Spawn(do) }

// Later implements page.Host.
func (w *window) Later(do func()) { w.tasks.Later(do) }

// Task implements page.Host.
func (w *window) Task(title string, count func(done, of int) string, do func(page.Work) error, then func(err error)) {
	w.tasks.Task(title, count, do, then)
}

// Showing implements page.Host.
func (w *window) Showing(p page.Page) bool { return w.page == p }

// Listed implements page.Host.
func (w *window) Listed() (setups []int, chosen int) {
	if several := w.setups.Marks.Places(); several != nil {
		return several, slices.Index(several, w.model.Chosen())
	}
	return w.setups.Shown, w.setups.Row()
}

// timingChanged shows the odds of another's timing.
func (w *window) timingChanged() {
	w.sheet.Refresh()
	w.explain.Refresh()
	w.numbers.Changed(model.ShownChanged)
	if p, ok := w.page.(page.Timed); ok {
		p.TimingChanged()
	}
}

// holdingChanged shows for what else the setup is good.
func (w *window) holdingChanged() {
	w.holds.Update()
	if w.numbers.Visible() {
		w.numbers.Facts.Update()
	}
}

// askTiming asks whose timing the odds are of.
func (w *window) askTiming() { page.AskTiming(w, w.page != nil) }

// perFrame is how many points of the curve stand for one delay.
const perFrame = 6

// oddsCurve adds the odds of the chosen setup's wait to what its sheet is drawn
// with, where some delay is good: also where the jump follows at once, so that
// nothing jumps when a hand drags it on.
func (w *window) oddsCurve(o *sheet.Options) {
	wait, ok := w.timing.Wait(w.timing.Person())
	if !ok || !wait.Good {
		return
	}
	o.Odds = &sheet.Odds{Chances: wait.Curve(perFrame), Per: perFrame}
	if wait.Needed {
		o.Odds.Label = words.Percent(wait.Chance)
	}
}
