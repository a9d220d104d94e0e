package words_test

import (
	"slices"
	"strings"
	"testing"

	"wakeline/samples"
	"wakeline/timeline"
	. "wakeline/timeline/words"
)

// TestCheatsSayWhatTheVerdictSays: what to press and when, what the game must
// show, and every reply that wins, of each setup of the sample.
func TestCheatsSayWhatTheVerdictSays(t *testing.T) {
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	index, beaten, pressed := timeline.NewIndex(p), 0, 0
	for _, s := range p.Setups {
		plan, err := index.Compile(s)
		if err != nil {
			t.Fatal(err)
		}
		c, v := CheatOf(plan), plan.Verdict(s.Delay)
		do := strings.Join(c.Do, ", ")
		for _, f := range s.Fillers {
			if !slices.Contains(c.Do, f) {
				t.Errorf("%s: %q doesn't have the filler %s", s.Name, do, f)
			}
		}
		if s.Jump != "" && !strings.Contains(do, "jump "+s.Jump+" on frame "+v.JumpOn.String()) {
			t.Errorf("%s: %q, jumps on %v", s.Name, do, v.JumpOn)
		}
		if s.Attack != "" {
			pressed++
			m := plan.Scene(s.Delay, 0, timeline.LineNothing)
			want := "press " + s.Attack + " on air frame "
			if !strings.Contains(do, want) || !strings.Contains(do, "(frame "+timeline.Some(m.Arc.Attack.From).String()+")") {
				t.Errorf("%s: %q, pressed on frame %d", s.Name, do, m.Arc.Attack.From)
			}
		}
		read := strings.Join(c.Read, ", ")
		if !strings.HasPrefix(read, "knockdown advantage "+timeline.Some(v.Advantage).String()) {
			t.Errorf("%s: read %q", s.Name, read)
		}
		if v.HoldsStartup.Given != strings.Contains(read, "or slower") {
			t.Errorf("%s: read %q, holds against reversals: %v", s.Name, read, v.HoldsStartup)
		}
		wins := map[string]bool{}
		for _, r := range v.Rises {
			for _, got := range r.Replies {
				if !got.Outcome.Survived() {
					wins[got.Title()+" ("+got.Outcome.String()+")"] = true
				}
			}
		}
		if len(wins) != len(c.Beaten) {
			t.Errorf("%s: beaten by %v, want %v", s.Name, c.Beaten, wins)
		}
		for _, b := range c.Beaten {
			beaten++
			if !wins[b] {
				t.Errorf("%s: beaten by %s", s.Name, b)
			}
		}
	}
	if beaten < 5 || pressed < 10 {
		t.Errorf("%d replies win, %d attacks are pressed", beaten, pressed)
	}
}
