package words

import (
	"fmt"

	"wakeline/timeline"
)

// ruled names the rules of the game that decide the exchange, beside the
// frames themselves.
func ruled(m *timeline.Meetings, e timeline.Exchange) (say []string) {
	for _, r := range m.Rules(e) {
		say = append(say, ruleWords(m, e, r))
	}
	return say
}

// ruleWords has a sentence for each rule.
func ruleWords(m *timeline.Meetings, e timeline.Exchange, r timeline.Rule) string {
	p, me := m.Plan, attackerName(m.Plan)
	where := ""
	switch r.Kind {
	case timeline.RuleThrowsTrade:
		return "Two throws on one frame trade"
	case timeline.RuleStrikeBeatsThrow:
		return "On one frame a strike beats a throw"
	case timeline.RuleStrikesTrade:
		return "In this ruleset two strikes on one frame both hit"
	case timeline.RuleAttackerFirst:
		return "In this ruleset the attacker's strike wins where two touch on one frame"
	case timeline.RuleWakeGrace:
		return fmt.Sprintf("After the wake-up %s can't be thrown for %s (throw immunity after wake-up)", rivalName(p), Frames(p.Rules().ThrowGraceRise))
	case timeline.RuleLateGuard:
		at := p.Times(m.Delay)
		return fmt.Sprintf("After landing %s can't guard for %s", me, Frames(at.GuardsFrom-at.Touchdown))
	case timeline.RulePrejump:
		where = "in prejump (prejump immune to throws)"
	case timeline.RuleAirborne:
		where = "in the air"
	case timeline.RuleLandingGrace:
		where = fmt.Sprintf("for %s after landing (throw immunity on landing)", Frames(p.Rules().ThrowGraceLanding))
	}
	return fmt.Sprintf("%s is active on frame %d, but %s can't be thrown %s", p.Reply(e.Line).Title(), r.Frame, me, where)
}

// passes says why an attack that is active before the meeting does not touch
// this reply; nothing where it is not active.
func passes(m *timeline.Meetings, e timeline.Exchange) []string {
	why := ""
	frame, pass := m.Passes(e)
	switch pass {
	case timeline.NoPass:
		return nil
	case timeline.PassAirborne:
		why = "is in the air then"
	case timeline.PassThrow:
		why = "can't be thrown then"
	case timeline.PassImmune:
		why = "is immune to strikes then"
	case timeline.PassFar:
		why = "is out of its reach then"
	}
	return []string{fmt.Sprintf("On frame %d the attack is active but touches nothing: %s %s", frame, m.Plan.Reply(e.Line).Title(), why)}
}
