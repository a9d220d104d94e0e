package find

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage/guard"
	"wakeline/timeline"
	"wakeline/timeline/find"
	"wakeline/timeline/odds"
	"wakeline/timeline/value"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

var (
	_ page.Page    = (*Page)(nil)
	_ page.Ending  = (*Page)(nil)
	_ page.Leaving = (*Page)(nil)
	_ page.Timed   = (*Page)(nil)
)

// Page looks for setups: a form of what limits them, the answers in rank
// order, and the sheet of the one chosen. Each change of the form searches
// anew, behind the window.
type Page struct {
	host page.Host

	form   *form
	tabs   *paint.Tabs
	count  *widget.Label
	hand   *widget.Label
	list   *answerList
	none   *widget.Label // why there is no answer
	nones  *container.Scroll
	sheet  *paint.AnswerSheet
	of     *widget.Label // the answer chosen
	why    *widget.Label
	open   *paint.PushButton
	sides  *paint.PushButton // the sheet against another rival
	enders *endersTable
	busy   *fyne.Container
	doing  *widget.Label
	box    fyne.CanvasObject

	turn   int // of the searches
	cancel context.CancelFunc
	asked  find.Demands // nil: not read yet
	side   int          // which of an answer's rivals the sheet shows

	told       *find.Told       // what the answers list shows; nil: nothing was found yet
	toldEnders *find.ToldEnders // what the table of enders shows
}

// New returns the page for the chosen setup, whose attacker there must be. Run
// searches; export exports what is shown.
func New(host page.Host, export func()) *Page {
	f := &Page{host: host}
	f.form = newForm(host)
	f.form.OnChange = f.Run
	f.count, f.hand = paint.NewLowLabel(), paint.NewLowLabel()
	f.list, f.sheet = newAnswerList(), paint.NewAnswerSheet()
	f.list.OnChosen, f.list.OnOpen, f.list.OnSide, f.list.OnKey = func(int) { f.side = 0; f.draw() }, f.openAnswer, f.turnSide, f.key
	f.none, f.why, f.of = widget.NewLabel(""), widget.NewLabel(""), widget.NewLabel("")
	f.none.Wrapping, f.why.Wrapping, f.of.Truncation = fyne.TextWrapWord, fyne.TextWrapWord, fyne.TextTruncateEllipsis
	f.count.Wrapping, f.count.Truncation = fyne.TextWrapWord, fyne.TextTruncateOff
	f.of.TextStyle.Bold = true
	f.nones = container.NewVScroll(f.none)
	f.open = paint.NewPageButton(host, "Open as a setup", nil, f.openAnswer)
	f.open.Importance = widget.HighImportance
	f.sides = paint.NewPageButton(host, "", nil, func() { f.turnSide(1) })
	f.enders = newEndersTable(host, f.openCell)

	f.doing = widget.NewLabel("")
	f.busy = container.NewHBox(f.doing, paint.NewPageButton(host, "Stop", nil, f.stop))
	f.busy.Hide()

	as := widget.NewLabel("as " + host.Model().Setup().Attacker)
	as.Truncation = fyne.TextTruncateEllipsis
	title := page.Title("Find setups")
	top := container.NewVBox(container.NewPadded(container.NewBorder(nil, nil, title, container.NewHBox(f.busy,
		paint.NewPageButton(host, "Your timing…", nil, func() { page.AskTiming(host, true) }), paint.NewPageButton(host, "Export…", nil, export), page.CloseButton(host)), as)), widget.NewSeparator())
	chosen := container.NewBorder(container.NewBorder(nil, nil, nil, f.sides, f.of), container.NewBorder(f.why, nil, nil, f.open), nil, nil, f.sheet)
	answers := container.New(answersLayout{}, container.NewBorder(container.NewVBox(f.count, f.hand), nil, nil, nil, f.list, f.nones), chosen)
	f.tabs = paint.NewTabs()
	f.tabs.Add("Answers", answers)
	f.tabs.Add("By ender", f.enders.box)
	f.tabs.OnShow, f.tabs.OnKey = func(int) { f.Run() }, f.key
	form := container.NewVScroll(container.New(paint.NoWider{}, container.NewPadded(f.form.box)))
	f.box = container.NewBorder(top, nil, container.NewHBox(container.New(paint.FixedWidth{Width: formWidth}, form), widget.NewSeparator()), nil, f.tabs.Box)
	return f
}

// key does what a key does on the page.
func (f *Page) key(ev *fyne.KeyEvent) { f.host.PageKey(ev) }

// EndOwn stops a search that runs.
func (f *Page) EndOwn() bool {
	if f.cancel == nil {
		return false
	}
	f.stop()
	return true
}

// found is what a search brought: answers, or the table of enders.
type found struct {
	asked  find.Demands
	told   *find.Told
	enders *find.ToldEnders
}

// Run searches anew, in place of a search that runs.
func (f *Page) Run() {
	f.halt()
	byEnder := f.tabs.At == 1
	q, rivals, lacks := f.form.query(byEnder)
	person := f.host.Timing().Person()
	f.hand.SetText("For " + strings.ToLower(person.Words()[:1]) + person.Words()[1:] + ".")
	if lacks != "" {
		f.say(lacks)
		return
	}
	base := f.form.of
	data := &timeline.Project{Ruleset: f.host.Model().Data().Ruleset, Fighters: f.host.Model().Data().Fighters} // as they are now
	each, known := f.host.Model().Document().Each(), f.asked
	q.Hand = person.Timing(data.Ruleset)
	ctx, cancel := context.WithCancel(f.host.Context())
	f.cancel = cancel
	f.turn++
	turn := f.turn
	progress := func(done, of int) {
		f.host.Later(func() {
			if turn == f.turn && f.cancel != nil {
				f.doing.SetText(fmt.Sprintf("%d of %s", done, model.CountOf(of, "ender")))
			}
		})
	}
	f.host.Run(func() {
		got := found{asked: known}
		err := guard.Try("The search", func() (err error) {
			if got.asked == nil && (len(rivals) > 1 || rivals[0].Rival != base.Rival) {
				if got.asked, err = find.DemandsOf(ctx, each, base.Attacker); err != nil {
					return err
				}
			}
			targets := got.asked.Targets(data, &base, rivals)
			q.Setup.Rival, q.Setup.Rises, q.Setup.Replies = targets[0].Rival, targets[0].Rises, targets[0].Replies
			q.Also = targets[1:]
			if byEnder {
				got.enders = &find.ToldEnders{Setup: base.Name, Query: q, Project: data}
				got.enders.Rows, err = find.Enders(ctx, data, q, []timeline.Position{timeline.Midscreen, timeline.Wall}, progress)
				return err
			}
			hand := find.HandTold{Spread: person.Spread, Bias: person.Bias, Assumed: person.Assumed, Presses: person.Presses, Name: person.Name}
			got.told = &find.Told{Setup: base.Name, Query: q, Hand: hand, Project: data}
			got.told.Result, err = find.Search(ctx, data, q)
			return err
		})
		f.host.Later(func() {
			if turn == f.turn && f.host.Context().Err() == nil {
				f.took(got, err, byEnder)
			}
			cancel()
		})
	})
	if f.cancel == nil {
		return
	}
	guard.After(page.Patience, "The search", func() {
		f.host.Later(func() {
			if turn == f.turn && f.cancel != nil {
				f.doing.SetText("Searching…")
				f.busy.Show()
				paint.Repaint(f.busy, f.busy)
			}
		})
	})
}

// Left gives up a search that runs.
func (f *Page) Left() { f.halt() }

// halt gives up the search that runs.
func (f *Page) halt() {
	f.turn++
	if f.cancel != nil {
		f.cancel()
		f.cancel = nil
	}
	f.busy.Hide()
}

// stop gives it up and says so.
func (f *Page) stop() {
	if f.cancel != nil {
		f.halt()
		f.say("The search was stopped. Any change of the form searches anew.")
	}
}

// took shows what a search brought.
func (f *Page) took(got found, err error, byEnder bool) {
	f.cancel = nil
	f.busy.Hide()
	f.asked = got.asked
	wrong, broken := (*find.QueryError)(nil), (*timeline.FieldError)(nil)
	switch {
	case errors.Is(err, context.Canceled):
		f.say("The search was stopped. Any change of the form searches anew.")
	case errors.As(err, &wrong):
		f.say(model.Sentence(fmt.Sprintf("this can't be searched for: %s: expected %s, got %s", labels[wrong.Field], wrong.Want, wrong.Got)))
	case errors.As(err, &broken):
		f.say(model.Sentence(fmt.Sprintf("this can't be searched for: expected %s, got %s", broken.Want, broken.Got)))
	case err != nil:
		f.say(model.Sentence("this can't be searched for: " + err.Error()))
	case byEnder:
		f.ShowEnders(got.enders)
	case got.told.Count.Sign() == 0:
		f.told = got.told
		f.count.SetText(got.told.Words())
		why := got.told.Because
		if n := got.told.Limited; n.Sign() > 0 {
			why = append(slices.Clone(why), fmt.Sprintf("With “%s” there would be %s, safe but for replies that no timing covers.", includeLimited, find.Answers(n)))
		}
		f.sayNone(strings.Join(why, "\n\n"))
	default:
		f.told = got.told
		f.count.SetText(got.told.Words())
		f.nones.Hide()
		f.list.Show()
		f.list.show(got.told.Answers)
	}
}

// say puts words in place of the answers, and of the table.
func (f *Page) say(words string) {
	f.told, f.toldEnders = nil, nil
	f.count.SetText("")
	f.sayNone(words)
	f.enders.say(words)
}

func (f *Page) sayNone(words string) {
	f.none.SetText(words)
	f.nones.Show()
	f.nones.ScrollToTop()
	f.list.Hide()
	f.list.show(nil)
	f.draw()
}

// answer is the one chosen, nil for none.
func (f *Page) answer() *find.Answer {
	if f.list.at < 0 || f.list.at >= len(f.list.answers) {
		return nil
	}
	return &f.list.answers[f.list.at]
}

// draw shows the chosen answer's sheet, and why it ranks where it does.
func (f *Page) draw() {
	a := f.answer()
	f.sides.Hide()
	if a == nil {
		f.of.SetText("")
		f.why.SetText("")
		f.open.Disable()
		f.sheet.Clear()
		return
	}
	f.open.Enable()
	s := &a.Setups[f.side]
	f.of.SetText(s.Name)
	f.why.SetText(a.Why)
	if len(a.Setups) > 1 {
		f.sides.SetText("against " + s.Rival)
		f.sides.Show()
	}
	if plan, err := timeline.Compile(f.host.Model().Data(), *s); err != nil {
		f.sheet.Clear()
		f.why.SetText(err.Error())
	} else {
		f.sheet.ShowPlan(plan, s.Delay)
		f.sheet.Follow(value.Deciding(plan, s.Delay))
		if len(a.Setups) == 1 { // of several rivals' windows the plan knows one
			w := odds.WaitOf(plan, s.Delay, f.host.Timing().Person().Timing(f.host.Model().Data().Ruleset))
			f.why.SetText(strings.TrimSpace(a.Why + " " + w.Advice()))
		}
	}
}

// turnSide shows the chosen answer against another of its rivals.
func (f *Page) turnSide(n int) {
	if a := f.answer(); a != nil && len(a.Setups) > 1 {
		f.side = (f.side + n + len(a.Setups)) % len(a.Setups)
		f.draw()
	}
}

// openAnswer makes setups of the chosen answer, one a rival, as one step, and
// shows the one whose sheet is shown.
func (f *Page) openAnswer() {
	a := f.answer()
	if a == nil || page.Busy(f.host) {
		return
	}
	var edits []timeline.Edit
	for i := range a.Setups { // the one that is shown last: it is chosen
		s := a.Setups[(f.side+1+i)%len(a.Setups)]
		s.Name = f.host.Model().FreeName(s.Name)
		edits = append(edits, timeline.SetupEdit{Setup: &s})
	}
	if !f.host.Done("The answer could not be opened", f.host.Model().Apply("found setup", edits...)) {
		return
	}
	f.host.Close()
	f.host.ShowChosen()
	f.host.Note("Opened as a setup of its own. Ctrl+Z takes it back")
}

// openCell searches for one cell of the table of enders.
func (f *Page) openCell(r *find.Row, c *find.Cell) {
	f.form.start(r.Ender, r.Position, c.Jump, c.Attack)
	f.tabs.Show(0) // and searches
	f.host.Canvas().Focus(f.list)
}

// ShowTab shows the answers, which are 0, or what is found by ender.
func (f *Page) ShowTab(i int) { f.tabs.Show(i) }

// ShowEnders shows that table of enders.
func (f *Page) ShowEnders(t *find.ToldEnders) {
	f.toldEnders = t
	f.enders.show(t)
}

func (f *Page) Content() fyne.CanvasObject { return f.box }
func (f *Page) Edits() bool                { return true }

// Refocus gives the keys to the answers, or to the table of enders.
func (f *Page) Refocus() {
	if f.tabs.At == 0 {
		f.host.Canvas().Focus(f.list)
	} else {
		f.host.Canvas().Focus(f.enders.table)
	}
}

// Changed searches anew after an undo, or another window's edit.
func (f *Page) Changed(c model.Change) {
	if c&(page.AnySetup|model.ChoiceChanged) == 0 || !f.host.Showing(f) {
		return
	}
	f.asked = nil
	if f.host.Model().Chosen() < 0 || f.host.Model().Data().Fighter(f.host.Model().Setup().Attacker) == nil {
		f.host.Close()
		return
	}
	f.form.fill()
	f.Run()
}

// TimingChanged implements page.Timed.
func (f *Page) TimingChanged() { f.Run() }
