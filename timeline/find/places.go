package find

import (
	"fmt"
	"maps"
	"math/big"
	"slices"

	"wakeline/timeline"
)

// places knows where sequences of fillers leave the attacker, which starts at
// 0 and may not pass the rival, at d (space.md, "Search"). With the wall there
// too it is the wall that stops it; else a sequence that passes is left out.
//
// Where no filler goes back, or the wall is further away, all orders of the
// same fillers that don't pass end on one place. Where the wall takes of some
// orders more than of others, the same fillers are held once for all of their
// places: then a spot is a number in many.
type places struct {
	t      *table
	d      int
	walled bool // the wall is at d
	back   bool // some filler goes back
	last   int  // the most frames that are looked at
	limbs  int

	// from[i][k][c][s] are the spots of exactly k fillers from the i-th on that
	// take s frames and gauges[c]; i is 0 alone where they are ordered, or many.
	from [][][][]spots
	many [][]int // by spot, all the places of the same fillers; else nil

	at  []int       // every place that some sequence ends on, ascending
	led [][][]spots // from[0] by place
}

// newPlaces lays the places of a table's fillers in up to last frames.
func newPlaces(t *table, d int, walled bool, last int) *places {
	p := &places{t: t, d: d, walled: walled, last: last, limbs: limbsFor(len(t.fillers), t.most)}
	for _, f := range t.fillers {
		p.back = p.back || f.room < 0
	}
	switch {
	case t.ordered:
		p.layOrdered()
	case walled && p.back:
		p.layMany()
	default:
		p.laySets()
	}
	p.layEnds()
	return p
}

// layer is an empty list of spots by number of fillers, gauge and frames, but
// for no filler at all: that is a way to the spot 0.
func (p *places) layer() [][][]spots {
	out := make([][][]spots, p.t.most+1)
	for k := range out {
		out[k] = make([][]spots, len(p.t.gauges))
		for c := range out[k] {
			out[k][c] = make([]spots, p.last+1)
		}
	}
	one := make([]uint64, p.limbs)
	one[0] = 1
	out[0][0][0] = spots{[]int{0}, one}
	return out
}

// step is where filler f takes the attacker from a place; false where it
// passes the rival.
func (p *places) step(place int, f *filler) (int, bool) {
	place += f.room
	switch {
	case place <= p.d:
		return place, true
	case p.walled:
		return p.d, true
	}
	return 0, false
}

func (p *places) layOrdered() {
	own := p.layer()
	p.from = [][][][]spots{own}
	for k := 1; k <= p.t.most; k++ {
		for i := range p.t.fillers {
			p.add(own, k, i, func(place int) (int, bool) { return p.step(place, &p.t.fillers[i]) })
		}
	}
}

// add adds to own[k] what filler i makes of own[k-1].
func (p *places) add(own [][][]spots, k, i int, to func(place int) (int, bool)) {
	f := &p.t.fillers[i]
	for c := range p.t.gauges {
		price := p.t.price[i*len(p.t.gauges)+c]
		if price < 0 {
			continue
		}
		for s := f.frames; s <= p.last; s++ {
			own[k][price][s] = merge(own[k][price][s], own[k-1][c][s-f.frames], p.limbs, to)
		}
	}
}

// laySets lays sums of travel without regard to order: by going back first,
// fillers that don't end past the rival never pass it.
func (p *places) laySets() {
	n := len(p.t.fillers)
	p.from = make([][][][]spots, n+1)
	p.from[n] = p.layer()
	for i := n - 1; i >= 0; i-- {
		own := p.layer()
		for k := range own {
			for c := range own[k] {
				copy(own[k][c], p.from[i+1][k][c])
			}
		}
		to := func(place int) (int, bool) { return p.step(place, &p.t.fillers[i]) }
		if p.back {
			to = func(place int) (int, bool) { return place + p.t.fillers[i].room, true }
		}
		for k := 1; k <= p.t.most; k++ {
			p.add(own, k, i, to)
		}
		p.from[i] = own
	}
}

// layEnds lays what leads to each place.
func (p *places) layEnds() {
	seen := map[int]bool{}
	note := func(at int) {
		if at <= p.d {
			seen[at] = true
		}
	}
	for _, places := range p.many {
		for _, at := range places {
			note(at)
		}
	}
	if p.led = p.from[0]; p.many == nil {
		for _, byGauge := range p.led {
			for _, byFrames := range byGauge {
				for s := range byFrames {
					for _, at := range byFrames[s].at {
						note(at)
					}
				}
			}
		}
	}
	p.at = slices.Sorted(maps.Keys(seen))
	if p.many == nil {
		return
	}
	number := make(map[int]int, len(p.at))
	for i, at := range p.at {
		number[at] = i
	}
	places := make([][]int, len(p.many)) // by spot, as numbers
	for spot := range p.many {
		for _, at := range p.many[spot] {
			places[spot] = append(places[spot], number[at])
		}
	}
	p.led = p.layer()
	sums := make([]uint64, len(p.at)*p.limbs)
	for k, byGauge := range p.from[0] {
		for c, byFrames := range byGauge {
			for s := range byFrames {
				p.led[k][c][s] = byFrames[s].spread(places, p.at, p.limbs, sums)
			}
		}
	}
}

// within tells of each end the sums of frames that lead to it, by number of
// fillers and gauge, and how many sequences do, by gauge and frames. The ends'
// places don't overlap and ascend.
func (p *places) within(ends []end) {
	p.countIn(ends, func(e *end) *[][]big.Int { return &e.count }, true)
	for e := range ends {
		if p.t.ordered {
			ends[e].orders = ends[e].count
		}
	}
}

// ordersWithin tells of each end how many ordered sequences lead to it.
func (p *places) ordersWithin(ends []end) {
	p.countIn(ends, func(e *end) *[][]big.Int { return &e.orders }, false)
}

func (p *places) countIn(ends []end, of func(e *end) *[][]big.Int, made bool) {
	for e := range ends {
		counts := make([][]big.Int, len(p.t.gauges))
		for c := range counts {
			counts[c] = make([]big.Int, p.last+1)
		}
		*of(&ends[e]) = counts
		if !made {
			continue
		}
		ends[e].made = make([][]timeline.Set, p.t.most+1)
		for k := range ends[e].made {
			ends[e].made[k] = make([]timeline.Set, len(p.t.gauges))
		}
	}
	add := func(e *end, k, c, s int, n *big.Int) {
		sum := &(*of(e))[c][s]
		sum.Add(sum, n)
		if made && !e.made[k][c].Has(s) {
			on, _ := timeline.Range(s, s+1)
			e.made[k][c] = e.made[k][c].Or(on)
		}
	}
	var n big.Int
	for k, byGauge := range p.led {
		for c, byFrames := range byGauge {
			for s := range byFrames {
				e := 0
				for i, at := range byFrames[s].at {
					for e < len(ends) && ends[e].hi < at {
						e++
					}
					if e < len(ends) && ends[e].lo <= at {
						add(&ends[e], k, c, s, byFrames[s].big(i, p.limbs, &n))
					}
				}
			}
		}
	}
}

// kept counts the sequences that don't pass the rival, by gauge and frames.
func (p *places) kept() [][]big.Int {
	every := []end{{lo: -1 << 40, hi: p.d}}
	p.countIn(every, func(e *end) *[][]big.Int { return &e.count }, false)
	return every[0].count
}

// layPlaces lays where the fillers leave the attacker, where the distance is
// known: up to the last start from which some jump and attack may meet the
// wake-up.
func (s *search) layPlaces(targets []Target, pairs [][2]string) {
	d := s.Setup.D(s.attacker)
	if !d.Given || s.places != nil {
		return
	}
	last, walled := 0, false
	for _, pair := range pairs {
		plans, _ := s.compile(targets, pair[0], pair[1])
		for _, plan := range plans {
			last = max(last, plan.MayMeet().Last())
			walled = plan.Room() == timeline.Some(0)
		}
	}
	s.places = newPlaces(s.table, d.N, walled, last)
	s.orders = s.places
	if !s.table.ordered {
		other := *s.table
		other.ordered = true
		s.orders = newPlaces(&other, d.N, walled, last)
	}
}

// countPassed counts the sequences of w that pass the rival and whose frames
// would do.
func (s *search) countPassed(w *way, targets []Target) {
	if s.places.walled {
		return
	}
	var blind end
	var plans []*timeline.Plan
	for _, t := range targets {
		setup := s.against(t, w.jump, w.attack)
		setup.Ender, setup.Advantage, setup.Distance = "", s.Setup.K(s.attacker), timeline.Maybe{}
		plan, err := s.ix.Compile(setup)
		if err != nil {
			return
		}
		plans = append(plans, plan)
	}
	blind.meet(s, plans)
	kept := new(big.Int)
	s.sum(s.table.count(s.places.last, s.table.ordered), w, blind.good, w.passed, new(big.Int))
	s.sum(s.places.kept(), w, blind.good, kept, new(big.Int))
	w.passed.Sub(w.passed, kept)
}

// whyNoPlace says why there is no answer where the distance is known, and the
// nearest miss of those that end where a jump is good.
func (s *search) whyNoPlace(fits []*way) (out []string) {
	passed := new(big.Int)
	m, near := miss{}, false
	for _, w := range fits {
		passed.Add(passed, w.passed)
		for i := range w.ends {
			made, _ := timeline.Range(0, 0)
			for k := range w.ends[i].made {
				for c, spent := range s.table.gauges {
					if spent+w.gauge <= s.Gauge {
						made = made.Or(w.ends[i].made[k][c])
					}
				}
			}
			goal := ends(&way{good: w.ends[i].good}, s.Wait.Or(timeline.Width))
			for _, sum := range frameList(made) {
				for _, end := range frameList(goal) {
					if off := sum - end; !near || abs(off) < abs(m.off) {
						m.sum, m.off, near = sum, off, true
					}
				}
			}
		}
	}
	out = append(out, "No sequence of fillers ends both on a frame and on a place that a jump is good from.")
	if passed.Sign() > 0 {
		out = append(out, fmt.Sprintf("Left out, as their fillers pass the rival: %v that would do by their frames.", passed))
	}
	if near && m.off != 0 {
		out = append(out, m.String())
	}
	return out
}
