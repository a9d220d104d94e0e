package storage

import (
	"reflect"
	"slices"
	"testing"

	"wakeline/timeline"
)

// TestStandingRepliesAreSteps adds, changes and takes away replies that every
// setup against a fighter is asked, one by one in one step, and undoes it.
func TestStandingRepliesAreSteps(t *testing.T) {
	p := sample(t)
	f := made(t, p)
	of := f.Data().Fighters[0]
	jump, move := of.Jumps[0].Name, ""
	for i := range of.Moves {
		if !of.Moves[i].Air {
			move = of.Moves[i].Name
		}
	}
	was := of.Replies
	err := f.Edit("three replies", func(s *Step) error {
		for _, r := range []timeline.Reply{{Move: jump, Demand: timeline.Survive}, {Move: move, Demand: timeline.Beat, Late: 1, Costs: timeline.Some(5)}, {Move: move, Demand: timeline.Survive, Late: 2}} {
			if err := s.PutReply(of.Name, "", &r); err != nil {
				return err
			}
		}
		if err := s.PutReply(of.Name, move+" late 2", nil); err != nil {
			return err
		}
		return s.PutReply(of.Name, jump, &timeline.Reply{Move: jump, Demand: timeline.DemandNone, Late: 3})
	})
	want := append(slices.Clone(was), timeline.Reply{Move: jump, Demand: timeline.DemandNone, Late: 3}, timeline.Reply{Move: move, Demand: timeline.Beat, Late: 1, Costs: timeline.Some(5)})
	if got := f.Data().Fighters[0].Replies; err != nil || !reflect.DeepEqual(got, want) {
		t.Fatalf("%v: %v, want %v", err, got, want)
	}
	for _, c := range []struct {
		before string
		reply  *timeline.Reply
	}{
		{"not there", nil}, {"", &timeline.Reply{Move: "not there", Demand: timeline.Survive}}, {"", &timeline.Reply{Move: jump, Demand: timeline.Survive, Late: 3}},
	} {
		if err := f.Edit("wrong", func(s *Step) error { return s.PutReply(of.Name, c.before, c.reply) }); err == nil || !reflect.DeepEqual(f.Data().Fighters[0].Replies, want) {
			t.Errorf("%q %v: no error, %v", c.before, c.reply, f.Data().Fighters[0].Replies)
		}
	}
	if _, err := f.Undo(); err != nil || !reflect.DeepEqual(f.Data().Fighters[0].Replies, was) {
		t.Errorf("undone: %v, %v", err, f.Data().Fighters[0].Replies)
	}
}
