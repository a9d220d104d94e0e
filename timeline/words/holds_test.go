package words

import (
	"math/rand/v2"
	"testing"

	"wakeline/timeline"
)

func TestHoldingIsSaid(t *testing.T) {
	type spans = []timeline.Bounds
	advantage := func(most int, of spans) Holding {
		return byAdvantage(48, &timeline.Holds{HoldsAdvantage: of, MostAdvantage: most})
	}
	for _, c := range []struct {
		name string
		h    Holding
		want string
	}{
		{"both sides", advantage(64, spans{{From: 47, To: 48}}), "holds at 47 to 48; 2 less or 1 more break it"},
		{"one frame", advantage(64, spans{{From: 48, To: 48}}), "holds at 48; 1 less or 1 more break it"},
		{"from 0 on", byDistance(120, spans{{From: 0, To: 131}}), "holds at 0 to 131; 12 more breaks it"},
		{"no end above", byDistance(120, spans{{From: 95, To: 320}}), "holds at 95 or more; 26 less breaks it"},
		{"no end below", advantage(64, spans{{From: 32, To: 50}}), "holds at 50 or less; 3 more breaks it"},
		{"no end", advantage(64, spans{{From: 32, To: 64}}), "holds at 32 or less to 64 or more; nothing tried breaks it"},
		{"nothing above was tried", advantage(50, spans{{From: 45, To: 50}}), "holds at 45 or more; 4 less breaks it"},
		{"too far", byDistance(120, spans{{From: 60, To: 90}}), "holds at 60 to 90; it needs 30 less"},
		{"between two", byDistance(120, spans{{From: 10, To: 20}, {From: 60, To: 90}, {From: 125, To: 130}, {From: 200, To: 210}}), "holds at 10 to 20, 60 to 90, 125 to 130 and 200 to 210; it needs 30 less or 5 more"},
		{"nowhere", byDistance(120, spans{}), "holds at no distance near this one"},
	} {
		if got := c.h.Say()[0]; got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// TestSlackIsTheNearestChange tries each number on either side in turn.
func TestSlackIsTheNearestChange(t *testing.T) {
	g := rand.New(rand.NewPCG(5, 8))
	here := 0
	for range 2000 {
		k := g.IntN(40)
		h := byAdvantage(k, &timeline.Holds{MostAdvantage: k + g.IntN(timeline.AdvantageTried+1)})
		holds := map[int]bool{}
		for n := h.Tried.From; n <= h.Tried.To; n++ {
			if g.IntN(3) == 0 {
				continue
			}
			holds[n] = true
			if last := len(h.Spans) - 1; last >= 0 && h.Spans[last].To == n-1 {
				h.Spans[last].To = n
			} else {
				h.Spans = append(h.Spans, timeline.Bounds{From: n, To: n})
			}
		}
		nearest := func(step int) timeline.Maybe {
			for n := k + step; n >= h.Tried.From && n <= h.Tried.To; n += step {
				if holds[n] != holds[k] {
					return timeline.Some((n - k) * step)
				}
			}
			return timeline.Maybe{}
		}
		if h.Here() != holds[k] {
			t.Fatalf("%+v: Here() = %v, want %v", h, h.Here(), holds[k])
		}
		less, more := h.Slack()
		if wantLess, wantMore := nearest(-1), nearest(1); less != wantLess || more != wantMore {
			t.Fatalf("%+v: Slack() = %v, %v, want %v, %v", h, less, more, wantLess, wantMore)
		}
		if h.Here() {
			here++
		}
	}
	if here < 500 || here > 1800 {
		t.Errorf("of 2000 it held where it stood in %d", here)
	}
}
