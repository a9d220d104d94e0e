package words

import (
	"testing"

	"wakeline/timeline"
)

func TestWorthWords(t *testing.T) {
	some, none := timeline.Some, timeline.Maybe{}
	for _, c := range [][2]string{
		{Link(some(1)), "links with 1 frame to spare"},
		{Link(some(0)), "links with nothing to spare"},
		{Link(some(-2)), "doesn't link: 2 frames too slow"},
		{Link(none), ""},
		{Gap(some(0), ""), "true string"},
		{Gap(some(3), "Rising cut"), "a gap of 3 frames: Rising cut beats it"},
		{Gap(some(1), ""), "a gap of 1 frame"},
		{Gap(none, ""), ""},
		{Turn(some(2), ""), "keeps the turn by 2 frames"},
		{Turn(some(0), ""), "both may act on one frame"},
		{Turn(some(-4), "Jab"), "gives up the turn: Jab punishes"},
		{Turn(some(-1), ""), "gives up the turn by 1 frame"},
		{Turn(none, ""), ""},
		{EndsRound(412), "ends the round from 412 health or less"},
		{CostsPoints(60), "costs 60 points against the best route"},
		{CostsPoints(0), "costs nothing against the best route"},
	} {
		if c[0] != c[1] {
			t.Errorf("got %q, want %q", c[0], c[1])
		}
	}
}
