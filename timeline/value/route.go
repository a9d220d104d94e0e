package value

import (
	"sort"

	"wakeline/timeline"
)

// Route is a route of a fighter worked out: a named one, or a strike or throw
// by itself.
type Route struct {
	Name    string // of a move by itself, the move's
	Named   bool
	Damage  int // points
	Cost    int // segments
	Gain    int
	Margins []timeline.Maybe // of each step after the first; absent for a cancel, and where it isn't known
	Counts  bool             // it is used

	steps    []*timeline.Move
	first    timeline.By
	route    *timeline.Route // nil for a move by itself
	measured bool            // damage
	gauge    int             // of the ruleset
	worth    int             // its gauge in points
	needs    timeline.Maybe
}

// Routes are the routes of a fighter: the named ones, then every grounded
// strike or throw by itself.
func Routes(rules timeline.Ruleset, f *timeline.Fighter) []Route {
	var out []Route
	for i := range f.Routes {
		out = append(out, RouteOf(rules, f, &f.Routes[i]))
	}
	for i := range f.Moves {
		if m := &f.Moves[i]; m.Hits() && !m.Air {
			r := Route{Name: m.Name, steps: []*timeline.Move{m}, first: timeline.Link, Counts: true, Cost: m.GaugeCost, Gain: m.GaugeGain}
			r.Damage = scaled(rules, r.steps, 1)
			r.work(rules)
			out = append(out, r)
		}
	}
	return out
}

// RouteOf works out one route of a fighter, which Check allows; it need not be
// among those that the fighter has.
func RouteOf(rules timeline.Ruleset, f *timeline.Fighter, from *timeline.Route) Route {
	r := Route{Name: from.Name, Named: true, route: from, first: from.Steps[0].By, Counts: true}
	for i, s := range from.Steps {
		m := f.Move(s.Move)
		r.steps = append(r.steps, m)
		r.Cost, r.Gain = r.Cost+m.GaugeCost, r.Gain+m.GaugeGain
		if i == 0 {
			continue
		}
		margin := timeline.Maybe{}
		if s.By == timeline.Link {
			margin = LinkMargin(rules, r.steps[i-1], m)
			r.Counts = r.Counts && margin.Given && margin.N >= 0
		}
		r.Margins = append(r.Margins, margin)
		r.Counts = r.Counts && m.Kind != timeline.Throw
	}
	r.Counts = r.Counts || from.Confirmed
	r.Damage, r.measured = from.Damage.Or(scaled(rules, r.steps, 1)), from.Damage.Given
	r.Cost, r.Gain = from.GaugeCost.Or(r.Cost), from.GaugeGain.Or(r.Gain)
	r.work(rules)
	return r
}

// scaled is the damage of moves in a row, of which the first damaging one is
// the nth of its combo.
func scaled(rules timeline.Ruleset, steps []*timeline.Move, n int) (sum int) {
	for _, m := range steps {
		if m.Damage > 0 {
			sum += m.Damage * percent(rules, n) / 100
			n++
		}
	}
	return sum
}

// percent is the scaling of the nth damaging move of a combo, from 1.
func percent(rules timeline.Ruleset, n int) int {
	if len(rules.Scaling) == 0 {
		return 100
	}
	return rules.Scaling[min(n, len(rules.Scaling))-1]
}

// LinkMargin is the margin of a link from one move to another: the frames to
// spare, below 0 where it doesn't link, absent where that isn't known.
func LinkMargin(rules timeline.Ruleset, from, to *timeline.Move) timeline.Maybe {
	a := touched(rules, from, from.OnHit, from.Hitstun)
	if !a.Given || !to.Hits() {
		return timeline.Maybe{}
	}
	return timeline.Some(a.N - to.FirstActive(rules) - 1)
}

// touched is the advantage of a grounded move that touches with its first
// active frame: the listed one, or that of its stun.
func touched(rules timeline.Ruleset, m *timeline.Move, listed, stun timeline.Maybe) timeline.Maybe {
	spans := m.Spans(rules)
	switch {
	case len(spans) == 0:
		return timeline.Maybe{}
	case listed.Given:
		return listed
	case stun.Given:
		return timeline.Some(spans[len(spans)-1].From + 1 + stun.N - m.Total(rules))
	}
	return timeline.Maybe{}
}

// Pay plays the route from a gauge, and returns what is left; ok is false where
// a step's cost isn't there.
func (r *Route) Pay(gauge int) (left int, ok bool) {
	if r.route != nil && r.route.GaugeCost.Given {
		return min(gauge-r.Cost+r.Gain, r.gauge), gauge >= r.Cost
	}
	for _, m := range r.steps {
		if gauge < m.GaugeCost {
			return gauge, false
		}
		gauge = gauge - m.GaugeCost
		if r.route == nil || !r.route.GaugeGain.Given {
			gauge = min(gauge+m.GaugeGain, r.gauge)
		}
	}
	if r.route != nil && r.route.GaugeGain.Given {
		gauge = min(gauge+r.Gain, r.gauge)
	}
	return gauge, true
}

// Needs is the least gauge from which the route can be paid, absent where there
// is none.
func (r *Route) Needs() timeline.Maybe { return r.needs }

// work works out what its gauge is worth and what it needs.
func (r *Route) work(rules timeline.Ruleset) {
	r.gauge, r.worth = rules.Gauge, rules.GaugeWorth*(r.Gain-r.Cost)
	can := func(gauge int) bool {
		_, ok := r.Pay(gauge)
		return ok
	}
	if r.route != nil && r.route.GaugeCost.Given {
		r.needs = timeline.Some(r.Cost)
	} else if can(r.gauge) { // the more there is, the further it goes
		r.needs = timeline.Some(sort.Search(r.gauge, can))
	}
}

// pays reports whether it can be paid from a gauge, at most a full one.
func (r *Route) pays(gauge int) bool { return r.needs.Given && gauge >= r.needs.N }

// Ends is the move that the route ends with.
func (r *Route) Ends() *timeline.Move { return r.steps[len(r.steps)-1] }
