package timeline

import (
	"reflect"
	"strings"
	"testing"
)

// TestGuessSays holds the words to hand-worked numbers: a jump of 43 frames to
// touchdown meets an advantage of 47 with its last air frame at delay 5, and a
// reversal active on 50 leaves room for a delay of 7 at the latest.
func TestGuessSays(t *testing.T) {
	p := dropIn(47, reversal(4))
	plan, err := Compile(p, p.Setups[0])
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		d     int
		right bool
		off   int
		words string
	}{
		{0, false, -5, "You did not wait, which is 5 frames too early: safe is a delay of 5 to 7. "},
		{4, false, -1, "You waited 4 frames, which is 1 frame too early: safe is a delay of 5 to 7. "},
		{5, true, 0, "You waited 5 frames, and it is safe. Safe is a delay of 5 to 7. "},
		{7, true, 0, "You waited 7 frames, and it is safe. "},
		{9, false, 2, "You waited 9 frames, which is 2 frames too late: safe is a delay of 5 to 7. "},
	} {
		if got := plan.Guess(c.d); got.Right != c.right || got.Off != c.off || !strings.HasPrefix(got.Words, c.words) {
			t.Errorf("delay %d = %+v, want %+v", c.d, got, c)
		}
	}
	if got := plan.GuessNone(); got.Right || !strings.Contains(got.Words, "There is one: safe is a delay of 5 to 7. ") {
		t.Errorf("none = %+v", got)
	}
}

// TestGuessOfRandomSetups: right is what the verdict doesn't call unsafe, and
// the frames that it is off lead to the nearest such delay.
func TestGuessOfRandomSetups(t *testing.T) {
	right, off, none := 0, 0, 0
	for seed := range uint64(300) {
		p := randomProject(seed)
		plan, err := Compile(p, p.Setups[0])
		if err != nil {
			continue
		}
		safe := func(d int) bool { return d >= 0 && d <= plan.LastDelay() && plan.Word(d) != Unsafe }
		any := false
		for d := 0; d <= plan.LastDelay(); d++ {
			any = any || safe(d)
		}
		if got := plan.GuessNone(); got.Right == any {
			t.Fatalf("seed %d: none = %+v, but safe delays: %v", seed, got, any)
		}
		for d := 0; d <= plan.LastDelay(); d += 3 {
			got := plan.Guess(d)
			if got.Right != safe(d) || got.Words == "" {
				t.Fatalf("seed %d, delay %d: %+v, want %v", seed, d, got, safe(d))
			}
			switch {
			case got.Right:
				right++
			case !any:
				none++
			default:
				off++
				if !safe(d - got.Off) {
					t.Fatalf("seed %d, delay %d: off by %d, where nothing is safe", seed, d, got.Off)
				}
				for n := 1; n < max(got.Off, -got.Off); n++ {
					if safe(d-n) || safe(d+n) {
						t.Fatalf("seed %d, delay %d: off by %d, but %d away is safe", seed, d, got.Off, n)
					}
				}
			}
		}
	}
	if right == 0 || off == 0 || none == 0 {
		t.Errorf("%d right, %d off, %d with none: too few", right, off, none)
	}
}

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
		other.Setup, other.Sentence, other.Window = "another", "another", []Bounds{{1, 2}}
		other.Cell, other.Overlap, other.Judgement, other.Verdict = Cell{Outcome: Hit, Meeting: Some(3)}, Span{1, 2}, JudgedUnsafe, Unsafe
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
