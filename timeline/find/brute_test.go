package find

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"wakeline/timeline"
)

// found is an answer of the slow search, with all that ranks it.
type found struct {
	key           string
	wait, fillers int
	chance        float64
	spare, cost   int
}

// byHand judges every sequence there is, one setup at a time, and keeps the
// good ones: no table, no window, no group.
func byHand(t *testing.T, p *timeline.Project, q Query) map[string]found {
	t.Helper()
	att := &p.Fighters[0]
	wakes := 0
	for _, target := range q.targets() {
		for _, r := range p.Fighter(target.Rival).Rises {
			wakes = max(wakes, q.Setup.Advantage.N+r.Extra)
		}
	}
	out := map[string]found{}
	for _, pair := range q.pairs(att) {
		var grow func(seq []string, frames, cost, from int)
		grow = func(seq []string, frames, cost, from int) {
			for wait := 0; frames+wait <= wakes+64 && wait <= q.Wait.Or(timeline.Width); wait++ {
				if f, ok := judgeOne(t, p, q, pair, seq, frames, wait); ok {
					f.cost = cost
					out[f.key] = f
				}
			}
			if len(seq) == q.Most {
				return
			}
			for i, f := range q.fillers(att, p.Ruleset, false) {
				if (q.Ordered || i >= from) && cost+f.gauge <= q.Gauge {
					grow(append(slices.Clone(seq), f.name), frames+f.frames, cost+f.gauge, i)
				}
			}
		}
		if cost := att.Move(pair[1]).GaugeCost; cost <= q.Gauge {
			grow(nil, 0, cost, 0)
		}
	}
	return out
}

// judgeOne judges one sequence against every target.
func judgeOne(t *testing.T, p *timeline.Project, q Query, pair [2]string, seq []string, frames, wait int) (found, bool) {
	f := found{wait: min(wait, 1), fillers: len(seq), spare: noSpare}
	good := timeline.Set{}
	for i, target := range q.targets() {
		s := q.against(target, pair[0], pair[1])
		bare := s
		s.Fillers, s.Delay = seq, wait
		a := Answer{Setups: []timeline.Setup{s}}
		f.key = a.key()
		if last := q.Setup.Advantage.N - hopFrames + 40; frames+wait > last {
			return f, false // both jumps come down long after
		}
		plan, err := timeline.Compile(p, s)
		if err != nil {
			t.Fatal(err)
		}
		if word := plan.Word(wait); word == timeline.Unsafe || word == timeline.Limited && !q.Limited {
			return f, false
		}
		v := plan.Verdict(wait)
		for _, rise := range v.Rises {
			for _, x := range rise.Replies {
				if x.Demand != timeline.DemandNone && x.Outcome.Survived() && x.Spare.Given {
					f.spare = min(f.spare, x.Spare.N)
				}
			}
		}
		whole, err := timeline.Compile(p, bare)
		if err != nil {
			t.Fatal(err)
		}
		if !slices.Equal(v.Uncovered, whole.Verdict(0).Uncovered) {
			return f, false // other starts cover what these fillers leave no time for
		}
		if i == 0 {
			good = whole.WindowSet()
		} else {
			good = good.And(whole.WindowSet())
		}
	}
	f.chance = q.Hand.Wait(good, frames, frames+wait) * math.Pow(q.Hand.Link(), float64(len(seq)))
	return f, true
}

// parts is a chance as far as it ranks.
func parts(chance float64) int { return int(math.Round(chance * 1e9)) }

// compare is the page's rank.
func compare(a, b found) int {
	return cmp.Or(cmp.Compare(a.wait, b.wait), cmp.Compare(parts(b.chance), parts(a.chance)), cmp.Compare(b.spare, a.spare),
		cmp.Compare(a.fillers, b.fillers), cmp.Compare(a.cost, b.cost))
}

// inOrder reports whether a may stand before b. Chances that the last bit may
// round to either part are let through.
func inOrder(a, b found) bool {
	if d := math.Abs(a.chance - b.chance); a.wait == b.wait && d > 1e-12 && d < 2e-9 {
		return true
	}
	return compare(a, b) <= 0
}

// Against a search that judges everything: none is missing, none is wrong, and
// they come in rank order.
func TestNoneIsMissing(t *testing.T) {
	n := 120
	if testing.Short() {
		n = 40
	}
	some, none, exact := 0, 0, 0
	for seed := range uint64(n) {
		p, q := trial(seed, 8)
		q.Most = min(q.Most, 3)
		r := look(t, p, q)
		want := byHand(t, p, q)
		if r.Count.Int64() != int64(len(want)) {
			t.Fatalf("seed %d: %v answers, by hand %d", seed, r.Count, len(want))
		}
		if len(r.Answers) != min(len(want), MaxList) {
			t.Fatalf("seed %d: %d listed of %d", seed, len(r.Answers), len(want))
		}
		if len(want) == 0 {
			none++
			if len(r.Because) == 0 {
				t.Errorf("seed %d: nothing found, and no reason", seed)
			}
			continue
		}
		some++
		waits := 0
		for _, f := range want {
			waits += f.wait
		}
		exact += len(want) - waits
		if r.Exact.Int64() != int64(len(want)-waits) {
			t.Errorf("seed %d: %v exact, by hand %d", seed, r.Exact, len(want)-waits)
		}
		seen := map[string]bool{}
		for i := range r.Answers {
			a := &r.Answers[i]
			f, ok := want[a.key()]
			if !ok || seen[a.key()] {
				t.Fatalf("seed %d: answer %d, %s, is wrong or twice", seed, a.Rank, a.key())
			}
			seen[a.key()] = true
			if a.Spare.Or(noSpare) != f.spare || a.Gauge != f.cost || math.Abs(a.Chance-f.chance) > 1e-12 {
				t.Errorf("seed %d: answer %d: spare %v, gauge %d, chance %v, by hand %+v", seed, a.Rank, a.Spare, a.Gauge, a.Chance, f)
			}
			if i > 0 && !inOrder(want[r.Answers[i-1].key()], f) {
				t.Errorf("seed %d: answer %d should stand before %d", seed, a.Rank, a.Rank-1)
			}
		}
		judgeAll(t, p, r)
	}
	if some < n/3 || none < n/8 || exact == 0 {
		t.Errorf("%d searches find something, %d nothing, %d exact answers: too few to prove much", some, none, exact)
	}
}

// A short list is the head of the long one.
func TestShortListIsTheHead(t *testing.T) {
	for seed := range uint64(60) {
		p, q := trial(seed, 8)
		long := look(t, p, q)
		q.List = 5
		short := look(t, p, q)
		if short.Count.Cmp(long.Count) != 0 || len(short.Answers) != min(5, len(long.Answers)) {
			t.Fatalf("seed %d: %v and %v answers, %d listed", seed, short.Count, long.Count, len(short.Answers))
		}
		for i := range short.Answers {
			if short.Answers[i].key() != long.Answers[i].key() || short.Answers[i].Why != long.Answers[i].Why {
				t.Errorf("seed %d: answer %d differs", seed, i+1)
			}
		}
	}
}

// However many groups hold an answer, no more are kept than answers are listed,
// and those are the best.
func TestNoMoreGroupsAreKeptThanListed(t *testing.T) {
	p, q := busy(12, 4)
	many(p, &q, 2, 3)
	s, err := newSearch(timeline.NewIndex(p), p, q)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.layWays(t.Context()); err != nil {
		t.Fatal(err)
	}
	gathered := func(list int) []group {
		s.List = list
		groups, err := s.gather(t.Context(), s.table, s.ways, best)
		if err != nil {
			t.Fatal(err)
		}
		return groups
	}
	const far = 1 << 20 // more than there are
	all := gathered(far)
	for i := range all[1:] {
		if n, _ := best(&all[i], &all[i+1]); n >= 0 {
			t.Fatalf("group %d doesn't stand before the next", i)
		}
	}
	for _, list := range []int{1, 7, 100} {
		some := gathered(list)
		if len(all) < 10*list || !slices.Equal(some, all[:list]) || cap(some) > 2*list {
			t.Errorf("of %d groups %d are kept in room for %d, want the best %d", len(all), len(some), cap(some), list)
		}
	}
}

// The ordered count is the sum of the answers' orders.
func TestOrdersAddUp(t *testing.T) {
	for seed := range uint64(60) {
		p, q := trial(seed, 8)
		q.Ordered = false
		r := look(t, p, q)
		q.Ordered = true
		ordered := look(t, p, q)
		if r.Orders.Cmp(ordered.Count) != 0 {
			t.Errorf("seed %d: %v orders, %v ordered answers", seed, r.Orders, ordered.Count)
		}
		sum := int64(0)
		for _, a := range r.Answers {
			sum += a.Orders.Int64()
		}
		if len(r.Answers) < MaxList && sum != r.Orders.Int64() {
			t.Errorf("seed %d: the answers have %d orders, %v in all", seed, sum, r.Orders)
		}
	}
}
