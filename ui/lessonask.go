package ui

import (
	"slices"

	"fyne.io/fyne/v2"

	"wakeline/timeline"
)

// tryOrShow begins the exercise, or ends it with its answer.
func (l *lessonPage) tryOrShow() {
	plan := l.w.model.Plan()
	switch {
	case plan == nil:
	case l.state == lessonAsked:
		l.reach(plan, l.exercise.delay)
		l.answer(plan.Guess(l.exercise.delay))
	default:
		l.ask(plan)
	}
}

// ask begins the exercise, against the first reply that something is demanded
// of: which reply decides would tell something of the answer.
func (l *lessonPage) ask(plan *timeline.Plan) {
	line := l.reply.SelectedIndex() - 1
	if line < 0 {
		replies := l.w.model.Verdict().Rises[0].Replies
		line = max(0, slices.IndexFunc(replies, func(r timeline.ReplyVerdict) bool { return r.Demand != timeline.NoneD }))
	}
	l.quiet = true
	l.against.SetSelectedIndex(line)
	l.quiet = false
	l.state = lessonAsked
	l.exercise.begin(plan, 0, line)
	l.said.SetText("The delay is hidden. Drag the jump, or press Left and Right, to where you think it is safe; then Enter, or “Show”. Nothing of the setup is edited.")
	l.show()
	l.refocus()
}

// reach widens the lesson, as far as the choices go, until delay d is one of
// its steps: a student sees what they guessed.
func (l *lessonPage) reach(plan *timeline.Plan, d int) {
	for at := l.each.SelectedIndex(); at < len(neighbourChoices); at++ {
		wide := plan.Lesson(plan.Setup.Delay, at+1, 0, timeline.Breaking)
		if slices.ContainsFunc(wide.Steps, func(s timeline.Step) bool { return s.Delay == d }) {
			l.quiet = true
			l.each.SetSelectedIndex(at)
			l.quiet = false
			return
		}
	}
}

// answer shows the lesson, and what the student's answer comes to.
func (l *lessonPage) answer(g timeline.Guess) {
	l.state = lessonAnswered
	how := "Not yet. "
	if g.Right {
		how = "Right. "
	}
	l.answered = how + g.Words
	l.said.SetText(l.answered)
	l.view.top()
	l.show()
	l.refocus()
}

// giveUp shows the lesson again, without an answer.
func (l *lessonPage) giveUp() {
	l.state = lessonShown
	l.show()
	l.refocus()
}

// exerciseKey does what a key does in the exercise that moves nothing.
func (l *lessonPage) exerciseKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyUp:
		turn(l.against, -1)
	case fyne.KeyDown:
		turn(l.against, 1)
	case fyne.KeyReturn, fyne.KeyEnter:
		l.tryOrShow()
	case fyne.KeyEscape:
		l.giveUp()
	default:
		l.w.pageKey(ev)
	}
}
