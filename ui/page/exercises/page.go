package exercises

import (
	"fmt"
	"math/rand/v2"
	"strconv"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/timeline/exercise"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

var (
	_ page.Page   = (*Page)(nil)
	_ page.Ending = (*Page)(nil)
)

// The orders of the questions.
const (
	wrongFirst = "Wrong answers first"
	inOrder    = "In the order of the list"
)

// namelessStudent is shown for results without a name.
const namelessStudent = "(no name)"

// What the page remembers.
const (
	prefStudent = "exercises.student"
	prefOrder   = "exercises.order"
	prefCount   = "exercises.count"
	prefKind    = "exercises.without." // and the kind
)

// Page asks a student.
type Page struct {
	host page.Host
	asks Asks
	now  func() time.Time
	pick exercise.Pick

	student *paint.PickEntry
	kinds   map[exercise.Kind]*paint.PageTick
	order   *paint.Pick
	count   *paint.PickEntry
	start   *paint.PushButton
	results *widget.Label
	deletes *paint.PushButton
	exports *paint.PushButton
	form    fyne.CanvasObject

	asking *asking
	over   *fyne.Container // what a run came to
	overIn *widget.Label
	again  *paint.PushButton
	box    *fyne.Container

	sitting *sitting // nil: none runs
}

// Asks is what the page asks of the window.
type Asks struct {
	Keys   func() fyne.KeyModifier // held now
	Export func(csv string)        // the results as a table
}

// New returns the page of the setups that are listed.
func New(host page.Host, asks Asks) *Page {
	p := &Page{host: host, asks: asks, now: time.Now, pick: rand.IntN, kinds: map[exercise.Kind]*paint.PageTick{}}
	prefs := host.Preferences()
	p.student = paint.NewPickEntry(host, nil)
	p.student.SetPlaceHolder("no name")
	p.student.SetText(prefs.String(prefStudent))
	p.student.OnChanged = paint.GuardedOf("The exercises", func(name string) {
		prefs.SetString(prefStudent, name)
		p.tell()
	})
	p.order = paint.NewPick(host, []string{wrongFirst, inOrder}, func(order string) { prefs.SetString(prefOrder, order) })
	p.order.Selected = wrongFirst
	if prefs.String(prefOrder) == inOrder {
		p.order.Selected = inOrder
	}
	p.count = paint.NewPickEntry(host, []string{"5", "10", "20", "50"})
	p.count.SetText(prefs.StringWithFallback(prefCount, "10"))
	p.count.OnChanged = paint.GuardedOf("The exercises", func(n string) { prefs.SetString(prefCount, n) })
	p.start = paint.NewPageButton(host, "Start", nil, p.begin)
	p.start.Importance = widget.HighImportance
	p.results = widget.NewLabel("")
	p.results.Wrapping = fyne.TextWrapWord
	p.deletes = paint.NewPageButton(host, "Delete results…", nil, p.askDelete)
	p.exports = paint.NewPageButton(host, "Export results…", nil, p.export)

	kinds := container.NewVBox()
	for _, k := range exercise.Kinds {
		tick := paint.NewPageTick(host, string(k)+": "+k.About(), func(on bool) { prefs.SetBool(prefKind+string(k), !on) })
		tick.Checked = !prefs.Bool(prefKind + string(k))
		p.kinds[k] = tick
		kinds.Add(tick)
	}
	wide := func(w float32, o fyne.CanvasObject) fyne.CanvasObject {
		return container.NewGridWrap(fyne.NewSize(w, p.student.MinSize().Height), o)
	}
	row := func(label string, o fyne.CanvasObject) *widget.FormItem { return widget.NewFormItem(label, o) }
	fields := widget.NewForm(
		row("Student", container.NewHBox(wide(240, p.student))),
		row("Questions", container.NewHBox(wide(90, p.count), wide(240, p.order))),
		row("Kinds", kinds),
	)
	p.form = container.NewVScroll(container.NewVBox(fields, container.NewHBox(p.start), widget.NewSeparator(), p.results, container.NewHBox(p.exports, p.deletes)))

	p.asking = newAsking(host, asks.Keys)
	p.asking.done = p.answered
	p.asking.next = p.next
	p.overIn = widget.NewLabel("")
	p.overIn.Wrapping = fyne.TextWrapWord
	p.again = paint.NewPageButton(host, "Another run", nil, p.begin)
	p.over = container.NewBorder(nil, container.NewHBox(p.again, paint.NewPageButton(host, "Back", nil, p.back)), nil, nil, container.NewVScroll(p.overIn))

	title := page.Title("Exercises")
	about := paint.NewLowLabel()
	about.SetText("Questions about the setups that are listed. Nothing of the project is changed but the results.")
	about.Truncation = fyne.TextTruncateEllipsis
	top := container.NewVBox(container.NewPadded(container.NewBorder(nil, nil, title, page.CloseButton(host), about)), widget.NewSeparator())
	p.box = container.NewBorder(top, nil, nil, nil, container.NewStack(container.NewPadded(p.form), p.asking.box, container.NewPadded(p.over)))
	p.show()
	return p
}

// show shows what the page is at: the form, a question, or the end of a run.
func (p *Page) show() {
	stack := p.box.Objects[0].(*fyne.Container)
	at := 0
	switch {
	case p.sitting != nil && !p.sitting.over():
		at = 1
	case p.sitting != nil:
		at = 2
	}
	for i, o := range stack.Objects {
		if i == at {
			o.Show()
		} else {
			o.Hide()
		}
	}
	p.tell()
	p.box.Refresh()
}

// name is the student's, as typed.
func (p *Page) name() string { return strings.TrimSpace(p.student.Text) }

// tell says what the student has done so far, and offers the names there are.
func (p *Page) tell() {
	past, err := p.host.Model().Document().Answers()
	if err != nil {
		p.results.SetText("The results can't be read: " + err.Error())
		return
	}
	p.student.SetOptions(students(past))
	so := soFar(past, p.name())
	if !p.host.Model().Document().DrillsLast() {
		so += "\nThis project is not a project file: results stay until it is closed. File > Save as project file… keeps them."
	}
	p.results.SetText(so)
	for _, b := range []*paint.PushButton{p.deletes, p.exports} {
		if len(past) == 0 || b == p.deletes && p.host.Model().Student() {
			b.Disable()
		} else {
			b.Enable()
		}
	}
}

// begin begins a run.
func (p *Page) begin() {
	count, err := strconv.Atoi(strings.TrimSpace(p.count.Text))
	var kinds []exercise.Kind
	for _, k := range exercise.Kinds {
		if p.kinds[k].Checked {
			kinds = append(kinds, k)
		}
	}
	places, _ := p.host.Listed()
	why := ""
	switch {
	case err != nil || count < 1 || count > mostQuestions:
		why = fmt.Sprintf("Expected a number of questions from 1 to %d.", mostQuestions)
	case len(kinds) == 0:
		why = "Tick at least one kind of question."
	case len(places) == 0:
		why = "The list shows no setups: clear its filter, or make one first."
	case len([]rune(p.name())) > timeline.MaxName:
		why = fmt.Sprintf("Expected a name of at most %d letters.", timeline.MaxName)
	}
	if why != "" {
		p.sitting = nil
		p.show()
		p.results.SetText(why)
		return
	}
	m := p.host.Model()
	var setups []timeline.Setup
	for _, i := range places {
		if s, err := m.Document().Setup(i); err == nil {
			setups = append(setups, s)
		}
	}
	var names []string
	for i := range setups {
		names = append(names, setups[i].Name)
	}
	items := exercise.InOrder(names, kinds)
	if p.order.Selected == wrongFirst {
		past, err := m.Document().Answers()
		if err != nil {
			p.host.Dialogs().Fail("The results can't be read", err)
			return
		}
		items = exercise.Draw(items, exercise.OfStudent(past, p.name()), p.pick)
	}
	p.sitting = newSitting(m.Data(), setups, items, count, p.pick)
	p.next()
}

// mostQuestions is how many a run may have.
const mostQuestions = 500

// next asks the next question, or ends the run.
func (p *Page) next() {
	if p.sitting == nil {
		return
	}
	if !p.sitting.ask() && len(p.sitting.done) == 0 {
		p.sitting = nil
		p.show()
		p.results.SetText("The listed setups have nothing of these kinds to ask: setups that can't be judged, or without replies, have no questions.")
		p.Refocus()
		return
	}
	if p.sitting.over() {
		p.overIn.SetText(p.sitting.words())
	} else {
		p.asking.show(p.sitting)
	}
	p.show()
	p.Refocus()
}

// answered keeps the result of the question.
func (p *Page) answered() {
	r := p.sitting.finish(p.now().UTC().Format(time.RFC3339), p.name())
	if err := p.host.Model().Document().KeepAnswer(r); err != nil {
		p.asking.note("The result was not saved: " + err.Error())
	}
}

// back shows the form again.
func (p *Page) back() {
	p.sitting = nil
	p.show()
	p.Refocus()
}

// askDelete asks whether the student's results are deleted.
func (p *Page) askDelete() {
	name := p.name()
	a := p.host.Dialogs().Told("Delete results", fmt.Sprintf("All results of %s are deleted from this project. This can't be undone.", orNameless(name)))
	a.Button("Cancel", a.Hide)
	a.Main("Delete", func() {
		a.Hide()
		if p.host.Done("The results could not be deleted", p.host.Model().Document().ClearAnswers(name)) {
			p.tell()
		}
	})
	a.Show(fyne.NewSize(460, 200), nil)
}

// export exports all results as a table.
func (p *Page) export() {
	past, err := p.host.Model().Document().Answers()
	if err != nil {
		p.host.Dialogs().Fail("The results can't be read", err)
		return
	}
	csv, err := table(past)
	if err != nil {
		p.host.Dialogs().Fail("The results can't be exported", err)
		return
	}
	p.asks.Export(csv)
}

// EndOwn ends a run.
func (p *Page) EndOwn() bool {
	if p.sitting == nil {
		return false
	}
	p.back()
	return true
}

func (p *Page) Content() fyne.CanvasObject { return p.box }
func (p *Page) Edits() bool                { return false }

// Changed follows the project: a run goes on with the setups that it began with.
func (p *Page) Changed(c model.Change) {
	if c&model.ListChanged != 0 && p.sitting == nil {
		p.tell()
	}
}

// Refocus gives the keys to what is asked.
func (p *Page) Refocus() {
	c := p.host.Canvas()
	switch {
	case p.sitting == nil:
		c.Focus(p.start)
	case p.sitting.over():
		c.Focus(p.again)
	default:
		p.asking.refocus()
	}
}
