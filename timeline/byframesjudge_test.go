package timeline

// slowVerdict is what the slow reading says of a setup at every delay.
type slowVerdict struct {
	fits      int // the last delay that fits the width, -1 where none does
	last      int // the last delay of the range
	meaty     [Width + 1]bool
	good      [Width + 1]bool
	uncovered []int // indices of the setup's replies
	asked     int   // how many replies are demanded
}

// fits is the last delay whose plan fits the width, -1 where none does.
func (x *slowPlan) fits() int {
	for _, r := range x.rises {
		if x.k+r.Extra >= Width {
			return -1
		}
		for i := range x.s.Replies {
			if _, end := x.span(r, i); end > Width {
				return -1
			}
		}
	}
	fits := -1
	for d := range Width {
		if _, _, _, ends := x.clock(d); ends <= Width {
			fits = d
		}
	}
	return fits
}

// span is a reply's first frame and its end.
func (x *slowPlan) span(r Rise, i int) (start, end int) {
	start = x.k + r.Extra + x.s.Replies[i].Late
	if j := slowJump(x.riv, x.s.Replies[i].Move); j != nil {
		return start, start + j.Prejump + j.Airborne + j.Landing
	}
	return start, start + x.total(slowMove(x.riv, x.s.Replies[i].Move))
}

// look makes the reading look at all frames up to the end of both plans at
// delay d: after it nothing can touch.
func (x *slowPlan) look(d int) {
	_, _, _, x.frames = x.clock(d)
	for _, r := range x.rises {
		x.frames = max(x.frames, x.k+r.Extra+1)
		for i := range x.s.Replies {
			_, end := x.span(r, i)
			x.frames = max(x.frames, end)
		}
	}
}

func (x *slowPlan) play(att, def *slowSide, end Maybe, d int, r Rise, i int) Cell {
	g := x.exchange(att, def, end, d, r, i)
	c := g.play()
	g.note(c.Outcome.String())
	return c
}

// exchange sets an exchange up at delay d.
func (x *slowPlan) exchange(att, def *slowSide, end Maybe, d int, r Rise, i int) *slowGo {
	_, guards, _, ends := x.clock(d)
	return &slowGo{
		att: att, def: def, trades: x.p.Ruleset.Trades, wake: x.k + r.Extra, grace: x.p.Ruleset.ThrowGraceRise,
		guardsFrom: guards, acts: ends, replyEnds: end, waits: x.landing == nil, seen: x.seen,
		axis: x.axis(r, i, d),
	}
}

// table is every cell at delay d, rise by rise: guard high, guard low,
// nothing, then the setup's replies.
func (x *slowPlan) table(d int) []Cell {
	var out []Cell
	x.look(d)
	att := x.attacker(d)
	for _, r := range x.rises {
		for i := -3; i < len(x.s.Replies); i++ {
			def, end := x.defender(r, i)
			out = append(out, x.play(att, def, end, d, r, i))
		}
	}
	return out
}

// isBait reports whether nothing in the plan strikes or throws.
func (x *slowPlan) isBait() bool {
	hits := func(m *Move) bool { return m != nil && (m.Kind == Strike || m.Kind == Throw) }
	return !hits(x.attack) && !hits(x.landing)
}

func slowMeets(c *Cell, demand Demand) bool {
	if demand == Beat {
		switch c.Outcome {
		case AttackHits, AttackBlocked, ReplyParried:
			return true
		case ReplyBlocked:
			return c.ToPunish.Given && c.ToPunish.N > 0
		}
		return false
	}
	switch c.Outcome {
	case AttackHits, AttackBlocked, ReplyBlocked, ReplyParried, NoContact, AttackWhiffs:
		return true
	}
	return false
}

// judge finds the range, the meaty delays, the uncovered replies and the window.
func (x *slowPlan) judge() *slowVerdict {
	v := &slowVerdict{fits: x.fits()}
	if v.fits < 0 {
		return v
	}
	for _, r := range x.rises {
		v.last = max(v.last, x.k+r.Extra+64)
	}
	v.last = min(v.last, v.fits)
	x.look(v.last)
	type body struct {
		side *slowSide
		end  Maybe
	}
	bodies := map[[2]int]body{}
	for n, r := range x.rises {
		for i := -1; i < len(x.s.Replies); i++ {
			side, end := x.defender(r, i)
			bodies[[2]int{n, i}] = body{side, end}
		}
	}
	met := make([][Width + 1]bool, len(x.s.Replies))
	ever := make([]bool, len(x.s.Replies))
	anyMeaty := false
	for d := 0; d <= v.last; d++ {
		v.meaty[d] = true
		att := x.attacker(d)
		for n, r := range x.rises {
			if x.isBait() || !v.meaty[d] {
				continue
			}
			b := bodies[[2]int{n, -1}]
			c := x.play(att, b.side, b.end, d, r, -1)
			v.meaty[d] = c.AfterWake == Some(0)
		}
		if !v.meaty[d] {
			continue
		}
		anyMeaty = true
		for i, reply := range x.s.Replies {
			if reply.Demand == DemandNone {
				continue
			}
			met[i][d] = true
			for n, r := range x.rises {
				b := bodies[[2]int{n, i}]
				c := x.play(att, b.side, b.end, d, r, i)
				met[i][d] = met[i][d] && slowMeets(&c, reply.Demand)
			}
			ever[i] = ever[i] || met[i][d]
		}
	}
	v.good = v.meaty
	for i, reply := range x.s.Replies {
		if reply.Demand == DemandNone {
			continue
		}
		v.asked++
		if !ever[i] {
			if anyMeaty {
				v.uncovered = append(v.uncovered, i)
			}
			continue
		}
		for d := range v.good {
			v.good[d] = v.good[d] && met[i][d]
		}
	}
	return v
}

// word is the verdict at delay d.
func (v *slowVerdict) word(d int) Word {
	switch {
	case d > v.last || !v.good[d], v.asked > 0 && len(v.uncovered) == v.asked:
		return "unsafe"
	case len(v.uncovered) > 0:
		return "limited"
	}
	return "safe"
}
