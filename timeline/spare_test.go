package timeline

import "testing"

func TestLeastSpare(t *testing.T) {
	of := func(demand Demand, spare Maybe) ReplyVerdict { return ReplyVerdict{Demand: demand, Spare: spare} }
	for _, c := range []struct {
		name  string
		rises []RiseVerdict
		want  Maybe
	}{
		{"no rise", nil, Maybe{}},
		{"no spare", []RiseVerdict{{Replies: []ReplyVerdict{of(Survive, Maybe{})}}}, Maybe{}},
		{"the least of two rises", []RiseVerdict{{Replies: []ReplyVerdict{of(Survive, Some(4)), of(Beat, Some(3))}}, {Replies: []ReplyVerdict{of(Survive, Some(2))}}}, Some(2)},
		{"too late", []RiseVerdict{{Replies: []ReplyVerdict{of(Survive, Some(0)), of(Survive, Some(-1))}}}, Some(-1)},
		{"only shown", []RiseVerdict{{Replies: []ReplyVerdict{of(DemandNone, Some(1)), of(Survive, Some(5))}}}, Some(5)},
	} {
		if got := (&Verdict{Rises: c.rises}).Spare(); got != c.want {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}
