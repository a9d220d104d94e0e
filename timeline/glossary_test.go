package timeline

import (
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
		if g.Spot.Len() < 1 || g.Spot.From < g.Scene.Span.From || g.Spot.To > g.Scene.Span.To {
			t.Errorf("%q: frames %v of %v", g.Word, g.Spot, g.Scene.Span)
		}
	}
	// Counted by hand: step 12, delay 2, prejump 4, air 39 from 18 to 57; the rival is
	// up on 55, its palm is active on 58 to 62.
	for word, want := range map[string]Span{
		"ender": {-8, 0}, "filler": {0, 12}, "delay": {12, 14}, "jump arc": {18, 57}, "touchdown": {57, 58}, "landing": {57, 61}, "advantage": {0, 55},
		"wake-up": {55, 56}, "startup": {55, 58}, "active": {58, 62}, "recovery": {62, 86}, "meeting": {58, 62}, "spare": {57, 58}, "after wake-up": {55, 60}, "to punish": {61, 86},
		"window": {13, 16}, "drill": {14, 15}, "mix": {14, 61}, "revision": {55, 58}, "unsafe": {58, 62}, "limited": {58, 62},
	} {
		if got := seen[word].Spot; got != want {
			t.Errorf("%s: frames %v, want %v", word, got, want)
		}
	}
	for _, word := range []string{"setup", "ender", "filler", "delay", "jump arc", "landing", "wake-up", "rise", "reply", "meeting", "spare", "after wake-up", "window", "neighbour",
		"lesson", "drill", "mix", "revision"} {
		if seen[word].Word == "" {
			t.Errorf("%s is missing", word)
		}
	}
	for word, want := range map[string]Word{"safe": Safe, "limited": Limited, "unsafe": Unsafe, "neighbour": Unsafe} {
		if got := seen[word].Scene.Verdict; got != want {
			t.Errorf("%s is shown by what is %s", word, got)
		}
	}
	if got := seen["unsafe"].Scene.Cell.Spare; got != Some(-3) {
		t.Errorf("unsafe: %v to spare, want 3 too late", got)
	}
}
