package main

import (
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"
)

// Each round takes its damage from the health before, and what is left never
// lies: the exit code says whether it ends.
func TestFinishOfTheSample(t *testing.T) {
	path := filepath.Join(t.TempDir(), "s.wakeline")
	runIt(t, "new", path, "--sample")
	for _, c := range []struct {
		args []string
		code int
	}{
		{[]string{"--setup", "Plain crossing", "--reply", "nothing", "--health", "1"}, 0},
		{[]string{"--setup", "Plain crossing", "--reply", "Millrace", "--health", "500"}, -1},
		{[]string{"--setup", "Plain crossing", "--reply", "forward", "--health", "1000000", "--gauge", "0"}, 1},
	} {
		code, out, progress := runIt(t, append([]string{"finish", sample, "--json"}, c.args...)...)
		var got struct {
			Rounds []struct {
				Setup, Reply, Outcome string
				Route                 *string
				Damage, Health        int
			}
			Ends    bool
			Because string
		}
		if err := json.Unmarshal([]byte(out), &got); err != nil || got.Because == "" || got.Ends != (code == 0) || c.code >= 0 && code != c.code {
			t.Fatalf("finish %v = %d, %v, %q\n%s", c.args, code, err, progress, out)
		}
		for i, r := range got.Rounds {
			if r.Damage <= 0 || i > 0 && r.Health != got.Rounds[i-1].Health-r.Damage || r.Reply != c.args[3] {
				t.Errorf("finish %v: round %d is %+v", c.args, i, r)
			}
		}
		if n := len(got.Rounds); got.Ends && (n == 0 || got.Rounds[n-1].Health > 0 || got.Rounds[0].Setup != "Plain crossing") {
			t.Errorf("finish %v ends with %+v", c.args, got.Rounds)
		}
		if code2, out2, _ := runIt(t, append([]string{"finish", path, "--json"}, c.args...)...); code2 != code || out2 != out {
			t.Errorf("finish %v of the file = %d\n%s", c.args, code2, out2)
		}
		if _, text, _ := runIt(t, append([]string{"finish", sample}, c.args...)...); !strings.Contains(text, got.Because+"\n") || strings.Count(text, "\n") != 1+len(got.Rounds) {
			t.Errorf("finish %v in words:\n%s", c.args, text)
		}
	}
}

func TestFinishOfNoSense(t *testing.T) {
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"--setup", "none", "--reply", "nothing"}, `--setup: expected the name of a setup`},
		{[]string{"--setup", "Plain crossing"}, `--reply: expected nothing, or a jump or a move on the ground of Ishka, got ""; there are: "nothing"`},
		{[]string{"--setup", "Plain crossing", "--reply", "guard high"}, `got "guard high"`},
		{[]string{"--setup", "Plain crossing", "--reply", "nothing", "--health", "0"}, `--health: expected 1 to`},
		{[]string{"--setup", "Plain crossing", "--reply", "nothing", "--gauge", "-1"}, `--gauge: expected 0 to`},
		{[]string{"--setup", "Plain crossing", "--reply", "nothing", "--gauge", "x"}, `--gauge: expected a whole number, got "x"`},
	} {
		if code, out, progress := runIt(t, append([]string{"finish", sample}, c.args...)...); code != 2 || out != "" || !strings.Contains(progress, c.want) {
			t.Errorf("finish %v = %d, %q, %q, want 2 and %q", c.args, code, out, progress, c.want)
		}
	}
}
