package timeline

import (
	"fmt"
	"testing"
	"time"
)

// busyProject is a rival with 40 replies of every kind, met on three rises.
// Its setups: a jump attack, and a bait, meaty at every delay.
func busyProject() *Project {
	att := Fighter{
		Name: "Hesk",
		Moves: []Move{
			{Name: "sweep", Kind: Strike, Level: Low, Startup: 8, Active: []int{3}, Recovery: 20, Knockdown: Places{Some(54), Some(54)}},
			{Name: "step", Kind: Dash, Length: 11},
			{Name: "dive", Kind: Strike, Air: true, Level: Overhead, Startup: 7, Active: []int{6}, Hitstun: Some(20), Guardstun: Some(16), Top: Some(160)},
		},
		Jumps: []Jump{{Name: "hop", Prejump: 4, Airborne: 39, Landing: 3, Apex: Some(200)}},
		Rises: []Rise{{Name: "normal"}},
	}
	riv := Fighter{
		Name: "Tarn", Body: Some(100),
		Rises: []Rise{{Name: "normal"}, {Name: "backward", Extra: 1, Shift: 40}, {Name: "slow", Extra: 1}},
		Jumps: []Jump{{Name: "leap", Prejump: 4, Airborne: 36, Landing: 2, Apex: Some(180)}, {Name: "vault", Prejump: 3, Airborne: 30, Landing: 4}},
	}
	kinds := []func(n int) Move{
		func(n int) Move {
			return Move{Kind: Strike, Level: Mid, Startup: 3 + n, Active: []int{3}, Recovery: 20, OnGuard: Some(-12)}
		},
		func(n int) Move {
			return Move{Kind: Strike, Level: Mid, Startup: 4 + n, Active: []int{2, 5, 2, 5, 3}, Recovery: 24, Guardstun: Some(14), Immune: []Immunity{{Window{1, 5 + n}, true, true}}}
		},
		func(n int) Move {
			return Move{Kind: Strike, Level: Low, Startup: 6 + n, Active: []int{4}, Recovery: 18, OnGuard: Some(-6), Armour: []Armour{{Window{1, 6 + n}, 1}}}
		},
		func(n int) Move {
			return Move{Kind: Throw, Level: LevelThrow, Startup: 5 + n, Active: []int{3}, Recovery: 22}
		},
		func(n int) Move {
			return Move{Kind: Evade, Length: 22 + n, AirborneFrom: Some(6), Immune: []Immunity{{Window{1, 8 + n}, true, false}}}
		},
		func(n int) Move { return Move{Kind: Parry, Length: 30 + n, Parry: []Window{{1 + n, 12}}} },
		func(n int) Move {
			return Move{Kind: Strike, Level: Overhead, Startup: 18 + n, Active: []int{3, 8, 4}, Recovery: 20, Guardstun: Some(18), AirborneFrom: Some(4), Top: Some(120)}
		},
	}
	s := Setup{Name: "drop in", Attacker: "Hesk", Rival: "Tarn", Ender: "sweep", Position: Midscreen, Fillers: []string{"step"}, Jump: "hop", Attack: "dive", Landing: DoGuard}
	for i := range 35 {
		m := kinds[i%len(kinds)](i / len(kinds))
		m.Name = fmt.Sprintf("answer %d", i)
		riv.Moves = append(riv.Moves, m)
		s.Replies = append(s.Replies, Reply{Move: m.Name, Demand: []Demand{Survive, Survive, Beat}[i%3], Late: i % 4 / 3 * 2})
	}
	for i := range 5 {
		s.Replies = append(s.Replies, Reply{Move: []string{"leap", "vault"}[i%2], Demand: Survive, Late: i})
	}
	bait := s
	bait.Name, bait.Attack = "wait and guard", ""
	return &Project{DefaultRuleset(), []Fighter{att, riv}, []Setup{s, bait}}
}

// spread gives every move of p a reach and a way to go, each rise a shift, and
// its setups a distance, from which the dive comes down on the rival.
func spread(p *Project) *Project {
	for i := range p.Fighters {
		f := &p.Fighters[i]
		for k := range f.Moves {
			m := &f.Moves[k]
			m.Travel = 7*(k%9) - 20
			m.Reach = &Interval{-30, 50 + 11*(k%7)}
		}
		for k := range f.Jumps {
			f.Jumps[k].Travel = 120 - 200*i
		}
	}
	p.Fighters[1].Rises[2].Shift = -15
	for i := range p.Setups {
		p.Setups[i].Distance, p.Setups[i].Room = Some(150), Some(60)
	}
	return p
}

// busyPlan compiles the busy project's setup of that number.
func busyPlan(tb testing.TB, n int) (*Project, *Plan) { return planOf(tb, busyProject(), n) }

func planOf(tb testing.TB, p *Project, n int) (*Project, *Plan) {
	if err := p.Check(); err != nil {
		tb.Fatal(err)
	}
	plan, err := Compile(p, p.Setups[n])
	if err != nil {
		tb.Fatal(err)
	}
	return p, plan
}

func TestFillAllocatesNothing(t *testing.T) {
	for n := range 4 {
		p := busyProject()
		if n > 1 {
			spread(p)
		}
		_, plan := planOf(t, p, n%2)
		cells := make([]Cell, plan.Rises()*plan.Lines())
		d := 0
		got := testing.AllocsPerRun(100, func() {
			plan.Fill(d, cells)
			d = (d + 1) % (plan.LastDelay() + 1)
		})
		if got != 0 {
			t.Errorf("setup %d: allocations of Fill = %v, want 0", n, got)
		}
	}
}

// BenchmarkJudge meets 43 replies on three rises at one delay.
func BenchmarkJudge(b *testing.B) {
	for _, in := range []struct {
		name string
		p    *Project
	}{{"frames", busyProject()}, {"distances", spread(busyProject())}} {
		b.Run(in.name, func(b *testing.B) {
			_, plan := planOf(b, in.p, 0)
			cells := make([]Cell, plan.Rises()*plan.Lines())
			b.ReportAllocs()
			for b.Loop() {
				plan.Fill(3, cells)
			}
		})
	}
}

// BenchmarkHoldsDistance goes through 600 units of distance with 40 replies on
// three rises: for an attack, and for a bait, which is meaty everywhere.
func BenchmarkHoldsDistance(b *testing.B) {
	for n, name := range []string{"attack", "bait"} {
		b.Run(name, func(b *testing.B) {
			p := spread(busyProject())
			p.Setups[n].Distance = Some(400)
			p.Fighters[0].Jumps[0].Travel = 350
			_, plan := planOf(b, p, n)
			for b.Loop() {
				tolerance{plan, 3, func() bool { return false }}.distance()
			}
		})
	}
}

// BenchmarkHolds is all that a verdict says of what else the plan holds for.
func BenchmarkHolds(b *testing.B) {
	for _, in := range []struct {
		name string
		p    *Project
	}{{"frames", busyProject()}, {"distances", spread(busyProject())}} {
		b.Run(in.name, func(b *testing.B) {
			_, plan := planOf(b, in.p, 0)
			for b.Loop() {
				plan.Holds(3)
			}
		})
	}
}

// BenchmarkJudgeByFrames is the slow reading of the same input. It must take
// at least twenty times as long, or the sets aren't worth their trouble.
func BenchmarkJudgeByFrames(b *testing.B) {
	p, plan := busyPlan(b, 0)
	x := newSlowPlan(p, &p.Setups[0])
	n := 0
	for b.Loop() {
		x.table(3)
		n++
	}
	slow := b.Elapsed() / time.Duration(n)
	cells := make([]Cell, plan.Rises()*plan.Lines())
	start := time.Now()
	for range 10000 {
		plan.Fill(3, cells)
	}
	times := float64(slow) / float64(time.Since(start)/10000)
	b.ReportMetric(times, "times-slower")
	if n > 100 && times < 20 {
		b.Errorf("the slow reading takes %.1f times as long, want 20 or more", times)
	}
}

// BenchmarkWindow compiles a setup and finds its window over the whole range.
func BenchmarkWindow(b *testing.B) {
	for n, name := range []string{"attack", "bait"} {
		b.Run(name, func(b *testing.B) {
			p, _ := busyPlan(b, n)
			for b.Loop() {
				if _, err := Compile(p, p.Setups[n]); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkIndex compiles one setup after the other, as over a whole project:
// 43 replies on 3 rises, judged at its delay.
func BenchmarkIndex(b *testing.B) {
	p := busyProject()
	ix := NewIndex(p)
	b.ReportAllocs()
	for b.Loop() {
		if err := ix.With(p.Setups[0], func(p *Plan, into []Cell) { p.Meetings(p.Setup.Delay, into) }); err != nil {
			b.Fatal(err)
		}
	}
}
