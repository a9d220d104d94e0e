package timeline

// What comes after a meeting, for package value: who touched, and whether one
// side can touch the other before it is free again (value.md, "Routes").

// Touching is the attacker's move that touches first in the exchange, and its
// owner's first free frame after it; nil where none does.
func (m *Meetings) Touching(e Exchange) (move *Move, free int) {
	p := m.Plan
	t := p.firstTouch(&m.track, e.Rise, e.Line)
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
	a := move.FirstActive(x.plan.rules)
	first, end := max(from, 0)+a, min(free, Width)
	if first >= end {
		return 0, false
	}
	b := hit{move: move, class: classes[move.Level]}
	other := x.body
	if !attacker {
		other = x.mine
	}
	open := between(first, end).Minus(b.misses(other))
	if !b.throws() {
		open = open.Minus(other.stops(b.class))
	}
	f := open.First()
	if f >= 0 && x.walk != nil && move.Reach != nil {
		f = x.reaches(attacker, move.Reach, a, &open)
	}
	return f - a, f >= 0
}

// reaches is the first of those frames on which a move reaches the other side
// that has started a frames before, and turned then; -1 without one.
func (x *Aftermath) reaches(attacker bool, reach *Interval, a int, open *Set) int {
	w := x.walk
	for f, last := open.First(), open.Last(); f <= last; {
		own, other := w.attacker(f), w.rival(f)
		end := min(last+1, own.until, other.until)
		if !attacker {
			own, other = other, own
		}
		up, down := w.g.reached(reach, 1, f, end, &own, &other), w.g.reached(reach, -1, f, end, &own, &other)
		for ; f < end; f++ {
			if (up.Has(f) || down.Has(f)) && open.Has(f) {
				if facing := x.facing(attacker, f-a); facing > 0 && up.Has(f) || facing < 0 && down.Has(f) {
					return f
				}
			}
		}
	}
	return -1
}

// facing is where a side turns that starts a move on that frame.
func (x *Aftermath) facing(attacker bool, start int) int {
	w := x.walk
	own, other := w.before(start)
	if attacker && start < w.wake {
		other = standing(w.g.d, 1, never)
	}
	if !attacker {
		own, other = other, own
	}
	if facing := w.g.side(&own, &other, start); facing != 0 {
		return facing
	}
	switch l, _ := w.under(start); {
	case attacker:
		return l.facing
	case x.line >= FirstReply:
		return w.reply.facing
	}
	return -1
}
