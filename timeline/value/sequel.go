package value

import "wakeline/timeline"

// Sequel is what follows the meeting of an exchange, with those gauges: the
// route that the attacker plays after a hit or punishes with, or the string
// after a guarded attack, from the advantage of that very touch. It is nil where
// nothing follows, where the setup can't pay its own moves, and after a parry,
// of which it isn't known when the attacker acts. A single move without damage
// is no sequel.
//
// A cancel is drawn from the frame after the touch, after a jump attack from the
// touchdown; games differ in the freeze.
func (b *Book) Sequel(m *timeline.Meetings, gauges Gauges, e timeline.Exchange) *timeline.Sequel {
	p := b.planWith(m, gauges)
	if !p.payable() {
		return nil
	}
	c := m.Cell(e)
	if c.Outcome == timeline.AttackBlocked {
		return p.guarded(e, c)
	}
	var x weighing
	p.weigh(&x, e, false)
	r := x.route
	if r == nil || !r.Named && r.Damage == 0 {
		return nil
	}
	q := p.sequel(timeline.Punish, e, c)
	q.Name, q.Points = r.Name, r.Damage
	if r.Ends().Knockdown.At(p.setup.Position).Given {
		q.Ends = r.Ends().Name
		q.Again = q.Ends == p.setup.Ender
	}
	at := chain{rules: p.rules}
	switch c.Outcome {
	case timeline.AttackHits:
		q.Kind, q.Points = timeline.HitOn, x.afterTouch(r)
		at.begin(p, e, c)
		q.Rival = at.rival
	case timeline.ReplyBlocked, timeline.NoContact:
		after := m.Aftermath(e)
		start, ok := after.Punishes(true, r.steps[0], x.from, x.free)
		if !ok {
			return nil
		}
		at.free, at.cancel = start, start
	default:
		return nil
	}
	for i, move := range r.steps {
		by := timeline.Link
		switch {
		case i > 0:
			by = r.route.Steps[i].By
		case c.Outcome == timeline.AttackHits:
			by = r.first
		}
		q.Steps = append(q.Steps, at.step(move, by, 0, touched(p.rules, move, move.OnHit, move.Hitstun)))
	}
	return q
}

// sequel is one of that exchange, without its steps.
func (p *plan) sequel(kind timeline.SequelKind, e timeline.Exchange, c *timeline.Cell) *timeline.Sequel {
	reply := p.m.Plan.Reply(e.Line)
	return &timeline.Sequel{Kind: kind, Setup: p.setup.Name, Reply: reply.Title(), Outcome: c.Outcome, Meeting: c.Meeting, ToPunish: c.ToPunish}
}

// guarded is the string after the touch of that exchange.
func (p *plan) guarded(e timeline.Exchange, c *timeline.Cell) *timeline.Sequel {
	s := stringAfter(p.m, c.Advantage)
	if s == nil {
		return nil
	}
	at := chain{rules: p.rules}
	at.begin(p, e, c)
	q := p.sequel(timeline.Guarded, e, c)
	q.Rival, q.Advantage, q.PunishedBy = at.rival, s.Advantage, s.PunishedBy
	for i, f := range p.setup.Follow {
		if !s.Steps[i].Before.Given {
			break // the string has stopped
		}
		move := p.attacker.Move(f.Move)
		after := timeline.Maybe{}
		if move.Hits() && move.Kind != timeline.Throw {
			after = touched(p.rules, move, move.OnGuard, move.Guardstun)
		}
		step := at.step(move, f.By, f.Wait, after)
		if f.By == timeline.Link {
			if step.Gap, step.BeatenBy = s.Steps[i].Gap, s.Steps[i].BeatenBy; !s.Steps[i].Touches.Given {
				step.Touch, step.Rival = timeline.Maybe{}, timeline.Maybe{}
			}
		}
		q.Steps = append(q.Steps, step)
	}
	return q
}

// chain lays moves out one after another.
type chain struct {
	rules        timeline.Ruleset
	free, cancel int            // the frames on which the next move begins by link and by cancel
	rival        timeline.Maybe // the rival's first free frame
}

// begin begins after the touch of an exchange.
func (at *chain) begin(p *plan, e timeline.Exchange, c *timeline.Cell) {
	move, free := p.m.Touching(e)
	at.free, at.cancel = free, c.Meeting.N+1
	if move.Air {
		at.cancel = max(at.cancel, p.m.Plan.Times(p.m.Delay).Touchdown)
	}
	if c.Advantage.Given {
		at.rival = timeline.Some(free + c.Advantage.N)
	}
}

// step lays a move out, which leaves that advantage.
func (at *chain) step(move *timeline.Move, by timeline.By, wait int, after timeline.Maybe) timeline.SequelStep {
	start := at.free + wait
	if by == timeline.Cancel {
		start = at.cancel
	}
	s := timeline.StepOf(move, by, start, at.rules)
	at.free = s.Span.To
	at.cancel, at.rival = at.free, timeline.Maybe{}
	if move.Hits() {
		s.Touch = timeline.Some(start + move.FirstActive(at.rules))
		at.cancel = s.Touch.N + 1
	}
	if after.Given {
		at.rival = timeline.Some(at.free + after.N)
	}
	s.Rival = at.rival
	return s
}

// SequelOf is what follows the meeting of an exchange, with full gauges; nil
// where nothing does. See Book.Sequel.
func SequelOf(m *timeline.Meetings, e timeline.Exchange) *timeline.Sequel {
	return bookOf(m.Plan).Sequel(m, Gauges{}, e)
}

// Deciding is SequelOf of the exchange that decides a plan at that delay.
func Deciding(p *timeline.Plan, delay int) *timeline.Sequel {
	m := p.Meetings(delay, nil)
	return SequelOf(&m, m.Deciding())
}
