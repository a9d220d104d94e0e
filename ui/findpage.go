package ui

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage/guard"
	"wakeline/timeline"
	"wakeline/timeline/find"
	"wakeline/timeline/odds"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

var _ page.Page = (*findPage)(nil)

// findPage looks for setups: a form of what limits them, the answers in rank
// order, and the sheet of the one chosen. Each change of the form searches
// anew, behind the window.
type findPage struct {
	w *window

	form   *findForm
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
}

// showFind shows the page for the chosen setup.
func (w *window) showFind() {
	if w.model.Chosen() < 0 || w.model.Data().Fighter(w.model.Setup().Attacker) == nil {
		w.Dialogs().Lines("There is no setup yet", []string{"A search starts from a setup: its ender, its position, its rival and what is asked of the rival's replies."})
		return
	}
	f := newFindPage(w)
	w.showPage(f)
	f.Refocus()
	f.run()
}

func newFindPage(w *window) *findPage {
	f := &findPage{w: w}
	f.form = newFindForm(w)
	f.form.OnChange = f.run
	f.count, f.hand = paint.NewLowLabel(), paint.NewLowLabel()
	f.list, f.sheet = newAnswerList(), paint.NewAnswerSheet()
	f.list.OnChosen, f.list.OnOpen, f.list.OnSide, f.list.OnKey = func(int) { f.side = 0; f.draw() }, f.openAnswer, f.turnSide, f.key
	f.none, f.why, f.of = widget.NewLabel(""), widget.NewLabel(""), widget.NewLabel("")
	f.none.Wrapping, f.why.Wrapping, f.of.Truncation = fyne.TextWrapWord, fyne.TextWrapWord, fyne.TextTruncateEllipsis
	f.count.Wrapping, f.count.Truncation = fyne.TextWrapWord, fyne.TextTruncateOff
	f.none.Selectable = true
	f.of.TextStyle.Bold = true
	f.nones = container.NewVScroll(f.none)
	f.open = paint.NewPageButton(w, "Open as a setup", nil, f.openAnswer)
	f.open.Importance = widget.HighImportance
	f.sides = paint.NewPageButton(w, "", nil, func() { f.turnSide(1) })
	f.enders = newEndersTable(w, f.openCell)

	f.doing = widget.NewLabel("")
	f.busy = container.NewHBox(f.doing, paint.NewPageButton(w, "Stop", nil, f.stop))
	f.busy.Hide()

	as := widget.NewLabel("as " + w.model.Setup().Attacker)
	as.Truncation = fyne.TextTruncateEllipsis
	title := widget.NewLabel("Find setups")
	title.TextStyle.Bold = true
	top := container.NewVBox(container.NewPadded(container.NewBorder(nil, nil, title, container.NewHBox(f.busy,
		paint.NewPageButton(w, "Your timing…", nil, w.askTiming), paint.NewPageButton(w, "Close", theme.CancelIcon(), f.close)), as)), widget.NewSeparator())
	chosen := container.NewBorder(container.NewBorder(nil, nil, nil, f.sides, f.of), container.NewBorder(f.why, nil, nil, f.open), nil, nil, f.sheet)
	answers := container.New(findLayout{}, container.NewBorder(container.NewVBox(f.count, f.hand), nil, nil, nil, f.list, f.nones), chosen)
	f.tabs = paint.NewTabs()
	f.tabs.Add("Answers", answers)
	f.tabs.Add("By ender", f.enders.box)
	f.tabs.OnShow, f.tabs.OnKey = func(int) { f.run() }, f.key
	form := container.NewVScroll(container.NewPadded(f.form.box))
	f.box = container.NewBorder(top, nil, container.NewHBox(container.New(paint.FixedWidth{Width: findFormWidth}, form), widget.NewSeparator()), nil, f.tabs.Box)
	return f
}

// key does what a key does on the page.
func (f *findPage) key(ev *fyne.KeyEvent) { f.w.PageKey(ev) }

// EndOwn stops a search that runs.
func (f *findPage) EndOwn() bool {
	if f.cancel == nil {
		return false
	}
	f.stop()
	return true
}

// found is what a search brought: answers, or the table of enders.
type found struct {
	asked  find.Demands
	result *find.Result
	rows   []find.Row
}

// run searches anew, in place of a search that runs.
func (f *findPage) run() {
	f.halt()
	byEnder := f.tabs.At == 1
	q, rivals, lacks := f.form.query(byEnder)
	person := f.w.Timing().Person()
	f.hand.SetText("For " + strings.ToLower(person.Words()[:1]) + person.Words()[1:] + ".")
	if lacks != "" {
		f.say(lacks)
		return
	}
	base := f.form.of
	data := &timeline.Project{Ruleset: f.w.model.Data().Ruleset, Fighters: f.w.model.Data().Fighters} // as they are now
	each, known := f.w.model.Document().Each(), f.asked
	q.Hand = person.Timing(data.Ruleset)
	ctx, cancel := context.WithCancel(f.w.Context())
	f.cancel = cancel
	f.turn++
	turn := f.turn
	progress := func(done, of int) {
		f.w.Later(func() {
			if turn == f.turn && f.cancel != nil {
				f.doing.SetText(fmt.Sprintf("%d of %s", done, model.CountOf(of, "ender")))
			}
		})
	}
	f.w.Run(func() {
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
				got.rows, err = find.Enders(ctx, data, q, []timeline.Position{timeline.Midscreen, timeline.Wall}, progress)
			} else {
				got.result, err = find.Search(ctx, data, q)
			}
			return err
		})
		f.w.Later(func() {
			if turn == f.turn && f.w.Context().Err() == nil {
				f.took(got, err, byEnder)
			}
			cancel()
		})
	})
	if f.cancel == nil {
		return
	}
	guard.After(page.Patience, "The search", func() {
		f.w.Later(func() {
			if turn == f.turn && f.cancel != nil {
				f.doing.SetText("Searching…")
				f.busy.Show()
				paint.Repaint(f.busy, f.busy)
			}
		})
	})
}

// close gives up what runs, and shows the setups.
func (f *findPage) close() { f.w.Close() }

// Left gives up a search that runs.
func (f *findPage) Left() { f.halt() }

// halt gives up the search that runs.
func (f *findPage) halt() {
	f.turn++
	if f.cancel != nil {
		f.cancel()
		f.cancel = nil
	}
	f.busy.Hide()
}

// stop gives it up and says so.
func (f *findPage) stop() {
	if f.cancel != nil {
		f.halt()
		f.say("The search was stopped. Any change of the form searches anew.")
	}
}

// took shows what a search brought.
func (f *findPage) took(got found, err error, byEnder bool) {
	f.cancel = nil
	f.busy.Hide()
	f.asked = got.asked
	wrong, broken := (*find.QueryError)(nil), (*timeline.FieldError)(nil)
	switch {
	case errors.Is(err, context.Canceled):
		f.say("The search was stopped. Any change of the form searches anew.")
	case errors.As(err, &wrong):
		f.say(model.Sentence(fmt.Sprintf("this can't be searched for: %s: expected %s, got %s", findLabels[wrong.Field], wrong.Want, wrong.Got)))
	case errors.As(err, &broken):
		f.say(model.Sentence(fmt.Sprintf("this can't be searched for: expected %s, got %s", broken.Want, broken.Got)))
	case err != nil:
		f.say(model.Sentence("this can't be searched for: " + err.Error()))
	case byEnder:
		f.enders.show(got.rows, f.form.of.Attacker)
	case got.result.Count.Sign() == 0:
		f.count.SetText(fmt.Sprintf("No answer at knockdown advantage %d.", got.result.Advantage))
		why := got.result.Because
		if n := got.result.Limited; n.Sign() > 0 {
			why = append(slices.Clone(why), fmt.Sprintf("With “%s” there would be %s, safe but for replies that no timing covers.", includeLimited, bigCount(n, "answer")))
		}
		f.sayNone(strings.Join(why, "\n\n"))
	default:
		f.count.SetText(countWords(got.result))
		f.nones.Hide()
		f.list.Show()
		f.list.show(got.result.Answers)
	}
}

// say puts words in place of the answers, and of the table.
func (f *findPage) say(words string) {
	f.count.SetText("")
	f.sayNone(words)
	f.enders.say(words)
}

func (f *findPage) sayNone(words string) {
	f.none.SetText(words)
	f.nones.Show()
	f.nones.ScrollToTop()
	f.list.Hide()
	f.list.show(nil)
	f.draw()
}

// answer is the one chosen, nil for none.
func (f *findPage) answer() *find.Answer {
	if f.list.at < 0 || f.list.at >= len(f.list.answers) {
		return nil
	}
	return &f.list.answers[f.list.at]
}

// draw shows the chosen answer's sheet, and why it ranks where it does.
func (f *findPage) draw() {
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
	if plan, err := timeline.Compile(f.w.model.Data(), *s); err != nil {
		f.sheet.Clear()
		f.why.SetText(err.Error())
	} else {
		f.sheet.ShowPlan(plan, s.Delay)
		if len(a.Setups) == 1 { // of several rivals' windows the plan knows one
			w := odds.WaitOf(plan, s.Delay, f.w.Timing().Person().Timing(f.w.model.Data().Ruleset))
			f.why.SetText(strings.TrimSpace(a.Why + " " + w.Advice()))
		}
	}
}

// turnSide shows the chosen answer against another of its rivals.
func (f *findPage) turnSide(n int) {
	if a := f.answer(); a != nil && len(a.Setups) > 1 {
		f.side = (f.side + n + len(a.Setups)) % len(a.Setups)
		f.draw()
	}
}

// openAnswer makes setups of the chosen answer, one a rival, as one step, and
// shows the one whose sheet is shown.
func (f *findPage) openAnswer() {
	a := f.answer()
	if a == nil || f.w.busy() {
		return
	}
	var edits []timeline.Edit
	for i := range a.Setups { // the one that is shown last: it is chosen
		s := a.Setups[(f.side+1+i)%len(a.Setups)]
		s.Name = f.w.model.FreeName(s.Name)
		edits = append(edits, timeline.SetupEdit{Setup: &s})
	}
	w := f.w
	if !w.Done("The answer could not be opened", w.model.Apply("found setup", edits...)) {
		return
	}
	f.close()
	w.ShowChosen()
	w.status.Hint("Opened as a setup of its own. Ctrl+Z takes it back")
}

// openCell searches for one cell of the table of enders.
func (f *findPage) openCell(r *find.Row, c *find.Cell) {
	f.form.start(r.Ender, r.Position, c.Jump, c.Attack)
	f.tabs.Show(0) // and searches
	f.w.Canvas().Focus(f.list)
}

func (f *findPage) Content() fyne.CanvasObject { return f.box }
func (f *findPage) Edits() bool                { return true }

// Refocus gives the keys to the answers, or to the table of enders.
func (f *findPage) Refocus() {
	if f.tabs.At == 0 {
		f.w.Canvas().Focus(f.list)
	} else {
		f.w.Canvas().Focus(f.enders.table)
	}
}

// Changed searches anew after an undo, or another window's edit.
func (f *findPage) Changed(c model.Change) {
	if c&(model.ListChanged|model.DataChanged|model.SetupChanged|model.ChoiceChanged) == 0 || !f.w.Showing(f) {
		return
	}
	f.asked = nil
	if f.w.model.Chosen() < 0 || f.w.model.Data().Fighter(f.w.model.Setup().Attacker) == nil {
		f.close()
		return
	}
	f.form.fill()
	f.run()
}

// TimingChanged implements page.Timed.
func (f *findPage) TimingChanged() { f.run() }
