package main

import (
	"strings"
	"testing"
)

func TestJudgeSaysWhatASetupIsWorth(t *testing.T) {
	_, out, _ := runIt(t, "judge", sample, "--setup", "Plain crossing")
	for _, want := range []string{
		"  Millrace blocked, 24 frames to punish: High water, 2980 points, and Spring Flood knocks down.\n",
		"  A hit ends the round from 2605 health or less.\n",
		"  The setup costs 820 points against the best route.\n",
		"  After a block: Thole, true string; Thole, a gap of 3 frames: Millrace beats it; keeps the turn by 2 frames.\n",
	} {
		if !strings.Contains(out, want) {
			t.Errorf("out lacks %q:\n%s", want, out)
		}
	}
	// A bait that no route leads to and no string follows has nothing to say.
	_, out, _ = runIt(t, "judge", sample, "--setup", "Too near the lock")
	for _, not := range []string{"ends the round", "points", "After a block"} {
		if strings.Contains(out, not) {
			t.Errorf("out has %q:\n%s", not, out)
		}
	}
}
