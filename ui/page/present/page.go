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

	moved int  // frames that the shown delay is later than the setup's own
	why   bool // the sentence is shown
}

// New returns the page of the setup that is chosen, on the whole screen.
func New(host page.Host, whole func(on bool)) *Page {
	p := &Page{host: host, whole: whole}
	p.board = newBoard(p)
	whole(true)
	return p
}

// delay is the delay that is shown.
func (p *Page) delay(plan *timeline.Plan) int {
	own := plan.Setup.Delay
	return max(0, min(own+p.moved, max(own, plan.LastDelay())))
}

// moveBy shows the setup n frames later.
func (p *Page) moveBy(n int) {
	if plan := p.host.Model().Plan(); plan != nil {
		p.moved += n
		p.moved = p.delay(plan) - plan.Setup.Delay
		p.board.Refresh()
	}
}

// turnTo shows the setup n further on in the list, as far as there are.
func (p *Page) turnTo(n int) {
	setups, at := p.host.Listed()
	if to := at + n; to >= 0 && to < len(setups) {
		p.moved, p.why = 0, false
		p.host.Model().Choose(setups[to])
		p.board.Refresh()
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
		p.moveBy(-p.moved)
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

// sentence says why the shown delay is what it is.
func (p *Page) sentence(plan *timeline.Plan) string {
	return words.LessonAt(plan, p.delay(plan), 0, 0, words.Breaking).Steps[0].Sentence
}

// where says which setup of the list is shown, and at which delay.
func (p *Page) where(plan *timeline.Plan) string {
	setups, at := p.host.Listed()
	var parts []string
	if at >= 0 {
		parts = append(parts, fmt.Sprintf("%d of %s", at+1, model.CountOf(len(setups), "setup")))
	}
	switch {
	case plan == nil:
	case p.moved < 0:
		parts = append(parts, words.Frames(-p.moved)+" earlier")
	case p.moved > 0:
		parts = append(parts, words.Frames(p.moved)+" later")
	default:
		parts = append(parts, "as it is")
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
	v := words.VerdictAt(plan, p.delay(plan))
	return fmt.Sprintf("%s, delay %d: %s\n%s\n", plan.Setup.Name, v.Delay, v.Called, p.sentence(plan))
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
	if c&(model.ListChanged|model.DataChanged|model.SetupChanged|model.ChoiceChanged) == 0 {
		return
	}
	if p.host.Model().Chosen() < 0 {
		p.host.Close()
		return
	}
	p.board.Refresh()
}
