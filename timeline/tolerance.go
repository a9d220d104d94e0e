package timeline

// Holds is for what else a plan is good, as it is set but for one number: by
// this a person checks it in the game (space.md, "What is told"). Both ends of
// a run belong to it.
type Holds struct {
	HoldsAdvantage []Bounds `json:"holds_advantage"` // by advantage, within AdvantageTried of the set one
	HoldsDistance  []Bounds `json:"holds_distance"`  // by distance, up to DistanceTried past the set one; nil where that isn't known
	HoldsStartup   Maybe    `json:"holds_startup"`   // the quickest reversal that it meets safely

	MostAdvantage int `json:"-"` // the highest advantage that was tried: past it a rival's plan may not fit the width
}

// How far from the set numbers Holds looks.
const (
	AdvantageTried = 16
	DistanceTried  = 200
)

// Holds returns for what else the plan is good at delay d, 0 to Fits().
func (p *Plan) Holds(d int) Holds {
	h, _ := HoldsUntil(p, d, func() bool { return false })
	return h
}

// HoldsUntil is Plan.Holds that ends as soon as stop returns true, which it must
// do from then on: ok is false, and what it returns means nothing.
func HoldsUntil(p *Plan, d int, stop func() bool) (h Holds, ok bool) {
	t := tolerance{p, d, stop}
	h = Holds{t.advantage(), t.distance(), t.startup(), t.mostAdvantage()}
	return h, !stop()
}

// tolerance tries a plan at one delay with other numbers than it has. stop is
// asked at each number.
type tolerance struct {
	*Plan
	delay int
	stop  func() bool
}

// run adds n to the runs, whose numbers come ascending.
func run(runs []Bounds, from, to int) []Bounds {
	if last := len(runs) - 1; last >= 0 && runs[last].To == from-1 {
		runs[last].To = to
		return runs
	}
	return append(runs, Bounds{from, to})
}

// advantage tries each advantage. An advantage n frames higher is the
// attacker's whole plan n frames sooner.
func (p tolerance) advantage() []Bounds {
	d := p.delay
	out := []Bounds{}
	stages := make([]stage, len(p.rises))
	// What the fillers do from the wake-up on may hang on the advantage.
	alike := !p.ground.known || p.jumpOn+AdvantageTried <= p.K
	for k := max(0, p.K-AdvantageTried); k <= p.K+AdvantageTried && !p.stop(); k++ {
		sooner := k - p.K
		good := false
		switch {
		case !p.fitsAdvantage(k):
			continue
		case p.base.free+d-sooner > Width:
			good = p.goodWithAdvantage(k)
		case alike && d-sooner >= 0 && d-sooner <= p.last:
			good = p.window.Has(d - sooner)
		case p.nearlyMeaty(d - sooner):
			a := p.base.later(d).moved(-sooner)
			good = p.goodOn(&a, &p.ground, stages)
		}
		if good {
			out = run(out, k, k)
		}
	}
	return out
}

// mostAdvantage is the highest advantage that is tried.
func (p tolerance) mostAdvantage() int {
	k := p.K
	for k < p.K+AdvantageTried && p.fitsAdvantage(k+1) {
		k++
	}
	return k
}

// fitsAdvantage reports whether the rival's plans fit the width from that
// advantage on.
func (p tolerance) fitsAdvantage(k int) bool {
	for _, w := range p.wakes {
		w += k - p.K
		if w >= Width {
			return false
		}
		for i := range p.lines {
			if w+p.lines[i].late+p.lines[i].end > Width {
				return false
			}
		}
	}
	return true
}

// goodWithAdvantage compiles the plan anew for that advantage.
func (p tolerance) goodWithAdvantage(k int) bool {
	d := p.delay
	s := p.Setup
	s.Advantage, s.Delay = Some(k), d
	find := func(name string) *roster {
		if name == p.attacker.Name {
			return p.attacker
		}
		return p.rival
	}
	other, err := compile(p.rules, find, s, &scratch{})
	if err != nil {
		return false
	}
	other.uncovered = p.uncovered
	a := other.base.later(d)
	return tolerance{other, d, p.stop}.goodOn(&a, &other.ground, make([]stage, len(other.rises)))
}

// goodOn reports whether attacker track a is meaty on that ground and meets
// every demand but those of the uncovered replies.
func (p tolerance) goodOn(a *Track, g *ground, stages []stage) bool {
	if !p.meatyOn(a, g, stages) {
		return false
	}
	var sp spot
	for i := FirstReply; i < len(p.lines); i++ {
		if p.asked(i) && !p.metOnAll(a, &sp, stages, i) {
			return false
		}
	}
	return true
}

// asked reports whether line i carries a demand that some delay meets.
func (p tolerance) asked(i int) bool { return p.lines[i].demand != DemandNone && !p.isUncovered(i) }

// distance goes through the distances in steps over which nothing
// changes: first for the wake-up, then for each reply where all before hold.
func (p tolerance) distance() []Bounds {
	d := p.delay
	if !p.ground.known {
		return nil
	}
	out := []Bounds{}
	if !p.nearlyMeaty(d) {
		return out
	}
	if most := p.ground.d + DistanceTried; most >= 0 {
		out = append(out, Bounds{0, most})
	}
	a := p.base.later(d)
	for r := range p.rises {
		var st stage
		var sp spot
		if !p.bait {
			body := &p.bodies[r*len(p.lines)+LineNothing]
			out = p.whereGood(out, &st, &a, r, func() bool {
				t := a.first(body, &st.far)
				return t.frame >= 0 && t.frame == p.due(r, t.hit)
			})
		}
		for i := FirstReply; i < len(p.lines) && len(out) > 0; i++ {
			if p.asked(i) {
				out = p.whereGood(out, &st, &a, r, func() bool {
					c := p.meetOn(&sp, &st, &a, r, i)
					return c.meets(p.lines[i].demand)
				})
			}
		}
	}
	return out
}

// whereGood keeps of runs of distances what is good, where the stage of rise r
// is laid.
func (p tolerance) whereGood(runs []Bounds, st *stage, a *Track, r int, good func() bool) []Bounds {
	out := []Bounds{}
	var g ground
	var free int
	for _, b := range runs {
		for at := b.From; at <= b.To && !p.stop(); {
			free = b.To - at
			g = groundAt(at, p.room)
			g.free = &free
			p.stage(st, &g, a, r)
			if good() {
				out = run(out, at, at+free)
			}
			at += free + 1
		}
	}
	return out
}

// HoldsStartup is the startup of the quickest reversal that the plan meets
// safely at delay d, 0 to Fits(); absent where that has no meaning.
func (p *Plan) HoldsStartup(d int) Maybe { return tolerance{Plan: p, delay: d}.startup() }

// startup counts from the earliest wake-up to the guard.
func (p tolerance) startup() Maybe {
	d := p.delay
	if p.Setup.Landing != DoGuard && p.Setup.Landing != DoParry || !p.Meaty(d) {
		return Maybe{}
	}
	first := p.wakes[0]
	for _, w := range p.wakes {
		first = min(first, w)
	}
	s := p.guardsOn + d - first
	if p.rules.StartupCountsFirstActive {
		s++
	}
	return Some(max(1, s))
}

// Elsewhere returns the plan where the rival lies at another distance, with as
// much room behind it, and how far the distance may grow from there with
// nothing changed. For plans whose distance is known.
func (p *Plan) Elsewhere(distance int) (out *Plan, same int) {
	other := *p
	same = never
	other.ground = groundAt(distance, p.room)
	other.ground.free = &same
	other.leads, other.meaty, other.uncovered = nil, Set{}, nil
	other.layLeads()
	other.weigh(&scratch{})
	other.ground.free = nil
	return &other, same
}

// MayMeet returns the delays at which the attack is active on the first frame
// on which it could touch a rival that does nothing, wherever both stand.
func (p *Plan) MayMeet() (out Set) {
	for d := 0; d <= p.last; d++ {
		if p.nearlyMeaty(d) {
			out.add(d, d+1)
		}
	}
	return out
}
