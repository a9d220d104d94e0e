package svg

import "testing"

func TestNum(t *testing.T) {
	for v, want := range map[float64]string{0: "0", -0.001: "0", 1: "1", 10: "10", 1.5: "1.5", 2.256: "2.26", -3.1: "-3.1", 100: "100"} {
		s := writer{}
		if s.num(v); string(s.b) != want {
			t.Errorf("num(%v) = %q, want %q", v, s.b, want)
		}
	}
}
