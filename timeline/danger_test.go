package timeline

import (
	"slices"
	"testing"
)

// rawDanger is the rank and number of a cell of line i, from the order's
// words.
func rawDanger(p *Plan, s *Setup, d, i int, c *Cell) [2]int {
	breaks := i >= 3 && s.Replies[i-3].Demand != DemandNone && !slowMeets(c, s.Replies[i-3].Demand)
	switch {
	case i == 2 && !p.bait && c.AfterWake != Some(0):
		return [2]int{0, c.Meeting.Or(1000)}
	case breaks && !slices.Contains(p.uncovered, i):
		return [2]int{1, c.Meeting.Or(1000)}
	case breaks:
		return [2]int{2, c.Meeting.Or(1000)}
	case p.Mark(i, c) == JudgedUnsafe:
		return [2]int{3, c.Meeting.Or(1000)}
	}
	return [2]int{4, c.Spare.Or(1000)}
}

func TestDangerOrder(t *testing.T) {
	first, mixed := 0, 0
	for seed := range uint64(600) {
		p := randomProject(seed)
		s := p.Setups[0]
		plan, err := Compile(p, s)
		if err != nil {
			continue
		}
		cells := make([]Cell, plan.Rises()*plan.Lines())
		for d := range min(plan.Fits()+1, 12) {
			plan.Fill(d, cells)
			for rise := -1; rise < plan.Rises(); rise++ {
				lanes := plan.Danger(d, rise, nil)
				var seen []int
				var last [3]int
				for n, l := range lanes {
					c := &cells[l.Rise*plan.Lines()+l.Line]
					if *c != l.Cell || rise >= 0 && l.Rise != rise {
						t.Fatalf("seed %d delay %d: lane %+v isn't the cell %+v", seed, d, l, *c)
					}
					own := rawDanger(plan, &s, d, l.Line, c)
					at := [3]int{own[0], own[1], l.Line}
					if n > 0 && slices.Compare(at[:], last[:]) < 0 {
						t.Fatalf("seed %d delay %d: lane %d %v comes after %v", seed, d, n, at, last)
					}
					last = at
					seen = append(seen, l.Line)
					if rise >= 0 {
						continue
					}
					for r := range plan.Rises() { // none is worse, and none before it as bad
						o := rawDanger(plan, &s, d, l.Line, &cells[r*plan.Lines()+l.Line])
						if n := slices.Compare(o[:], own[:]); n < 0 || n == 0 && r < l.Rise {
							t.Fatalf("seed %d delay %d line %d: rise %d is worse than %d", seed, d, l.Line, r, l.Rise)
						}
						if o != own {
							mixed++
						}
					}
				}
				slices.Sort(seen)
				for i, line := range seen {
					if line != i {
						t.Fatalf("seed %d: lines = %v, want each once", seed, seen)
					}
				}
			}
			if r, i := plan.Deciding(d); plan.Word(d) == Unsafe {
				if l := plan.Danger(d, -1, nil)[0]; l.Breaks {
					first++
					if l.Rise != r || l.Line != i {
						t.Fatalf("seed %d delay %d: first = rise %d line %d, want what the verdict names, %d %d", seed, d, l.Rise, l.Line, r, i)
					}
				}
			}
		}
	}
	if first < 100 || mixed < 100 {
		t.Errorf("verdicts named %d, rises that differ %d: want 100 of each", first, mixed)
	}
}

func TestDangerAllocatesNothing(t *testing.T) {
	_, plan := busyPlan(t, 0)
	lanes := make([]Lane, 0, plan.Lines())
	d := 0
	got := testing.AllocsPerRun(100, func() {
		lanes = plan.Danger(d, -1, lanes)
		d = (d + 1) % (plan.LastDelay() + 1)
	})
	if got != 0 {
		t.Errorf("allocations of Danger = %v, want 0", got)
	}
}

// BenchmarkDanger orders 43 replies on three rises.
func BenchmarkDanger(b *testing.B) {
	_, plan := busyPlan(b, 0)
	lanes := make([]Lane, 0, plan.Lines())
	b.ReportAllocs()
	for b.Loop() {
		lanes = plan.Danger(3, -1, lanes)
	}
}
