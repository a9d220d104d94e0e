package timeline

import (
	"reflect"
	"testing"
)

func TestSteps(t *testing.T) {
	f := &Fighter{Name: "Ash", Moves: []Move{{Name: "jab"}, {Name: "jab, low"}, {Name: "sweep"}, {Name: "dive", Air: true}}}
	for _, c := range []struct {
		text, again string
		steps       []RouteStep
	}{
		{"jab", "jab", []RouteStep{{"jab", Link}}},
		{" JAB ,jab>sweep", "jab, jab > sweep", []RouteStep{{"jab", Link}, {"jab", Link}, {"sweep", Cancel}}},
		{"> jab, low > jab", "> jab, low > jab", []RouteStep{{"jab, low", Cancel}, {"jab", Cancel}}},
	} {
		got, want, _ := ReadSteps(f, c.text)
		if want != "" || !reflect.DeepEqual(got, c.steps) {
			t.Errorf("%q reads as %v, expected %q", c.text, got, want)
		}
		if again := StepsText(got); again != c.again {
			t.Errorf("%q is written as %q, want %q", c.text, again, c.again)
		}
	}
	// Names that differ in the case of letters, or have spaces around them.
	alike := &Fighter{Name: "Ash", Moves: []Move{{Name: "JAB"}, {Name: "jab"}, {Name: " Jab"}, {Name: " lead "}}}
	steps := []RouteStep{{"jab", Link}, {"JAB", Cancel}, {" lead ", Link}, {" lead ", Cancel}, {"jab", Cancel}}
	if got, want, _ := ReadSteps(alike, StepsText(steps)); !reflect.DeepEqual(got, steps) {
		t.Errorf("%q reads as %q, expected %q", StepsText(steps), got, want)
	}
	follow := []FollowStep{{"JAB", 3, Link}, {" lead ", 2, Link}, {"jab", 0, Cancel}}
	if got, want, _ := ReadFollow(alike, FollowText(follow)); !reflect.DeepEqual(got, follow) {
		t.Errorf("%q reads as %v, expected %q", FollowText(follow), got, want)
	}
	for _, c := range []struct{ text, want, got string }{
		{"", wantSteps, "nothing"},
		{">", wantSteps, "nothing"},
		{"jab, hook", "a move of Ash", `"hook"`},
		{"hook > jab", "a move of Ash", `"hook"`},
		{"jab >", wantSteps, "nothing after the last , or >"},
		{"jab,, sweep", wantSteps, "nothing after the last , or >"},
		{"jab, dive", "a move done on the ground", `"dive", an air move`},
	} {
		if steps, want, got := ReadSteps(f, c.text); steps != nil || want != c.want || got != c.got {
			t.Errorf("%q: %v, expected %q, got %q; want expected %q, got %q", c.text, steps, want, got, c.want, c.got)
		}
	}
}
