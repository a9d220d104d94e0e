package ui

import (
	"math/rand/v2"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline/words"
	"wakeline/ui/model"
	"wakeline/ui/output"
	"wakeline/ui/page"
	"wakeline/ui/paint"
	"wakeline/ui/panel"
	"wakeline/ui/sheet"
)

var _ page.Page = (*lessonPage)(nil)

// What the lesson page shows.
type lessonState uint8

const (
	lessonShown    lessonState = iota
	lessonAsked                // the exercise: the delay is the student's
	lessonAnswered             // the exercise's end: the lesson, and what the student's delay came to; nothing is edited
)

// breaks is the choice of the reply that decides each step.
const breaks = "Deciding reply"

// prefNeighbours is how many neighbours a lesson had last.
const prefNeighbours = "lesson.neighbours"

var neighbourChoices = []string{"1", "2", "3"}

// lessonPage teaches the chosen setup: it and its neighbours on one ruler, and
// an exercise in which a student looks for the delay.
type lessonPage struct {
	w     *window
	state lessonState

	reply, rise, each *paint.Pick
	chooses           *fyne.Container // the lesson's choices
	against, upOn     *paint.Pick     // the reply and the rise that the exercise shows
	asks, rises       *fyne.Container // the exercise's choices, and that of the rise among them
	try, none, next   *paint.PushButton
	hint, answer      *paint.PushButton
	back              *paint.PushButton
	takes             *fyne.Container // what can be taken along
	said              *widget.Label   // what to do, or what a guess came to
	view              *paint.ScrolledSheet
	exercise          *exercise
	box               fyne.CanvasObject

	lesson words.Lesson
	filled string          // the setup that the choices are of
	told   answerTold      // what the student was told so far
	pick   func(n int) int // a number below n: where an exercise starts
	quiet  bool            // the controls are set by the program
}

// showLesson shows the page for the chosen setup.
func (w *window) showLesson() {
	if w.model.Chosen() < 0 {
		w.Dialogs().Lines("There is nothing to teach yet", []string{"A lesson shows a setup and its neighbours. Choose one, or make it first."})
		return
	}
	l := newLessonPage(w)
	w.showPage(l)
	l.Refocus()
}

func newLessonPage(w *window) *lessonPage {
	l := &lessonPage{w: w, pick: rand.IntN}
	again := func(string) {
		if !l.quiet {
			l.show()
		}
	}
	l.reply, l.rise = paint.NewPick(w, nil, again), paint.NewPick(w, nil, again)
	l.each = paint.NewPick(w, neighbourChoices, func(n string) {
		if !l.quiet {
			w.Preferences().SetString(prefNeighbours, n)
		}
		again(n)
	})
	other := func(string) {
		if !l.quiet {
			l.exercise.show(l.upOn.SelectedIndex(), l.against.SelectedIndex())
		}
	}
	l.against, l.upOn = paint.NewPick(w, nil, other), paint.NewPick(w, nil, other)
	l.quiet = true
	l.each.SetSelected(w.Preferences().StringWithFallback(prefNeighbours, neighbourChoices[0]))
	if l.each.SelectedIndex() < 0 {
		l.each.SetSelected(neighbourChoices[0])
	}
	l.quiet = false

	l.view = paint.NewScrolledSheet(l.draw)
	l.view.OnKey = l.key
	l.exercise = newExercise()
	l.exercise.keys = func() fyne.KeyModifier { return w.sheet.Keys() }
	l.exercise.OnKey = l.exerciseKey
	l.said = widget.NewLabel("")
	l.said.Wrapping = fyne.TextWrapWord

	wide := func(w float32, o fyne.CanvasObject) fyne.CanvasObject {
		return container.New(layout.NewGridWrapLayout(fyne.NewSize(w, l.reply.MinSize().Height)), o)
	}
	l.chooses = container.NewHBox(widget.NewLabel("Against"), wide(220, l.reply), l.rise, widget.NewLabel("Frames each way"), wide(60, l.each))
	l.rises = container.NewStack(wide(140, l.upOn))
	l.asks = container.NewHBox(widget.NewLabel("Against"), wide(200, l.against), l.rises)
	button := func(label string, do func()) *paint.PushButton { return paint.NewPageButton(w, label, nil, do) }
	l.try = button("Try it yourself", l.tryOrCheck)
	l.none = button("No delay is safe", func() { l.check(words.GuessNone(w.model.Plan())) })
	l.hint = button("Hint", l.giveHint)
	l.answer = button("Show the answer", l.showAnswer)
	l.next = button("Next setup", l.nextSetup)
	l.back = button("Back to the lesson", l.giveUp)
	l.takes = container.NewHBox(
		button("Copy picture", w.copyPicture), button("Copy text", w.copyText),
		button("Export…", func() { w.showExportOf(exportLesson) }))
	title := widget.NewLabel("Lesson")
	title.TextStyle.Bold = true
	first := container.NewHBox(title, layout.NewSpacer(), l.back, l.next, l.takes, paint.NewPageButton(w, "Close", theme.CancelIcon(), w.Close))
	second := container.NewHBox(l.chooses, l.asks, layout.NewSpacer(), l.hint, l.none, l.try, l.answer)
	top := container.NewVBox(container.NewPadded(container.NewVBox(first, second)), widget.NewSeparator(), l.said)
	l.box = container.NewBorder(top, nil, nil, nil, container.NewStack(l.view.Box, l.exercise))
	l.fill()
	l.show()
	return l
}

// fill offers the chosen setup's replies and rises.
func (l *lessonPage) fill() {
	l.quiet = true
	defer func() { l.quiet = false }()
	m := l.w.model
	same := l.filled == m.Setup().Name
	keep, keepRise := l.reply.Selected, l.rise.Selected
	l.filled = m.Setup().Name
	var replies, rises []string
	if m.Plan() != nil {
		for i, r := range m.Verdict().Rises {
			rises = append(rises, r.Rise+" rise")
			for k := range r.Replies {
				if i == 0 {
					replies = append(replies, panel.ReplyTitle(&r.Replies[k]))
				}
			}
		}
	}
	l.against.SetOptions(replies)
	l.reply.SetOptions(append([]string{breaks}, replies...))
	l.rise.SetOptions(rises)
	l.upOn.SetOptions(rises)
	rise, line := m.Shown()
	switch {
	case same && slices.Contains(l.reply.Options, keep) && slices.Contains(rises, keepRise):
		l.reply.SetSelected(keep)
		l.rise.SetSelected(keepRise)
	case len(rises) == 0:
		l.reply.SetSelectedIndex(0)
		l.rise.ClearSelected()
	default:
		l.rise.SetSelectedIndex(rise)
		if l.reply.SetSelectedIndex(0); !m.Follows() {
			l.reply.SetSelected(replies[line])
		}
	}
}

// exchange is the exchange that is taught.
func (l *lessonPage) exchange() (rise, line int) {
	if at := slices.Index(l.against.Options, l.reply.Selected); at >= 0 && l.reply.SelectedIndex() > 0 {
		return max(0, l.rise.SelectedIndex()), l.reply.SelectedIndex() - 1
	}
	return 0, words.Breaking
}

// neighbours is how many steps are shown each way.
func (l *lessonPage) neighbours() int { return l.each.SelectedIndex() + 1 }

// draw draws the lesson as it is now.
func (l *lessonPage) draw(wide float64) *sheet.Drawing {
	if l.w.model.Plan() == nil || len(l.lesson.Steps) == 0 {
		return nil
	}
	return sheet.DrawLesson(&l.lesson, wide)
}

// show shows the lesson, or the exercise.
func (l *lessonPage) show() {
	plan := l.w.model.Plan()
	hide := func(hidden bool, of ...fyne.CanvasObject) {
		for _, o := range of {
			if hidden {
				o.Hide()
			} else {
				o.Show()
			}
		}
	}
	asked := l.state == lessonAsked
	if plan == nil {
		l.lesson = words.Lesson{}
		_, why, _ := l.w.emptyWords()
		l.said.SetText(why)
	} else {
		rise, line := l.exchange()
		l.lesson = words.LessonAt(plan, l.w.model.Setup().Delay, l.neighbours(), rise, line, l.also()...)
	}
	if askable(plan) {
		l.try.Enable()
	} else {
		l.try.Disable()
	}
	switch l.state {
	case lessonShown:
		l.try.SetText("Try it yourself")
	case lessonAsked:
		l.try.SetText("Check")
	case lessonAnswered:
		l.try.SetText("Try again")
	}
	hide(asked, l.chooses, l.takes, l.view.Box)
	hide(!asked, l.asks, l.none, l.hint, l.exercise)
	hide(!asked || len(l.told.tries) == 0, l.answer)
	hide(len(l.upOn.Options) < 2, l.rises)
	hide(l.state == lessonShown, l.back)
	hide(asked || len(l.rise.Options) < 2 || l.reply.SelectedIndex() == 0, l.rise)
	hide(l.said.Text == "" || plan != nil && l.state == lessonShown, l.said)
	if !asked {
		l.view.Again()
	}
	l.box.Refresh()
}

// nextSetup goes on with the next setup of the list, the first after the last;
// an exercise with another exercise.
func (l *lessonPage) nextSetup() {
	shown := l.w.setups.Shown
	if len(shown) == 0 {
		return
	}
	l.w.model.Choose(shown[(l.w.setups.Row()+1)%len(shown)])
	l.view.Top()
	l.Refocus()
}

// key does what a key does on the lesson; it reports whether it did. The
// delay is edited on the lesson alone, never at the end of an exercise, where
// a student's hand still lies on the keys that moved theirs.
func (l *lessonPage) key(ev *fyne.KeyEvent) bool {
	step := 1
	if l.w.sheet.Keys()&fyne.KeyModifierShift != 0 {
		step = paint.BigStep
	}
	exercise := l.state != lessonShown
	switch m := l.w.model; ev.Name {
	case fyne.KeyLeft, fyne.KeyRight:
		if exercise {
			break
		}
		if ev.Name == fyne.KeyLeft {
			step = -step
		}
		m.SetDelay(m.Setup().Delay + step)
	case fyne.KeyUp:
		turn(l.reply, -1)
	case fyne.KeyDown:
		turn(l.reply, 1)
	case fyne.KeyReturn, fyne.KeyEnter:
		l.tryOrCheck()
	default:
		return l.w.PageKey(ev)
	}
	return true
}

// EndOwn gives the exercise up.
func (l *lessonPage) EndOwn() bool {
	if l.state == lessonShown {
		return false
	}
	l.giveUp()
	return true
}

// turn chooses the option n further on, as far as there are.
func turn(s *paint.Pick, n int) {
	if at := s.SelectedIndex() + n; at >= 0 && at < len(s.Options) {
		s.SetSelectedIndex(at)
	}
}

// picture is what can be copied: the lesson, never the exercise's answer.
func (l *lessonPage) picture() *output.Made {
	if l.view.Drawing == nil || l.state == lessonAsked {
		return nil
	}
	return l.w.pictureOf(l.view.Drawing)
}

// text is the lesson in words.
func (l *lessonPage) text() string {
	if l.w.model.Plan() == nil || l.state == lessonAsked {
		return ""
	}
	return output.LessonText(&l.lesson)
}

func (l *lessonPage) Content() fyne.CanvasObject { return l.box }

// edits: an edit is no part of the exercise, nor is taking one back.
func (l *lessonPage) Edits() bool { return l.state == lessonShown }

// Refocus gives the keys to what is shown.
func (l *lessonPage) Refocus() {
	if l.state == lessonAsked {
		l.w.Canvas().Focus(l.exercise)
	} else {
		l.w.Canvas().Focus(l.view)
	}
}

// Changed follows the chosen setup; another setup, or an edit, begins the
// exercise anew.
func (l *lessonPage) Changed(c model.Change) {
	if c&(model.ListChanged|model.DataChanged|model.SetupChanged|model.ChoiceChanged) == 0 {
		return
	}
	if l.w.model.Chosen() < 0 {
		l.w.Close()
		return
	}
	l.fill()
	plan := l.w.model.Plan()
	if l.state == lessonAsked && askable(plan) {
		l.ask(plan)
		return
	}
	l.state = lessonShown
	l.show()
}

// Note says something in passing.
func (l *lessonPage) Note(text string) {
	if l.state != lessonAsked {
		if l.state == lessonAnswered {
			text += "\n" + l.told.words()
		}
		l.said.SetText(text)
		l.said.Show()
		l.box.Refresh()
	}
}
