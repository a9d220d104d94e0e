package timeline

// RuleKind is a rule of the game that may decide an exchange, beside the
// frames themselves.
type RuleKind uint8

// The rules, in the order that Rules gives them.
const (
	RuleThrowsTrade      RuleKind = iota // two throws on one frame trade
	RuleStrikeBeatsThrow                 // on one frame
	RuleStrikesTrade                     // two strikes on one frame, where the ruleset lets them trade
	RuleAttackerFirst                    // two strikes on one frame, where it doesn't
	RuleWakeGrace                        // no throw so soon after the wake-up
	RuleLateGuard                        // no guard so soon after the landing
	RulePrejump                          // no throw in prejump
	RuleAirborne                         // no throw in the air
	RuleLandingGrace                     // no throw so soon after the landing
)

// Rule is a rule at work in an exchange.
type Rule struct {
	Kind  RuleKind
	Frame int // of the last three: where the reply's throw is active, and can't touch
}

// Rules are the rules that decide that exchange.
func (m *Meetings) Rules(e Exchange) (out []Rule) {
	p, a, c := m.Plan, &m.track, m.Cell(e)
	body := &p.bodies[e.Rise*len(p.lines)+e.Line]
	add := func(kind RuleKind) { out = append(out, Rule{Kind: kind}) }

	sp := p.spotOf(a, e.Rise, e.Line)
	mine, theirs := a.first(body, &sp.mine), body.answer(a, &sp.theirs)
	if mine.frame >= 0 && mine.frame == theirs.frame && c.Meeting == Some(mine.frame) {
		switch {
		case mine.hit.throws() && theirs.hit.throws():
			add(RuleThrowsTrade)
		case mine.hit.throws() != theirs.hit.throws() && (c.Outcome == AttackHits || c.Outcome == ReplyHits || c.Outcome == ReplyBlocked || c.Outcome == ReplyParried):
			add(RuleStrikeBeatsThrow)
		case c.Outcome == Trade:
			add(RuleStrikesTrade)
		case c.Outcome == AttackHits:
			add(RuleAttackerFirst)
		}
	}
	if p.rules.ThrowGraceRise > 0 && c.Outcome == AttackHits && mine.frame >= 0 && mine.hit.throws() {
		add(RuleWakeGrace)
	}
	if p.guardsOn > p.touchdown && c.Outcome == ReplyHits && c.Spare.Given && c.Meeting.N >= p.touchdown+m.Delay {
		add(RuleLateGuard)
	}
	if r, ok := m.unthrown(body, c); ok {
		out = append(out, r)
	}
	return out
}

// unthrown is the rule that saves the attacker from a throw of the rival's
// that is active before the meeting; ok is false where none does.
func (m *Meetings) unthrown(body *Track, c *Cell) (r Rule, ok bool) {
	p := m.Plan
	if body.nhits == 0 || body.hits[0].class != classThrow || p.Setup.Jump == "" {
		return r, false
	}
	active := body.hits[0].Active.And(between(0, c.Meeting.Or(Width)))
	jump, land := p.jumpOn+m.Delay, p.touchdown+m.Delay
	air := land - p.attacker.Jump(p.Setup.Jump).Airborne
	for _, rule := range []struct {
		kind RuleKind
		on   Set
	}{
		{RulePrejump, between(jump, air).And(m.track.NoThrow)},
		{RuleAirborne, between(air, land)},
		{RuleLandingGrace, between(land, land+p.rules.ThrowGraceLanding)},
	} {
		if f := active.And(rule.on).First(); f >= 0 {
			return Rule{rule.kind, f}, true
		}
	}
	return r, false
}

// Pass says why an attack that is active passes a reply by.
type Pass uint8

// The reasons of a pass.
const (
	NoPass       Pass = iota // it isn't active before the meeting
	PassAirborne             // the rival is in the air
	PassThrow                // the rival can't be thrown
	PassImmune               // the rival is immune to strikes
	PassFar                  // the rival has moved out of reach
)

// Passes says why an attack that is active before the meeting doesn't touch
// this reply, and the frame on which it would touch a rival that does nothing.
func (m *Meetings) Passes(e Exchange) (frame int, why Pass) {
	p, c := m.Plan, m.Cell(e)
	switch c.Outcome {
	case ReplyBlocked, ReplyParried, ReplyHits, ReplyThrows, NoContact:
	default:
		return 0, NoPass
	}
	at := p.firstTouch(&m.track, e.Rise, LineNothing)
	switch {
	case at.frame < 0 || at.frame >= c.Meeting.Or(Width):
		return 0, NoPass
	case p.spotOf(&m.track, e.Rise, e.Line).mine[at.nth].Has(at.frame):
		return at.frame, PassFar
	case p.bodies[e.Rise*len(p.lines)+e.Line].Air.Has(at.frame):
		return at.frame, PassAirborne
	case at.hit.throws():
		return at.frame, PassThrow
	}
	return at.frame, PassImmune
}
