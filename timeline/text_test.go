package timeline

import (
	"os"
	"reflect"
	"strings"
	"testing"
)

// page is the example of interfaces.md, "Project text", made whole: every
// field once.
const page = `{"wakeline": 1,
 "ruleset": {"rate": "60/1", "startup_counts_first_active": true, "throw_grace_rise": 0, "throw_grace_landing": 0,
   "prejump_throw_proof": true, "buffer": 4, "trades": true, "health": 10000, "gauge": 6},
 "fighters": [
  {"name": "Ada", "body": 100, "width": 60,
   "moves": [{"name": "Sweep", "kind": "strike", "level": "mid", "startup": 5, "active": [3], "recovery": 12,
     "on_hit": 4, "on_guard": -2, "damage": 600, "gauge_cost": 0, "gauge_gain": 0, "total": 19,
     "knockdown": {"midscreen": 42, "wall": 44}, "distance": {"midscreen": 120, "wall": 80},
     "immune": [{"from": 1, "to": 8, "against": ["strike", "throw"]}], "armour": [{"from": 1, "to": 8, "hits": 1}]},
    {"name": "Dive", "kind": "strike", "air": true, "level": "overhead", "startup": 7, "active": [6], "hitstun": 20, "guardstun": 16,
     "deep": 4, "drop": 60, "reach": [-20, 80], "landing": {"recovery": 4, "guard_after": 0}, "misses_air": true, "top": 10},
    {"name": "Turn", "kind": "parry", "total": 30, "parry": [{"from": 1, "to": 10}], "airborne_from": 3, "travel": -5},
    {"name": "Grab", "kind": "throw", "startup": 5, "active": [2, 3, 1], "recovery": 20}],
   "jumps": [{"name": "forward", "prejump": 4, "airborne": 39, "landing": 3, "guard_after": 0, "travel": 190, "apex": 200}],
   "rises": [{"name": "normal", "extra": 0, "shift": 0}, {"name": "backward", "extra": 3, "shift": 40}]}],
 "setups": [
  {"name": "One", "attacker": "Ada", "rival": "Ada", "ender": "Sweep", "position": "midscreen", "advantage": null, "distance": 140, "room": 300,
   "fillers": ["Sweep", "forward", "Sweep"], "delay": 0, "jump": "forward", "attack": "Dive", "press": "auto", "landing": "guard",
   "rises": ["normal"], "replies": [{"move": "Turn", "demand": "survive", "late": 0}, {"move": "Turn", "late": 2}], "tags": ["a"], "note": "\"n\" <b>\u2028"}]}`

func TestReadTextTakesThePage(t *testing.T) {
	p, err := ReadText([]byte(page))
	if err != nil {
		t.Fatal(err)
	}
	back, err := ReadText(WriteText(p))
	if err != nil {
		t.Fatalf("written text: %v\n%s", err, WriteText(p))
	}
	if !reflect.DeepEqual(p, back) {
		t.Errorf("written and read again = %+v, want %+v", back, p)
	}
	if again := WriteText(back); string(again) != string(WriteText(p)) {
		t.Errorf("written twice = %s, want %s", again, WriteText(p))
	}
	if _, err := ReadText(append([]byte("\ufeff"), page...)); err != nil {
		t.Errorf("with a byte order mark: %v", err)
	}
}

func TestReadTextDefaults(t *testing.T) {
	p, err := ReadText([]byte(`{"wakeline": 1, "fighters": [{"name": "A", "jumps": [{"name": "up", "prejump": 3, "airborne": 30, "landing": 2}],
		"moves": [{"name": "m", "kind": "strike", "level": "low", "startup": 4, "active": [2], "immune": [{"from": 1, "to": 2}], "armour": [{"from": 1, "to": 2}]},
		{"name": "t", "kind": "throw", "startup": 4, "active": [2]}]}],
		"setups": [{"name": "s", "attacker": "A", "rival": "A", "advantage": 30, "replies": [{"move": "m"}]}]}`))
	if err != nil {
		t.Fatal(err)
	}
	m := &p.Fighters[0].Moves[0]
	want := Setup{Name: "s", Attacker: "A", Rival: "A", Advantage: Some(30), Position: Midscreen, Landing: DoGuard,
		Replies: []Reply{{Move: "m", Demand: Survive}}}
	switch {
	case !p.Ruleset.Equal(DefaultRuleset()):
		t.Errorf("ruleset = %+v, want the defaults", p.Ruleset)
	case !reflect.DeepEqual(p.Fighters[0].Rises, []Rise{{Name: "normal"}}):
		t.Errorf("rises = %+v, want quick alone", p.Fighters[0].Rises)
	case !m.Immune[0].Strikes || !m.Immune[0].Throws || m.Armour[0].Hits != 1:
		t.Errorf("windows = %+v %+v, want both kinds and one hit", m.Immune, m.Armour)
	case p.Fighters[0].Moves[1].Level != LevelThrow:
		t.Errorf("a throw's level = %q, want throw", p.Fighters[0].Moves[1].Level)
	case !reflect.DeepEqual(p.Setups[0], want):
		t.Errorf("setup = %+v, want %+v", p.Setups[0], want)
	}
}

// Each row breaks the page in one place; the error must name that place.
func TestReadTextRefuses(t *testing.T) {
	const fighter, setup = "$.fighters[0]", "$.setups[0]"
	for _, c := range []struct{ name, old, new, path string }{
		{"version", `"wakeline": 1`, `"wakeline": 2`, "$.wakeline"},
		{"no version", `"wakeline": 1,`, ``, "$.wakeline"},
		{"unknown top", `"setups"`, `"set ups"`, `$["set ups"]`},
		{"twice", `"body": 100`, `"body": 100, "body": 3`, fighter + ".body"},
		{"width", `"width": 60`, `"width": -1`, fighter + ".width"},
		{"distance past the range", `"distance": 140`, `"distance": 1000001`, setup + ".distance"},
		{"distance below the range", `"distance": 140`, `"distance": -1000001`, setup + ".distance"},
		{"distance no number", `"distance": 140`, `"distance": "far"`, setup + ".distance"},
		{"distance of an ender past the range", `"midscreen": 120`, `"midscreen": 1000001`, fighter + ".moves[0].distance.midscreen"},
		{"travel past the range", `"travel": 190`, `"travel": 1000001`, fighter + ".jumps[0].travel"},
		{"near past far", `"reach": [-20, 80]`, `"reach": [81, 80]`, fighter + ".moves[1].reach[1]"},
		{"room", `"room": 300`, `"room": -1`, setup + ".room"},
		{"a wall between the two", `"distance": 140, "room": 300`, `"distance": -140, "room": 139`, setup + ".room"},
		{"a wall between the two, by position", `"position": "midscreen", "advantage": null, "distance": 140, "room": 300`, `"position": "wall", "distance": -140`, setup + ".distance"},
		{"rate number", `"rate": "60/1"`, `"rate": 60`, "$.ruleset.rate"},
		{"rate text", `"rate": "60/1"`, `"rate": "60"`, "$.ruleset.rate"},
		{"rate zero", `"rate": "60/1"`, `"rate": "60/0"`, "$.ruleset.rate"},
		{"rate signs", `"rate": "60/1"`, `"rate": "+60/1"`, "$.ruleset.rate"},
		{"grace", `"throw_grace_rise": 0`, `"throw_grace_rise": -1`, "$.ruleset.throw_grace_rise"},
		{"flag", `"trades": true`, `"trades": 1`, "$.ruleset.trades"},
		{"null number", `"buffer": 4`, `"buffer": null`, "$.ruleset.buffer"},
		{"no name", `"name": "Ada", `, ``, fighter + ".name"},
		{"empty name", `"name": "Ada"`, `"name": ""`, fighter + ".name"},
		{"kind", `"kind": "parry"`, `"kind": "spell"`, fighter + ".moves[2].kind"},
		{"no total", `"total": 30, `, ``, fighter + ".moves[2].total"},
		{"zero total", `"total": 30`, `"total": 0`, fighter + ".moves[2].total"},
		{"parry with startup", `"total": 30`, `"total": 30, "startup": 4`, fighter + ".moves[2]"},
		{"total disagrees", `"total": 19`, `"total": 20`, fighter + ".moves[0].total"},
		{"no level", `"level": "mid", `, ``, fighter + ".moves[0].level"},
		{"level", `"level": "mid"`, `"level": "throw"`, fighter + ".moves[0].level"},
		{"throw level", `"kind": "throw"`, `"kind": "throw", "level": "mid"`, fighter + ".moves[3].level"},
		{"empty level", `"kind": "parry"`, `"kind": "parry", "level": ""`, fighter + ".moves[2].level"},
		{"no startup", `"startup": 5, "active": [3]`, `"active": [3]`, fighter + ".moves[0].startup"},
		{"startup", `"startup": 5, "active": [3], "recovery": 12`, `"startup": 0, "active": [3], "recovery": 17`, fighter + ".moves[0].startup"},
		{"startup half", `"startup": 7`, `"startup": 7.5`, fighter + ".moves[1].startup"},
		{"startup huge", `"startup": 7`, `"startup": 1e99`, fighter + ".moves[1].startup"},
		{"startup text", `"startup": 7`, `"startup": "7"`, fighter + ".moves[1].startup"},
		{"no active", `"startup": 7, "active": [6]`, `"startup": 7`, fighter + ".moves[1].active"},
		{"active empty", `"active": [6]`, `"active": []`, fighter + ".moves[1].active"},
		{"active ends in a gap", `"active": [6]`, `"active": [6, 2]`, fighter + ".moves[1].active"},
		{"active zero", `"active": [2, 3, 1]`, `"active": [2, 0, 1]`, fighter + ".moves[3].active[1]"},
		{"active no list", `"active": [6]`, `"active": 6`, fighter + ".moves[1].active"},
		{"recovery", `"recovery": 20`, `"recovery": -1`, fighter + ".moves[3].recovery"},
		{"both on hit", `"hitstun": 20`, `"hitstun": 20, "on_hit": 3`, fighter + ".moves[1].hitstun"},
		{"both on guard", `"guardstun": 16`, `"guardstun": 16, "on_guard": 3`, fighter + ".moves[1].guardstun"},
		{"airborne_from", `"airborne_from": 3`, `"airborne_from": 31`, fighter + ".moves[2].airborne_from"},
		{"window from", `"from": 1, "to": 10`, `"from": 0, "to": 10`, fighter + ".moves[2].parry[0].from"},
		{"window to", `"from": 1, "to": 10`, `"from": 11, "to": 10`, fighter + ".moves[2].parry[0].to"},
		{"window past", `"from": 1, "to": 10`, `"from": 1, "to": 31`, fighter + ".moves[2].parry[0].to"},
		{"window half", `"from": 1, "to": 10`, `"from": 1`, fighter + ".moves[2].parry[0].to"},
		{"against", `["strike", "throw"]`, `["strike", "throws"]`, fighter + ".moves[0].immune[0].against[1]"},
		{"against nothing", `["strike", "throw"]`, `[]`, fighter + ".moves[0].immune[0].against"},
		{"hits", `"hits": 1`, `"hits": 0`, fighter + ".moves[0].armour[0].hits"},
		{"reach", `[-20, 80]`, `[80, -20]`, fighter + ".moves[1].reach[1]"},
		{"reach one", `[-20, 80]`, `[80]`, fighter + ".moves[1].reach"},
		{"landing half", `{"recovery": 4, "guard_after": 0}`, `{"recovery": 4}`, fighter + ".moves[1].landing.guard_after"},
		{"landing guard", `{"recovery": 4, "guard_after": 0}`, `{"recovery": 4, "guard_after": 5}`, fighter + ".moves[1].landing.guard_after"},
		{"damage", `"damage": 600`, `"damage": -1`, fighter + ".moves[0].damage"},
		{"knockdown", `"wall": 44`, `"wall": -1`, fighter + ".moves[0].knockdown.wall"},
		{"knockdown field", `"wall": 44`, `"corner": 44`, fighter + ".moves[0].knockdown.corner"},
		{"airborne", `"airborne": 39`, `"airborne": 0`, fighter + ".jumps[0].airborne"},
		{"guard_after", `"guard_after": 0, "travel"`, `"guard_after": 4, "travel"`, fighter + ".jumps[0].guard_after"},
		{"extra", `"extra": 3`, `"extra": -3`, fighter + ".rises[1].extra"},
		{"no extra", `"extra": 3, `, ``, fighter + ".rises[1].extra"},
		{"no rises", `"rises": [{"name": "normal", "extra": 0, "shift": 0}, {"name": "backward", "extra": 3, "shift": 40}]`, `"rises": []`, fighter + ".rises"},
		{"rise twice", `"name": "backward"`, `"name": "normal"`, fighter + ".rises[1].name"},
		{"move twice", `"name": "Dive"`, `"name": "Sweep"`, fighter + ".moves[1].name"},
		{"jump as move", `"name": "forward"`, `"name": "Sweep"`, fighter + ".jumps[0].name"},
		{"kept name", `"name": "Grab"`, `"name": "guard high"`, fighter + ".moves[3].name"},
		{"attacker", `"attacker": "Ada"`, `"attacker": "Bea"`, setup + ".attacker"},
		{"rival", `"rival": "Ada"`, `"rival": "Bea"`, setup + ".rival"},
		{"no ender", `"ender": "Sweep", `, ``, setup + ".ender"},
		{"ender", `"ender": "Sweep"`, `"ender": "Swoop"`, setup + ".ender"},
		{"ender without", `"ender": "Sweep"`, `"ender": "Grab"`, setup + ".ender"},
		{"position", `"position": "midscreen"`, `"position": "corner"`, setup + ".position"},
		{"advantage", `"advantage": null`, `"advantage": -1`, setup + ".advantage"},
		{"filler", `"forward", "Sweep"]`, `"forward", "Swoop"]`, setup + ".fillers[2]"},
		{"air filler", `"forward", "Sweep"]`, `"forward", "Dive"]`, setup + ".fillers[2]"},
		{"delay", `"delay": 0`, `"delay": -1`, setup + ".delay"},
		{"jump", `"jump": "forward"`, `"jump": "back"`, setup + ".jump"},
		{"attack without jump", `"jump": "forward"`, `"jump": null`, setup + ".attack"},
		{"ground attack", `"attack": "Dive"`, `"attack": "Sweep"`, setup + ".attack"},
		{"press", `"press": "auto"`, `"press": 39`, setup + ".press"},
		{"press text", `"press": "auto"`, `"press": "soon"`, setup + ".press"},
		{"landing", `"landing": "guard"`, `"landing": "forward"`, setup + ".landing"},
		{"air landing", `"landing": "guard"`, `"landing": "Dive"`, setup + ".landing"},
		{"claimed", `"rises": ["normal"]`, `"rises": ["slow"]`, setup + ".rises[0]"},
		{"claimed twice", `"rises": ["normal"]`, `"rises": ["normal", "normal"]`, setup + ".rises[1]"},
		{"reply", `"move": "Turn", "late"`, `"move": "Spin", "late"`, setup + ".replies[1].move"},
		{"air reply", `"move": "Turn", "late"`, `"move": "Dive", "late"`, setup + ".replies[1].move"},
		{"built-in reply", `"move": "Turn", "late"`, `"move": "nothing", "late"`, setup + ".replies[1].move"},
		{"demand", `"demand": "survive"`, `"demand": "win"`, setup + ".replies[0].demand"},
		{"late", `"late": 2`, `"late": -2`, setup + ".replies[1].late"},
		{"reply twice", `"late": 2`, `"late": 0`, setup + ".replies[1]"},
		{"tags", `"tags": ["a"]`, `"tags": [1]`, setup + ".tags[0]"},
		{"unknown deep", `"late": 2`, `"lates": 2`, setup + ".replies[1].lates"},
		{"not JSON", `"tags": ["a"]`, `"tags": ["a",]`, "line 19, column"},
		{"trailing", `"tags": ["a"], "note": "\"n\" <b>\u2028"}]}`, `"tags": ["a"]}]} {}`, "line 19, column"},
		{"not UTF-8", `Ada`, "A\xffda", "line 5, column 14"},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := strings.Replace(page, c.old, c.new, 1)
			if text == page {
				t.Fatalf("%q is not in the page", c.old)
			}
			_, err := ReadText([]byte(text))
			if err == nil || !strings.HasPrefix(err.Error(), c.path) {
				t.Errorf("error = %v, want one at %s", err, c.path)
			}
			if err != nil && !strings.Contains(err.Error(), "expected") {
				t.Errorf("error = %v, want it to say what was expected", err)
			}
		})
	}
}

func TestReadTextRefusesTheHuge(t *testing.T) {
	for name, text := range map[string][]byte{
		"50 MB":    append([]byte(`{"wakeline": 1, "note": "`), make([]byte, 50<<20)...),
		"deep":     []byte(strings.Repeat("[", 10_000) + strings.Repeat("]", 10_000)),
		"deeper":   []byte(strings.Repeat(`{"a":`, 100_000)),
		"deep map": []byte(`{"wakeline": 1, "fighters": ` + strings.Repeat(`[{"a":`, 5_000) + "1" + strings.Repeat("}]", 5_000) + "}"),
		"empty":    nil,
	} {
		if p, err := ReadText(text); err == nil {
			t.Errorf("%s: read as %v, want an error", name, p)
		}
	}
}

func FuzzReadText(f *testing.F) {
	f.Add([]byte(page))
	f.Add([]byte(`{"wakeline": 1}`))
	if sample, err := os.ReadFile("../samples/sample.json"); err == nil {
		f.Add(sample)
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		p, err := ReadText(text)
		if err != nil {
			return
		}
		back, err := ReadText(WriteText(p))
		if err != nil {
			t.Fatalf("what was written is not read: %v", err)
		}
		if !reflect.DeepEqual(p, back) {
			t.Fatalf("written and read again = %+v, want %+v", back, p)
		}
		for _, s := range p.Setups {
			if plan, err := Compile(p, s); err == nil {
				plan.Verdict(s.Delay)
			}
		}
	})
}
