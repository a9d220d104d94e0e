package exercise

import (
	"fmt"
	"slices"
	"strings"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// mostSetups is how many setups a question offers to choose from.
const mostSetups = 5

// mostCompared is how many setups of a pair are looked at.
const mostCompared = 200

// holds reports whether a plan meets the wake-up at its set delay and comes
// through that reply unhurt on every rise it claims; judged is false where it
// isn't asked that reply.
func holds(p *timeline.Plan, title string) (held, judged bool) {
	line := lineOf(p, title)
	if line < 0 {
		return false, false
	}
	d := p.Setup.Delay
	m := p.Meetings(d, nil)
	held = p.Meaty(d)
	for r := range p.Rises() {
		held = held && m.Cell(timeline.Exchange{Rise: r, Line: line}).Outcome.Survived()
	}
	return held, true
}

// lineOf is the line of the reply of that title, -1 where it isn't asked.
func lineOf(p *timeline.Plan, title string) int {
	for i := timeline.FirstReply; i < p.Lines(); i++ {
		if r := p.Reply(i); r.Title() == title {
			return i
		}
	}
	return -1
}

// whichSetup asks which setups of one pair hold against a reply: one that some
// of those that are asked it survive, and some don't. Setup i says the pair.
func whichSetup(p *timeline.Project, setups []timeline.Setup, i int, pick Pick) (q Question, ok bool) {
	of := &setups[i]
	var plans []*timeline.Plan
	var replies []string
	for k := range setups {
		s := &setups[k]
		if s.Attacker != of.Attacker || s.Rival != of.Rival || len(plans) == mostCompared {
			continue
		}
		plan, err := timeline.Compile(p, *s)
		if err != nil || plan.Blank() {
			continue
		}
		plans = append(plans, plan)
		for line := timeline.FirstReply; line < plan.Lines(); line++ {
			r := plan.Reply(line)
			if title := r.Title(); !slices.Contains(replies, title) {
				replies = append(replies, title)
			}
		}
	}
	for len(replies) > 0 { // until one parts the setups
		at := pick(len(replies))
		title := replies[at]
		replies = slices.Delete(replies, at, at+1)
		var good, bad []*timeline.Plan
		for _, plan := range plans {
			switch held, judged := holds(plan, title); {
			case held:
				good = append(good, plan)
			case judged:
				bad = append(bad, plan)
			}
		}
		if len(good) == 0 || len(bad) == 0 {
			continue
		}
		return against(of, title, good, bad, pick), true
	}
	return q, false
}

// against offers one setup that holds and some that don't, in a random order.
func against(of *timeline.Setup, title string, good, bad []*timeline.Plan, pick Pick) Question {
	right := good[pick(len(good))]
	offered := []*timeline.Plan{right}
	for len(offered) < mostSetups && len(bad) > 0 {
		k := pick(len(bad))
		offered = append(offered, bad[k])
		bad = slices.Delete(bad, k, k+1)
	}
	for n := len(offered) - 1; n > 0; n-- {
		k := pick(n + 1)
		offered[n], offered[k] = offered[k], offered[n]
	}
	q := Question{
		Kind: WhichSetup, Setup: right.Setup.Name,
		Ask: fmt.Sprintf("%s gets up with %s. Which of these setups of %s comes through unhurt?", of.Rival, title, of.Attacker),
		Hints: []string{
			"A setup holds where it meets the wake-up, and its attack touches first, or lands in time to guard what the reply does.",
		},
	}
	var why []string
	for _, plan := range offered {
		q.Choices, q.right = append(q.Choices, plan.Setup.Name), append(q.right, plan == right)
		line := lineOf(plan, title)
		q.shown = append(q.shown, shown{plan, line})
		why = append(why, plan.Setup.Name+": "+outcomes(plan, line)+".")
	}
	q = *q.With(0)
	q.Why = right.Setup.Name + " holds. " + strings.Join(why, " ")
	return q
}

// outcomes are the ways in which a reply ends on the rises, each once, and a
// wake-up that is missed.
func outcomes(p *timeline.Plan, line int) string {
	d := p.Setup.Delay
	m := p.Meetings(d, nil)
	var out []string
	if !p.Meaty(d) {
		out = append(out, "misses the wake-up")
	}
	for r := range p.Rises() {
		if o := m.Cell(timeline.Exchange{Rise: r, Line: line}).Outcome.String(); !slices.Contains(out, o) {
			out = append(out, o)
		}
	}
	return words.List(out)
}
