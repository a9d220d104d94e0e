package timeline_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	. "wakeline/timeline"
)

// worth is a project text with every field that tells what an exchange is worth.
const worth = `{"wakeline": 1, "ruleset": {"scaling": [100, 90, 0], "counter_damage": 120, "gauge_worth": 7, "parry_advantage": 9, "reaction": 12, "carry": "0.50"},
 "fighters": [{"name": "Ada",
   "moves": [{"name": "jab", "kind": "strike", "level": "mid", "startup": 4, "active": [2]}, {"name": "dive", "kind": "strike", "air": true, "level": "mid", "startup": 4, "active": [2]},
    {"name": "step", "kind": "dash", "total": 12}],
   "jumps": [{"name": "hop", "prejump": 4, "airborne": 30, "landing": 3}],
   "replies": [{"move": "jab", "costs": 40}, {"move": "hop", "demand": "none", "late": 3}],
   "routes": [{"name": "two jabs", "steps": [{"move": "jab"}, {"move": "jab", "by": "cancel"}], "damage": 90, "gauge_cost": 1, "gauge_gain": 2, "confirmed": true},
    {"name": "one", "steps": [{"move": "jab"}]}]}],
 "setups": [{"name": "one", "attacker": "Ada", "rival": "Ada", "advantage": 9, "on_hit": "one", "punish": ["two jabs", "one"],
   "follow": [{"move": "jab", "wait": 2}, {"move": "jab", "by": "cancel"}], "pressure": 40},
  {"name": "two", "attacker": "Ada", "rival": "Ada", "advantage": 9, "replies": []}]}`

func TestReadTextOfWorth(t *testing.T) {
	p, err := ReadText([]byte(worth))
	if err != nil {
		t.Fatal(err)
	}
	want := DefaultRuleset()
	want.Scaling, want.CounterDamage, want.GaugeWorth, want.ParryAdvantage, want.Reaction, want.Carry = []int{100, 90, 0}, 120, 7, Some(9), 12, Ratio{Num: 1, Den: 2}
	f := &p.Fighters[0]
	routes := []Route{
		{Name: "two jabs", Damage: Some(90), GaugeCost: Some(1), GaugeGain: Some(2), Confirmed: true, Steps: []RouteStep{{"jab", Link}, {"jab", Cancel}}},
		{Name: "one", Steps: []RouteStep{{"jab", Link}}},
	}
	replies := []Reply{{Move: "jab", Demand: Survive, Costs: Some(40)}, {Move: "hop", Demand: DemandNone, Late: 3}}
	one, two := &p.Setups[0], &p.Setups[1]
	switch {
	case !reflect.DeepEqual(p.Ruleset, want):
		t.Errorf("ruleset = %+v, want %+v", p.Ruleset, want)
	case !reflect.DeepEqual(f.Routes, routes) || f.Route("one") != &f.Routes[1] || f.Route("two") != nil:
		t.Errorf("routes = %+v, want %+v", f.Routes, routes)
	case !reflect.DeepEqual(f.Replies, replies):
		t.Errorf("replies = %+v, want %+v", f.Replies, replies)
	case one.OnHit != "one" || !reflect.DeepEqual(one.Punish, []string{"two jabs", "one"}) || one.Pressure != 40 ||
		!reflect.DeepEqual(one.Follow, []FollowStep{{"jab", 2, Link}, {"jab", 0, Cancel}}):
		t.Errorf("the setup = %+v", one)
	case !reflect.DeepEqual(one.Asked(f), replies) || len(two.Asked(f)) != 0:
		t.Errorf("asked: %v and %v, want the rival's and none", one.Asked(f), two.Asked(f))
	}
	for i, lines := range []int{FirstReply + 2, FirstReply} {
		if plan, err := Compile(p, p.Setups[i]); err != nil || plan.Lines() != lines {
			t.Errorf("setup %d: %d lines, %v, want %d", i, plan.Lines(), err, lines)
		}
	}
	if back, err := ReadText(WriteText(p)); err != nil || !reflect.DeepEqual(back, p) {
		t.Errorf("written and read again: %v\n%s", err, WriteText(p))
	}
}

func TestReadTextRefusesOfWorth(t *testing.T) {
	const f, s = "$.fighters[0]", "$.setups[0]"
	for _, c := range []struct{ name, old, new, path string }{
		{"no percent", `[100, 90, 0]`, `[]`, "$.ruleset.scaling"},
		{"a percent below 0", `[100, 90, 0]`, `[100, -1]`, "$.ruleset.scaling[1]"},
		{"counter damage", `"counter_damage": 120`, `"counter_damage": -1`, "$.ruleset.counter_damage"},
		{"worth", `"gauge_worth": 7`, `"gauge_worth": -7`, "$.ruleset.gauge_worth"},
		{"reaction", `"reaction": 12`, `"reaction": 513`, "$.ruleset.reaction"},
		{"a carry of 1", `"carry": "0.50"`, `"carry": "1"`, "$.ruleset.carry"},
		{"a carry of 3/3", `"carry": "0.50"`, `"carry": "3/3"`, "$.ruleset.carry"},
		{"a carry below 0", `"carry": "0.50"`, `"carry": "-1/2"`, "$.ruleset.carry"},
		{"a carry over 0", `"carry": "0.50"`, `"carry": "0/0"`, "$.ruleset.carry"},
		{"a carry that is a number", `"carry": "0.50"`, `"carry": 0.5`, "$.ruleset.carry"},
		{"standing reply", `{"move": "jab", "costs": 40}`, `{"move": "jib"}`, f + ".replies[0].move"},
		{"standing reply in the air", `{"move": "jab", "costs": 40}`, `{"move": "dive"}`, f + ".replies[0].move"},
		{"standing reply twice", `{"move": "jab", "costs": 40}`, `{"move": "hop", "late": 3}`, f + ".replies[1]"},
		{"costs", `"costs": 40`, `"costs": -1`, f + ".replies[0].costs"},
		{"route twice", `"name": "one", "steps"`, `"name": "two jabs", "steps"`, f + ".routes[1].name"},
		{"no steps", `"one", "steps": [{"move": "jab"}]`, `"one", "steps": []`, f + ".routes[1].steps"},
		{"steps left out", `"one", "steps": [{"move": "jab"}]`, `"one"`, f + ".routes[1].steps"},
		{"an unknown step", `"one", "steps": [{"move": "jab"}]`, `"one", "steps": [{"move": "jib"}]`, f + ".routes[1].steps[0].move"},
		{"a step in the air", `"one", "steps": [{"move": "jab"}]`, `"one", "steps": [{"move": "dive"}]`, f + ".routes[1].steps[0].move"},
		{"a jump as a step", `"one", "steps": [{"move": "jab"}]`, `"one", "steps": [{"move": "hop"}]`, f + ".routes[1].steps[0].move"},
		{"by", `"by": "cancel"`, `"by": "chain"`, f + ".routes[0].steps[1].by"},
		{"damage", `"damage": 90`, `"damage": -1`, f + ".routes[0].damage"},
		{"cost", `"gauge_cost": 1`, `"gauge_cost": -1`, f + ".routes[0].gauge_cost"},
		{"confirmed", `"confirmed": true`, `"confirmed": 1`, f + ".routes[0].confirmed"},
		{"on hit", `"on_hit": "one"`, `"on_hit": "jab"`, s + ".on_hit"},
		{"punish", `["two jabs", "one"]`, `["two jabs", "none"]`, s + ".punish[1]"},
		{"punish twice", `["two jabs", "one"]`, `["one", "one"]`, s + ".punish[1]"},
		{"follow", `{"move": "jab", "wait": 2}`, `{"move": "dive"}`, s + ".follow[0].move"},
		{"wait", `"wait": 2`, `"wait": -2`, s + ".follow[0].wait"},
		{"an unknown field", `"wait": 2`, `"waits": 2`, s + ".follow[0].waits"},
		{"pressure", `"pressure": 40`, `"pressure": "40"`, s + ".pressure"},
	} {
		text := strings.Replace(worth, c.old, c.new, 1)
		if text == worth {
			t.Fatalf("%s: %q is not in the text", c.name, c.old)
		}
		if _, err := ReadText([]byte(text)); err == nil || !strings.HasPrefix(err.Error(), c.path+": expected") {
			t.Errorf("%s: error = %v, want one at %s", c.name, err, c.path)
		}
	}
}

// TestEditsOfRoutes: a name that something uses can't be taken away, and a new
// name is taken along.
func TestEditsOfRoutes(t *testing.T) {
	read := func() *Project {
		p, err := ReadText([]byte(worth))
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	p := read()
	route := p.Fighters[0].Routes[0]
	route.Name = "pair"
	jab := p.Fighters[0].Moves[0]
	jab.Name = "poke"
	got, err := p.With(RouteEdit{"Ada", "two jabs", &route}, MoveEdit{"Ada", "jab", &jab})
	if err != nil {
		t.Fatal(err)
	}
	f, s := &got.Fighters[0], &got.Setups[0]
	if s.Punish[0] != "pair" || s.Follow[1].Move != "poke" || f.Replies[0].Move != "poke" || f.Routes[0].Steps[1].Move != "poke" || f.Routes[1].Steps[0].Move != "poke" {
		t.Errorf("after new names: %+v, %+v", f, s)
	}
	if !reflect.DeepEqual(p, read()) {
		t.Errorf("the project itself changed")
	}
	for _, e := range []Edit{RouteEdit{"Ada", "one", nil}, MoveEdit{"Ada", "jab", nil}, JumpEdit{"Ada", "hop", nil}} {
		if _, err := p.With(e); err == nil {
			t.Errorf("%+v: done, want an error", e)
		}
	}
	if got, err := p.With(SetupEdit{"one", nil}, RouteEdit{"Ada", "one", nil}, RouteEdit{"Ada", "", &Route{Name: "new", Steps: []RouteStep{{"step", Link}}}}); err != nil || len(got.Fighters[0].Routes) != 2 {
		t.Errorf("%v, want one route gone and one new", err)
	}
}

// TestReplyEdits changes what every setup against a fighter is asked, reply by
// reply, and leaves the project itself alone.
func TestReplyEdits(t *testing.T) {
	p, err := ReadText([]byte(worth))
	if err != nil {
		t.Fatal(err)
	}
	was := slices.Clone(p.Fighters[0].Replies)
	if len(was) == 0 {
		t.Fatal("Ada has no replies")
	}
	changed := Reply{Move: was[0].Move, Demand: Beat, Late: was[0].Late + 7}
	got, err := p.With(ReplyEdit{"Ada", was[0].Title(), &changed}, ReplyEdit{"Ada", "", &Reply{Move: "hop", Demand: DemandNone, Late: 9}})
	if err != nil {
		t.Fatal(err)
	}
	want := append(slices.Clone(was), Reply{Move: "hop", Demand: DemandNone, Late: 9})
	want[0] = changed
	if !reflect.DeepEqual(got.Fighters[0].Replies, want) || !reflect.DeepEqual(p.Fighters[0].Replies, was) {
		t.Errorf("%+v, want %+v; before it %+v", got.Fighters[0].Replies, want, p.Fighters[0].Replies)
	}
	for _, e := range []Edit{ReplyEdit{"Ada", "gone", nil}, ReplyEdit{"Eve", "", &changed}, ReplyEdit{"Ada", "", &was[0]}, ReplyEdit{"Ada", "", &Reply{Move: "gone", Demand: Survive}}} {
		if _, err := p.With(e); err == nil {
			t.Errorf("%+v: done, want an error", e)
		}
	}
	var none []Edit
	for _, r := range was {
		none = append(none, ReplyEdit{"Ada", r.Title(), nil})
	}
	if got, err := p.With(none...); err != nil || got.Fighters[0].Replies != nil {
		t.Errorf("all taken away: %v, %v", err, got)
	}
}
