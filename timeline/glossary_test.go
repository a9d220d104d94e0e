package timeline

import (
	"slices"
	"strings"
	"testing"
)

// TestGlossary: the example keeps the rules, every word stands once with a
// sentence, and its spot is a stretch of its scene.
func TestGlossary(t *testing.T) {
	if err := example().Check(); err != nil {
		t.Fatal(err)
	}
	seen := map[string]Term{}
	for _, g := range Glossary() {
		if _, twice := seen[g.Word]; twice || g.Word == "" || !strings.HasSuffix(g.Means, ".") || len(g.Means) > 200 {
			t.Errorf("%q: %q, twice: %v", g.Word, g.Means, twice)
		}
		seen[g.Word] = g
		if s := g.Scene; s != nil && (g.Spot.Len() < 1 || g.Spot.From < s.Span.From || g.Spot.To > s.Span.To) {
			t.Errorf("%q: frames %v of %v", g.Word, g.Spot, s.Span)
		}
	}
	// Counted by hand: step 12, delay 2, prejump 5, air 36 from 19 to 55, landing 3;
	// the rival is up on 53, its palm is active on 56 to 60 and free on 84.
	for word, want := range map[string]Span{
		"ender": {-8, 0}, "filler": {0, 12}, "delay, wait": {12, 14}, "prejump": {14, 19}, "jump": {19, 55}, "jumps on, lands on": {55, 56}, "landing": {55, 58},
		"knockdown advantage": {0, 53}, "wake-up": {53, 54}, "startup": {53, 56}, "active": {56, 60}, "recovery, total": {60, 84}, "meeting, meets": {56, 60},
		"to spare, too late": {55, 56}, "after wake-up": {53, 58}, "to punish": {58, 84}, "window": {13, 16}, "drill": {14, 15}, "unsafe": {56, 60}, "limited": {56, 60},
		"immune, immunity": {53, 59}, "parry": {53, 63}, "armour": {53, 64}, "late": {57, 76}, "attack hits": {53, 55}, "trade": {56, 59}, "reply throws": {57, 59},
	} {
		if got := seen[word].Spot; got != want {
			t.Errorf("%s: frames %v, want %v", word, got, want)
		}
	}
	for word, want := range map[string]Word{"safe": Safe, "limited": Limited, "unsafe": Unsafe, "neighbour": Unsafe, "uncovered": Limited} {
		if s := seen[word].Scene; s == nil || s.Verdict != want {
			t.Errorf("%s is not shown by what is %s", word, want)
		}
	}
	if got := seen["unsafe"].Scene.Cell.Spare; got != Some(-3) {
		t.Errorf("unsafe: %v to spare, want 3 too late", got)
	}
	for word, want := range map[string]string{"filler": "frame kill", "reply": "wake-up option", "setup": "okizeme", "guard high, guard low, nothing": "block", "immune, immunity": "invincible"} {
		if !strings.Contains(seen[word].Also, want) {
			t.Errorf("%s is also called %q, want %q", word, seen[word].Also, want)
		}
	}
}

// TestTheGlossaryBeginsWithTheOutcomes: all of them, each shown by an exchange
// that ends so.
func TestTheGlossaryBeginsWithTheOutcomes(t *testing.T) {
	var got []Outcome
	for _, g := range Glossary()[:Outcomes] {
		if g.Scene == nil || g.Scene.Cell.Outcome.String() != g.Word {
			t.Errorf("%s is shown by another outcome", g.Word)
			continue
		}
		got = append(got, g.Scene.Cell.Outcome)
	}
	slices.Sort(got)
	if len(slices.Compact(got)) != Outcomes {
		t.Errorf("%d outcomes, want %d", len(got), Outcomes)
	}
}

// TestTheGlossaryKnowsOnlyWhatThereIs: no word of what the program doesn't do,
// and no number of the trade facts in the example.
func TestTheGlossaryKnowsOnlyWhatThereIs(t *testing.T) {
	for _, g := range Glossary() {
		if slices.Contains(strings.Fields(g.Word), "mix") {
			t.Errorf("%s is told", g.Word)
		}
	}
	if j := example().Fighters[0].Jumps[0]; j.Prejump == 4 || j.Airborne == 39 || j.Prejump+j.Airborne == 43 {
		t.Errorf("the example jumps as the trade facts do: %+v", j)
	}
}
