package value

import (
	"testing"

	"wakeline/samples"
	"wakeline/timeline"
)

// TestAgainstIsOfTheSetupWithThoseReplies: what a setup's own replies come to, on
// each rise, and of another one what the setup comes to that lists it.
func TestAgainstIsOfTheSetupWithThoseReplies(t *testing.T) {
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	index, book, others := timeline.NewIndex(p), NewBook(p), 0
	for _, s := range p.Setups {
		plan, err := index.Compile(s)
		if err != nil {
			t.Fatal(err)
		}
		var replies []timeline.Reply
		for l := range plan.Lines() {
			replies = append(replies, plan.Reply(l))
		}
		own := len(replies)
		for _, m := range p.Fighter(s.Rival).Moves {
			if r := (timeline.Reply{Move: m.Name, Late: 3, Demand: timeline.DemandNone}); !m.Air && lineOf(plan, r) < 0 {
				replies = append(replies, r)
			}
		}
		rises, got := book.Against(index, s, replies)
		if len(rises) != plan.Rises() {
			t.Fatalf("%s: rises %v", s.Name, rises)
		}
		met := plan.Meetings(s.Delay, nil)
		want := book.Of(&met, Gauges{})
		for r := range rises {
			for k := range replies[:own] {
				if got[r][k] != want.Rises[r][k] {
					t.Errorf("%s, %s: %+v, want %+v", s.Name, replies[k].Move, got[r][k], want.Rises[r][k])
				}
			}
		}
		for k := own; k < len(replies); k++ {
			wide := s
			wide.Replies = append(append([]timeline.Reply{}, plan.Asked()...), replies[k])
			one, err := index.Compile(wide)
			if err != nil {
				t.Fatal(err)
			}
			met := one.Meetings(s.Delay, nil)
			want := book.Of(&met, Gauges{})
			for r := range rises {
				others++
				if got[r][k] != want.Rises[r][one.Lines()-1] {
					t.Errorf("%s, %s: %+v, want %+v", s.Name, replies[k].Move, got[r][k], want.Rises[r][one.Lines()-1])
				}
			}
		}
	}
	if others < 20 {
		t.Errorf("%d other replies", others)
	}
	long := p.Setups[0]
	long.Delay = timeline.MaxFrames
	if rises, worth := book.Against(index, long, nil); rises != nil || worth != nil {
		t.Errorf("of a setup that doesn't fit: %v", rises)
	}
}
