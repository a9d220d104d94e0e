package timeline

import (
	"fmt"
	"strings"
)

// taught says what happens in a step of a lesson, for someone who has never
// counted frames: when it starts and lands, what touches what, why that is
// soon enough or not, and which rules of the game decide it.
func (p *Plan) taught(s *Step, rise, line int) string {
	say := []string{p.begins(s)}
	say = append(say, p.passes(&s.Scene, rise, line)...)
	say = append(say, p.happens(&s.Scene, rise, line)...)
	say = append(say, p.ruled(&s.Scene, rise, line)...)
	if c := &s.Scene.Cell; (c.Outcome == ReplyHits || c.Outcome == ReplyThrows) && p.misses(s.Delay, rise) {
		a := p.base.later(s.Delay)
		say = append(say, "The attack also misses the wake-up: "+p.missWords(&a, rise))
	}
	switch p.Word(s.Delay) {
	case Limited:
		say = append(say, "No timing covers "+p.uncoveredList())
	case Unsafe:
		if r, i := p.Deciding(s.Delay); i != line && s.Scene.Judgement != JudgedUnsafe {
			cells := make([]Cell, len(p.bodies))
			p.Fill(s.Delay, cells)
			a := p.base.later(s.Delay)
			say = append(say, "The setup is unsafe here for another reason: "+p.clause(&a, r, i, cells))
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
		what = "to parry"
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
	when := p.afterFree(c, m, rise)
	if p.misses(s.Delay.Len(), rise) && c.AfterWake.N > 0 {
		when += fmt.Sprintf(": too late, as %s is free until then", you)
	}
	switch c.Outcome {
	case AttackHits:
		say := []string{fmt.Sprintf("The attack hits %s on frame %d, %s", you, m, when)}
		if c.Spare.Given {
			say = append(say, fmt.Sprintf("%s could touch only from frame %d on: %s", reply, m+c.Spare.N+1, toSpare(c.Spare.N)))
		}
		return say
	case AttackBlocked:
		return []string{fmt.Sprintf("The attack touches %s on frame %d, %s, and is blocked%s", you, m, when, turn(c.Advantage, me, you))}
	case ReplyBlocked:
		say := []string{fmt.Sprintf("%s touches on frame %d and is blocked: %s guards from frame %d, with %s", reply, m, me, m-c.Spare.N, toSpare(c.Spare.N))}
		if c.ToPunish.N > 0 {
			say = append(say, fmt.Sprintf("%s has %s to punish it", me, frames(c.ToPunish.N)))
		}
		return say
	case ReplyParried:
		return []string{fmt.Sprintf("%s touches on frame %d and is parried: %s parries from frame %d, with %s", reply, m, me, m-c.Spare.N, toSpare(c.Spare.N))}
	case Trade:
		return []string{fmt.Sprintf("The attack and %s touch on the same frame, %d", reply, m)}
	case ReplyHits:
		if c.Spare.Given {
			return []string{fmt.Sprintf("%s hits on frame %d, but %s %s only from frame %d: %s too late", reply, m, me, p.waits(), s.GuardsFrom, frames(-c.Spare.N))}
		}
		return []string{fmt.Sprintf("%s hits on frame %d, where %s can't guard: %s", reply, m, me, p.finds(s.Delay.Len(), m))}
	case AttackParried:
		return []string{fmt.Sprintf("%s parries the attack on frame %d", reply, m)}
	case AttackAbsorbed:
		return []string{fmt.Sprintf("%s absorbs the attack on frame %d with its armour and goes on", reply, m)}
	case ReplyThrows:
		return []string{fmt.Sprintf("%s throws %s on frame %d, and no guard stops a throw", reply, me, m)}
	case AttackWhiffs:
		if p.bait {
			return []string{"Nothing touches " + you + ", and nothing is meant to: the setup is a bait"}
		}
		a := p.base.later(s.Delay.Len())
		return []string{"The attack does not touch " + you + " in time: " + p.missWords(&a, rise)}
	}
	return []string{"Neither side touches the other" + turn(c.ToPunish, me, you)}
}

// toSpare writes a count of frames to spare.
func toSpare(n int) string {
	if n == 0 {
		return "no frame to spare"
	}
	return frames(n) + " to spare"
}

// passes says why an attack that is active before the meeting does not touch
// this reply; nothing where it is not active.
func (p *Plan) passes(s *Scene, rise, line int) []string {
	a := p.base.later(s.Delay.Len())
	at := p.firstTouch(&a, rise, lineNothing)
	switch s.Cell.Outcome {
	case ReplyBlocked, ReplyParried, ReplyHits, ReplyThrows, NoContact:
	default:
		return nil
	}
	if at.frame < 0 || at.frame >= s.Cell.Meeting.Or(Width) {
		return nil
	}
	why := "is immune to strikes then"
	switch {
	case p.bodies[rise*len(p.lines)+line].stance(at.frame).Airborne:
		why = "is in the air then"
	case at.blow.throws():
		why = "can't be thrown then"
	}
	return []string{fmt.Sprintf("On frame %d the attack is active but touches nothing: %s %s", at.frame, p.lines[line].title, why)}
}

// afterFree says how a touch of cell c on frame m stands to the first frame on
// which the rival is free, or can be thrown.
func (p *Plan) afterFree(c *Cell, m, rise int) string {
	switch n := m - p.wakes[rise]; {
	case n == 0:
		return "the wake-up"
	case c.AfterWake.Given && c.AfterWake.N == 0:
		return "the first on which " + p.rivalName() + " can be thrown"
	default:
		return frames(n) + " after the wake-up"
	}
}

// misses reports whether delay d misses the frame of rise r that it should
// meet: never so for a bait, which has nothing to meet it with.
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
		return fmt.Sprintf(": %s acts %s before %s", me, frames(n.N), you)
	case n.N < 0:
		return fmt.Sprintf(": %s acts %s before %s", you, frames(-n.N), me)
	}
	return ": both act again on the same frame"
}
