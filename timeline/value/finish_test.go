package value

import (
	"context"
	"fmt"
	"math/rand/v2"
	"reflect"
	"testing"

	"wakeline/timeline"
)

// chance draws a small project: enders that lead into one another, routes that
// cost and gain gauge, setups that guard or attack.
func chance(t *testing.T, seed uint64) *timeline.Project {
	g := rand.New(rand.NewPCG(seed, 3))
	to := func(lo, hi int) int { return lo + g.IntN(hi-lo+1) }
	p := &timeline.Project{Ruleset: timeline.DefaultRuleset()}
	p.Ruleset.Gauge, p.Ruleset.Scaling = 3, []int{100, 50}
	ada := timeline.Fighter{Name: "Ada", Rises: timeline.DefaultRises()}
	for i := range 4 {
		m := timeline.Move{Name: fmt.Sprint("m", i), Kind: timeline.Strike, Level: timeline.Mid, Startup: to(3, 7), Active: []int{2}, Recovery: 8, Damage: 10 * to(0, 4),
			GaugeCost: to(0, 1), GaugeGain: to(0, 1), OnHit: timeline.Some(to(0, 9)), OnGuard: timeline.Some(-2)}
		if i < 2 {
			m.Knockdown.Midscreen = timeline.Some(10)
		}
		ada.Moves = append(ada.Moves, m)
	}
	for i := range 4 {
		r := timeline.Route{Name: fmt.Sprint("r", i)}
		for range to(1, 2) {
			r.Steps = append(r.Steps, timeline.RouteStep{Move: fmt.Sprint("m", to(0, 3)), By: timeline.Cancel})
		}
		ada.Routes = append(ada.Routes, r)
	}
	bea := timeline.Fighter{Name: "Bea", Rises: timeline.DefaultRises(), Moves: []timeline.Move{
		{Name: "rise", Kind: timeline.Strike, Level: timeline.Mid, Startup: 3, Active: []int{2}, Recovery: 25, OnGuard: timeline.Some(-24), Damage: 50},
		{Name: "back", Kind: timeline.Dash, Length: to(4, 20)}}}
	p.Fighters = []timeline.Fighter{ada, bea}
	for i := range to(1, 4) {
		s := timeline.Setup{Name: fmt.Sprint("s", i), Attacker: "Ada", Rival: "Bea", Ender: fmt.Sprint("m", to(0, 1)), Position: timeline.Midscreen, Landing: timeline.DoGuard,
			Punish: []string{"r0", "r1", "r2", "r3"}[:to(1, 4)], Replies: []timeline.Reply{}}
		if g.IntN(2) == 0 {
			move := &ada.Moves[to(0, 3)]
			s.Landing, s.Delay = move.Name, 10-move.FirstActive(p.Ruleset)
			s.OnHit = []string{"", "r1", "r2"}[to(0, 2)]
		}
		if g.IntN(2) == 0 {
			s.Replies = []timeline.Reply{{Move: "rise", Demand: timeline.Survive}, {Move: "back", Demand: timeline.Beat}}
		}
		p.Setups = append(p.Setups, s)
	}
	if err := p.Check(); err != nil {
		t.Fatal(err)
	}
	return p
}

// tried is a whole sequence of rounds that was tried.
type tried struct{ rounds, spent, damage int }

func (a tried) before(b tried, health int) bool {
	aEnds, bEnds := a.damage >= health, b.damage >= health
	if aEnds != bEnds {
		return aEnds
	}
	if !aEnds && a.damage != b.damage {
		return a.damage > b.damage
	}
	if a.rounds != b.rounds {
		return a.rounds < b.rounds
	}
	if a.spent != b.spent {
		return a.spent < b.spent
	}
	return a.damage > b.damage
}

// tryAll plays every sequence of rounds, each with one route allowed alone.
func tryAll(t *testing.T, p *timeline.Project, s timeline.Setup, reply string, health, gauge int, so tried, best *tried) {
	if so.before(*best, health) {
		*best = so
	}
	if so.damage >= health || so.rounds == 5 {
		return
	}
	plan, err := timeline.Compile(p, s)
	if err != nil || plan.Word(s.Delay) == timeline.Unsafe {
		return
	}
	for _, u := range plan.Uncovered() {
		if u == reply {
			return
		}
	}
	line := timeline.LineNothing
	if reply != timeline.Nothing {
		if len(s.Replies) == 0 {
			s.Replies = []timeline.Reply{{Move: "rise", Demand: timeline.DemandNone}, {Move: "back", Demand: timeline.DemandNone}}
		}
		line = timeline.FirstReply
		if reply == "back" {
			line++
		}
	}
	ada := &p.Fighters[0]
	for choice := -1; choice < len(s.Punish); choice++ {
		one := s
		if choice >= 0 {
			one.Punish = s.Punish[choice : choice+1]
		}
		played, err := timeline.Compile(p, one)
		if err != nil {
			return
		}
		m := played.Meetings(one.Delay, nil)
		c := *m.Cell(timeline.Exchange{Line: line})
		hits := c.Outcome == timeline.AttackHits
		switch {
		case !c.Outcome.Survived():
			return
		case hits && choice > 0, !hits && choice < 0: // a hit has two ways: without on_hit and with it
			continue
		}
		if hits && choice < 0 {
			one.OnHit = ""
			if played, err = timeline.Compile(p, one); err != nil {
				return
			}
			m = played.Meetings(one.Delay, nil)
		}
		w := NewBook(p).Of(&m, Gauges{Attacker: timeline.Some(gauge)}).Rises[0][line]
		if !w.Kills.Given || hits && choice == 0 && w.Route == "" {
			continue
		}
		next := tried{so.rounds + 1, so.spent, so.damage + w.Kills.N}
		left, ender := gauge, ""
		pay := func(name string) {
			mv := ada.Move(name)
			left = min(left-mv.GaugeCost+mv.GaugeGain, p.Ruleset.Gauge)
			next.spent += mv.GaugeCost
			ender = name
		}
		if s.Landing != timeline.DoGuard && (!c.Meeting.Given || one.Delay <= c.Meeting.N) {
			pay(s.Landing)
		}
		if w.Route != "" {
			for _, step := range ada.Route(w.Route).Steps {
				pay(step.Move)
			}
		}
		stops := true
		for _, after := range p.Setups {
			if after.Ender == ender && ada.Move(ender).Knockdown.Midscreen.Given {
				stops = false
				tryAll(t, p, after, reply, health, left, next, best)
			}
		}
		if stops && next.before(*best, health) {
			*best = next
		}
	}
}

// TestFinishAgainstEverySequence: no sequence of rounds ends it sooner, for less
// gauge, or with more damage.
func TestFinishAgainstEverySequence(t *testing.T) {
	seen := map[string]int{}
	for seed := range uint64(300) {
		p := chance(t, seed)
		reply := []string{timeline.Nothing, "rise", "back"}[seed%3]
		gauge, health := int(seed%4), 20+int(seed*7%90)
		got, err := NewBook(p).Finish(context.Background(), timeline.NewIndex(p), FinishQuery{Begin: p.Setups[0], Setups: p.Setups, Reply: reply, Health: timeline.Some(health), Gauge: timeline.Some(gauge)})
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		want := tried{}
		tryAll(t, p, p.Setups[0], reply, health, gauge, tried{}, &want)
		if len(got.Rounds) > 5 || want.rounds == 5 && want.damage < health {
			seen["too long to try"]++
			continue
		}
		damage, left, spent := 0, health, 0
		for _, r := range got.Rounds {
			for _, s := range p.Setups {
				if m := p.Fighters[0].Move(s.Landing); s.Name == r.Setup && m != nil { // it begins before the wake-up
					spent += m.GaugeCost
				}
			}
			if r.Route != "" {
				for _, step := range p.Fighters[0].Route(r.Route).Steps {
					spent += p.Fighters[0].Move(step.Move).GaugeCost
				}
			}
			damage += r.Damage
			if left -= r.Damage; r.Health != left {
				t.Errorf("seed %d: health %d, want %d", seed, r.Health, left)
			}
		}
		if got.Ends != (want.damage >= health) || len(got.Rounds) != want.rounds || damage != want.damage || spent != want.spent {
			t.Errorf("seed %d: %+v, want %+v of %d health", seed, got, want, health)
		}
		seen[fmt.Sprintf("ends %v in %d", got.Ends, len(got.Rounds))]++
	}
	for _, what := range []string{"ends true in 1", "ends true in 2", "ends true in 3", "ends false in 0", "ends false in 1"} {
		if seen[what] < 3 {
			t.Errorf("%q happened %d times: %v", what, seen[what], seen)
		}
	}
}

// TestFinish works one out by hand: a hit for 100, of which the kick knocks
// nobody down, against one that the measured route ends.
func TestFinish(t *testing.T) {
	p := ringOf(t)
	ask := func(setup int, reply string, health int) Finish {
		f, err := NewBook(p).Finish(context.Background(), timeline.NewIndex(p), FinishQuery{Begin: p.Setups[setup], Setups: p.Setups, Reply: reply, Health: timeline.Some(health)})
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	if got, want := ask(2, timeline.Nothing, 100).Rounds, []FinishRound{{"plain", "nothing", timeline.AttackHits, "", 100, 3, 0}}; !reflect.DeepEqual(got, want) {
		t.Errorf("100 health: %+v, want %+v", got, want)
	}
	if got := ask(2, timeline.Nothing, 101); got.Ends || got.Because != "1 point of health is left: after the last round no setup follows the ender." {
		t.Errorf("101 health: %+v", got)
	}
	// The drop leads to the setups again: 80 for two segments, then 999 for one.
	if got := ask(1, "rise", 1079); !got.Ends || len(got.Rounds) != 2 || got.Rounds[0].Route != "drop" || got.Rounds[1].Route != "tried" || got.Rounds[1].Gauge != 0 {
		t.Errorf("1079 health: %+v", got)
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := NewBook(p).Finish(ctx, timeline.NewIndex(p), FinishQuery{Begin: p.Setups[0], Setups: p.Setups, Reply: "rise"}); err != context.Canceled {
		t.Errorf("cancelled: %v", err)
	}
}

func BenchmarkFinish(b *testing.B) {
	p, err := timeline.ReadText([]byte(ring))
	if err != nil {
		b.Fatal(err)
	}
	p.Ruleset.Gauge = 12
	for i := range 200 {
		s := p.Setups[1]
		s.Name = fmt.Sprint("block ", i)
		p.Setups = append(p.Setups, s)
	}
	book, index := NewBook(p), timeline.NewIndex(p)
	for b.Loop() {
		s := p.Setups[1]
		s.Punish = nil
		if _, err := book.Finish(context.Background(), index, FinishQuery{Begin: s, Setups: p.Setups, Reply: "rise", Health: timeline.Some(1000)}); err != nil {
			b.Fatal(err)
		}
	}
}
