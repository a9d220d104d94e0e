package find

import (
	"math/big"
	"slices"

	"wakeline/timeline"
)

// way is one jump with one attack, and the frames it may start on.
type way struct {
	jump, attack string
	gauge        int   // what the attack costs
	ends         []end // by where the fillers leave the attacker: those with a good start
	good         timeline.Set
	last         int    // the last good start, -1 without one
	because      string // why no start is good, empty where one is

	passed *big.Int // sequences left out as they pass the rival
}

// end is a stretch of places, lo to hi, from which one lot of starts is good.
// Where the distance isn't known there is one, which holds every place.
type end struct {
	lo, hi int
	good   timeline.Set
	word   timeline.Word
	spare  []timeline.Maybe // by start, up to the last; the least of the demands' spares

	made   [][]timeline.Set // the sums of frames that lead here, by number of fillers and gauge
	count  [][]big.Int      // how many sequences do, by gauge and sum of frames
	orders [][]big.Int      // and how many where each order counts
}

// compile makes the plans of a jump and attack, one a target; where one doesn't
// fit the width it says so.
func (s *search) compile(targets []Target, jump, attack string) (plans []*timeline.Plan, because string) {
	for _, t := range targets {
		plan, err := s.ix.Compile(s.against(t, jump, attack))
		if err != nil {
			return nil, s.tooLong(t, err)
		}
		plans = append(plans, plan)
	}
	return plans, ""
}

// lay compiles one jump and attack against every target and intersects the
// windows. The plans are not kept: there may be thousands.
func (s *search) lay(targets []Target, jump, attack string) way {
	w := way{jump: jump, attack: attack, gauge: s.attacker.Move(attack).GaugeCost, last: -1, passed: new(big.Int)}
	plans, because := s.compile(targets, jump, attack)
	if w.because = because; because != "" {
		return w
	}
	if s.places == nil {
		e := end{made: s.table.reach[0]}
		e.meet(s, plans)
		w.take(e)
	} else {
		w.layEnds(s, plans)
		s.countPassed(&w, targets)
	}
	if w.last = w.good.Last(); w.last < 0 {
		w.because = s.whyNoStart(plans)
	}
	return w
}

// take adds an end that has a good start.
func (w *way) take(e end) {
	if !e.good.Empty() {
		w.good = w.good.Or(e.good)
		w.ends = append(w.ends, e)
	}
}

// meet finds the starts that are good against every target, and what they have
// to spare.
func (e *end) meet(s *search, plans []*timeline.Plan) {
	e.word = timeline.Safe
	for i, plan := range plans {
		good := s.starts(plan)
		if i > 0 {
			good = good.And(e.good)
		}
		if e.good = good; good.Empty() {
			return
		}
		if plan.Word(good.First()) == timeline.Limited {
			e.word = timeline.Limited
		}
	}
	e.weigh(plans)
}

// layEnds goes through the places that fillers leave the attacker at, from the
// nearest to the rival on: the plan is as from 0 with so much less between them.
func (w *way) layEnds(s *search, plans []*timeline.Plan) {
	at := s.places.at
	for i := len(at) - 1; i >= 0; {
		e := end{hi: at[i]}
		there := make([]*timeline.Plan, len(plans))
		same := timeline.MaxUnits
		for n, plan := range plans {
			var free int
			there[n], free = plan.Elsewhere(s.places.d - at[i])
			same = min(same, free)
		}
		e.lo = e.hi - same
		e.meet(s, there)
		w.take(e)
		for ; i >= 0 && at[i] >= e.lo; i-- {
		}
	}
	slices.Reverse(w.ends)
	s.places.within(w.ends)
	if s.orders != s.places {
		s.orders.ordersWithin(w.ends)
	}
}

// starts returns the good starts of a plan without fillers or delay: those as
// safe as the query asks.
func (q *Query) starts(plan *timeline.Plan) timeline.Set {
	good := plan.SafeDelays()
	if !good.Empty() && plan.Word(good.First()) == timeline.Limited && !q.Limited {
		return timeline.Set{}
	}
	return good
}

// weigh finds the least spare of all demanded replies at each good start.
func (e *end) weigh(plans []*timeline.Plan) {
	e.spare = make([]timeline.Maybe, e.good.Last()+1)
	for _, plan := range plans {
		lines := plan.Lines()
		cells := make([]timeline.Cell, plan.Rises()*lines)
		for _, s := range e.good.Spans() {
			for at := s.From; at < s.To; at++ {
				plan.Fill(at, cells)
				least := &e.spare[at]
				for i := range cells {
					if plan.Reply(i%lines).Demand == timeline.DemandNone {
						continue
					}
					if s := cells[i].Spare; s.Given && cells[i].Outcome.Survived() && (!least.Given || s.N < least.N) {
						*least = s
					}
				}
			}
		}
	}
}
