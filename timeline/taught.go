package timeline

import (
	"fmt"
	"strings"
)

// taught says what happens in a step of a lesson, for someone who has never
// counted frames: when it starts and lands, what touches what, and why that
// is soon enough or not.
func (p *Plan) taught(s *Step, rise, line int) string {
	say := []string{p.begins(s)}
	say = append(say, p.happens(&s.Scene, rise, line)...)
	say = append(say, p.passes(&s.Scene, rise, line)...)
	if c := &s.Scene.Cell; (c.Outcome == ReplyHits || c.Outcome == ReplyThrows) && p.misses(s.Delay, rise) {
		a := p.base.later(s.Delay)
		say = append(say, "The attack misses its moment: "+p.missWords(&a, rise))
	}
	switch p.Word(s.Delay) {
	case Limited:
		say = append(say, "No timing covers "+p.uncoveredList())
	case Unsafe:
		if r, i := p.Deciding(s.Delay); i != line && s.Scene.Judgement != JudgedUnsafe {
			cells := make([]Cell, len(p.bodies))
			p.Fill(s.Delay, cells)
			a := p.base.later(s.Delay)
			say = append(say, "The setup is unsafe here all the same: "+p.clause(&a, r, i, cells))
		}
	}
	return strings.Join(say, ". ") + "."
}

// begins says when the attacker starts and lands.
func (p *Plan) begins(s *Step) string {
	who, lead := p.attackerName(), ""
	switch {
	case s.Later < 0:
		lead = fmt.Sprintf("Started %s earlier, ", frames(-s.Later))
	case s.Later > 0:
		lead = fmt.Sprintf("Started %s later, ", frames(s.Later))
	}
	if sc := &s.Scene; sc.JumpOn.Given {
		return fmt.Sprintf("%s%s jumps on frame %d and lands on frame %d", lead, who, sc.JumpOn.N, sc.Touchdown.N)
	}
	what := p.Setup.Landing
	switch what {
	case DoGuard:
		what = "to guard"
	case DoParry:
		what = "the parry"
	}
	return fmt.Sprintf("%s%s begins %s on frame %d", lead, who, what, s.Scene.ActsFrom)
}

func (p *Plan) attackerName() string {
	if p.Setup.Attacker == p.Setup.Rival {
		return "the attacker"
	}
	return p.Setup.Attacker
}

func (p *Plan) rivalName() string {
	if p.Setup.Attacker == p.Setup.Rival {
		return "the rival"
	}
	return p.Setup.Rival
}

// happens tells the exchange in one or two sentences.
func (p *Plan) happens(s *Scene, rise, line int) []string {
	me, you, reply := p.attackerName(), p.rivalName(), p.lines[line].title
	if l := &p.lines[line]; l.late > 0 {
		reply = fmt.Sprintf("%s, done %s late,", strings.TrimSuffix(l.title, fmt.Sprintf(" late %d", l.late)), frames(l.late))
	}
	c := &s.Cell
	m := c.Meeting.N
	touch := fmt.Sprintf("The attack touches %s on frame %d, %s", you, m, p.firstFree(m, rise))
	if (c.Outcome == AttackHits || c.Outcome == AttackBlocked) && c.AfterWake.N > 0 && p.misses(s.Delay.Len(), rise) {
		touch += fmt.Sprintf(": too late, as %s is free until then", you)
	}
	switch c.Outcome {
	case AttackHits:
		say := []string{touch}
		if c.Spare.Given {
			say = append(say, fmt.Sprintf("%s could not hit before frame %d, so it never comes out", reply, m+c.Spare.N+1))
		}
		return say
	case AttackBlocked:
		return []string{touch, "A guard takes it" + turn(c.Advantage, me, you)}
	case ReplyBlocked, ReplyParried:
		guard := fmt.Sprintf("the guard of %s, which is up from frame %d", me, s.GuardsFrom)
		if c.Outcome == ReplyParried {
			guard = fmt.Sprintf("the parry that %s holds from frame %d", me, s.GuardsFrom)
		}
		spare := "not one frame to spare"
		if c.Spare.N > 0 {
			spare = frames(c.Spare.N) + " to spare"
		}
		return []string{fmt.Sprintf("%s hits on frame %d and meets %s: %s", reply, m, guard, spare)}
	case Trade:
		return []string{fmt.Sprintf("The attack and %s touch on the same frame, %d, so both are hit", reply, m)}
	case ReplyHits:
		if c.Spare.Given {
			return []string{fmt.Sprintf("%s hits on frame %d, but the %s of %s is up only on frame %d: %s too late", reply, m, p.Setup.Landing, me, s.GuardsFrom, frames(-c.Spare.N))}
		}
		return []string{fmt.Sprintf("%s hits on frame %d, while %s can't guard", reply, m, me)}
	case AttackParried, AttackAbsorbed:
		return []string{fmt.Sprintf("The attack touches on frame %d, but %s takes it and comes through", m, reply)}
	case ReplyThrows:
		return []string{fmt.Sprintf("%s throws on frame %d, and no guard stops a throw", reply, m)}
	case AttackWhiffs:
		if p.bait {
			return []string{"Nothing touches " + you + ", and nothing should: it is a bait"}
		}
		a := p.base.later(s.Delay.Len())
		return []string{"The attack does not touch " + you + " in time: " + p.missWords(&a, rise)}
	}
	return []string{"Neither side touches the other" + turn(c.ToPunish, me, you)}
}

// passes says why an attack that is there before the meeting does not touch
// this reply; nothing where it is not there.
func (p *Plan) passes(s *Scene, rise, line int) []string {
	a := p.base.later(s.Delay.Len())
	at := a.first(&p.bodies[rise*len(p.lines)+2])
	switch s.Cell.Outcome {
	case ReplyBlocked, ReplyParried, ReplyHits, ReplyThrows, NoContact:
	default:
		return nil
	}
	if at.frame < 0 || at.frame >= s.Cell.Meeting.Or(Width) {
		return nil
	}
	why := "is immune then"
	switch {
	case p.bodies[rise*len(p.lines)+line].stance(at.frame).Airborne:
		why = "is in the air then"
	case at.blow.throws():
		why = "can't be thrown then"
	}
	return []string{fmt.Sprintf("The attack is there on frame %d and touches nothing: %s %s", at.frame, p.lines[line].title, why)}
}

// firstFree says how a touch on frame m stands to the first frame that the
// rival has, or can be thrown on.
func (p *Plan) firstFree(m, rise int) string {
	you := p.rivalName()
	if n := m - p.wakes[rise]; n > 0 {
		return fmt.Sprintf("%s after %s could first act", frames(n), you)
	}
	return "the very first on which " + you + " could act"
}

// misses reports whether delay d meets the first frame of rise r on which it
// should: never so for a bait, which has nothing to meet it with.
func (p *Plan) misses(d, r int) bool {
	a := p.base.later(d)
	n, _, _ := p.miss(&a, r)
	return !p.bait && n > 0
}

// turn says who acts first after n frames of advantage.
func turn(n Maybe, me, you string) string {
	switch {
	case !n.Given:
		return ""
	case n.N > 0:
		return fmt.Sprintf(", and %s acts %s before %s", me, frames(n.N), you)
	case n.N < 0:
		return fmt.Sprintf(", and %s acts %s before %s", you, frames(-n.N), me)
	}
	return ", and both act again together"
}
