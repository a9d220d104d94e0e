package exercise

import (
	"wakeline/timeline"
	"wakeline/timeline/words"
)

// Kind is what a question asks for.
type Kind string

// The kinds.
const (
	WhereSafe  Kind = "safe delay"
	WhatBreaks Kind = "what breaks it"
	OneMore    Kind = "one frame more"
	ReadStrip  Kind = "read the strip"
	WhichSetup Kind = "setup for a reply"
)

// Kinds are all kinds, in the order in which they are asked.
var Kinds = []Kind{WhereSafe, WhatBreaks, OneMore, ReadStrip, WhichSetup}

// About says what a question of that kind asks for.
func (k Kind) About() string {
	switch k {
	case WhereSafe:
		return "Find a delay that is safe."
	case WhatBreaks:
		return "Which reply breaks the setup as it stands?"
	case OneMore:
		return "What breaks the setup one frame later?"
	case ReadStrip:
		return "Read the advantage, the meeting and the frames to spare off the strip."
	case WhichSetup:
		return "Which setup holds against a reply?"
	}
	return ""
}

// Question is one question, about the exchange of that rise and line of a plan
// at a delay.
type Question struct {
	Kind       Kind
	Setup      string // its name; of WhichSetup the first that is right
	Ask        string
	Plan       *timeline.Plan // of WhichSetup that of its first choice
	Delay      int            // where it starts
	Rise, Line int
	Choices    []string // what can be chosen; none where the answer is a delay or numbers
	Fields     []string // what each number that is typed means
	Hints      []string
	Why        string // the whole answer; of WhereSafe it depends on what was tried

	right   []bool // of Choices
	numbers []int  // of Fields
	shown   []shown
}

// shown is what is shown with a choice.
type shown struct {
	plan *timeline.Plan
	line int
}

// With is the question as it is shown while that choice is looked at: the
// exchange that it speaks of.
func (q *Question) With(choice int) *Question {
	out := *q
	if choice >= 0 && choice < len(q.shown) {
		at := q.shown[choice]
		if at.plan != q.Plan {
			out.Delay = at.plan.Setup.Delay
		}
		out.Plan, out.Line = at.plan, at.line
	}
	return &out
}

// Answer is what a student answers: a delay, or that none is safe; a choice; or
// numbers, one a field.
type Answer struct {
	Delay   int
	None    bool // no delay is safe
	Choice  int
	Numbers []int
}

// Told is what an answer comes to.
type Told struct {
	Right bool
	Short string // right or wrong, and in which direction where that is known
	Whole string // the answer, and why
}

// Weigh says what an answer comes to. An answer that is none of the choices, or
// has not a number for each field, is wrong.
func (q *Question) Weigh(a Answer) Told {
	switch q.Kind {
	case WhereSafe:
		g := words.GuessAt(q.Plan, max(0, min(a.Delay, q.Plan.LastDelay())))
		if a.None {
			g = words.GuessNone(q.Plan)
		}
		return Told{g.Right, g.Short, g.Words}
	case ReadStrip:
		return q.weighNumbers(a.Numbers)
	}
	if a.Choice >= 0 && a.Choice < len(q.right) && q.right[a.Choice] {
		return Told{true, "Right.", q.Why}
	}
	return Told{false, "Not right.", q.Why}
}

// weighNumbers says which of the numbers are right.
func (q *Question) weighNumbers(got []int) Told {
	out := Told{Right: true, Short: "Right.", Whole: q.Why}
	var wrong []string
	for i, want := range q.numbers {
		if i >= len(got) || got[i] != want {
			wrong = append(wrong, q.Fields[i])
		}
	}
	if len(wrong) > 0 {
		out.Right, out.Short = false, "Not right: "+words.List(wrong)+"."
	}
	return out
}

// RightChoices are the choices that are right, in their order.
func (q *Question) RightChoices() (out []int) {
	for i, ok := range q.right {
		if ok {
			out = append(out, i)
		}
	}
	return out
}

// Scene is what the student is shown at a delay: the exchange without its
// answer.
func (q *Question) Scene(delay int) words.Scene {
	s := words.SceneAt(q.Plan, delay, q.Rise, q.Line).Covered()
	if q.Kind == ReadStrip {
		var plain []timeline.Dimension
		for _, d := range s.Dimensions {
			if d.Kind != timeline.DimAdvantage && d.Kind != timeline.DimRise {
				plain = append(plain, d)
			}
		}
		s.Dimensions = plain
	}
	return s
}

// Pick returns a random number from 0 to n-1.
type Pick func(n int) int

// Make makes a question of that kind about setup i of the setups; ok is false
// where the setup has nothing of the sort to ask, such as one that can't be
// judged. Among the setups are those that can be chosen from in WhichSetup.
func Make(p *timeline.Project, setups []timeline.Setup, i int, kind Kind, pick Pick) (q Question, ok bool) {
	if kind == WhichSetup {
		return whichSetup(p, setups, i, pick)
	}
	plan, err := timeline.Compile(p, setups[i])
	if err != nil || plan.Blank() {
		return q, false
	}
	q = Question{Kind: kind, Setup: setups[i].Name, Plan: plan, Delay: setups[i].Delay, Line: firstDemanded(plan), Hints: words.Hints(plan)}
	switch kind {
	case WhereSafe:
		q.Delay = timeline.StartDelay(plan, pick)
		q.Ask = "Which delay makes this safe? " + words.Asked(plan)
		return q, true
	case WhatBreaks:
		return whatBreaks(q, pick)
	case OneMore:
		return oneMore(q, pick)
	case ReadStrip:
		return readStrip(q, pick)
	}
	return q, false
}

// firstDemanded is the line of the first reply that something is demanded of,
// else the first: which reply decides would tell something of the answer.
func firstDemanded(p *timeline.Plan) int {
	for i := range p.Lines() {
		if p.Reply(i).Demand != timeline.DemandNone {
			return i
		}
	}
	return 0
}
