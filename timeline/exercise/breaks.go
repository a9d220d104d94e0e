package exercise

import (
	"fmt"
	"strings"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// The choices besides the replies.
const (
	nothingBreaks = "Nothing breaks it"
	missesWakeUp  = "It misses the wake-up"
)

// breaking offers what can break the question's plan, as choices, and knows which
// of them do at delay d: nothing, a missed wake-up, and each reply that something
// is demanded of, on any rise. It reports whether there is a choice.
func (q *Question) breaking(d int) bool {
	p := q.Plan
	m := p.Meetings(d, nil)
	broken := func(line int) bool {
		for r := range p.Rises() {
			if p.Mark(line, m.Cell(timeline.Exchange{Rise: r, Line: line})) == timeline.JudgedUnsafe {
				return true
			}
		}
		return false
	}
	q.Choices, q.right, q.shown = []string{nothingBreaks}, []bool{true}, []shown{{p, timeline.LineNothing}}
	add := func(what string, breaks bool, line int) {
		q.Choices, q.right, q.shown = append(q.Choices, what), append(q.right, breaks), append(q.shown, shown{p, line})
		q.right[0] = q.right[0] && !breaks
	}
	if !p.Bait() {
		add(missesWakeUp, !p.Meaty(d), timeline.LineNothing)
	}
	for i := timeline.FirstReply; i < p.Lines(); i++ {
		if r := p.Reply(i); r.Demand != timeline.DemandNone {
			add(r.Title()+" breaks it", broken(i), i)
		}
	}
	return len(q.Choices) > 2
}

// whyAt is the verdict at a delay, as a sentence.
func whyAt(p *timeline.Plan, d int) string {
	v := words.VerdictAt(p, d)
	return fmt.Sprintf("At delay %d it is %s. %s", d, v.Word, v.Because)
}

// answered says which choices are right, before why.
func (q *Question) answered(why string) {
	var right []string
	for i, ok := range q.right {
		if ok {
			right = append(right, q.Choices[i])
		}
	}
	q.Why = strings.Join(right, "; ") + ". " + why
}

// whatBreaks asks what breaks the setup at a delay, which is the setup's own or
// one that isn't safe.
func whatBreaks(q Question, pick Pick) (Question, bool) {
	if pick(2) == 0 {
		q.Delay = timeline.StartDelay(q.Plan, pick)
	}
	if !q.breaking(q.Delay) {
		return q, false
	}
	q.Ask = fmt.Sprintf("What breaks it at delay %d? %s", q.Delay, words.Asked(q.Plan))
	q.answered(whyAt(q.Plan, q.Delay))
	return q, true
}

// oneMore asks what breaks the setup one frame later than a delay: of a safe one
// that is the last of its run as often as not.
func oneMore(q Question, pick Pick) (Question, bool) {
	p := q.Plan
	if good := p.SafeDelays(); !good.Empty() {
		runs := good.Spans()
		run := runs[pick(len(runs))]
		q.Delay = run.To - 1
		if pick(2) == 0 {
			q.Delay = run.From + pick(run.Len())
		}
	}
	if q.Delay >= p.LastDelay() || !q.breaking(q.Delay+1) {
		return q, false
	}
	q.Ask = fmt.Sprintf("At delay %d it is %s. What breaks it one frame later? %s", q.Delay, p.Word(q.Delay), words.Asked(p))
	q.answered(whyAt(p, q.Delay+1))
	return q, true
}
