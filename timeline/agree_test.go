package timeline

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
)

// disagree holds the core against the slow reading on the project of that
// seed and returns where they part, empty where they don't. It counts in seen
// what happened.
func disagree(seed uint64, seen map[string]int) string {
	p := randomProject(seed)
	if err := p.Check(); err != nil {
		return fmt.Sprintf("Check() = %v, want nil", err)
	}
	s := p.Setups[0]
	x := newSlowPlan(p, &s)
	want := x.judge()
	x.seen = seen
	plan, err := Compile(p, s)
	if want.fits < s.Delay {
		seen["no fit"]++
		if plain := (*PlanError)(nil); !errors.As(err, &plain) {
			return fmt.Sprintf("Compile() = %v, want a *PlanError", err)
		}
		return ""
	}
	if err != nil {
		return fmt.Sprintf("Compile() = %v, want nil", err)
	}
	if plan.Fits() != want.fits || plan.LastDelay() != want.last {
		return fmt.Sprintf("Fits(), LastDelay() = %d, %d, want %d, %d", plan.Fits(), plan.LastDelay(), want.fits, want.last)
	}
	for d := range Width {
		if got := plan.WindowSet().Has(d); got != (d <= want.last && want.good[d]) {
			return fmt.Sprintf("WindowSet().Has(%d) = %v, want %v", d, got, !got)
		}
	}
	noteVerdict(x, plan, want, seen)
	for _, d := range someDelays(x, plan, seed) {
		if msg := disagreeAt(x, plan, want, d, seen); msg != "" {
			return fmt.Sprintf("at delay %d: %s", d, msg)
		}
	}
	if seed%8 == 0 {
		return disagreeOnHolds(x, plan, want, seen)
	}
	return ""
}

// disagreeOnHolds holds for how much the plan holds against trying everything,
// at a delay of the window where there is one.
func disagreeOnHolds(x *slowPlan, plan *Plan, want *slowVerdict, seen map[string]int) string {
	d := x.s.Delay
	if spans := plan.WindowSet().Spans(); len(spans) > 0 {
		d = spans[0].From
	}
	v := plan.Verdict(d)
	if got, want := v.HoldsAdvantage, x.holdsAdvantage(d, want.uncovered); !slices.Equal(got, want) {
		return fmt.Sprintf("at delay %d: HoldsAdvantage = %v, want %v", d, got, want)
	}
	if got, want := v.HoldsDistance, x.holdsDistance(d, want.uncovered); !slices.Equal(got, want) || (got == nil) != (want == nil) {
		return fmt.Sprintf("at delay %d: HoldsDistance = %v, want %v", d, got, want)
	}
	if len(v.HoldsDistance) > 1 {
		seen["several spans of distance"]++
	}
	if len(v.HoldsAdvantage) > 1 {
		seen["several spans of advantage"]++
	}
	return ""
}

// someDelays is where the tables of a plan are held against each other: 0,
// round the window's edges, round the delays that matter, and anywhere.
func someDelays(x *slowPlan, plan *Plan, seed uint64) []int {
	rng := rand.New(rand.NewPCG(seed, 11))
	_, _, acts, _ := x.clock(0)
	ds := []int{0, rng.IntN(plan.Fits() + 1), rng.IntN(8), x.k - acts + rng.IntN(7) - 3, x.k - acts + rng.IntN(15) - 7}
	if spans := plan.WindowSet().Spans(); len(spans) > 0 {
		w := spans[rng.IntN(len(spans))]
		ds = append(ds, w.From-1, w.From, w.To-1, w.To)
	}
	slices.Sort(ds)
	ds = slices.Compact(ds)
	return slices.DeleteFunc(ds, func(d int) bool { return d < 0 || d > plan.Fits() })
}

// noteVerdict counts what a verdict turned out to be.
func noteVerdict(x *slowPlan, plan *Plan, want *slowVerdict, seen map[string]int) {
	seen[string(want.word(0))]++
	if x.isBait() {
		seen["bait"]++
	}
	if len(plan.WindowSet().Spans()) > 1 {
		seen["a window of several spans"]++
	}
	if len(want.uncovered) > 0 && len(want.uncovered) == want.asked {
		seen["all are uncovered"]++
	}
	if want.last < x.k+64 {
		seen["a range cut by the width"]++
	}
}

func disagreeAt(x *slowPlan, plan *Plan, want *slowVerdict, d int, seen map[string]int) string {
	cells := make([]Cell, plan.Rises()*plan.Lines())
	plan.Fill(d, cells)
	for i, w := range x.table(d) {
		if cells[i] != w {
			n := plan.Lines()
			return fmt.Sprintf("rise %d line %d: cell = %v %+v, want %v %+v", i/n, i%n, cells[i].Outcome, cells[i], w.Outcome, w)
		}
	}
	if got := plan.Word(d); got != want.word(d) {
		return fmt.Sprintf("Word() = %v, want %v", got, want.word(d))
	}
	if rise, line := plan.Deciding(d); want.word(d) == Unsafe {
		if r, i, ok := firstBreach(x, want, d); ok && (rise != r || line != i) {
			return fmt.Sprintf("Deciding() = rise %d line %d, want rise %d line %d", rise, line, r, i)
		}
	}
	v := plan.Verdict(d)
	var uncovered []string
	for _, i := range want.uncovered {
		uncovered = append(uncovered, x.s.Replies[i].Title())
	}
	if !slices.Equal(v.Uncovered, uncovered) {
		return fmt.Sprintf("Uncovered = %q, want %q", v.Uncovered, uncovered)
	}
	_, guards, _, _ := x.clock(d)
	if x.jump != nil && v.GuardsFrom != Some(guards) {
		return fmt.Sprintf("GuardsFrom = %v, want %d", v.GuardsFrom, guards)
	}
	if v.Distance != slowD(x) || v.Room != slowRoom(x) {
		return fmt.Sprintf("Distance, Room = %v, %v, want %v, %v", v.Distance, v.Room, slowD(x), slowRoom(x))
	}
	if got, want := v.HoldsStartup, x.holdsStartup(d); got != want {
		return fmt.Sprintf("HoldsStartup = %v, want %v", got, want)
	}
	return ""
}

// firstBreach is the cell an unsafe verdict names: a missed wake-up; else, of
// the demanded replies that are short of their demand, one that is covered
// before one that is not; in each the first by frame of meeting (none last),
// then by the replies' order, then by the rises'.
func firstBreach(x *slowPlan, v *slowVerdict, d int) (rise, line int, ok bool) {
	cells := x.table(d)
	lines := len(cells) / len(x.rises)
	first := [2]int{9, 0}
	for i := range lines {
		for r := range x.rises {
			c := &cells[r*lines+i]
			at := [2]int{9, Width}
			switch {
			case i == 2 && !x.isBait() && c.AfterWake != Some(0):
				at[0] = 0
			case i < 3 || x.s.Replies[i-3].Demand == DemandNone || slowMeets(c, x.s.Replies[i-3].Demand):
				continue
			case slices.Contains(v.uncovered, i-3):
				at[0] = 2
			default:
				at[0] = 1
			}
			if c.Meeting.Given {
				at[1] = c.Meeting.N
			}
			if slices.Compare(at[:], first[:]) < 0 {
				rise, line, ok, first = r, i, true, at
			}
		}
	}
	return rise, line, ok
}

func TestAgreeWithFrames(t *testing.T) {
	const shards = 2
	n, least := 20000, 40
	if testing.Short() {
		n, least = 2000, 2
	}
	seen := [shards]map[string]int{}
	t.Run("shards", func(t *testing.T) {
		for i := range shards {
			seen[i] = map[string]int{}
			t.Run(fmt.Sprint(i), func(t *testing.T) {
				t.Parallel()
				for bad, seed := 0, i; seed < n && bad < 10; seed += shards {
					if msg := disagree(uint64(seed), seen[i]); msg != "" {
						t.Errorf("seed %d: %s", seed, msg)
						bad++
					}
				}
			})
		}
	})
	for _, what := range mustHappen {
		got := 0
		for _, m := range seen {
			got += m[what]
		}
		if got < least {
			t.Errorf("%q happened %d times, want %d or more", what, got, least)
		}
	}
}

// mustHappen is what the random setups must bring about often enough, so
// that agreeing on them means something.
var mustHappen = []string{
	"no contact", "attack whiffs", "attack hits", "attack blocked", "reply blocked", "reply parried", "trade", "reply hits",
	"attack parried", "attack absorbed", "reply throws", "to spare from a later guard or parry",
	"the attacker's mid", "the attacker's low", "the attacker's overhead", "the attacker's throw", "the attacker's air throw",
	"the reply's mid", "the reply's low", "the reply's overhead", "the reply's throw", "the reply's air throw",
	"not risen", "throw-proof", "strike-proof", "throw at the air", "air throw at the ground", "low at the air",
	"misses air", "over the top", "too high",
	"armour absorbs", "armour takes two spans", "armour broken", "a guard stops a span after armour",
	"a parry stops a span after armour", "the attacker's armour swallows", "the attacker parries",
	"one frame: parry goes first", "one frame: armour goes first", "one frame: strike beats the reply's throw",
	"one frame: the reply's strike beats a throw", "one frame: two throws", "one frame: two strikes", "one frame: no trades",
	"a listed advantage, frames into a span", "stun from a later span",
	"out of reach", "too near", "too far", "the wall takes something", "turning on one spot", "turning round",
	"the attacker turns after the wake-up", "met from behind", "several spans of distance", "several spans of advantage",
	"safe", "limited", "unsafe", "bait", "all are uncovered", "a window of several spans", "a range cut by the width", "no fit",
}

// FuzzJudgeAgainstFrames holds the core against the slow reading on any seed.
func FuzzJudgeAgainstFrames(f *testing.F) {
	for seed := range uint64(20) {
		f.Add(seed << 40)
	}
	f.Fuzz(func(t *testing.T, seed uint64) {
		if msg := disagree(seed, map[string]int{}); msg != "" {
			t.Errorf("seed %d: %s", seed, msg)
		}
	})
}
