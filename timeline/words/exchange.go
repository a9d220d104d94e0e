package words

import (
	"fmt"

	"wakeline/timeline"
)

// ExchangeAt says in one sentence what one exchange does at delay d: which
// frame, which side, by how many.
func ExchangeAt(p *timeline.Plan, d, rise, line int) string {
	m := p.Meetings(d, nil)
	return clause(&m, timeline.Exchange{Rise: rise, Line: line}) + "."
}

// exchange is one exchange, with what its sentence needs.
type exchange struct {
	*timeline.Cell
	timeline.Exchange
	m   *timeline.Meetings
	who string // the reply, and the rise where there are several
	on  int    // the frame of the meeting
}

// clauses has a sentence for each way an exchange ends.
var clauses = [timeline.Outcomes]func(x *exchange) string{
	timeline.AttackHits: func(x *exchange) string {
		return fmt.Sprintf("%s is hit%s on %d%s%s%s", x.who, x.fromBehind(), x.on, x.afterWake(), x.spare(), x.advantage())
	},
	timeline.AttackBlocked: func(x *exchange) string {
		return fmt.Sprintf("%s blocks the attack%s on %d%s%s", x.who, x.fromBehind(), x.on, x.afterWake(), x.advantage())
	},
	timeline.ReplyParried: func(x *exchange) string {
		return fmt.Sprintf("%s touches on %d and is parried%s", x.who, x.on, x.spare())
	},
	timeline.ReplyBlocked: func(x *exchange) string {
		return fmt.Sprintf("%s touches on %d and is blocked%s%s", x.who, x.on, x.spare(), x.punish())
	},
	timeline.Trade: func(x *exchange) string {
		return fmt.Sprintf("%s trades on %d: both sides touch on the same frame", x.who, x.on)
	},
	timeline.ReplyHits: func(x *exchange) string {
		if !x.Spare.Given {
			return fmt.Sprintf("%s hits on %d, while the attacker can't guard", x.who, x.on)
		}
		from := x.m.Plan.Times(x.m.Delay).GuardsFrom
		return fmt.Sprintf("%s hits on %d; the attacker %s only from %d: %s too late", x.who, x.on, waits(x.m.Plan), from, Frames(-x.Spare.N))
	},
	timeline.AttackParried: func(x *exchange) string {
		return fmt.Sprintf("%s parries the attack on %d", x.who, x.on)
	},
	timeline.AttackAbsorbed: func(x *exchange) string {
		return fmt.Sprintf("%s absorbs the attack on %d with its armour", x.who, x.on)
	},
	timeline.ReplyThrows: func(x *exchange) string {
		return fmt.Sprintf("%s throws on %d: no guard stops a throw", x.who, x.on)
	},
	timeline.AttackWhiffs: func(x *exchange) string {
		if x.m.Plan.Bait() {
			return x.who + " is not touched: the setup is a bait"
		}
		return x.who + " is not touched: " + missed(x.m, x.Rise)
	},
	timeline.NoContact: func(x *exchange) string {
		out := x.who + " makes no contact"
		if gap, ok := x.m.ReplyGap(x.Exchange); ok {
			out += ": " + outOfRange(gap)
		} else if gap, ok := x.m.AttackGap(x.Exchange); ok {
			out += ": " + outOfReach(gap)
		}
		switch n := x.ToPunish.N; {
		case n > 0:
			return out + fmt.Sprintf("; the attacker is free %s before it", Frames(n))
		case n < 0:
			return out + fmt.Sprintf("; it is free %s before the attacker", Frames(-n))
		}
		return out + "; both are free on the same frame"
	},
}

// clause says what happens in one exchange, without a full stop.
func clause(m *timeline.Meetings, e timeline.Exchange) string {
	c := m.Cell(e)
	return clauses[c.Outcome](&exchange{c, e, m, subject(m.Plan, e), c.Meeting.N}) + keptByReach(m, e)
}

// subject names the reply, and the rise where there are several.
func subject(p *timeline.Plan, e timeline.Exchange) string {
	who := ""
	switch e.Line {
	case timeline.LineGuardHigh:
		who = "A high guard"
	case timeline.LineGuardLow:
		who = "A low guard"
	case timeline.LineNothing:
		who = "A rival that does nothing"
	default:
		who = p.Reply(e.Line).Title()
	}
	if p.Rises() > 1 {
		who += " (" + p.Rise(e.Rise).Name + " rise)"
	}
	return who
}

// waits is the verb of a landing action that waits for the reply.
func waits(p *timeline.Plan) string {
	if p.Setup.Landing == timeline.DoParry {
		return "parries"
	}
	return "guards"
}

// spare says how many frames were to spare, where that has a meaning.
func (x *exchange) spare() string {
	switch {
	case !x.Spare.Given:
		return ""
	case x.Spare.N == 0:
		return ", with no frame to spare"
	}
	return fmt.Sprintf(", with %s to spare", Frames(x.Spare.N))
}

// punish says how many frames there are to punish a blocked reply; where there
// are none, that only of a reply that must be beaten.
func (x *exchange) punish() string {
	switch n := x.ToPunish.N; {
	case !x.ToPunish.Given:
		return ""
	case n > 0:
		return fmt.Sprintf(", %s to punish it", Frames(n))
	case x.m.Plan.Reply(x.Line).Demand != timeline.Beat:
		return ""
	case n == 0:
		return ", but both are free on the same frame: it can't be punished"
	default:
		return fmt.Sprintf(", but it is free %s before the attacker: it can't be punished", Frames(-n))
	}
}

// afterWake says how the meeting stands to the rival's first free frame.
func (x *exchange) afterWake() string {
	if x.AfterWake.N == 0 {
		return ", on its first free frame"
	}
	return fmt.Sprintf(", %s after its first free frame", Frames(x.AfterWake.N))
}

func (x *exchange) advantage() string {
	if !x.Advantage.Given {
		return ""
	}
	return fmt.Sprintf(", advantage %+d", x.Advantage.N)
}

// fromBehind says that the attack touches the rival from behind.
func (x *exchange) fromBehind() string {
	if x.Side == timeline.Behind {
		return " from behind"
	}
	return ""
}
