package present

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"

	"wakeline/timeline"
	"wakeline/timeline/words"
	"wakeline/ui/model"
	"wakeline/ui/output"
	"wakeline/ui/page"
)

var (
	_ page.Page    = (*Page)(nil)
	_ page.Leaving = (*Page)(nil)
	_ page.Noting  = (*Page)(nil)
	_ page.Copied  = (*Page)(nil)
)

// Page presents the setups of the list, one at a time.
type Page struct {
	host  page.Host
	whole func(on bool) // the window takes the whole screen
	board *board

	at  timeline.Maybe // the delay that is shown; absent: the setup's own
	why bool           // the sentence is shown
}

// New returns the page of the setup that is chosen, on the whole screen.
func New(host page.Host, whole func(on bool)) *Page {
	p := &Page{host: host, whole: whole}
	p.board = newBoard(p)
	whole(true)
	return p
}

// step is the setup as it is shown: at its own delay, or at another.
func (p *Page) step(plan *timeline.Plan) *words.Step {
	own := plan.Setup.Delay
	l := words.LessonAt(plan, own, 0, 0, words.Breaking, p.at.Or(own))
	for i := range l.Steps {
		if l.Steps[i].Delay == p.at.Or(own) {
			return &l.Steps[i]
		}
	}
	return &l.Steps[l.Own]
}

// moveBy shows the setup n frames later, as far as delays go.
func (p *Page) moveBy(n int) {
	if plan := p.host.Model().Plan(); plan != nil {
		own := plan.Setup.Delay
		p.at = timeline.Some(max(0, min(p.at.Or(own)+n, max(own, plan.LastDelay()))))
		p.board.Refresh()
	}
}

// asItIs shows the setup's own delay again.
func (p *Page) asItIs() {
	p.at = timeline.Maybe{}
	p.board.Refresh()
}

// turnTo shows the setup n further on in the list, as far as there are.
func (p *Page) turnTo(n int) {
	setups, at := p.host.Listed()
	if to := at + n; to >= 0 && to < len(setups) {
		p.why = false
		p.host.Model().Choose(setups[to])
		p.asItIs()
	}
}

// key does what a key does; it reports whether it did.
func (p *Page) key(ev *fyne.KeyEvent) bool {
	switch ev.Name {
	case fyne.KeyLeft:
		p.moveBy(-1)
	case fyne.KeyRight:
		p.moveBy(1)
	case fyne.KeyHome:
		p.asItIs()
	case fyne.KeySpace, fyne.KeyPageDown, fyne.KeyReturn, fyne.KeyEnter:
		p.turnTo(1)
	case fyne.KeyBackspace, fyne.KeyPageUp:
		p.turnTo(-1)
	case fyne.KeyW:
		p.why = !p.why
		p.board.Refresh()
	case fyne.KeyF10: // the menus are away
	default:
		return p.host.PageKey(ev)
	}
	return true
}

// where says which setup of the list is shown, and at which delay.
func (p *Page) where(plan *timeline.Plan) string {
	setups, at := p.host.Listed()
	var parts []string
	if at >= 0 {
		parts = append(parts, fmt.Sprintf("%d of %s", at+1, model.CountOf(len(setups), "setup")))
	}
	if plan != nil {
		step := p.step(plan)
		parts = append(parts, fmt.Sprintf("%s, delay %d", strings.ToLower(step.Title), step.Delay))
	}
	return strings.Join(parts, " · ")
}

// Picture is the sheet as it is shown.
func (p *Page) Picture() *output.Made {
	if p.board.drawn == nil {
		return nil
	}
	return page.Picture(p.board.drawn)
}

// Text is the verdict, and why.
func (p *Page) Text() string {
	plan := p.host.Model().Plan()
	if plan == nil {
		return ""
	}
	step := p.step(plan)
	return fmt.Sprintf("%s, delay %d: %s\n%s\n", plan.Setup.Name, step.Delay, step.Scene.Verdict, step.Sentence)
}

// Content implements page.Page.
func (p *Page) Content() fyne.CanvasObject { return p.board }

// Edits implements page.Page: nothing is edited before a room.
func (p *Page) Edits() bool { return false }

// Refocus implements page.Page.
func (p *Page) Refocus() { p.host.Canvas().Focus(p.board) }

// Left gives the screen back.
func (p *Page) Left() { p.whole(false) }

// Note says something in passing.
func (p *Page) Note(text string) {
	p.board.said = text
	p.board.Refresh()
}

// Changed follows the chosen setup.
func (p *Page) Changed(c model.Change) {
	if !page.Outdated(p.host, c, page.AnySetup|model.ChoiceChanged, func() bool { return p.host.Model().Chosen() >= 0 }) {
		return
	}
	p.asItIs()
}
