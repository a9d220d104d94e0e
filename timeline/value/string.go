package value

import (
	"slices"

	"wakeline/timeline"
)

// String is what follows a guarded attack, step by step.
type String struct {
	Steps      []StringStep
	Advantage  timeline.Maybe // in the end; absent where it isn't known
	PunishedBy string         // the rival's quickest move that does; empty: none
}

// StringStep is one step of a string; frames are counted from the attacker's
// first free one.
type StringStep struct {
	Move      string
	Before    timeline.Maybe // the advantage before it
	Touches   timeline.Maybe // absent by cancel, and where it doesn't touch
	Gap       timeline.Maybe // frames in which something can be done; 0: a true string
	BeatenBy  string         // the first reply that isn't survived; empty: none
	Exchanges []StringReply
}

// StringReply is one thing done in a gap, and how that ends.
type StringReply struct {
	Reply   string
	Outcome timeline.Outcome
}

// stringOf is the string of a setup at that delay; nil without one.
func stringOf(m *timeline.Meetings) *String {
	s := &m.Plan.Setup
	if len(s.Follow) == 0 {
		return nil
	}
	for _, line := range []int{timeline.LineGuardHigh, timeline.LineGuardLow} {
		if c := m.Cell(timeline.Exchange{Line: line}); c.Outcome == timeline.AttackBlocked {
			return stringAfter(m, c.Advantage)
		}
	}
	return nil
}

// stringAfter is the string from that advantage on; nil where that isn't known.
func stringAfter(m *timeline.Meetings, a timeline.Maybe) *String {
	s := &m.Plan.Setup
	if len(s.Follow) == 0 || !a.Given {
		return nil
	}
	attacker, rival := m.Plan.Fighters()
	rules := m.Plan.Rules()
	out := &String{}
	for _, f := range s.Follow {
		step := StringStep{Move: f.Move, Exchanges: []StringReply{}}
		if move := attacker.Move(f.Move); a.Given {
			step.Before = a
			a = step.follow(m, move, f, a.N)
		}
		out.Steps = append(out.Steps, step)
	}
	if out.Advantage = a; a.Given && a.N < 0 {
		out.PunishedBy = quickest(rules, rival, -a.N)
	}
	return out
}

// follow fills the step in, and returns the advantage after it; absent where the
// string stops.
func (s *StringStep) follow(m *timeline.Meetings, move *timeline.Move, f timeline.FollowStep, a int) timeline.Maybe {
	rules := m.Plan.Rules()
	throw := move.Kind == timeline.Throw
	after := timeline.Maybe{}
	if move.Hits() && !throw {
		after = touched(rules, move, move.OnGuard, move.Guardstun)
	}
	if f.By == timeline.Cancel {
		return after
	}
	if !move.Hits() {
		return timeline.Maybe{}
	}
	t := f.Wait + move.FirstActive(rules)
	if throw && t < a+rules.ThrowGraceRise {
		return timeline.Maybe{}
	}
	s.Touches, s.Gap = timeline.Some(t), timeline.Some(max(0, t+1-a))
	if s.Gap.N > 0 {
		s.judge(m, move, f.Wait, a)
	}
	return after
}

// judge plays the step as a plan of its own.
func (s *StringStep) judge(m *timeline.Meetings, move *timeline.Move, wait, a int) {
	attacker, rival := m.Plan.Fighters()
	riser := *rival
	riser.Rises = []timeline.Rise{{Name: "string"}}
	setup := timeline.Setup{Name: "string", Attacker: attacker.Name, Rival: rival.Name, Position: timeline.Midscreen,
		Advantage: timeline.Some(max(a, 0)), Delay: wait + max(-a, 0), Landing: move.Name, Replies: []timeline.Reply{}}
	for _, r := range m.Plan.Asked() {
		if !slices.ContainsFunc(setup.Replies, func(o timeline.Reply) bool { return o.Move == r.Move }) {
			setup.Replies = append(setup.Replies, timeline.Reply{Move: r.Move, Demand: timeline.DemandNone})
		}
	}
	p := &timeline.Project{Ruleset: m.Plan.Rules(), Fighters: []timeline.Fighter{riser}}
	if attacker.Name != rival.Name {
		p.Fighters = append(p.Fighters, *attacker)
	}
	plan, err := timeline.Compile(p, setup)
	if err != nil {
		return // past the width nothing is judged
	}
	played := plan.Meetings(setup.Delay, nil)
	for line := range plan.Lines() {
		c := played.Cell(timeline.Exchange{Line: line})
		s.Exchanges = append(s.Exchanges, StringReply{plan.Reply(line).Move, c.Outcome})
		if s.BeatenBy == "" && line >= timeline.FirstReply && !c.Outcome.Survived() {
			s.BeatenBy = plan.Reply(line).Move
		}
	}
}

// quickest is the rival's grounded strike or throw that is active first, within
// that many frames; empty where there is none.
func quickest(rules timeline.Ruleset, f *timeline.Fighter, frames int) (name string) {
	least := frames
	for i := range f.Moves {
		m := &f.Moves[i]
		if m.Hits() && !m.Air && m.Level != timeline.LevelAirThr {
			if n := m.FirstActive(rules) + 1; n < least || n == least && name == "" {
				name, least = m.Name, n
			}
		}
	}
	return name
}
