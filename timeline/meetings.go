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

// Deciding returns the exchange that decides the verdict at delay d, as
// indexes of rise and line: what an unsafe verdict names; else the met demand
// with the least spare; else the rival that does nothing.
func (p *Plan) Deciding(d int) (rise, line int) {
	m := p.Meetings(d, nil)
	if p.Word(d) == Unsafe {
		if broken := m.Broken(); len(broken) > 0 {
			return broken[0].Rise, broken[0].Line
		}
	}
	if e, ok := m.Closest(); ok {
		return e.Rise, e.Line
	}
	return 0, LineNothing
}

func (p *Plan) isUncovered(line int) bool { return slices.Contains(p.uncovered, line) }
