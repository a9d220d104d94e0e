package lesson

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"

	"wakeline/timeline"
	"wakeline/timeline/exercise"
	"wakeline/timeline/words"
)

// answerTold is what the student of an exercise was told so far. It is told in
// steps: right or wrong, then the hints one by one, then the whole answer.
type answerTold struct {
	tries  []words.Guess // that were checked
	hints  []string      // that were given
	answer string        // empty: not told yet
}

// asking is what the student is asked to do.
const asking = "Drag the jump, or press Left and Right, to a delay that you think is safe. Then press Enter, or Check. The setup itself is not changed."

// words are all that was told, the last first.
func (a *answerTold) words() string {
	if a.answer != "" {
		return a.answer
	}
	say := asking
	if n := len(a.tries); n > 0 {
		say = "Not right. " + a.tries[n-1].Short + " Try again, ask for a hint, or see the answer."
	}
	for i, h := range a.hints {
		say += fmt.Sprintf("\nHint %d: %s", i+1, h)
	}
	return say
}

// askable reports whether an exercise can be made of a plan: there is one, and
// it has something to judge.
func askable(plan *timeline.Plan) bool { return plan != nil && !plan.Blank() }

// tryOrCheck begins the exercise, or checks the student's delay.
func (l *Page) tryOrCheck() {
	plan := l.host.Model().Plan()
	switch {
	case !askable(plan):
	case l.state == asked:
		l.check(words.GuessAt(plan, l.exercise.Delay))
	default:
		l.ask(plan)
	}
}

// check tells what an answer comes to: where it is right, all; where it is
// wrong, in which direction, and the student tries again.
func (l *Page) check(g words.Guess) {
	l.told.tries = append(l.told.tries, g)
	if g.Right {
		l.tell("Right. " + g.Words)
		return
	}
	l.sayTold()
}

// giveHint gives the next hint.
func (l *Page) giveHint() {
	if plan := l.host.Model().Plan(); l.state == asked && plan != nil {
		if all := words.Hints(plan); len(l.told.hints) < len(all) {
			l.told.hints = all[:len(l.told.hints)+1]
		}
		l.sayTold()
	}
}

// showAnswer tells the whole answer, of the delay that was tried last.
func (l *Page) showAnswer() {
	if n := len(l.told.tries); l.state == asked && n > 0 {
		l.tell("The answer: " + l.told.tries[n-1].Words)
	}
}

// sayTold says what was told, and offers what can be told next.
func (l *Page) sayTold() {
	l.said.SetText(l.told.words())
	if plan := l.host.Model().Plan(); plan != nil && len(l.told.hints) >= len(words.Hints(plan)) {
		l.hint.Disable()
	} else {
		l.hint.Enable()
	}
	l.show()
	l.Refocus()
}

// ask begins the exercise, against the first reply that something is demanded
// of: which reply decides would tell something of the answer.
func (l *Page) ask(plan *timeline.Plan) {
	line := l.reply.SelectedIndex() - 1
	if line < 0 {
		replies := l.host.Model().Verdict().Rises[0].Replies
		line = max(0, slices.IndexFunc(replies, func(r timeline.ReplyVerdict) bool { return r.Demand != timeline.DemandNone }))
	}
	l.quiet = true
	l.against.SetSelectedIndex(line)
	l.upOn.SetSelectedIndex(0)
	l.quiet = false
	l.state = asked
	l.exercise.Begin(&exercise.Question{Kind: exercise.WhereSafe, Plan: plan, Line: line, Delay: timeline.StartDelay(plan, l.pick), Ask: words.Asked(plan)})
	l.told = answerTold{}
	l.sayTold()
}

// also is the delay that the student tried last, at the end of an exercise: it
// is shown beside the lesson's own.
func (l *Page) also() []int {
	if l.state != answered {
		return nil
	}
	return []int{l.exercise.Delay}
}

// tell shows the lesson, and the whole answer over it.
func (l *Page) tell(answer string) {
	l.state, l.told.answer = answered, answer
	l.said.SetText(l.told.words())
	l.view.Top()
	l.show()
	l.Refocus()
}

// giveUp shows the lesson again, without an answer.
func (l *Page) giveUp() {
	l.state = shown
	l.show()
	l.Refocus()
}

// exerciseKey does what a key does in the exercise that moves nothing.
func (l *Page) exerciseKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyUp:
		turn(l.against, -1)
	case fyne.KeyDown:
		turn(l.against, 1)
	case fyne.KeyReturn, fyne.KeyEnter:
		l.tryOrCheck()
	default:
		l.host.PageKey(ev)
	}
}
