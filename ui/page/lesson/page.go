package lesson

import (
	"math/rand/v2"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline/value"
	"wakeline/timeline/words"
	"wakeline/ui/editor"
	"wakeline/ui/model"
	"wakeline/ui/output"
	"wakeline/ui/page"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var (
	_ page.Page   = (*Page)(nil)
	_ page.Ending = (*Page)(nil)
	_ page.Noting = (*Page)(nil)
	_ page.Copied = (*Page)(nil)
)

// What the lesson page shows.
type state uint8

const (
	shown    state = iota
	asked          // the exercise: the delay is the student's
	answered       // the exercise's end: the lesson, and what the student's delay came to; nothing is edited
)

// breaks is the choice of the reply that decides each step.
const breaks = "Deciding reply"

// prefNeighbours is how many neighbours a lesson had last.
const prefNeighbours = "lesson.neighbours"

var neighbourChoices = []string{"1", "2", "3"}

// Page teaches the chosen setup: it and its neighbours on one ruler, and
// an exercise in which a student looks for the delay.
type Page struct {
	host  page.Host
	keys  func() fyne.KeyModifier // held now
	state state

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
	exercise          *editor.Exercise
	box               fyne.CanvasObject

	lesson words.Lesson
	filled string          // the setup that the choices are of
	told   answerTold      // what the student was told so far
	pick   func(n int) int // a number below n: where an exercise starts
	quiet  bool            // the controls are set by the program
}

// Asks is what the page asks of the window.
type Asks struct {
	Keys                          func() fyne.KeyModifier // held now
	CopyPicture, CopyText, Export func()                  // of what the page shows
}

// New returns the page of the setup that is chosen in the host's model.
func New(host page.Host, asks Asks) *Page {
	l := &Page{host: host, keys: asks.Keys, pick: rand.IntN}
	again := func(string) {
		if !l.quiet {
			l.show()
		}
	}
	l.reply, l.rise = paint.NewPick(host, nil, again), paint.NewPick(host, nil, again)
	l.each = paint.NewPick(host, neighbourChoices, func(n string) {
		if !l.quiet {
			host.Preferences().SetString(prefNeighbours, n)
		}
		again(n)
	})
	other := func(string) {
		if !l.quiet {
			l.exercise.Turn(l.upOn.SelectedIndex(), l.against.SelectedIndex())
		}
	}
	l.against, l.upOn = paint.NewPick(host, nil, other), paint.NewPick(host, nil, other)
	l.quiet = true
	l.each.SetSelected(host.Preferences().StringWithFallback(prefNeighbours, neighbourChoices[0]))
	if l.each.SelectedIndex() < 0 {
		l.each.SetSelected(neighbourChoices[0])
	}
	l.quiet = false

	l.view = paint.NewScrolledSheet(l.draw)
	l.view.OnKey = l.key
	l.exercise = editor.NewExercise(asks.Keys)
	l.exercise.Title, l.exercise.OnKey = "Which delay makes this safe?", l.exerciseKey
	l.said = widget.NewLabel("")
	l.said.Wrapping = fyne.TextWrapWord

	wide := func(w float32, o fyne.CanvasObject) fyne.CanvasObject {
		return container.New(layout.NewGridWrapLayout(fyne.NewSize(w, l.reply.MinSize().Height)), o)
	}
	l.chooses = container.NewHBox(widget.NewLabel("Against"), wide(220, l.reply), l.rise, widget.NewLabel("Frames each way"), wide(60, l.each))
	l.rises = container.NewStack(wide(140, l.upOn))
	l.asks = container.NewHBox(widget.NewLabel("Against"), wide(200, l.against), l.rises)
	button := func(label string, do func()) *paint.PushButton { return paint.NewPageButton(host, label, nil, do) }
	l.try = button("Try it yourself", l.tryOrCheck)
	l.none = button("No delay is safe", func() { l.check(words.GuessNone(host.Model().Plan())) })
	l.hint = button("Hint", l.giveHint)
	l.answer = button("Show the answer", l.showAnswer)
	l.next = button("Next setup", l.nextSetup)
	l.back = button("Back to the lesson", l.giveUp)
	l.takes = container.NewHBox(
		button("Copy picture", asks.CopyPicture), button("Copy text", asks.CopyText), button("Export…", asks.Export))
	title := page.Title("Lesson")
	first := container.NewHBox(title, layout.NewSpacer(), l.back, l.next, l.takes, page.CloseButton(host))
	second := container.NewHBox(l.chooses, l.asks, layout.NewSpacer(), l.hint, l.none, l.try, l.answer)
	top := container.NewVBox(container.NewPadded(container.NewVBox(first, second)), widget.NewSeparator(), l.said)
	l.box = container.NewBorder(top, nil, nil, nil, container.NewStack(l.view.Box, l.exercise))
	l.fill()
	l.show()
	return l
}

// fill offers the chosen setup's replies and rises.
func (l *Page) fill() {
	l.quiet = true
	defer func() { l.quiet = false }()
	m := l.host.Model()
	same := l.filled == m.Setup().Name
	keep, keepRise := l.reply.Selected, l.rise.Selected
	l.filled = m.Setup().Name
	var replies, rises []string
	if m.Plan() != nil {
		for i, r := range m.Verdict().Rises {
			rises = append(rises, r.Rise+" rise")
			for k := range r.Replies {
				if i == 0 {
					replies = append(replies, r.Replies[k].Title())
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

// Taught is the exchange that the page teaches, and with how many neighbours
// each way; ok is false during an exercise.
func (l *Page) Taught() (rise, line, neighbours int, ok bool) {
	rise, line = l.exchange()
	return rise, line, l.neighbours(), l.state != asked
}

// exchange is the exchange that is taught.
func (l *Page) exchange() (rise, line int) {
	if at := slices.Index(l.against.Options, l.reply.Selected); at >= 0 && l.reply.SelectedIndex() > 0 {
		return max(0, l.rise.SelectedIndex()), l.reply.SelectedIndex() - 1
	}
	return 0, words.Breaking
}

// neighbours is how many steps are shown each way.
func (l *Page) neighbours() int { return l.each.SelectedIndex() + 1 }

// draw draws the lesson as it is now.
func (l *Page) draw(wide float64) *sheet.Drawing {
	if l.host.Model().Plan() == nil || len(l.lesson.Steps) == 0 {
		return nil
	}
	return sheet.DrawLesson(&l.lesson, wide)
}

// show shows the lesson, or the exercise.
func (l *Page) show() {
	plan := l.host.Model().Plan()
	hide := func(hidden bool, of ...fyne.CanvasObject) {
		for _, o := range of {
			if hidden {
				o.Hide()
			} else {
				o.Show()
			}
		}
	}
	exercise := l.state == asked
	if plan == nil {
		l.lesson = words.Lesson{}
		l.said.SetText(model.Sentence(model.Refusal(l.host.Model().Err())))
	} else {
		rise, line := l.exchange()
		l.lesson = words.LessonAt(plan, l.host.Model().Setup().Delay, l.neighbours(), rise, line, l.also()...)
		value.TellLesson(&l.lesson, plan)
		value.FollowLesson(&l.lesson, plan)
	}
	if askable(plan) {
		l.try.Enable()
	} else {
		l.try.Disable()
	}
	switch l.state {
	case shown:
		l.try.SetText("Try it yourself")
	case asked:
		l.try.SetText("Check")
	case answered:
		l.try.SetText("Try again")
	}
	hide(exercise, l.chooses, l.takes, l.view.Box)
	hide(!exercise, l.asks, l.none, l.hint, l.exercise)
	hide(!exercise || len(l.told.tries) == 0, l.answer)
	hide(len(l.upOn.Options) < 2, l.rises)
	hide(l.state == shown, l.back)
	hide(exercise || len(l.rise.Options) < 2 || l.reply.SelectedIndex() == 0, l.rise)
	hide(l.said.Text == "" || plan != nil && l.state == shown, l.said)
	if !exercise {
		l.view.Again()
	}
	l.box.Refresh()
}

// nextSetup goes on with the next setup of the list, the first after the last;
// an exercise with another exercise.
func (l *Page) nextSetup() {
	setups, at := l.host.Listed()
	if len(setups) == 0 {
		return
	}
	l.host.Model().Choose(setups[(at+1)%len(setups)])
	l.view.Top()
	l.Refocus()
}

// key does what a key does on the lesson; it reports whether it did. The
// delay is edited on the lesson alone, never at the end of an exercise, where
// a student's hand still lies on the keys that moved theirs.
func (l *Page) key(ev *fyne.KeyEvent) bool {
	step := 1
	if l.keys()&fyne.KeyModifierShift != 0 {
		step = paint.BigStep
	}
	exercise := l.state != shown
	switch m := l.host.Model(); ev.Name {
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
		return l.host.PageKey(ev)
	}
	return true
}

// EndOwn gives the exercise up.
func (l *Page) EndOwn() bool {
	if l.state == shown {
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

// Picture is what can be copied: the lesson, never the exercise's answer.
func (l *Page) Picture() *output.Made {
	if l.view.Drawing == nil || l.state == asked {
		return nil
	}
	return page.Picture(l.view.Drawing)
}

// Text is the lesson in words.
func (l *Page) Text() string {
	if l.host.Model().Plan() == nil || l.state == asked {
		return ""
	}
	return output.LessonText(&l.lesson)
}

func (l *Page) Content() fyne.CanvasObject { return l.box }

// Edits: an edit is no part of the exercise, nor is taking one back.
func (l *Page) Edits() bool { return l.state == shown }

// Refocus gives the keys to what is shown.
func (l *Page) Refocus() {
	if l.state == asked {
		l.host.Canvas().Focus(l.exercise)
	} else {
		l.host.Canvas().Focus(l.view)
	}
}

// Changed follows the chosen setup; another setup, or an edit, begins the
// exercise anew.
func (l *Page) Changed(c model.Change) {
	if !page.Outdated(l.host, c, page.AnySetup|model.ChoiceChanged, func() bool { return l.host.Model().Chosen() >= 0 }) {
		return
	}
	l.fill()
	plan := l.host.Model().Plan()
	if l.state == asked && askable(plan) {
		l.ask(plan)
		return
	}
	l.state = shown
	l.show()
}

// Note says something in passing.
func (l *Page) Note(text string) {
	if l.state != asked {
		if l.state == answered {
			text += "\n" + l.told.words()
		}
		l.said.SetText(text)
		l.said.Show()
		l.box.Refresh()
	}
}
