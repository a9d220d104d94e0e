package timeline_test

import (
	"reflect"
	"strings"
	"testing"

	. "wakeline/timeline"
	"wakeline/timeline/words"
)

// TestGuessSays holds the words to hand-worked numbers: a jump of 43 frames to
// touchdown meets an advantage of 47 with its last air frame at delay 5, and a
// reversal active on 50 leaves room for a delay of 7 at the latest.
func TestGuessSays(t *testing.T) {
	p := DropIn(47, Reversal(4))
	plan, err := Compile(p, p.Setups[0])
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		d     int
		right bool
		off   int
		short string
		says  string
	}{
		{0, false, -5, "Delay 0 is too early.", "Delay 0 is 5 frames too early. Safe at delay 5 to 7. "},
		{4, false, -1, "Delay 4 is too early.", "Delay 4 is 1 frame too early. Safe at delay 5 to 7. "},
		{5, true, 0, "Delay 5 is safe.", "Delay 5 is safe. Safe at delay 5 to 7. "},
		{7, true, 0, "Delay 7 is safe.", "Delay 7 is safe. "},
		{9, false, 2, "Delay 9 is too late.", "Delay 9 is 2 frames too late. Safe at delay 5 to 7. "},
	} {
		if got := words.GuessAt(plan, c.d); got.Right != c.right || got.Off != c.off || got.Short != c.short || !strings.HasPrefix(got.Words, c.says) {
			t.Errorf("delay %d = %+v, want %+v", c.d, got, c)
		}
	}
	if got := words.GuessNone(plan); got.Right || got.Short != "There is a delay that is safe." || !strings.Contains(got.Words, "There is a delay that is safe: delay 5 to 7. ") {
		t.Errorf("none = %+v", got)
	}
}

// TestHintsNameWhatBounds: the frame that the attack has to meet, then the
// reply that the last safe delay depends on.
func TestHintsNameWhatBounds(t *testing.T) {
	grab := Move{Name: "grab", Kind: Throw, Level: LevelThrow, Startup: 3, Active: []int{3}, Recovery: 20}
	for _, c := range []struct {
		name    string
		project *Project
		change  func(p *Project)
		want    []string
	}{
		{"guard", DropIn(47, Reversal(4)), nil, []string{"The attack must be active on frame 47, the first on which it can touch Tarn.",
			"reversal is first active on frame 50. By then Hesk must have touched it, or guard."}},
		{"parry", DropIn(47, Reversal(4)), func(p *Project) { p.Setups[0].Landing = DoParry }, []string{"The attack must be active on frame 47, the first on which it can touch Tarn.",
			"reversal is first active on frame 50. By then Hesk must have touched it, or parry."}},
		{"bait", DropIn(47, grab), func(p *Project) { p.Setups[0].Attack = "" }, []string{"grab is first active on frame 49. No guard stops a throw: by then Hesk must have touched, or be out of its reach."}},
		{"two rises", DropIn(47), func(p *Project) {
			p.Fighters[1].Rises = append(p.Fighters[1].Rises, Rise{Name: "late", Extra: 2})
		}, []string{"The attack must be active on frames 47 and 49, the first on which it can touch Tarn on each rise."}},
	} {
		if c.change != nil {
			c.change(c.project)
		}
		if err := c.project.Check(); err != nil {
			t.Fatal(err)
		}
		plan, err := Compile(c.project, c.project.Setups[0])
		if err != nil {
			t.Fatal(err)
		}
		if got := words.Hints(plan); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// TestGuessOfRandomSetups: right is what the verdict doesn't call unsafe, and
// the frames that it is off lead to the nearest such delay.
func TestGuessOfRandomSetups(t *testing.T) {
	right, off, none := 0, 0, 0
	for seed := range uint64(300) {
		p := RandomProject(seed)
		plan, err := Compile(p, p.Setups[0])
		if err != nil {
			continue
		}
		safe := func(d int) bool { return d >= 0 && d <= plan.LastDelay() && plan.Word(d) != Unsafe }
		any := false
		for d := 0; d <= plan.LastDelay(); d++ {
			any = any || safe(d)
		}
		if got := words.GuessNone(plan); got.Right == any || got.Short == "" {
			t.Fatalf("seed %d: none = %+v, but safe delays: %v", seed, got, any)
		}
		for d := 0; d <= plan.LastDelay(); d += 3 {
			if because := words.VerdictAt(plan, d).Because; strings.TrimSpace(because) == "" {
				t.Fatalf("seed %d, delay %d: no sentence", seed, d)
			}
			got := words.GuessAt(plan, d)
			if got.Right != safe(d) || got.Words == "" || got.Short == "" {
				t.Fatalf("seed %d, delay %d: %+v, want %v", seed, d, got, safe(d))
			}
			switch {
			case got.Right:
				right++
			case !any:
				none++
			default:
				off++
				if !safe(d - got.Off) {
					t.Fatalf("seed %d, delay %d: off by %d, where nothing is safe", seed, d, got.Off)
				}
				for n := 1; n < max(got.Off, -got.Off); n++ {
					if safe(d-n) || safe(d+n) {
						t.Fatalf("seed %d, delay %d: off by %d, but %d away is safe", seed, d, got.Off, n)
					}
				}
			}
		}
	}
	if right == 0 || off == 0 || none == 0 {
		t.Errorf("%d right, %d off, %d with none: too few", right, off, none)
	}
}
