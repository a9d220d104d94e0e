package timeline

import "fmt"

// ruled names the rules of the game that decide the exchange, beside the
// frames themselves: throw immunity, prejump, a late guard, and what wins on
// one frame.
func (p *Plan) ruled(s *Scene, rise, line int) (say []string) {
	a := p.base.later(s.Delay.Len())
	body := &p.bodies[rise*len(p.lines)+line]
	c := &s.Cell
	add := func(format string, args ...any) { say = append(say, fmt.Sprintf(format, args...)) }

	sp := p.spotOf(&a, rise, line)
	mine, theirs := a.first(body, &sp.mine), body.answer(&a, &sp.theirs)
	if mine.frame >= 0 && mine.frame == theirs.frame && c.Meeting == Some(mine.frame) {
		switch {
		case mine.blow.throws() && theirs.blow.throws():
			add("Two throws on one frame trade")
		case mine.blow.throws() != theirs.blow.throws() && (c.Outcome == AttackHits || c.Outcome == ReplyHits || c.Outcome == ReplyBlocked || c.Outcome == ReplyParried):
			add("On one frame a strike beats a throw")
		case c.Outcome == Trade:
			add("In this ruleset two strikes on one frame both hit")
		case c.Outcome == AttackHits:
			add("In this ruleset the attacker's strike wins where two touch on one frame")
		}
	}
	if g := p.rules.ThrowGraceRise; g > 0 && c.Outcome == AttackHits && mine.frame >= 0 && mine.blow.throws() {
		add("After the wake-up %s can't be thrown for %s (throw immunity after wake-up)", p.rivalName(), frames(g))
	}
	if late := p.guardsOn - p.touchdown; late > 0 && c.Outcome == ReplyHits && c.Spare.Given && c.Meeting.N >= s.Touchdown.Or(Width) {
		add("After landing %s can't guard for %s", p.attackerName(), frames(late))
	}
	return append(say, p.unthrown(s, &a, body, line)...)
}

// unthrown says which rule saves the attacker from a throw that is active
// before the meeting; nothing where none does.
func (p *Plan) unthrown(s *Scene, a, body *Track, line int) []string {
	if body.nblows == 0 || body.blows[0].class != classThrow || p.Setup.Jump == "" {
		return nil
	}
	me, who := p.attackerName(), p.lines[line].title
	before := between(0, s.Cell.Meeting.Or(Width))
	active := body.blows[0].Active.And(before)
	jump, land, grace := s.JumpOn.N, s.Touchdown.N, p.rules.ThrowGraceLanding
	air := p.touchdown - p.jumpOn - p.attacker.Jump(p.Setup.Jump).Airborne + jump
	for _, rule := range []struct {
		on   Set
		says string
	}{
		{between(jump, air).And(a.NoThrow), "in prejump (prejump immune to throws)"},
		{between(air, land), "in the air"},
		{between(land, land+grace), fmt.Sprintf("for %s after landing (throw immunity on landing)", frames(grace))},
	} {
		if f := active.And(rule.on).First(); f >= 0 {
			return []string{fmt.Sprintf("%s is active on frame %d, but %s can't be thrown %s", who, f, me, rule.says)}
		}
	}
	return nil
}
