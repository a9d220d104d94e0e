package timeline

import "slices"

// Exchange names one exchange of a plan, by its indexes in a verdict.
type Exchange struct{ Rise, Line int }

// Meetings are all exchanges of a plan at one delay.
type Meetings struct {
	Plan  *Plan
	Delay int

	track Track  // the attacker's, at that delay
	cells []Cell // rise by rise, line by line
}

// Meetings meets every reply on every rise at delay d, 0 to Fits(). The cells
// are written over those of into, which may be nil.
func (p *Plan) Meetings(d int, into []Cell) Meetings {
	into = slices.Grow(into[:0], len(p.bodies))[:len(p.bodies)]
	p.Fill(d, into)
	return Meetings{p, d, p.base.later(d), into}
}

// To meets them at delay d instead.
func (m *Meetings) To(d int) {
	if m.cells == nil {
		m.cells = make([]Cell, len(m.Plan.bodies))
	}
	m.Plan.Fill(d, m.cells)
	m.Delay, m.track = d, m.Plan.base.later(d)
}

// Cell is what becomes of that exchange.
func (m *Meetings) Cell(e Exchange) *Cell { return &m.cells[e.Rise*len(m.Plan.lines)+e.Line] }

// breaks reports whether the cell of that line breaks the setup: a meeting off
// the wake-up's first frame, or a demand not met.
func (p *Plan) breaks(line int, c *Cell) bool {
	if line == LineNothing {
		return !p.bait && !(c.Outcome == AttackHits && c.AfterWake.N == 0)
	}
	return !c.meets(p.lines[line].demand)
}

// firstBroken returns the first exchange that breaks the setup, by frame of
// meeting (none last), then the replies' order, then the rises'. Only the
// lines that keep lets pass are looked at.
func (m *Meetings) firstBroken(keep func(line int) bool) (first Exchange, ok bool) {
	best := 0
	for i := range m.Plan.lines {
		for r := range m.Plan.rises {
			e := Exchange{r, i}
			c := m.Cell(e)
			at := c.Meeting.Or(Width)
			if keep(i) && m.Plan.breaks(i, c) && (!ok || at < best) {
				first, best, ok = e, at, true
			}
		}
	}
	return first, ok
}

// Broken are the exchanges that an unsafe verdict names, by frames.md,
// "Verdict": a missed wake-up before all, and with it the first demanded reply
// that breaks and that some timing covers; else that reply alone; else the
// first that breaks. It is empty where none breaks.
func (m *Meetings) Broken() (out []Exchange) {
	if e, ok := m.firstBroken(func(i int) bool { return i == LineNothing }); ok {
		out = append(out, e)
	}
	if e, ok := m.firstBroken(func(i int) bool { return i != LineNothing && !m.Plan.isUncovered(i) }); ok {
		return append(out, e)
	}
	if e, ok := m.firstBroken(func(int) bool { return true }); ok && len(out) == 0 {
		out = append(out, e)
	}
	return out
}

// Closest is the met demand with the least spare; ok is false where no met
// demand has one.
func (m *Meetings) Closest() (e Exchange, ok bool) {
	least := 0
	for i := FirstReply; i < len(m.Plan.lines); i++ {
		demand := m.Plan.lines[i].demand
		for r := range m.Plan.rises {
			c := m.Cell(Exchange{r, i})
			if demand == DemandNone || !c.meets(demand) || !c.Spare.Given {
				continue
			}
			if !ok || c.Spare.N < least {
				e, least, ok = Exchange{r, i}, c.Spare.N, true
			}
		}
	}
	return e, ok
}

// Deciding is the exchange that decides the verdict: what an unsafe verdict
// names; else the met demand with the least spare; else the rival that does
// nothing, on the first rise.
func (m *Meetings) Deciding() Exchange {
	if m.Plan.Word(m.Delay) == Unsafe {
		if broken := m.Broken(); len(broken) > 0 {
			return broken[0]
		}
	}
	if e, ok := m.Closest(); ok {
		return e
	}
	return Exchange{0, LineNothing}
}

// Deciding is the exchange that decides the verdict at delay d, as indexes of
// rise and line.
func (p *Plan) Deciding(d int) (rise, line int) {
	m := p.Meetings(d, nil)
	e := m.Deciding()
	return e.Rise, e.Line
}

func (p *Plan) isUncovered(line int) bool { return slices.Contains(p.uncovered, line) }

// Miss is how far an attack misses the wake-up of a rise.
type Miss struct {
	By    int // frames; 0 where it meets it, Width where it never touches a rival that does nothing
	Frame int // where it first touches that rival, or, where it is too early, is active last
	Due   int // where it should touch
}

// Miss returns by how many frames the attack misses the wake-up of that rise.
func (m *Meetings) Miss(rise int) Miss { return m.Plan.miss(&m.track, rise) }

func (p *meeter) miss(a *Track, r int) Miss {
	if t := p.firstTouch(a, r, LineNothing); t.frame >= 0 {
		due := p.due(r, t.hit)
		return Miss{t.frame - due, t.frame, due}
	}
	last, due := a.lastActive(), p.wakes[r]
	if a.nhits > 0 {
		due = p.due(r, &a.hits[a.nhits-1])
	}
	if last < 0 || last >= due {
		return Miss{Width, last, due}
	}
	return Miss{due - last, last, due}
}

// NearestMiss is the delay that comes nearest to meeting every wake-up, by how
// many frames it misses, and the rise that it misses by most. By is Width where
// none comes near.
func (p *meeter) NearestMiss() (d, rise, by int) {
	by = Width
	for at := 0; at <= p.last && by > 1; at++ {
		a := p.base.later(at)
		most, worst := 0, 0
		for r := range p.rises {
			if n := p.miss(&a, r).By; n > most {
				most, worst = n, r
			}
		}
		if most < by {
			by, d, rise = most, at, worst
		}
	}
	return d, rise, by
}

// AirThrowsOnly reports whether the plan has no strike or throw but air throws.
func (p *Layout) AirThrowsOnly() bool {
	for i := range p.base.hits[:p.base.nhits] {
		if p.base.hits[i].class != classAirThrow {
			return false
		}
	}
	return p.base.nhits > 0
}

// lastActive is the last active frame in reach of a body on the ground, -1
// without one.
func (t *Track) lastActive() int {
	last := -1
	for i := range t.hits[:t.nhits] {
		if b := &t.hits[i]; b.class != classAirThrow {
			last = max(last, b.Active.Last())
		}
	}
	return last
}
