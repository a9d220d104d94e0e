package words

import "testing"

func TestPercent(t *testing.T) {
	for p, want := range map[float64]string{0: "0 %", 0.001: "under 1 %", 0.0051: "1 %", 0.684: "68 %", 0.9999: "over 99 %", 1: "100 %"} {
		if got := Percent(p); got != want {
			t.Errorf("Percent(%v) = %q, want %q", p, got, want)
		}
	}
}
