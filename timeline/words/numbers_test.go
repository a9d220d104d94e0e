package words

import "testing"

func TestCount(t *testing.T) {
	for _, c := range []struct {
		n     int
		thing string
		want  string
	}{
		{1, "reply", "1 reply"}, {2, "reply", "2 replies"}, {0, "press", "0 presses"}, {1, "press", "1 press"}, {3, "contact sheet", "3 contact sheets"},
		{2, "delay", "2 delays"}, {2, "entry", "2 entries"},
	} {
		if got := Count(c.n, c.thing); got != c.want {
			t.Errorf("Count(%d, %q) = %q, want %q", c.n, c.thing, got, c.want)
		}
	}
	if got := Frames(1) + ", " + Frames(2); got != "1 frame, 2 frames" {
		t.Errorf("frames: %s", got)
	}
}

func TestPercent(t *testing.T) {
	for p, want := range map[float64]string{0: "0 %", 0.001: "under 1 %", 0.0051: "1 %", 0.684: "68 %", 0.9999: "over 99 %", 1: "100 %"} {
		if got := Percent(p); got != want {
			t.Errorf("Percent(%v) = %q, want %q", p, got, want)
		}
	}
}
