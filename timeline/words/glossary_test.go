package words

import (
	"slices"
	"strings"
	"testing"

	"wakeline/timeline"
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
	for word, want := range map[string]timeline.Span{
		"ender": span(-8, 0), "filler": span(0, 12), "delay, wait": span(12, 14), "prejump": span(14, 19), "jump": span(19, 55), "jumps on, lands on": span(55, 56), "landing": span(55, 58),
		"knockdown advantage": span(0, 53), "wake-up": span(53, 54), "startup": span(53, 56), "active": span(56, 60), "recovery, total": span(60, 84), "meeting, meets": span(56, 60),
		"to spare, too late": span(55, 56), "after wake-up": span(53, 58), "to punish": span(58, 84), "window": span(13, 16), "drill": span(14, 15), "unsafe": span(56, 60), "limited": span(56, 60),
		"immune, immunity": span(53, 59), "parry": span(53, 63), "armour": span(53, 64), "late": span(57, 76), "attack hits": span(53, 55), "trade": span(56, 59), "reply throws": span(57, 59),
	} {
		if got := seen[word].Spot; got != want {
			t.Errorf("%s: frames %v, want %v", word, got, want)
		}
	}
	for word, want := range map[string]timeline.Word{"safe": timeline.Safe, "limited": timeline.Limited, "unsafe": timeline.Unsafe, "neighbour": timeline.Unsafe, "uncovered": timeline.Limited} {
		if s := seen[word].Scene; s == nil || s.Verdict != want {
			t.Errorf("%s is not shown by what is %s", word, want)
		}
	}
	if got := seen["unsafe"].Scene.Cell.Spare; got != timeline.Some(-3) {
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
	var got []timeline.Outcome
	for _, g := range Glossary()[:timeline.Outcomes] {
		if g.Scene == nil || g.Scene.Cell.Outcome.String() != g.Word {
			t.Errorf("%s is shown by another outcome", g.Word)
			continue
		}
		got = append(got, g.Scene.Cell.Outcome)
	}
	slices.Sort(got)
	if len(slices.Compact(got)) != timeline.Outcomes {
		t.Errorf("%d outcomes, want %d", len(got), timeline.Outcomes)
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
