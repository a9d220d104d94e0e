package timeline

// What comes after a meeting, for package value: who touched, and whether one
// side can touch the other before it is free again (value.md, "Routes").

// Touching is the attacker's move that touches first in the exchange, and its
// owner's first free frame after it; nil where none does.
func (m *Meetings) Touching(e Exchange) (move *Move, free int) {
	p := m.Plan
	sp := p.spotOf(&m.track, e.Rise, e.Line)
	t := m.track.first(&p.bodies[e.Rise*len(p.lines)+e.Line], &sp.mine)
	if t.frame < 0 {
		return nil, 0
	}
	return t.hit.move, t.hit.free
}

// Free is the attacker's first free frame where nothing touches.
func (m *Meetings) Free() int { return m.track.free }

// Ends is the frame on which the reply of the exchange is over; absent for the
// replies that are always judged.
func (m *Meetings) Ends(e Exchange) Maybe {
	if m.Plan.lines[e.Line].shown {
		return Maybe{}
	}
	return Some(m.Plan.bodies[e.Rise*len(m.Plan.lines)+e.Line].free)
}

// Begins is the first frame of the reply of the exchange.
func (m *Meetings) Begins(e Exchange) int { return m.Plan.wakes[e.Rise] + m.Plan.lines[e.Line].late }

// LastActive is the last frame on which the plan's strikes and throws are
// active, in reach or not; absent without one.
func (m *Meetings) LastActive() Maybe {
	last := -1
	for i := range m.track.hits[:m.track.nhits] {
		b := &m.track.hits[i]
		for k := range b.spans {
			last = max(last, b.start+b.spans[k].To-1)
		}
	}
	return Maybe{max(last, 0), last >= 0}
}

// Aftermath is one exchange, of which is asked who can punish whom.
type Aftermath struct {
	plan *Plan
	line int
	mine *Track // the attacker's
	body *Track // the rival's
	walk *walk  // nil where the distance isn't known
}

// Aftermath is what that exchange leaves.
func (m *Meetings) Aftermath(e Exchange) Aftermath {
	p := m.Plan
	out := Aftermath{p, e.Line, &m.track, &p.bodies[e.Rise*len(p.lines)+e.Line], nil}
	if !p.ground.known {
		return out
	}
	w := walk{wake: p.wakes[e.Rise]}
	p.lay(&w, &p.ground, &m.track, e.Rise, e.Line)
	if e.Line >= FirstReply && !w.goes { // its facing, at least
		w.answer()
	}
	out.walk = &w
	return out
}

// Punishes returns the first start from frame from on of a move, the
// attacker's or the rival's, whose first active frame touches the other side
// before it is free again, on frame free.
func (x *Aftermath) Punishes(attacker bool, move *Move, from, free int) (start int, ok bool) {
	if !move.Hits() || move.Air {
		return 0, false
	}
	rules := x.plan.rules
	a := move.FirstActive(rules)
	b := hit{move: move, class: classes[move.Level]}
	other := x.body
	if !attacker {
		other = x.mine
	}
	misses := b.misses(other)
	for start = max(from, 0); start+a < min(free, Width); start++ {
		f := start + a
		switch {
		case misses.Has(f), !b.throws() && (other.guards(b.class, f) || other.Parry.Has(f) || other.Armour.Has(f)):
		case x.reaches(attacker, move, start, f):
			return start, true
		}
	}
	return 0, false
}

// reaches reports whether a move that starts on that frame, and turns then,
// reaches the other side on frame f.
func (x *Aftermath) reaches(attacker bool, move *Move, start, f int) bool {
	w := x.walk
	if w == nil || move.Reach == nil {
		return true
	}
	here, there := w.before(start)
	if attacker && start < w.wake {
		there = standing(w.g.d, 1, never)
	}
	own, other := w.attacker, w.rival
	if !attacker {
		own, other, here, there = other, own, there, here
	}
	facing := w.g.side(&here, &there, start)
	if facing == 0 {
		facing = -1
		if l, _ := w.under(start); attacker {
			facing = l.facing
		} else if x.line >= FirstReply {
			facing = w.reply.facing
		}
	}
	here, there = own(f), other(f)
	return w.g.reached(move.Reach, facing, f, f+1, &here, &there).Len() > 0
}
