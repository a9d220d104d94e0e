package words

import (
	"testing"

	"wakeline/timeline"
)

func TestThen(t *testing.T) {
	if got := Then(nil); got != "" {
		t.Errorf("of nothing: %q", got)
	}
	step := func(name string, gap timeline.Maybe, by string) timeline.SequelStep {
		return timeline.SequelStep{Block: timeline.Block{Name: name}, Gap: gap, BeatenBy: by}
	}
	for want, q := range map[string]timeline.Sequel{
		"Rising lantern blocked, 24 frames to punish: Long ladder, 412 points, and 'Plain crossing' again.": {Outcome: timeline.ReplyBlocked, Setup: "Plain crossing",
			Reply: "Rising lantern", ToPunish: timeline.Some(24), Name: "Long ladder", Points: 412, Ends: "Sweep", Again: true},
		"Slip touches nothing, 1 frame to punish: Jab, 1 point.": {Outcome: timeline.NoContact, Reply: "Slip", ToPunish: timeline.Some(1), Name: "Jab", Points: 1},
		"Cut blocked: Far ladder, 90 points, and Sweep knocks down.": {Outcome: timeline.ReplyBlocked, Reply: "Cut", ToPunish: timeline.Some(-2),
			Name: "Far ladder", Points: 90, Ends: "Sweep"},
		"After a hit: Short ladder, 300 points.": {Kind: timeline.HitOn, Outcome: timeline.AttackHits, Name: "Short ladder", Points: 300},
		"After a block: Jab, true string; Kick, a gap of 3 frames: Cut beats it; Low; gives up the turn: Jab punishes.": {Kind: timeline.Guarded, Outcome: timeline.AttackBlocked,
			Steps:     []timeline.SequelStep{step("Jab", timeline.Some(0), ""), step("Kick", timeline.Some(3), "Cut"), step("Low", timeline.Maybe{}, "")},
			Advantage: timeline.Some(-5), PunishedBy: "Jab"},
	} {
		if got := Then(&q); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
}
