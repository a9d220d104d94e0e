package timeline

import (
	"reflect"
	"testing"
)

// TestCoveredTellsNothing: two scenes that differ in how they end alone are
// one when covered, and the plan in them stays.
func TestCoveredTellsNothing(t *testing.T) {
	seen := 0
	for seed := range uint64(200) {
		p := randomProject(seed)
		plan, err := Compile(p, p.Setups[0])
		if err != nil {
			continue
		}
		s := plan.Scene(plan.Setup.Delay, 0, 0)
		c := s.Covered()
		if !reflect.DeepEqual(c.Top, s.Top) || !reflect.DeepEqual(c.Bottom, s.Bottom) || c.Span != s.Span || c.Wake != s.Wake {
			t.Fatalf("seed %d: covering changed what is done", seed)
		}
		other := s
		other.Setup, other.Window = "another", []Bounds{{1, 2}}
		other.FirstTouch, other.TouchLate = Some(3), 2
		other.Cell, other.Overlap, other.Judgement, other.Verdict = Cell{Outcome: ReplyHits, Meeting: Some(3)}, Span{1, 2}, JudgedUnsafe, Unsafe
		other.Dimensions = append(other.Dimensions[:len(other.Dimensions):len(other.Dimensions)], Dimension{DimSpare, 1, 2, 1})
		if !reflect.DeepEqual(other.Covered(), c) {
			t.Fatalf("seed %d: the end shows through:\n%+v\n%+v", seed, other.Covered(), c)
		}
		seen++
	}
	if seen < 50 {
		t.Errorf("only %d scenes", seen)
	}
}

// TestRiseAddsItsFrames: the knockdown advantage ends where it ends, and what
// a rise adds stands beside it.
func TestRiseAddsItsFrames(t *testing.T) {
	p := dropIn(44)
	p.Fighters[1].Rises = append(p.Fighters[1].Rises, Rise{Name: "late", Extra: 12})
	plan, err := Compile(p, p.Setups[0])
	if err != nil {
		t.Fatal(err)
	}
	for rise, want := range [][]Dimension{{{DimAdvantage, 0, 44, 44}}, {{DimAdvantage, 0, 44, 44}, {DimRise, 44, 56, 12}}} {
		var got []Dimension
		s := plan.Scene(0, rise, 0)
		for _, d := range s.Dimensions {
			if d.Kind == DimAdvantage || d.Kind == DimRise {
				got = append(got, d)
			}
		}
		covered := s.Covered()
		if !reflect.DeepEqual(got, want) || !reflect.DeepEqual(covered.Dimensions, want) {
			t.Errorf("rise %d: %v, covered %v, want %v", rise, got, covered.Dimensions, want)
		}
	}
}
