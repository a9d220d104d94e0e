package timeline

import (
	"slices"
	"testing"
)

func TestFollowIsReadAsWritten(t *testing.T) {
	f := &Fighter{Name: "Brenno", Moves: []Move{{Name: "jab", Kind: Strike}, {Name: "low, far", Kind: Strike}, {Name: "dive", Kind: Strike, Air: true}, {Name: "wait 2 and hit", Kind: Strike}}}
	for text, want := range map[string][]FollowStep{
		"":                       nil,
		"jab":                    {{"jab", 0, Link}},
		"> jab, wait 3 low, far": {{"jab", 0, Cancel}, {"low, far", 3, Link}},
		"jab > wait 1 jab, jab":  {{"jab", 0, Link}, {"jab", 1, Cancel}, {"jab", 0, Link}},
		"wait 2 and hit, jab":    {{"wait 2 and hit", 0, Link}, {"jab", 0, Link}},
		"wait 4 wait 2 and hit":  {{"wait 2 and hit", 4, Link}},
	} {
		got, wanted, saw := ReadFollow(f, text)
		if !slices.Equal(got, want) || wanted != "" {
			t.Errorf("%q: %v, %q, %q; want %v", text, got, wanted, saw, want)
		}
		if again := FollowText(want); again != text {
			t.Errorf("%v is written %q, want %q", want, again, text)
		}
	}
	for _, text := range []string{"jab,", "hook", "dive", "wait x jab", "wait 3", ", jab", "jab, wait 3 hook > jab"} {
		if got, want, saw := ReadFollow(f, text); want == "" || saw == "" || got != nil {
			t.Errorf("%q is read as %v", text, got)
		}
	}
}
