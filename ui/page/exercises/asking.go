package exercises

import (
	"fmt"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline/exercise"
	"wakeline/timeline/value"
	"wakeline/ui/editor"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

// asking shows one question, and takes its answer.
type asking struct {
	host page.Host
	done func() // the question is answered, or told
	next func()

	sitting *sitting
	choice  int

	head, ask, said         *widget.Label
	hint, none, tell, check *paint.PushButton
	choices                 *paint.PageList
	numbers                 *fyne.Container
	entries                 []*paint.PageEntry
	left                    *fyne.Container // of the choices or numbers
	sheet                   *editor.Exercise
	answer                  *paint.AnswerSheet
	split                   *container.Split
	box                     *fyne.Container
}

func newAsking(host page.Host, keys func() fyne.KeyModifier) *asking {
	a := &asking{host: host}
	a.head = paint.NewLowLabel()
	a.ask, a.said = widget.NewLabel(""), widget.NewLabel("")
	a.ask.SizeName, a.ask.TextStyle.Bold, a.ask.Wrapping = theme.SizeNameSubHeadingText, true, fyne.TextWrapWord
	a.said.Wrapping = fyne.TextWrapWord
	button := func(label string, do func()) *paint.PushButton { return paint.NewPageButton(host, label, nil, do) }
	a.hint, a.none = button("Hint", a.giveHint), button("No delay is safe", func() { a.weigh(exercise.Answer{None: true}) })
	a.tell, a.check = button("Show the answer", a.giveUp), button("Check", a.checkOrNext)
	a.check.Importance = widget.HighImportance
	a.choices = paint.NewPageList(choiceKeys{a}, func() int { return len(a.round().Choices) }, func() fyne.CanvasObject {
		choice := widget.NewLabel("")
		choice.Truncation = fyne.TextTruncateEllipsis
		return choice
	},
		func(i widget.ListItemID, o fyne.CanvasObject) { o.(*widget.Label).SetText(a.choiceWords(i)) })
	a.choices.OnSelected = paint.GuardedOf("The choices", a.choose)
	a.numbers = container.NewVBox()
	a.left = container.NewStack(a.choices, container.NewVScroll(a.numbers))
	a.sheet = editor.NewExercise(keys)
	a.sheet.OnKey = func(ev *fyne.KeyEvent) {
		if ev.Name == fyne.KeyReturn || ev.Name == fyne.KeyEnter {
			a.checkOrNext()
			return
		}
		host.PageKey(ev)
	}
	a.answer = paint.NewAnswerSheet()
	a.split = container.NewHSplit(a.left, container.NewStack(a.sheet, a.answer))
	a.split.Offset = 0.28
	buttons := container.NewBorder(nil, nil, nil, container.NewHBox(a.hint, a.none, a.tell, a.check), a.head)
	a.box = container.NewBorder(container.NewVBox(container.NewPadded(buttons), a.ask, a.said), nil, nil, nil, a.split)
	return a
}

// choiceKeys has Enter check the choice, and the arrows choose another.
type choiceKeys struct{ a *asking }

// PageKey implements paint.KeyTaker.
func (k choiceKeys) PageKey(ev *fyne.KeyEvent) bool {
	step := 0
	switch ev.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		k.a.checkOrNext()
		return true
	case fyne.KeyUp:
		step = -1
	case fyne.KeyDown:
		step = 1
	}
	if most := len(k.a.round().Choices); step != 0 && most > 0 {
		k.a.choices.Select(max(0, min(k.a.choice+step, most-1)))
		return true
	}
	return k.a.host.PageKey(ev)
}

// round is the question that is answered; an empty one where none is.
func (a *asking) round() *exercise.Round {
	if a.sitting == nil || a.sitting.round == nil {
		return &exercise.Round{}
	}
	return a.sitting.round
}

// choiceWords are a choice as it is listed: once the question is answered, with
// what is right.
func (a *asking) choiceWords(i int) string {
	r := a.round()
	if i >= len(r.Choices) {
		return ""
	}
	say := r.Choices[i]
	if r.Done {
		for _, right := range r.RightChoices() {
			if right == i {
				return say + " — right"
			}
		}
	}
	return say
}

// show shows the question of a sitting.
func (a *asking) show(s *sitting) {
	a.sitting, a.choice = s, -1
	r := a.round()
	a.ask.SetText(r.Ask)
	a.sheet.Title = strings.ToUpper(string(r.Kind[:1])) + string(r.Kind[1:])
	a.sheet.Fixed = r.Kind != exercise.WhereSafe
	a.sheet.Begin(r.With(-1))
	a.choices.UnselectAll()
	a.numbers.RemoveAll()
	a.entries = nil
	for _, name := range r.Fields {
		e := paint.NewPageEntry(choiceKeys{a})
		e.SetPlaceHolder("frames")
		a.entries = append(a.entries, e)
		a.numbers.Add(widget.NewLabel(name))
		a.numbers.Add(e)
	}
	hide(len(r.Choices) == 0, a.choices)
	hide(len(r.Fields) == 0, a.left.Objects[1])
	hide(r.Kind != exercise.WhereSafe, a.none)
	a.sheet.Sentence = howTo(r.Kind)
	a.said.SetText("")
	a.refresh()
}

// howTo says how a kind of question is answered.
func howTo(k exercise.Kind) string {
	switch k {
	case exercise.WhereSafe:
		return "Drag the jump, or press Left and Right, to a delay that you think is safe. Enter checks it."
	case exercise.ReadStrip:
		return "Type the numbers. Enter checks them."
	}
	return "Choose one: the sheet shows what it speaks of. Enter checks it."
}

// hide hides things, or shows them.
func hide(hidden bool, of ...fyne.CanvasObject) {
	for _, o := range of {
		if hidden {
			o.Hide()
		} else {
			o.Show()
		}
	}
}

// refresh shows what the round has come to.
func (a *asking) refresh() {
	r := a.round()
	a.head.SetText(a.sitting.head())
	hide(r.Done, a.hint, a.tell, a.sheet)
	hide(!r.Done, a.answer)
	hide(r.Done || r.Kind != exercise.WhereSafe, a.none)
	if a.check.SetText("Check"); r.Done {
		a.check.SetText("Next")
	}
	if r.Given >= len(r.Hints) {
		a.hint.Disable()
	} else {
		a.hint.Enable()
	}
	if r.Done {
		at := r.With(a.choice)
		delay := at.Delay
		switch {
		case r.Kind == exercise.WhereSafe && r.Tries > 0 && !r.Last.None:
			delay = r.Last.Delay
		case r.Kind == exercise.OneMore:
			delay++
		}
		a.answer.ShowPlan(at.Plan, delay)
		a.answer.Follow(value.Deciding(at.Plan, delay))
	}
	hide(a.said.Text == "", a.said)
	a.choices.Refresh()
	if len(r.Choices)+len(r.Fields) == 0 {
		a.split.SetOffset(0)
		a.left.Hide()
	} else {
		a.left.Show()
		a.split.SetOffset(0.28)
	}
	a.box.Refresh()
}

// say says something about the answer.
func (a *asking) say(text string) {
	a.said.SetText(text)
	a.refresh()
}

// choose looks at a choice.
func (a *asking) choose(i int) {
	r := a.round()
	a.choice = i
	if r.Done {
		a.refresh()
		return
	}
	a.sheet.Begin(r.With(i))
}

// checkOrNext checks the answer, or goes on.
func (a *asking) checkOrNext() {
	r := a.round()
	switch {
	case r.Done:
		a.next()
	case len(r.Choices) > 0 && a.choice < 0:
		a.say("Choose one first, with a click or with Space.")
	case len(r.Fields) > 0:
		numbers, why := a.typed()
		if why != "" {
			a.say(why)
			return
		}
		a.weigh(exercise.Answer{Numbers: numbers})
	default:
		a.weigh(exercise.Answer{Delay: a.sheet.Delay, Choice: a.choice})
	}
}

// typed are the numbers that were typed; why says what is not one.
func (a *asking) typed() (out []int, why string) {
	for i, e := range a.entries {
		n, err := strconv.Atoi(strings.TrimSpace(e.Text))
		if err != nil {
			return nil, fmt.Sprintf("%s: expected a whole number.", a.round().Fields[i])
		}
		out = append(out, n)
	}
	return out, ""
}

// weigh weighs an answer, and says what it comes to.
func (a *asking) weigh(answer exercise.Answer) {
	r := a.round()
	r.Answer(answer)
	if r.Done {
		a.finished()
		return
	}
	a.said.SetText(r.Short + " One more try.")
	a.refresh()
	a.refocus()
}

// giveHint says the next hint.
func (a *asking) giveHint() {
	r := a.round()
	if h := r.Hint(); h != "" {
		a.said.SetText(fmt.Sprintf("Hint %d: %s", r.Given, h))
	}
	a.refresh()
	a.refocus()
}

// giveUp tells the answer.
func (a *asking) giveUp() {
	a.round().Tell()
	a.finished()
}

// finished tells the whole answer of a round that is done.
func (a *asking) finished() {
	r := a.round()
	lead := "Right. "
	if !r.Right {
		lead = "The answer: "
	}
	a.said.SetText(lead + r.Whole())
	a.done()
	a.refresh()
	a.refocus()
}

// note adds something that is said in passing.
func (a *asking) note(text string) { a.say(a.said.Text + "\n" + text) }

// refocus gives the keys to what takes the answer.
func (a *asking) refocus() {
	r, c := a.round(), a.host.Canvas()
	switch {
	case r.Done:
		c.Focus(a.check)
	case len(r.Choices) > 0:
		c.Focus(a.choices)
	case len(a.entries) > 0:
		c.Focus(a.entries[0])
	default:
		c.Focus(a.sheet)
	}
}
