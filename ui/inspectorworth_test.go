package ui

import (
	"reflect"
	"strings"
	"testing"

	"wakeline/samples"
	"wakeline/timeline"
)

// TestWhatFollowsIsEditedInTheNumbers puts in the route after a hit, the routes
// that punish, the string, the points of a block and those of a reply; undo
// names each, and what can't stand is refused.
func TestWhatFollowsIsEditedInTheNumbers(t *testing.T) {
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	w := open(t, p, laptop)
	if !w.numbers.Visible() {
		w.showNumbers(2000)
	}
	w.model.Show(0, timeline.FirstReply)
	follow := []timeline.FollowStep{{Move: "Thole", By: timeline.Link}, {Move: "Sounding", Wait: 2, By: timeline.Link}, {Move: "Keel Scrape", By: timeline.Cancel}}
	for _, c := range []struct {
		put  func()
		want func(s *timeline.Setup)
		step string
	}{
		{func() { choose(t, w, "Route after a hit", "Short tow") }, func(s *timeline.Setup) { s.OnHit = "Short tow" }, "Short tow after a hit"},
		{func() { choose(t, w, "Route after a hit", "the attack alone") }, func(s *timeline.Setup) { s.OnHit = "" }, "no route after a hit"},
		{func() { putIn(t, w, "Routes that punish", "Short tow, Long tow") }, func(s *timeline.Setup) { s.Punish = []string{"Short tow", "Long tow"} }, "punish with Short tow, Long tow"},
		{func() { putIn(t, w, "String after a block", "thole, wait 2 Sounding > keel scrape") }, func(s *timeline.Setup) { s.Follow = follow }, "Thole, wait 2 Sounding > Keel Scrape after a block"},
		{func() { putIn(t, w, "String after a block", "") }, func(s *timeline.Setup) { s.Follow = nil }, "no string after a block"},
		{func() { putIn(t, w, "Points of a block", "70") }, func(s *timeline.Setup) { s.Pressure = 70 }, "70 points for a block"},
		{func() { putIn(t, w, "Points the reply takes", "900") }, func(s *timeline.Setup) { s.Replies[0].Costs = timeline.Some(900) }, "900 points for " + w.model.Setup().Replies[0].Move},
	} {
		want := w.model.Setup()
		want.Replies = append([]timeline.Reply{}, want.Replies...)
		c.want(&want)
		c.put()
		if got := w.model.Setup(); !reflect.DeepEqual(got, want) {
			t.Errorf("%s: the setup is %+v, want %+v", c.step, got, want)
		}
		if undo, _ := w.model.Document().Next(); undo.What != c.step {
			t.Errorf("undo takes back %q, want %q", undo.What, c.step)
		}
	}
	before := w.model.Setup()
	putIn(t, w, "String after a block", "no such move")
	putIn(t, w, "Routes that punish", "no such route")
	if got := w.model.Setup(); !reflect.DeepEqual(got, before) {
		t.Errorf("what can't stand was taken: %+v", got)
	}
}

// TestTheNumbersSayWhatASetupIsWorth lists it with the other results, and the
// sentence of the shown reply names the route.
func TestTheNumbersSayWhatASetupIsWorth(t *testing.T) {
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	w := open(t, p, laptop)
	if !w.numbers.Visible() {
		w.showNumbers(2000)
	}
	got := map[string]string{}
	for _, f := range w.numbers.Facts.Facts {
		got[f.Name] = f.Value
	}
	for name, want := range map[string]string{
		"points given up for the setup": "820", "a hit ends the round from": "2605 health",
		"at the end of the string": "+2", "the string": "keeps the turn by 2 frames", "string, Thole": "a gap of 3 frames: Millrace beats it",
	} {
		if got[name] != want {
			t.Errorf("%s: %q, want %q", name, got[name], want)
		}
	}
	w.explain.Fill()
	if say := w.explain.Rows[0].Text; !strings.Contains(say, "Millrace blocked, 24 frames to punish: High water, 2980 points, and Spring Flood knocks down.") {
		t.Errorf("the words are %q", say)
	}
}
