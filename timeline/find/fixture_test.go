package find

import (
	"context"
	"fmt"
	"math"
	"testing"

	"wakeline/timeline"
)

// steady is a hand without bias whose chances are a plain sum of Gaussian
// tails, by the C library's way of erf: no more than a test needs.
type steady struct {
	spread float64 // frames
	buffer int
}

func (s steady) Link() float64 {
	if s.buffer > 0 {
		return 1
	}
	return math.Erf(0.5 / s.spread / math.Sqrt2)
}

func (s steady) Wait(good timeline.Set, first, aim int) (sum float64) {
	if s.buffer > 0 && aim == first && good.Has(first) {
		return 1
	}
	at := func(f int) float64 { return math.Erf((float64(f-aim) - 0.5) / s.spread / math.Sqrt2) }
	for f := first; f <= good.Last(); f++ {
		if !good.Has(f) {
			continue
		}
		from := f
		if f == first {
			from -= s.buffer
		}
		sum += (at(f+1) - at(from)) / 2
	}
	return sum
}

// hop takes 43 frames to touchdown; with dive, whose six active frames all
// reach, an undelayed one meets a wake-up on 42 to 37.
const hopFrames = 43

// yard is an attacker with fillers of those lengths against a rival with
// those replies, each to be survived, and rises after those extra frames.
func yard(advantage int, lengths []int, rises []int, replies ...timeline.Move) *timeline.Project {
	att := timeline.Fighter{
		Name: "Hesk",
		Moves: []timeline.Move{
			{Name: "dive", Kind: timeline.Strike, Air: true, Level: timeline.Overhead, Startup: 7, Active: []int{6}, Hitstun: timeline.Some(20), Guardstun: timeline.Some(16)},
			{Name: "drop", Kind: timeline.Strike, Air: true, Level: timeline.Overhead, Startup: 9, Active: []int{2}, Hitstun: timeline.Some(20), Guardstun: timeline.Some(16), GaugeCost: 1},
		},
		Jumps: []timeline.Jump{{Name: "hop", Prejump: 4, Airborne: hopFrames - 4, Landing: 3}},
		Rises: []timeline.Rise{{Name: "normal"}},
	}
	for i, n := range lengths {
		att.Moves = append(att.Moves, timeline.Move{Name: fmt.Sprintf("step %d", i), Kind: timeline.Dash, Length: n, Travel: 10 * i})
	}
	riv := timeline.Fighter{Name: "Tarn", Moves: replies}
	for i, extra := range rises {
		riv.Rises = append(riv.Rises, timeline.Rise{Name: fmt.Sprintf("rise %d", i), Extra: extra})
	}
	s := timeline.Setup{Name: "yard", Attacker: "Hesk", Rival: "Tarn", Position: timeline.Midscreen, Advantage: timeline.Some(advantage), Landing: timeline.DoGuard}
	for _, m := range replies {
		s.Replies = append(s.Replies, timeline.Reply{Move: m.Name, Demand: timeline.Survive})
	}
	return &timeline.Project{Ruleset: timeline.DefaultRuleset(), Fighters: []timeline.Fighter{att, riv}, Setups: []timeline.Setup{s}}
}

// reversal is a strike that nothing touches until it is over.
func reversal(startup int) timeline.Move {
	return timeline.Move{
		Name: fmt.Sprintf("reversal %d", startup), Kind: timeline.Strike, Level: timeline.Mid, Startup: startup, Active: []int{3}, Recovery: 30,
		OnGuard: timeline.Some(-25), Immune: []timeline.Immunity{{Window: timeline.Window{From: 1, To: startup + 2}, Strikes: true, Throws: true}},
	}
}

// query looks for dives in p's first setup, of at most three fillers and
// without a counted wait.
func query(p *timeline.Project) Query {
	return Query{Setup: p.Setups[0], Attacks: []string{"dive"}, Fillers: stepNames(p), Most: 3, Wait: timeline.Some(0), List: 100, Hand: steady{1.5, 4}}
}

func stepNames(p *timeline.Project) (out []string) {
	for _, m := range p.Fighters[0].Moves {
		if m.Kind == timeline.Dash {
			out = append(out, m.Name)
		}
	}
	return out
}

// look searches, after a check of the project.
func look(t testing.TB, p *timeline.Project, q Query) *Result {
	t.Helper()
	if err := p.Check(); err != nil {
		t.Fatal(err)
	}
	r, err := Search(context.Background(), p, q)
	if err != nil {
		t.Fatal(err)
	}
	return r
}
