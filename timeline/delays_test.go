package timeline

import (
	"math/rand/v2"
	"slices"
	"testing"
)

func TestSweep(t *testing.T) {
	p := dropIn(42, reversal(4)) // good at 0 to 2
	plan, err := Compile(p, p.Setups[0])
	if err != nil {
		t.Fatal(err)
	}
	late := dropIn(60, reversal(4)) // good at 18 to 20
	second, err := Compile(late, late.Setups[0])
	if err != nil {
		t.Fatal(err)
	}
	never := dropIn(20, reversal(4)) // the wake-up is over before a jump could meet it
	third, err := Compile(never, never.Setups[0])
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		plan          *Plan
		d, past, most int
		want          []int
	}{
		{plan, 0, 2, 40, []int{0, 1, 2, 3, 4}},
		{second, 18, 2, 40, []int{16, 17, 18, 19, 20, 21, 22}},
		{second, 24, 1, 40, []int{17, 18, 19, 20, 21, 22, 23, 24, 25}},
		{second, 18, 12, 6, []int{6, 11, 16, 17, 18, 20, 21, 26, 31, 32}},
		{third, 3, 2, 40, []int{1, 2, 3, 4, 5}},
	} {
		if got := Sweep(c.plan, c.d, c.past, c.most); !slices.Equal(got, c.want) {
			t.Errorf("Sweep(%d, %d, %d) with window %v = %v, want %v", c.d, c.past, c.most, c.plan.WindowSet().Spans(), got, c.want)
		}
	}
}

// TestStartDelayIsOutside: an exercise starts at no safe delay, where there is
// another, and at each of those about the window.
func TestStartDelayIsOutside(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	all := 0
	for seed := range uint64(200) {
		p := randomProject(seed)
		plan, err := Compile(p, p.Setups[0])
		if err != nil {
			continue
		}
		good, seen := plan.SafeDelays(), map[int]bool{}
		to := min(plan.LastDelay(), max(good.Last(), plan.Setup.Delay)+pastSafe)
		for range 100 {
			d := StartDelay(plan, random.IntN)
			if d < 0 || d > plan.LastDelay() {
				t.Fatalf("seed %d: delay %d of 0 to %d", seed, d, plan.LastDelay())
			}
			if outside := between(0, to+1).Minus(good); good.Has(d) && !outside.Empty() {
				t.Fatalf("seed %d: it starts at the safe delay %d", seed, d)
			}
			seen[d] = true
		}
		if outside := between(0, to+1).Minus(good).Count(); outside > 1 && len(seen) < 2 {
			t.Errorf("seed %d: one start of %d", seed, outside)
		} else if outside == 0 {
			all++
		}
	}
	if all == 0 {
		t.Error("no setup that is safe at every delay")
	}
}
