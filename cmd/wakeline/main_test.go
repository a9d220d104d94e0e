package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const sample = "../../samples/sample.json"

// call runs the program in this process and returns what it said.
func runIt(t *testing.T, args ...string) (code int, out, progress string) {
	t.Helper()
	var o, e bytes.Buffer
	code = run(args, &o, &e)
	return code, o.String(), e.String()
}

// little is a project with one setup of each verdict.
const little = `{"wakeline": 1, "fighters": [{"name": "A",
 "moves": [
  {"name": "Drop", "kind": "strike", "air": true, "level": "overhead", "startup": 7, "active": [3], "hitstun": 20, "guardstun": 16},
  {"name": "Rise", "kind": "strike", "level": "mid", "startup": 4, "active": [3], "recovery": 20, "on_guard": -20, "immune": [{"from": 1, "to": 6}]},
  {"name": "Turn", "kind": "parry", "total": 30, "parry": [{"from": 1, "to": 10}]}],
 "jumps": [{"name": "over", "prejump": 4, "airborne": 39, "landing": 3}]}],
 "setups": [
  {"name": "good", "attacker": "A", "rival": "A", "advantage": 42, "jump": "over", "attack": "Drop", "replies": [{"move": "Rise"}]},
  {"name": "part", "attacker": "A", "rival": "A", "advantage": 42, "jump": "over", "attack": "Drop", "replies": [{"move": "Rise"}, {"move": "Turn"}]},
  {"name": "bad", "attacker": "A", "rival": "A", "advantage": 42, "delay": 5, "jump": "over", "attack": "Drop", "replies": [{"move": "Rise"}]}]}`

func write(t *testing.T, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "p.json")
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestJudgeExitsByTheVerdict(t *testing.T) {
	path := write(t, little)
	for _, c := range []struct {
		args []string
		code int
		say  string
	}{
		{[]string{"judge", path, "--setup", "good"}, 0, "good: safe"},
		{[]string{"judge", "--setup", "good", path}, 0, "good: safe"},
		{[]string{"judge", path, "--setup=good", "--strict"}, 0, "good: safe"},
		{[]string{"judge", path, "--setup", "part"}, 0, "part: limited"},
		{[]string{"judge", path, "--setup", "part", "--strict"}, 1, "part: limited"},
		{[]string{"judge", path, "--setup", "bad"}, 1, "bad: unsafe"},
		{[]string{"judge", path, "--setup", "bad", "--delay", "0"}, 0, "bad: safe"},
		{[]string{"judge", path}, 1, "good: safe"},
		{[]string{"--help"}, 0, "wakeline judge PROJECT"},
		{[]string{"judge", "--help"}, 0, "--strict"},
		{[]string{"draw", "-h"}, 0, "--theme"},
	} {
		code, out, progress := runIt(t, c.args...)
		if code != c.code || !strings.Contains(out, c.say) || progress != "" {
			t.Errorf("%v = %d, %q, %q; want %d and %q", c.args[1:], code, out, progress, c.code, c.say)
		}
	}
}

func TestWrongWordsAndBadInputExitWith2(t *testing.T) {
	path := write(t, little)
	broken := write(t, strings.Replace(little, `"startup": 7`, `"startup": 0`, 1))
	wide := write(t, wide)
	text := filepath.Join(t.TempDir(), "p.txt")
	for _, c := range []struct {
		args []string
		say  string
	}{
		{[]string{"judge"}, "expected a project text"},
		{[]string{"judge", path, path}, "expected one argument"},
		{[]string{"judge", path, "--fast"}, "fast"},
		{[]string{"judge", path, "--setup", "none"}, `"none"; there are: "good"`},
		{[]string{"judge", path, "--setup", ""}, "--setup"},
		{[]string{"judge", path, "--delay", "-1"}, "--delay: expected 0"},
		{[]string{"judge", path, "--delay", "x"}, "delay"},
		{[]string{"judge", path, "--setup", "good", "--delay", "480"}, "--delay: setup"},
		{[]string{"judge", text}, "named .json"},
		{[]string{"judge", path + ".json"}, "no such file"},
		{[]string{"judge", broken}, broken + ": $.fighters[0].moves[0].startup: expected"},
		{[]string{"judge", broken, "--json"}, "$.fighters[0].moves[0].startup"},
		{[]string{"judge", wide, "--setup", "bad"}, wide + ": $.setups[2].delay: "},
		{[]string{"draw", path, "--out", "a.png"}, "--setup"},
		{[]string{"draw", path, "--setup", "good"}, "--out"},
		{[]string{"draw", path, "--setup", "good", "--out", "a.bmp"}, "--out: expected"},
		{[]string{"draw", path, "--setup", "good", "--out", "a.png", "--theme", "pink"}, "--theme"},
		{[]string{"draw", path, "--setup", "good", "--out", "a.png", "--scale", "0"}, "--scale"},
		{[]string{"draw", path, "--setup", "good", "--out", "a.png", "--scale", "NaN"}, "--scale"},
		{[]string{"draw", path, "--setup", "good", "--out", "a.png", "--width", "9"}, "--width"},
		{[]string{"draw", path, "--setup", "good", "--out", "a.png", "--reply", "Jig"}, `--reply: expected a reply of the setup, got "Jig"; there are: "guard high"`},
		{[]string{"draw", path, "--setup", "good", "--out", "a.png", "--rise", "slow"}, `"slow"; there are: "normal"`},
		{[]string{"draw", path, "--setup", "good", "--out", filepath.Join(path, "a.png")}, "write"},
		{[]string{"weigh", path}, "expected"},
	} {
		code, out, progress := runIt(t, c.args...)
		if code != 2 || !strings.Contains(progress, c.say) || out != "" {
			t.Errorf("%v = %d, %q, %q; want 2 and %q", c.args, code, out, progress, c.say)
		}
	}
}

// The names and their order are interfaces.md's, "judge --json".
func TestJudgeJSON(t *testing.T) {
	_, out, _ := runIt(t, "judge", write(t, little), "--setup", "part", "--json")
	var got struct {
		Setups []struct {
			Setup, Verdict, Because                    string
			Advantage, Delay                           int
			Distance, Room, Holds_startup              *int
			Forgone, Kills_on_hit                      *int
			String                                     *struct{}
			Holds_advantage, Holds_distance            []struct{ From, To int }
			Jump_on, Touchdown, Guards_from, Acts_from *int
			Window                                     []struct{ From, To int }
			Uncovered                                  []string
			Earlier, Later                             *struct {
				Delay            int
				Verdict, Because string
			}
			Rises []struct {
				Rise    string
				Wake    int
				Replies []struct {
					Reply, Demand, Outcome                           string
					Late                                             int
					Meeting, Spare, After_wake, Advantage, To_punish *int
					Apart                                            *int
					Side, Route                                      *string
					Points, Kills_from                               *int
				}
			}
		}
	}
	dec := json.NewDecoder(strings.NewReader(out))
	dec.DisallowUnknownFields()
	if err := dec.Decode(&got); err != nil {
		t.Fatalf("%v in %s", err, out)
	}
	if len(got.Setups) != 1 {
		t.Fatalf("setups = %d, want 1", len(got.Setups))
	}
	s := got.Setups[0]
	if s.Setup != "part" || s.Verdict != "limited" || s.Advantage != 42 || s.Delay != 0 || *s.Jump_on != 0 || *s.Touchdown != 43 ||
		*s.Guards_from != 43 || *s.Acts_from != 46 || len(s.Uncovered) != 1 || s.Uncovered[0] != "Turn" || s.Earlier != nil || s.Later.Delay != 1 {
		t.Errorf("setup = %+v", s)
	}
	if len(s.Window) != 1 || s.Window[0].From != 0 || s.Window[0].To != 2 {
		t.Errorf("window = %+v, want 0 to 2", s.Window)
	}
	r := s.Rises[0].Replies
	if s.Rises[0].Wake != 42 || len(r) != 5 || r[0].Reply != "guard high" || r[1].Reply != "guard low" || r[2].Reply != "nothing" || r[0].Demand != "none" {
		t.Errorf("rises = %+v", s.Rises)
	}
	if r[3].Reply != "Rise" || r[3].Outcome != "reply blocked" || *r[3].Meeting != 45 || *r[3].Spare != 2 || r[3].After_wake != nil || *r[3].To_punish != 20 {
		t.Errorf("the reversal = %+v, want reply blocked on 45, 2 to spare, 20 to punish", r[3])
	}
	for _, name := range []string{"setup", "advantage", "delay", "verdict", "because", "jump_on", "touchdown", "guards_from", "acts_from", "window", "uncovered", "earlier", "later", "rises"} {
		at := strings.Index(out, `"`+name+`"`)
		if at < 0 {
			t.Errorf("no %q after its forerunners", name)
			continue
		}
		out = out[at:]
	}
}

func TestJudgeAndDrawTheSample(t *testing.T) {
	code, out, progress := runIt(t, "judge", sample)
	if code != 1 || progress != "" || !strings.Contains(out, "unsafe") {
		t.Errorf("judge = %d, %q, want 1 and an unsafe setup", code, progress)
	}
	first, _, _ := strings.Cut(out, ": ")
	for _, name := range []string{"a.png", "a.svg"} {
		for _, theme := range []string{"paper", "night"} {
			path := filepath.Join(t.TempDir(), name)
			if code, _, progress := runIt(t, "draw", sample, "--setup", first, "--out", path, "--theme", theme); code != 0 {
				t.Fatalf("draw %s = %d, %q", name, code, progress)
			}
			if info, err := os.Stat(path); err != nil || info.Size() < 2000 {
				t.Errorf("%s: %v, %v", name, info, err)
			}
		}
	}
}
