package timeline

import (
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
		if got := c.plan.Sweep(c.d, c.past, c.most); !slices.Equal(got, c.want) {
			t.Errorf("Sweep(%d, %d, %d) with window %v = %v, want %v", c.d, c.past, c.most, c.plan.WindowSet().Spans(), got, c.want)
		}
	}
}
