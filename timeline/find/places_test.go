package find

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"wakeline/timeline"
)

// apart makes of a trial one whose distance is known: fillers that go either
// way, attacks and replies that reach so far, and at times a wall.
func apart(seed uint64, most int) (*timeline.Project, Query) {
	p, q := trial(seed, most)
	g := rand.New(rand.NewPCG(seed, 43))
	to := func(lo, hi int) int { return lo + g.IntN(hi-lo+1) }
	back := g.IntN(3) > 0
	for i := range p.Fighters {
		f := &p.Fighters[i]
		for k := range f.Moves {
			m := &f.Moves[k]
			m.Travel = 10 * to(0, 5)
			if back && g.IntN(3) == 0 {
				m.Travel = -10 * to(1, 4)
			}
			if m.Hits() && g.IntN(3) > 0 {
				near := to(-40, 10)
				m.Reach = &timeline.Interval{Near: near, Far: near + to(40, 120)}
			}
		}
		for k := range f.Jumps {
			f.Jumps[k].Travel = 10 * to(-2, 14)
		}
		for k := range f.Rises {
			f.Rises[k].Shift = 10 * to(-1, 3)
		}
	}
	s := &q.Setup
	s.Distance = timeline.Some(10 * to(0, 18))
	switch g.IntN(4) {
	case 0:
		s.Position = timeline.Wall
	case 1:
		s.Room = timeline.Some(10 * to(0, 4))
	}
	p.Setups[0] = *s
	return p, q
}

// walked is where fillers leave the attacker, step by step; passes where they
// pass the rival.
func walked(f *timeline.Fighter, seq []string, d int, wall timeline.Maybe) (at int, passes bool) {
	for _, name := range seq {
		if m := f.Move(name); m != nil {
			at += m.Travel
		} else {
			at += f.Jump(name).Travel
		}
		if wall.Given {
			at = min(at, wall.N)
		}
		passes = passes || at > d
	}
	return at, passes
}

// byHandApart judges every order of every sequence, and tells the answers, the
// orders of each, and how many pass the rival though their frames would do.
func byHandApart(t *testing.T, p *timeline.Project, q Query) (answers map[string]int, exact, passed int) {
	t.Helper()
	att := &p.Fighters[0]
	d := q.Setup.Distance.N
	wall := timeline.Maybe{}
	switch {
	case q.Setup.Room.Given:
		wall = timeline.Some(d + q.Setup.Room.N)
	case q.Setup.Position == timeline.Wall:
		wall = timeline.Some(d)
	}
	answers = map[string]int{}
	exacts, overs, stays := map[string]bool{}, map[string]bool{}, map[string]bool{}
	for _, pair := range q.pairs(att) {
		blind := timeline.Set{}
		for i, target := range q.targets() {
			s := q.against(target, pair[0], pair[1])
			s.Distance, s.Room = timeline.Maybe{}, timeline.Maybe{}
			plan, err := timeline.Compile(p, s)
			if err != nil {
				t.Fatal(err)
			}
			good := q.starts(plan)
			if i > 0 {
				good = good.And(blind)
			}
			blind = good
		}
		var grow func(seq []string, frames, cost int)
		grow = func(seq []string, frames, cost int) {
			at, passes := walked(att, seq, d, wall)
			for wait := 0; wait <= q.Wait.Or(timeline.Width) && frames+wait <= q.Setup.Advantage.N-hopFrames+40; wait++ {
				key := fmt.Sprint(pair, seq, wait)
				if !q.Ordered {
					same := slices.Clone(seq)
					slices.Sort(same)
					key = fmt.Sprint(pair, same, wait)
				}
				if passes {
					if blind.Has(frames + wait) {
						overs[key] = true
					}
					continue
				}
				stays[key] = true
				if !q.Ordered {
					key += fmt.Sprint(" at ", at)
				}
				if judgeApart(t, p, q, pair, seq, frames, wait, at, wall) {
					answers[key]++
					exacts[key] = exacts[key] || wait == 0
				}
			}
			if len(seq) == q.Most {
				return
			}
			for _, f := range q.fillers(att, p.Ruleset, false) {
				if cost+f.gauge <= q.Gauge {
					grow(append(slices.Clone(seq), f.name), frames+f.frames, cost+f.gauge)
				}
			}
		}
		if cost := att.Move(pair[1]).GaugeCost; cost <= q.Gauge {
			grow(nil, 0, cost)
		}
	}
	for key := range overs {
		if !stays[key] {
			passed++
		}
	}
	for key := range answers {
		if exacts[key] {
			exact++
		}
	}
	return answers, exact, passed
}

func judgeApart(t *testing.T, p *timeline.Project, q Query, pair [2]string, seq []string, frames, wait, at int, wall timeline.Maybe) bool {
	for _, target := range q.targets() {
		s := q.against(target, pair[0], pair[1])
		bare := s
		s.Fillers, s.Delay = seq, wait
		plan, err := timeline.Compile(p, s)
		if err != nil {
			t.Fatal(err)
		}
		if word := plan.Word(wait); word == timeline.Unsafe || word == timeline.Limited && !q.Limited {
			return false
		}
		if wall.Given {
			bare.Room = timeline.Some(wall.N - s.Distance.N)
		}
		bare.Distance = timeline.Some(s.Distance.N - at)
		whole, err := timeline.Compile(p, bare)
		if err != nil {
			t.Fatal(err)
		}
		if !slices.Equal(plan.Verdict(wait).Uncovered, whole.Verdict(0).Uncovered) {
			return false // other starts cover what these fillers leave no time for
		}
	}
	return true
}

// Against a search that judges every order from where it ends.
func TestNoneIsMissingApart(t *testing.T) {
	n := 150
	if testing.Short() {
		n = 50
	}
	some, passes, walls, sets := 0, 0, 0, 0
	for seed := range uint64(n) {
		p, q := apart(seed, 6)
		q.Most = min(q.Most, 3)
		r := look(t, p, q)
		want, exact, passed := byHandApart(t, p, q)
		orders := int64(0)
		for _, n := range want {
			orders += int64(n)
		}
		if r.Count.Int64() != int64(len(want)) || r.Orders.Int64() != orders || r.Exact.Int64() != int64(exact) || r.Passed.Int64() != int64(passed) {
			t.Errorf("seed %d: %v answers, %v orders, %v exact, %v passed; by hand %d, %d, %d, %d", seed, r.Count, r.Orders, r.Exact, r.Passed, len(want), orders, exact, passed)
			continue
		}
		if len(r.Answers) != min(len(want), MaxList) {
			t.Errorf("seed %d: %d listed of %d", seed, len(r.Answers), len(want))
		}
		seen := map[string]bool{}
		for i := range r.Answers {
			a := &r.Answers[i]
			s := &a.Setups[0]
			seq := s.Fillers
			at, over := walked(&p.Fighters[0], seq, q.Setup.Distance.N, wallOf(q))
			if !q.Ordered {
				seq = slices.Clone(seq)
				slices.Sort(seq)
			}
			key := fmt.Sprint([2]string{s.Jump, s.Attack}, seq, s.Delay)
			if !q.Ordered {
				key += fmt.Sprint(" at ", at)
			}
			if over || a.Place != timeline.Some(at) || want[key] == 0 || seen[key] || !q.Ordered && a.Orders.Int64() != int64(want[key]) {
				t.Errorf("seed %d: answer %d, %s to %v in %v orders: wrong or twice, by hand %d orders", seed, a.Rank, key, a.Place, a.Orders, want[key])
				break
			}
			seen[key] = true
		}
		judgeAll(t, p, r)
		if len(want) > 0 {
			some++
		}
		if passed > 0 {
			passes++
		}
		if wallOf(q) == q.Setup.Distance {
			walls++
		}
		if !q.Ordered && orders > int64(len(want)) {
			sets++
		}
	}
	if some < n/4 || passes < n/20 || walls < n/8 || sets < n/10 {
		t.Errorf("%d searches find something, in %d some pass, %d are at the wall, in %d sets have several orders: too few to prove much", some, passes, walls, sets)
	}
}

func wallOf(q Query) timeline.Maybe {
	switch {
	case q.Setup.Room.Given:
		return timeline.Some(q.Setup.Distance.N + q.Setup.Room.N)
	case q.Setup.Position == timeline.Wall:
		return q.Setup.Distance
	}
	return timeline.Maybe{}
}
