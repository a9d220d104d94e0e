package value

import "testing"

// TestReading: of two by two, odd or even, against a rival that shows its first
// three times in four. The rows then make -3/4 and 5/4, the best shares of 7/12
// and 5/12 the value, 1/12, as always against what the rival may use.
func TestReading(t *testing.T) {
	payoff := payoffs(t, "-2 3; 3 -4")
	m := &Mix{Rows: make([]MixRow, 2), Columns: make([]MixColumn, 2), Payoff: payoff}
	m.take(solved(t, payoff))
	r, ok := m.Reading([]int{3, 1})
	if !ok || r.Row != 1 || r.Makes.RatString() != "5/4" || r.Mixed.RatString() != "1/12" || r.Gain.RatString() != "7/6" {
		t.Errorf("three in four: %+v, %v", r, ok)
	}
	if r, ok := m.Reading([]int{7, 5}); !ok || r.Gain.Sign() != 0 {
		t.Errorf("its own best shares: %+v, want nothing gained", r)
	}
	for _, bad := range [][]int{nil, {1}, {0, 0}, {-1, 2}} {
		if r, ok := m.Reading(bad); ok {
			t.Errorf("%v: %+v", bad, r)
		}
	}
}
