package words

import (
	"testing"

	"wakeline/timeline"
)

// TestFindsWhatAGroundedMoveIsDoing: an elbow of startup 4, active for 2, on
// frames 3 and 4 after its start, with a guard after it.
func TestFindsWhatAGroundedMoveIsDoing(t *testing.T) {
	p := example()
	s := &p.Setups[0]
	p.Fighters[0].Moves = append(p.Fighters[0].Moves, timeline.Move{Name: "elbow", Kind: timeline.Strike, Level: timeline.Mid, Startup: 4, Active: []int{2}, Recovery: 9})
	s.Fillers, s.Delay, s.Jump, s.Attack, s.Landing, s.Replies = nil, 0, "", "", "elbow", nil
	if err := p.Check(); err != nil {
		t.Fatal(err)
	}
	plan, err := timeline.Compile(p, *s)
	if err != nil {
		t.Fatal(err)
	}
	scene, e := SceneAt(plan, 0, 0, timeline.LineNothing), timeline.Exchange{Line: timeline.LineNothing}
	for frame, want := range map[int]string{0: "elbow is not active yet", 2: "elbow is not active yet", 3: "elbow is active, frame 1 of 2", 5: "elbow is no longer active", 400: "Tarn guards"} {
		if got := finds(plan, &scene, e, frame); got != want {
			t.Errorf("frame %d finds %q, want %q", frame, got, want)
		}
	}
}

// TestEveryOutcomeHasItsSentence: no outcome is left out of either table.
func TestEveryOutcomeHasItsSentence(t *testing.T) {
	for o := range timeline.Outcomes {
		if clauses[o] == nil || lessonClauses[o] == nil {
			t.Errorf("%v has no sentence", timeline.Outcome(o))
		}
	}
}
