package timeline

// A second reading of value.md, to hold timeline/value against: routes and
// what they punish, frame by frame, on top of the slow reading of frames.md.
// Nothing is asked of the core but the data of a project.

// slowRoute is a route of a fighter, or a move by itself.
type slowRoute struct {
	name    string
	named   bool
	steps   []slowStep
	as      *Route // nil for a move by itself
	margins []Maybe
	counts  bool
}

type slowStep struct {
	m  *Move
	by By
}

// routes are the routes of a fighter, the named ones first.
func (x *slowPlan) routes(f *Fighter) (out []slowRoute) {
	for i := range f.Routes {
		r := slowRoute{name: f.Routes[i].Name, named: true, as: &f.Routes[i]}
		for _, s := range f.Routes[i].Steps {
			r.steps = append(r.steps, slowStep{slowMove(f, s.Move), s.By})
		}
		out = append(out, r)
	}
	for i := range f.Moves {
		if m := &f.Moves[i]; !m.Air && (m.Kind == Strike || m.Kind == Throw) {
			out = append(out, slowRoute{name: m.Name, steps: []slowStep{{m, Link}}})
		}
	}
	for i := range out {
		x.link(&out[i])
	}
	return out
}

// link works out by how much each step links, and whether the route counts.
func (x *slowPlan) link(r *slowRoute) {
	fine := true
	for k := 1; k < len(r.steps); k++ {
		margin := Maybe{}
		if r.steps[k].by == Link {
			last, next := r.steps[k-1].m, r.steps[k].m
			a := x.first(last, last.OnHit, last.Hitstun)
			if a.Given && slowHits(next) {
				margin = Some(a.N - (x.firstActive(next) + 1))
			}
			fine = fine && margin.Given && margin.N >= 0
		}
		fine = fine && r.steps[k].m.Kind != Throw
		r.margins = append(r.margins, margin)
	}
	r.counts = fine || r.as != nil && r.as.Confirmed
	if !fine && r.counts {
		x.note("a route counts since it is confirmed")
	}
}

func slowHits(m *Move) bool { return m.Kind == Strike || m.Kind == Throw }

// first is the advantage of a move that touches with its first active frame:
// the listed one, or that of the stun after the first frame of its last span.
func (x *slowPlan) first(m *Move, listed, stun Maybe) Maybe {
	switch {
	case !slowHits(m):
		return Maybe{}
	case listed.Given:
		return listed
	case !stun.Given:
		return Maybe{}
	}
	c := 0
	for n := 1; n < x.total(m); n++ {
		if x.activeAt(m, n) != 0 && x.activeAt(m, n) != x.activeAt(m, n-1) {
			c = n
		}
	}
	return Some(c + 1 + stun.N - x.total(m))
}

// percent is the scaling of the k-th damaging move, from 1.
func (x *slowPlan) percent(k int) int {
	list := x.p.Ruleset.Scaling
	if k > len(list) {
		k = len(list)
	}
	return list[k-1]
}

// damage is what a route does after so many damaging moves.
func (x *slowPlan) damage(r *slowRoute, before int) int {
	if r.as != nil && r.as.Damage.Given {
		return r.as.Damage.N
	}
	sum, k := 0, before
	for _, s := range r.steps {
		if s.m.Damage > 0 {
			k++
			sum += s.m.Damage * x.percent(k) / 100
		}
	}
	return sum
}

// gauge is what a route costs and gains.
func (r *slowRoute) gauge() (cost, gain int) {
	for _, s := range r.steps {
		cost += s.m.GaugeCost
		gain += s.m.GaugeGain
	}
	if r.as != nil && r.as.GaugeCost.Given {
		cost = r.as.GaugeCost.N
	}
	if r.as != nil && r.as.GaugeGain.Given {
		gain = r.as.GaugeGain.N
	}
	return cost, gain
}

// paid reports whether a route can be paid from a gauge. Where only what it
// gains was measured, nobody knows when that comes: not before its end.
func (x *slowPlan) paid(r *slowRoute, gauge int) bool {
	if r.as != nil && r.as.GaugeCost.Given {
		return gauge >= r.as.GaugeCost.N
	}
	for _, s := range r.steps {
		if gauge < s.m.GaugeCost {
			return false
		}
		gauge -= s.m.GaugeCost
		if r.as == nil || !r.as.GaugeGain.Given {
			gauge = min(gauge+s.m.GaugeGain, x.p.Ruleset.Gauge)
		}
	}
	return true
}

// needs is the least gauge from which it can be paid.
func (x *slowPlan) needs(r *slowRoute) Maybe {
	if r.as != nil && r.as.GaugeCost.Given {
		return r.as.GaugeCost
	}
	for g := 0; g <= x.p.Ruleset.Gauge; g++ {
		if x.paid(r, g) {
			return Some(g)
		}
	}
	return Maybe{}
}

// punishes reports whether some start from frame from on lets the first active
// frame of m touch the other side before it is free again.
func (g *slowGo) punishes(m *Move, theirs bool, from, free int, on *slowSide, firstActive int) bool {
	if !slowHits(m) {
		return false
	}
	sw := &slowSwing{m: m, theirs: theirs, throw: m.Kind == Throw}
	for start := max(0, from); start+firstActive < free; start++ {
		f := start + firstActive
		b := &on.body[f]
		why := slowOpen(sw, b)
		if why == "" {
			if finds, _ := slowFinds(sw, b, on.armour, make([]int, len(on.armour))); finds != "nothing" {
				why = finds
			}
		}
		if why == "" && !g.axis.reachesFrom(m, theirs, start, f) {
			why = "out of reach"
		}
		if why == "" {
			if start > from {
				g.note("a punish from a later start")
			}
			return true
		}
		g.note("no punish: " + why)
	}
	return false
}

// reachesFrom is reaches for a move that is no part of the plans: its owner
// turns on its start, and goes nowhere by it.
func (a *slowAxis) reachesFrom(m *Move, theirs bool, start, f int) bool {
	if a == nil || m.Reach == nil {
		return true
	}
	a.walkTo(f)
	own, other, facing := a.attWas[start], a.rivWas[start], 1
	if start < a.wake {
		other = slowPlace{a.d, 1}
	}
	if start > 0 {
		facing = a.attFace[start-1]
	}
	if theirs {
		own, other, facing = a.rivWas[start], a.attWas[start], -1
		if start > 0 {
			facing = a.rFace[start-1]
		}
	}
	switch {
	case own.less(other):
		facing = 1
	case other.less(own):
		facing = -1
	}
	gap := a.rivs[f].plus(a.atts[f].times(-1)).times(facing)
	if theirs {
		gap = a.atts[f].plus(a.rivs[f].times(-1)).times(facing)
	}
	return a.within(m, gap)
}

// SlowRoute is a route by the slow reading.
type SlowRoute struct {
	Name               string
	Named              bool
	Damage, Cost, Gain int
	Needs              Maybe
	Margins            []Maybe
	Counts             bool
	Ends               string
}

// SlowRoutes are the routes of a fighter.
func SlowRoutes(p *Project, f *Fighter) (out []SlowRoute) {
	x := &slowPlan{p: p}
	for _, r := range x.routes(f) {
		w := SlowRoute{Name: r.name, Named: r.named, Damage: x.damage(&r, 0), Needs: x.needs(&r), Margins: r.margins, Counts: r.counts, Ends: r.steps[len(r.steps)-1].m.Name}
		w.Cost, w.Gain = r.gauge()
		out = append(out, w)
	}
	return out
}
