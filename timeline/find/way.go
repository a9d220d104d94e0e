package find

import (
	"wakeline/timeline"
)

// way is one jump with one attack, and the frames it may start on.
type way struct {
	jump, attack string
	gauge        int // what the attack costs
	good         timeline.Set
	last         int // the last good start, -1 without one
	word         timeline.Word
	spare        []timeline.Maybe // by start, up to last; the least of the demands' spares
	because      string           // why no start is good, empty where one is
}

// lay compiles one jump and attack against every target and intersects the
// windows. The plans are not kept: there may be thousands.
func (s *search) lay(targets []Target, jump, attack string) way {
	w := way{jump: jump, attack: attack, gauge: s.attacker.Move(attack).GaugeCost, last: -1, word: timeline.Safe}
	var plans []*timeline.Plan // one a target
	for i, t := range targets {
		plan, err := s.ix.Compile(s.against(t, jump, attack))
		if err != nil {
			w.because = s.tooLong(t, err)
			return w
		}
		plans = append(plans, plan)
		good := s.starts(plan)
		if i > 0 {
			good = good.And(w.good)
		}
		w.good = good
		if !good.Empty() && plan.Word(good.First()) == timeline.Limited {
			w.word = timeline.Limited
		}
	}
	if w.last = w.good.Last(); w.last >= 0 {
		w.weigh(plans)
	} else {
		w.because = s.whyNoStart(plans)
	}
	return w
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
func (w *way) weigh(plans []*timeline.Plan) {
	w.spare = make([]timeline.Maybe, w.last+1)
	for _, plan := range plans {
		lines := plan.Lines()
		shown := lines - len(plan.Setup.Replies) // those always judged come first
		cells := make([]timeline.Cell, plan.Rises()*lines)
		for _, s := range w.good.Spans() {
			for at := s.From; at < s.To; at++ {
				plan.Fill(at, cells)
				least := &w.spare[at]
				for i := range cells {
					line := i%lines - shown
					if line < 0 || plan.Setup.Replies[line].Demand == timeline.DemandNone {
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
