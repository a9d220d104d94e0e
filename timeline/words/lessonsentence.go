package words

import (
	"fmt"
	"strings"

	"wakeline/timeline"
)

// lessonText says what happens in a step of a lesson, for someone who has never
// counted frames: when it starts and lands, what touches what, why that is
// soon enough or not, and which rules of the game decide it.
func lessonText(m *timeline.Meetings, s *Step) string {
	p, e, c := m.Plan, s.exchange, m.Cell(s.exchange)
	say := []string{begins(p, s)}
	say = append(say, passes(m, e)...)
	say = append(say, happens(m, s)...)
	say = append(say, ruled(m, e)...)
	if (c.Outcome == timeline.ReplyHits || c.Outcome == timeline.ReplyThrows) && misses(m, e.Rise) {
		say = append(say, "The attack also misses the wake-up: "+missed(m, e.Rise))
	}
	switch p.Word(s.Delay) {
	case timeline.Limited:
		say = append(say, "No timing covers "+List(p.Uncovered()))
	case timeline.Unsafe:
		if r, i := p.Deciding(s.Delay); i != e.Line && s.Scene.Judgement != timeline.JudgedUnsafe {
			say = append(say, "The setup is unsafe here for another reason: "+clause(m, timeline.Exchange{Rise: r, Line: i}))
		}
	}
	return strings.Join(say, ". ") + "."
}

// begins says when the attacker starts and lands.
func begins(p *timeline.Plan, s *Step) string {
	who, lead := attackerName(p), ""
	switch {
	case s.Later < 0:
		lead = fmt.Sprintf("Started %s earlier, ", Frames(-s.Later))
	case s.Later > 0:
		lead = fmt.Sprintf("Started %s later, ", Frames(s.Later))
	}
	if sc := &s.Scene; sc.JumpOn.Given {
		return fmt.Sprintf("%s%s jumps on frame %d and lands on frame %d", lead, who, sc.JumpOn.N, sc.Touchdown.N)
	}
	what := p.Setup.Landing
	switch what {
	case timeline.DoGuard:
		what = "to guard"
	case timeline.DoParry:
		what = "to parry"
	}
	return fmt.Sprintf("%s%s begins %s on frame %d", lead, who, what, s.Scene.ActsFrom)
}

func attackerName(p *timeline.Plan) string {
	if p.Setup.Attacker == p.Setup.Rival {
		return "the attacker"
	}
	return p.Setup.Attacker
}

func rivalName(p *timeline.Plan) string {
	if p.Setup.Attacker == p.Setup.Rival {
		return "the rival"
	}
	return p.Setup.Rival
}

// taught is an exchange as a lesson tells it.
type taught struct {
	exchange
	scene   *Scene
	me, you string // the two sides
	when    string // how the meeting stands to the wake-up
}

// lessonClauses has a sentence or two for each way an exchange ends.
var lessonClauses = [timeline.Outcomes]func(x *taught) []string{
	timeline.AttackHits: func(x *taught) []string {
		say := []string{fmt.Sprintf("The attack hits %s on frame %d, %s", x.you, x.on, x.when)}
		if x.Spare.Given {
			say = append(say, fmt.Sprintf("%s could touch only from frame %d on: %s", x.who, x.on+x.Spare.N+1, toSpare(x.Spare.N)))
		}
		return say
	},
	timeline.AttackBlocked: func(x *taught) []string {
		return []string{fmt.Sprintf("The attack touches %s on frame %d, %s, and is blocked%s", x.you, x.on, x.when, x.turn(x.Advantage))}
	},
	timeline.ReplyBlocked: func(x *taught) []string {
		say := []string{fmt.Sprintf("%s touches on frame %d and is blocked: %s guards from frame %d, with %s", x.who, x.on, x.me, x.on-x.Spare.N, toSpare(x.Spare.N))}
		if x.ToPunish.N > 0 {
			say = append(say, fmt.Sprintf("%s has %s to punish it", x.me, Frames(x.ToPunish.N)))
		}
		return say
	},
	timeline.ReplyParried: func(x *taught) []string {
		return []string{fmt.Sprintf("%s touches on frame %d and is parried: %s parries from frame %d, with %s", x.who, x.on, x.me, x.on-x.Spare.N, toSpare(x.Spare.N))}
	},
	timeline.Trade: func(x *taught) []string {
		return []string{fmt.Sprintf("The attack and %s touch on the same frame, %d", x.who, x.on)}
	},
	timeline.ReplyHits: func(x *taught) []string {
		if x.Spare.Given {
			return []string{fmt.Sprintf("%s hits on frame %d, but %s %s only from frame %d: %s too late", x.who, x.on, x.me, waits(x.m.Plan), x.scene.GuardsFrom, Frames(-x.Spare.N))}
		}
		return []string{fmt.Sprintf("%s hits on frame %d, where %s can't guard: %s", x.who, x.on, x.me, finds(x.m.Plan, x.scene, x.Exchange, x.on))}
	},
	timeline.AttackParried: func(x *taught) []string {
		return []string{fmt.Sprintf("%s parries the attack on frame %d", x.who, x.on)}
	},
	timeline.AttackAbsorbed: func(x *taught) []string {
		return []string{fmt.Sprintf("%s absorbs the attack on frame %d with its armour and goes on", x.who, x.on)}
	},
	timeline.ReplyThrows: func(x *taught) []string {
		return []string{fmt.Sprintf("%s throws %s on frame %d, and no guard stops a throw", x.who, x.me, x.on)}
	},
	timeline.AttackWhiffs: func(x *taught) []string {
		if x.m.Plan.Bait() {
			return []string{"Nothing touches " + x.you + ", and nothing is meant to: the setup is a bait"}
		}
		return []string{"The attack does not touch " + x.you + " in time: " + missed(x.m, x.Rise)}
	},
	timeline.NoContact: func(x *taught) []string {
		return []string{"Neither side touches the other" + x.turn(x.ToPunish)}
	},
}

// happens tells the exchange of a step in one or two sentences.
func happens(m *timeline.Meetings, s *Step) []string {
	p, e, c := m.Plan, s.exchange, m.Cell(s.exchange)
	x := &taught{exchange{c, e, m, p.Reply(e.Line).Title(), c.Meeting.N}, &s.Scene, attackerName(p), rivalName(p), afterFree(m, e)}
	if r := p.Reply(e.Line); r.Late > 0 {
		x.who = fmt.Sprintf("%s, done %s late,", r.Move, Frames(r.Late))
	}
	if misses(m, e.Rise) && c.AfterWake.N > 0 {
		x.when += fmt.Sprintf(": too late, as %s is free until then", x.you)
	}
	return lessonClauses[c.Outcome](x)
}

// toSpare writes a count of frames to spare.
func toSpare(n int) string {
	if n == 0 {
		return "no frame to spare"
	}
	return Frames(n) + " to spare"
}

// afterFree says how the meeting stands to the first frame on which the rival
// is free, or can be thrown.
func afterFree(m *timeline.Meetings, e timeline.Exchange) string {
	c := m.Cell(e)
	switch n := c.Meeting.N - m.Plan.Wake(e.Rise); {
	case n == 0:
		return "the wake-up"
	case c.AfterWake.Given && c.AfterWake.N == 0:
		return "the first on which " + rivalName(m.Plan) + " can be thrown"
	default:
		return Frames(n) + " after the wake-up"
	}
}

// misses reports whether the attack misses the wake-up of that rise: never so
// for a bait, which has nothing to meet it with.
func misses(m *timeline.Meetings, rise int) bool { return !m.Plan.Bait() && m.Miss(rise).By > 0 }

// turn says who acts first after n frames of advantage.
func (x *taught) turn(n timeline.Maybe) string {
	switch {
	case !n.Given:
		return ""
	case n.N > 0:
		return fmt.Sprintf(": %s acts %s before %s", x.me, Frames(n.N), x.you)
	case n.N < 0:
		return fmt.Sprintf(": %s acts %s before %s", x.you, Frames(-n.N), x.me)
	}
	return ": both act again on the same frame"
}
