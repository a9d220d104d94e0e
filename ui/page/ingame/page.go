package ingame

import (
	"fmt"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/timeline/handout"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

var _ page.Page = (*Page)(nil)

// The results of a test, each by its first letter.
const (
	worked  = "worked"
	failed  = "failed"
	unclear = "unclear"
)

// Page lists what to try in the game, and takes the results.
type Page struct {
	host page.Host
	doc  *model.Document
	now  func() time.Time

	answer *page.Answer
	list   *list
	title  *widget.Label
	checks *widget.Label
	scroll *container.Scroll
	read   *field // the advantage that was read
	note   *field
	box    *fyne.Container

	rows    []item // in the order of the list of setups
	at      int    // the chosen row
	done    int    // how many of them have a result
	ownEdit bool   // what changes now is the result of the chosen row alone
}

// item is one setup to test.
type item struct {
	name   string
	at     int    // among the setups; -1: it is there no longer
	result string // since the last revision; empty: none yet
	check  *handout.Check
	why    string // it can't be judged
}

// New returns the page of the setups in the list that were not tested since the
// last revision. now is asked for the day of a test.
func New(host page.Host, d *model.Document, now func() time.Time) (*Page, error) {
	p := &Page{host: host, doc: d, now: now, at: -1}
	untested, err := d.Untested()
	if err != nil {
		return nil, err
	}
	listed, _ := host.Listed()
	for _, i := range listed {
		if untested[i] {
			p.rows = append(p.rows, item{name: d.Head(i).Name, at: i})
		}
	}
	p.answer = page.NewAnswer()
	p.list = newList(p)
	p.title, p.checks = widget.NewLabel(""), widget.NewLabel("")
	p.title.TextStyle.Bold, p.title.Truncation = true, fyne.TextTruncateEllipsis
	p.checks.Wrapping = fyne.TextWrapWord
	p.scroll = container.NewVScroll(p.checks)
	p.read = newField(p, "as expected", true)
	p.note = newField(p, "what you saw", false)
	button := func(label, result string) fyne.CanvasObject {
		return paint.NewPageButton(host, label, nil, func() { p.record(result) })
	}
	form := container.New(layout.NewFormLayout(), widget.NewLabel("Advantage read"), p.read, widget.NewLabel("Note (N)"), p.note)
	buttons := container.NewGridWithColumns(3, button("Worked (W)", worked), button("Failed (F)", failed), button("Unclear (U)", unclear))
	below := container.NewVBox(widget.NewSeparator(), form, buttons)
	split := container.NewHSplit(p.list, container.NewBorder(p.title, below, nil, nil, p.scroll))
	split.Offset = 0.5
	heading := page.Title("In-game tests to do")
	shut := page.CloseButton(host)
	top := container.NewVBox(container.NewPadded(container.NewBorder(nil, nil, heading, shut)), widget.NewSeparator())
	p.box = p.answer.Between(top, split)
	p.tell()
	if len(p.rows) > 0 {
		p.list.Select(0)
	}
	return p, nil
}

// tell says how far it is.
func (p *Page) tell() {
	revision := p.doc.Latest.Name
	if len(p.rows) == 0 {
		p.answer.Say("Nothing is left to test.", fmt.Sprintf("Each setup of the list has an in-game test since the revision %s.", revision))
		return
	}
	p.answer.Say(fmt.Sprintf("%d of %s tested since the revision %s.", p.done, model.CountOf(len(p.rows), "setup"), revision),
		"W: it worked, F: it failed, U: unclear; each moves on to the next. Before it, type the advantage that you read, where it isn't the expected one, or N and a note. Ctrl+Z takes the last result back.")
}

// choose shows what to test of row i.
func (p *Page) choose(i int) {
	if i < 0 || i >= len(p.rows) {
		p.at = -1
		p.title.SetText("")
		p.checks.SetText("")
		return
	}
	if p.at != i {
		p.read.SetText("")
		p.note.SetText("")
	}
	p.at = i
	r := p.look(i)
	p.title.SetText(r.name)
	if r.check == nil {
		p.checks.SetText(r.why)
	} else {
		read, record := r.check.Sentences()
		lines := append([]string{fmt.Sprintf("%s vs %s, %s: %s", r.check.Attacker, r.check.Rival, r.check.Position, r.check.Called)}, read...)
		p.checks.SetText(strings.Join(append(lines, record...), "\n"))
	}
	p.scroll.ScrollToTop()
}

// look is row i with what to test of it.
func (p *Page) look(i int) *item {
	r := &p.rows[i]
	if r.check != nil || r.why != "" {
		return r
	}
	if r.at < 0 {
		r.why = "This setup no longer exists."
		return r
	}
	s, err := p.doc.Setup(r.at)
	if err == nil {
		var plan *timeline.Plan
		if plan, err = timeline.Compile(p.doc.Data(), s); err == nil {
			c := handout.CheckOf(plan)
			r.check = &c
		}
	}
	if err != nil {
		r.why = "It can't be judged: " + model.ErrorWords(p.doc.Data(), err)
	}
	return r
}

// record records a result of the chosen setup, and moves on to the next that
// has none.
func (p *Page) record(result string) {
	if p.at < 0 || p.rows[p.at].at < 0 || page.Busy(p.host) {
		return
	}
	name, at := p.rows[p.at].name, p.at
	var note []string
	if read := strings.TrimSpace(p.read.Text); read != "" {
		note = append(note, "advantage "+read)
	}
	if seen := strings.TrimSpace(p.note.Text); seen != "" {
		note = append(note, seen)
	}
	p.host.Model().Commit() // of an edit before, which is told of as ever
	p.ownEdit = true
	err := p.host.Model().Prove(storage.Proof{Setup: name, Revision: p.doc.Latest.Name, Date: p.now().Format(time.DateOnly), Result: result, Note: strings.Join(note, "; ")})
	p.ownEdit = false
	if err == nil {
		p.take(at, result)
	}
	if !p.host.Done("The result could not be saved", err) {
		return
	}
	p.read.SetText("")
	p.note.SetText("")
	p.list.Select(p.next(at))
	p.Refocus()
	p.host.Note(fmt.Sprintf("%s: %s. Ctrl+Z takes it back", model.CutText(name, 60), result))
}

// take shows a result that was recorded of row i: nothing else has changed.
func (p *Page) take(i int, result string) {
	r := &p.rows[i]
	if r.result == "" {
		p.done++
	}
	r.result = result
	p.tell()
	p.list.RefreshItem(i)
}

// next is the first row after that one without a result, from the top on where
// there is none below; itself where there is none at all.
func (p *Page) next(at int) int {
	for n := 1; n < len(p.rows); n++ {
		if i := (at + n) % len(p.rows); p.rows[i].result == "" {
			return i
		}
	}
	return at
}

// showSetup shows the chosen setup on the timeline.
func (p *Page) showSetup() {
	if p.at >= 0 && p.rows[p.at].at >= 0 {
		at := p.rows[p.at].at
		p.host.Close()
		p.host.Model().Choose(at)
	}
}

// Tested is how many of the setups on the page have a result, and the name of the chosen one.
func (p *Page) Tested() (done, of int, chosen string) {
	if p.at >= 0 {
		chosen = p.rows[p.at].name
	}
	return p.done, len(p.rows), chosen
}

func (p *Page) Content() fyne.CanvasObject { return p.box }
func (p *Page) Edits() bool                { return true }

// Changed reads the results anew, and goes back to a setup whose result was
// taken back. A result that is recorded on the page itself needs no reading.
func (p *Page) Changed(c model.Change) {
	if p.ownEdit || c&(page.AnySetup|model.StateChanged) == 0 {
		return
	}
	untested, err := p.doc.Untested()
	if err != nil {
		p.host.Dialogs().Fail("The in-game tests can't be read", err)
		return
	}
	places := make(map[string]int, p.doc.Len())
	for i := range p.doc.Len() {
		places[p.doc.Head(i).Name] = i
	}
	back := -1
	p.done = 0
	for i := range p.rows {
		r := &p.rows[i]
		had := r.result
		at, ok := places[r.name]
		if !ok {
			at = -1
		}
		if r.at, r.result = at, ""; at >= 0 && !untested[at] {
			r.result = p.doc.Tried(at)
		}
		if c&(model.DataChanged|model.SetupChanged) != 0 {
			r.check, r.why = nil, ""
		}
		if r.result != "" {
			p.done++
		}
		if had != "" && r.result == "" && back < 0 {
			back = i
		}
	}
	p.tell()
	p.list.Refresh()
	if back >= 0 {
		p.list.Select(back)
	} else {
		p.choose(p.at)
	}
}

// Refocus gives the keys to the list.
func (p *Page) Refocus() { p.host.Canvas().Focus(p.list) }
