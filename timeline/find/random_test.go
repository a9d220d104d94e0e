package find

import (
	"fmt"
	"math/rand/v2"

	"wakeline/timeline"
)

// trial is a random search, of at most that many fillers, that has something to find about as often as not.
func trial(seed uint64, most int) (*timeline.Project, Query) {
	g := rand.New(rand.NewPCG(seed, 41))
	to := func(lo, hi int) int { return lo + g.IntN(hi-lo+1) }
	var lengths []int
	for range to(0, most) {
		lengths = append(lengths, to(3, 24))
	}
	rises := []int{0}
	if g.IntN(2) == 0 {
		rises = append(rises, to(0, 4))
	}
	replies := []timeline.Move{reversal(to(2, 9))}
	if g.IntN(2) == 0 {
		replies = append(replies, timeline.Move{Name: "roll", Kind: timeline.Evade, Length: 20,
			Immune: []timeline.Immunity{{Window: timeline.Window{From: 1, To: to(1, 3)}, Strikes: true}}})
	}
	p := yard(to(44, 90), lengths, rises, replies...)
	att := &p.Fighters[0]
	att.Jumps = append(att.Jumps, timeline.Jump{Name: "skip", Prejump: 3, Airborne: to(20, 30), Landing: 2})
	for i := range att.Moves {
		if m := &att.Moves[i]; m.Kind == timeline.Dash {
			m.GaugeCost = max(0, to(-2, 2))
		}
	}
	p.Setups[0].Replies[len(replies)-1].Demand = []timeline.Demand{timeline.Survive, timeline.Beat, timeline.DemandNone}[g.IntN(3)]
	q := Query{Setup: p.Setups[0], Fillers: stepNames(p), Most: to(0, 4), Gauge: to(0, 3), Ordered: g.IntN(3) == 0, Limited: g.IntN(3) == 0, List: MaxList, Hand: steady{0.5 + 2*g.Float64(), to(0, 4)}}
	if len(lengths) == 0 {
		q.Fillers, q.Not = []string{"hop", "skip"}, []string{"hop"}
	} else if len(lengths) > 3 {
		q.Not = []string{"step 1"}
	}
	if g.IntN(3) > 0 {
		q.Wait = timeline.Some(to(0, 6))
	}
	if g.IntN(4) == 0 {
		third := timeline.Fighter{Name: "Cairn", Moves: []timeline.Move{reversal(5)}, Rises: []timeline.Rise{{Name: "late", Extra: to(0, 3)}}}
		p.Fighters = append(p.Fighters, third)
		q.Also = []Target{{Rival: "Cairn", Replies: []timeline.Reply{{Move: "reversal 5", Demand: timeline.Survive}}}}
	}
	return p, q
}

// key is an answer by what it is made of.
func (a *Answer) key() string {
	s := a.Setups[0]
	return fmt.Sprint(s.Fillers, s.Delay, s.Jump, s.Attack)
}
