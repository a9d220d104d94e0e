package model

import (
	"testing"

	"wakeline/timeline"
)

func TestEditsOfRepliesAreNamed(t *testing.T) {
	a, b := timeline.Reply{Move: "Gale", Demand: timeline.Survive}, timeline.Reply{Move: "Hop", Demand: timeline.Survive, Late: 2}
	with := func(change func(r *timeline.Reply)) timeline.Reply {
		r := b
		change(&r)
		return r
	}
	for _, c := range []struct {
		before, after []timeline.Reply
		want          string
	}{
		{nil, []timeline.Reply{a}, "own replies"},
		{[]timeline.Reply{a}, nil, "standing replies of Ada"},
		{[]timeline.Reply{a}, []timeline.Reply{a, b}, "reply Hop late 2"},
		{[]timeline.Reply{b}, []timeline.Reply{a, b}, "reply Gale"},
		{[]timeline.Reply{a, b}, []timeline.Reply{b}, "without Gale"},
		{[]timeline.Reply{a, b}, []timeline.Reply{}, "replies"},
		{[]timeline.Reply{a, b}, []timeline.Reply{b, a}, "replies"},
		{[]timeline.Reply{a, b}, []timeline.Reply{a, a}, "reply Gale"},
		{[]timeline.Reply{a, b}, []timeline.Reply{a, with(func(r *timeline.Reply) { r.Late = 3 })}, "Hop late 3"},
		{[]timeline.Reply{a, b}, []timeline.Reply{a, with(func(r *timeline.Reply) { r.Demand = timeline.Beat })}, "demand beat of Hop late 2"},
		{[]timeline.Reply{a, b}, []timeline.Reply{a, with(func(r *timeline.Reply) { r.Costs = timeline.Some(70) })}, "70 points for Hop late 2"},
		{[]timeline.Reply{a, with(func(r *timeline.Reply) { r.Costs = timeline.Some(70) })}, []timeline.Reply{a, b}, "its damage for Hop late 2"},
	} {
		before, after := timeline.Setup{Rival: "Ada", Replies: c.before}, timeline.Setup{Rival: "Ada", Replies: c.after}
		if got := editName(&before, &after); got != c.want {
			t.Errorf("%v to %v is called %q, want %q", c.before, c.after, got, c.want)
		}
	}
}
