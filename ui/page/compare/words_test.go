package compare

import (
	"slices"
	"strings"
	"testing"

	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/timeline/patch"
	"wakeline/ui/model"
	"wakeline/ui/page/pagetest"
)

// TestALostReplyIsSaidBeforeTheWindowThatItWidens makes a reversal so quick
// that no delay covers it, of a setup that is limited already: its window
// grows, and that must not read as good news.
func TestALostReplyIsSaidBeforeTheWindowThatItWidens(t *testing.T) {
	before := pagetest.Sample()
	s := &before.Setups[0]
	s.Replies[3].Demand = timeline.Survive // against armour, which nothing covers
	after := pagetest.Sample()
	after.Fighters[1].Moves[0].Startup = 1
	c := compare.New(before, after).Of(s)
	if c.Turned() || len(c.Lost) == 0 || slices.Equal(c.Before.Window, c.After.Window) {
		t.Fatalf("the window does not grow by a reply that is lost: %+v", c)
	}
	for name, got := range map[string]string{"the strip": model.ChangeWords(&c), "the list": model.CoveredWords(&c), "the sentence": strings.ToLower(c.Because)} {
		lost, window := strings.Index(got, strings.ToLower(c.Lost[0])), strings.Index(got, "window")
		if lost < 0 || window < lost {
			t.Errorf("%s says %q", name, got)
		}
	}
}

// TestTheSheetsShowTheReplyThatIsLost: before it was met, and after it wins.
func TestTheSheetsShowTheReplyThatIsLost(t *testing.T) {
	before, after := pagetest.Sample(), pagetest.Sample()
	s := before.Setups[0]
	after.Fighters[1].Moves[0].Startup = 1
	s.Delay, s.Replies = 5, slices.Clone(s.Replies)
	s.Replies[0], s.Replies[1] = s.Replies[1], s.Replies[0]
	p := patch.New(before, after)
	c := p.Setups.Of(&s)
	if len(c.Lost) == 0 || c.Lost[0] != "rising gale" {
		t.Fatalf("no reply is lost: %+v", c)
	}
	halves := pairOf(p, s, &c, "", "Before", "After")
	for i := range halves {
		if got := halves[i].scene.Reply; got != "rising gale" {
			t.Errorf("sheet %d shows %q", i, got)
		}
	}
	if halves[0].scene.Cell.Outcome == halves[1].scene.Cell.Outcome {
		t.Errorf("both sheets show %v", halves[0].scene.Cell.Outcome)
	}
}
