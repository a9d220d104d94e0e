package value

import (
	"reflect"
	"testing"

	"wakeline/timeline"
)

// ring is a small project. Ada's ender leaves 10 frames; she meets the first
// wake-up frame with a low kick on 10 (its startup is 5: a is 4, and she waits
// 6), which is at -3 on guard and +5 on hit.
const ring = `{"wakeline": 1, "ruleset": {"scaling": [100, 50, 10], "counter_damage": 120, "gauge": 3, "parry_advantage": 5},
 "fighters": [
  {"name": "Ada", "moves": [
    {"name": "kick", "kind": "strike", "level": "mid", "startup": 5, "active": [2], "recovery": 10, "on_hit": 5, "on_guard": -3, "damage": 100},
    {"name": "five", "kind": "strike", "level": "mid", "startup": 5, "active": [2], "recovery": 10, "on_hit": 2, "on_guard": 3, "damage": 30},
    {"name": "six", "kind": "strike", "level": "mid", "startup": 6, "active": [2], "recovery": 10, "damage": 60},
    {"name": "drop", "kind": "strike", "level": "mid", "startup": 9, "active": [2], "recovery": 20, "damage": 80, "gauge_cost": 2, "knockdown": {"midscreen": 10}},
    {"name": "grip", "kind": "throw", "startup": 3, "active": [2], "recovery": 20, "damage": 70}],
   "routes": [
    {"name": "pair", "steps": [{"move": "kick"}, {"move": "five"}]},
    {"name": "gap", "steps": [{"move": "kick"}, {"move": "six"}]},
    {"name": "down", "steps": [{"move": "five", "by": "cancel"}, {"move": "drop", "by": "cancel"}]},
    {"name": "tried", "steps": [{"move": "kick"}, {"move": "six"}], "damage": 999, "gauge_cost": 1, "confirmed": true}]},
  {"name": "Bea", "moves": [
    {"name": "jab", "kind": "strike", "level": "mid", "startup": 3, "active": [1], "recovery": 8, "damage": 20},
    {"name": "hook", "kind": "strike", "level": "mid", "startup": 4, "active": [1], "recovery": 8, "damage": 90},
    {"name": "rise", "kind": "strike", "level": "mid", "startup": 3, "active": [2], "recovery": 25, "on_guard": -24, "damage": 150, "immune": [{"from": 1, "to": 5}]}]}],
 "setups": [{"name": "meaty", "attacker": "Ada", "rival": "Bea", "ender": "drop", "delay": 6, "landing": "kick", "on_hit": "pair",
   "follow": [{"move": "five", "by": "cancel"}, {"move": "six"}], "replies": [{"move": "rise", "costs": 200}, {"move": "jab"}]},
  {"name": "block", "attacker": "Ada", "rival": "Bea", "ender": "drop", "delay": 0, "landing": "guard", "replies": [{"move": "rise"}]},
  {"name": "plain", "attacker": "Ada", "rival": "Bea", "ender": "drop", "delay": 6, "landing": "kick", "pressure": 40, "replies": []}]}`

func ringOf(t *testing.T) *timeline.Project {
	t.Helper()
	p, err := timeline.ReadText([]byte(ring))
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func answer(t *testing.T, p *timeline.Project, setup int, g Gauges) Answer {
	t.Helper()
	plan, err := timeline.Compile(p, p.Setups[setup])
	if err != nil {
		t.Fatal(err)
	}
	m := plan.Meetings(p.Setups[setup].Delay, nil)
	return NewBook(p).Of(&m, g)
}

// TestRoutes works the routes out by hand: +5 on hit links to a startup of 5
// with nothing to spare, and to one of 6 not.
func TestRoutes(t *testing.T) {
	p := ringOf(t)
	want := []struct {
		name                string
		damage, cost, needs int
		margins             []timeline.Maybe
		counts              bool
	}{
		{"pair", 115, 0, 0, []timeline.Maybe{timeline.Some(0)}, true},
		{"gap", 130, 0, 0, []timeline.Maybe{timeline.Some(-1)}, false},
		{"down", 70, 2, 2, []timeline.Maybe{{}}, true},
		{"tried", 999, 1, 1, []timeline.Maybe{timeline.Some(-1)}, true},
		{"kick", 100, 0, 0, nil, true}, {"five", 30, 0, 0, nil, true}, {"six", 60, 0, 0, nil, true}, {"drop", 80, 2, 2, nil, true}, {"grip", 70, 0, 0, nil, true},
	}
	got := Routes(p.Ruleset, &p.Fighters[0])
	if len(got) != len(want) {
		t.Fatalf("%d routes, want %d", len(got), len(want))
	}
	for i, w := range want {
		r := &got[i]
		if r.Name != w.name || r.Damage != w.damage || r.Cost != w.cost || r.Needs() != timeline.Some(w.needs) || r.Counts != w.counts || !reflect.DeepEqual(r.Margins, w.margins) {
			t.Errorf("route %d = %+v, needs %v, want %+v", i, r, r.Needs(), w)
		}
	}
}

// TestPoints works every exchange out by hand.
func TestPoints(t *testing.T) {
	p := ringOf(t)
	some, none := timeline.Some, timeline.Maybe{}
	w := func(points timeline.Maybe, route string, kills timeline.Maybe) Worth {
		return Worth{Points: points, Route: route, Kills: kills}
	}
	for _, c := range []struct {
		name   string
		setup  int
		gauges Gauges
		want   []Worth // of the one rise
	}{
		// Guarded: after the string the turn is unknown (six says nothing on
		// guard), so nothing is lost. Hit: the kick, a kick at a half and five at a
		// tenth. The rise is out first, immune, and costs what the setup says. The jab
		// has begun and is hit for 120.
		{"meaty", 0, Gauges{}, []Worth{w(some(0), "", none), w(some(0), "", none), w(some(153), "pair", some(153)), w(some(-200), "", none), w(some(173), "pair", some(173))}},
		// A guard that nothing touches; the rise is guarded on 12 and over on
		// 39: its best punish is the one measured.
		{"block", 1, Gauges{}, []Worth{w(some(0), "", none), w(some(0), "", none), w(some(0), "", none), w(some(999), "tried", some(999))}},
		// Without gauge the measured one can't be paid: pair it is.
		{"block, no gauge", 1, Gauges{Attacker: some(0)}, []Worth{w(some(0), "", none), w(some(0), "", none), w(some(0), "", none), w(some(115), "pair", some(115))}},
		// -3 on guard loses its turn to a 3-frame punish: the jab's 20, and
		// neither the hook nor more.
		{"plain", 2, Gauges{}, []Worth{w(some(40-150), "", none), w(some(40-150), "", none), w(some(100), "", some(100))}},
	} {
		if got := answer(t, p, c.setup, c.gauges); len(got.Rises) != 1 || !reflect.DeepEqual(got.Rises[0], c.want) {
			t.Errorf("%s:\n got %v\nwant %v", c.name, got.Rises, c.want)
		}
	}
	a := answer(t, p, 0, Gauges{})
	if a.KillsOnHit != some(153) || a.Forgone != some(0) {
		t.Errorf("kills on hit %v, forgone %v, want 153 and 0", a.KillsOnHit, a.Forgone)
	}
	if a := answer(t, p, 1, Gauges{}); a.KillsOnHit.Given {
		t.Errorf("a guard kills on hit from %v", a.KillsOnHit)
	}
}

// TestAMoveThatCantBePaid: a setup without the gauge for its own moves is worth
// nothing that can be told.
func TestAMoveThatCantBePaid(t *testing.T) {
	p := ringOf(t)
	p.Setups[2].Landing = "drop"
	p.Setups[2].Delay = 2
	if got := answer(t, p, 2, Gauges{Attacker: timeline.Some(1)}); got.Rises[0][2] != (Worth{}) || got.KillsOnHit.Given {
		t.Errorf("with a segment too few: %+v", got)
	}
	if got := answer(t, p, 2, Gauges{Attacker: timeline.Some(2)}); got.KillsOnHit != timeline.Some(80) {
		t.Errorf("with enough: %+v", got)
	}
}

// TestStrings: a true string has no gap; startup 4 after +3 leaves 1, and what
// gets out of it is named.
func TestStrings(t *testing.T) {
	p := ringOf(t)
	some := timeline.Some
	s := &p.Setups[0]
	s.Follow = []timeline.FollowStep{{Move: "five", By: timeline.Cancel}, {Move: "four", By: timeline.Link}, {Move: "kick", Wait: 4, By: timeline.Link}}
	p.Fighters[0].Moves = append(p.Fighters[0].Moves, timeline.Move{Name: "four", Kind: timeline.Strike, Level: timeline.Mid, Startup: 4, Active: []int{2}, Recovery: 6, OnGuard: some(9)})
	got := answer(t, p, 0, Gauges{}).String
	if got == nil || len(got.Steps) != 3 {
		t.Fatalf("string = %+v", got)
	}
	five, four, kick := got.Steps[0], got.Steps[1], got.Steps[2]
	if five.Before != some(-3) || five.Touches.Given || five.Gap.Given || len(five.Exchanges) != 0 {
		t.Errorf("by cancel: %+v", five)
	}
	if four.Before != some(3) || four.Touches != some(3) || four.Gap != some(1) || four.BeatenBy != "rise" || len(four.Exchanges) != 5 {
		t.Errorf("a startup of 4 after +3: %+v, want a gap of 1 that the rise gets out of", four)
	}
	if kick.Before != some(9) || kick.Touches != some(8) || kick.Gap != some(0) || kick.BeatenBy != "" || len(kick.Exchanges) != 0 {
		t.Errorf("a true string: %+v", kick)
	}
	if got.Advantage != some(-3) || got.PunishedBy != "jab" {
		t.Errorf("in the end %v, punished by %q, want -3 and the jab", got.Advantage, got.PunishedBy)
	}
}

// TestABaitLosesNothing: a plan with nothing that strikes is a bait, also with
// an evade in the air; what that costs counts from the frame of its press.
func TestABaitLosesNothing(t *testing.T) {
	p := ringOf(t)
	p.Ruleset.GaugeWorth, p.Ruleset.Reaction = 10, 0
	ada := &p.Fighters[0]
	ada.Moves = append(ada.Moves, timeline.Move{Name: "drift", Kind: timeline.Evade, Air: true, Length: 4, GaugeCost: 1})
	ada.Jumps = append(ada.Jumps, timeline.Jump{Name: "hop", Prejump: 2, Airborne: 20, Landing: 9, GuardAfter: 9})
	p.Setups[1].Jump, p.Setups[1].Attack, p.Setups[1].Press = "hop", "drift", timeline.Some(9)
	want := []int{-10, -10, -10, -200} // the rise hits on 12, when the drift has begun on 11
	p.Setups[1].Replies[0].Costs = timeline.Some(190)
	for press, last := range map[int]int{9: -200, 10: -200, 11: -190} {
		p.Setups[1].Press = timeline.Some(press)
		want[3] = last
		for i, w := range answer(t, p, 1, Gauges{}).Rises[0] {
			if w.Points != timeline.Some(want[i]) {
				t.Errorf("pressed on air frame %d, line %d: %v points, want %d", press, i, w.Points, want[i])
			}
		}
	}
}

// TestTradeFacts: at +2 the next button of equal startup wins, even it trades,
// at -1 it loses; +5 on hit links to a startup of 5 and not to one of 6; -3 on
// guard loses its turn to a startup of 3, and -2 doesn't.
func TestTradeFacts(t *testing.T) {
	p := ringOf(t)
	some := timeline.Some
	ada, bea := &p.Fighters[0], &p.Fighters[1]
	bea.Moves = append(bea.Moves, timeline.Move{Name: "same", Kind: timeline.Strike, Level: timeline.Mid, Startup: 5, Active: []int{2}, Recovery: 9})
	s := &p.Setups[2]
	s.Follow = []timeline.FollowStep{{Move: "five", By: timeline.Link}}
	s.Replies = []timeline.Reply{{Move: "same", Demand: timeline.DemandNone, Late: 3}}
	for at, want := range map[int]timeline.Outcome{3: timeline.AttackHits, 2: timeline.AttackHits, 1: timeline.AttackHits, 0: timeline.Trade, -1: timeline.ReplyHits, -3: timeline.ReplyHits} {
		ada.Moves[0].OnGuard = some(at)
		got := answer(t, p, 2, Gauges{}).String
		step := got.Steps[0]
		if step.Gap != some(5-at) || len(step.Exchanges) != 4 || step.Exchanges[3] != (StringReply{"same", want}) || (step.BeatenBy == "same") == want.Survived() {
			t.Errorf("equal startup at %+d: %+v, want %v", at, step, want)
		}
	}
	s.Follow, s.OnHit = nil, "one"
	for startup, route := range map[int]string{4: "one", 5: "one", 6: ""} {
		five := ada.Move("five")
		five.Startup = startup
		ada.Routes = append(ada.Routes[:0:0], timeline.Route{Name: "one", Steps: []timeline.RouteStep{{Move: "five", By: timeline.Link}}},
			timeline.Route{Name: "two", Steps: []timeline.RouteStep{{Move: "kick", By: timeline.Link}, {Move: "five", By: timeline.Link}}})
		if got := answer(t, p, 2, Gauges{}).Rises[0][timeline.LineNothing].Route; got != route {
			t.Errorf("+5 on hit, then a startup of %d: %q, want %q", startup, got, route)
		}
		if r := Routes(p.Ruleset, ada)[1]; r.Counts != (route != "") || r.Margins[0] != some(5-startup) {
			t.Errorf("a link at +5 to a startup of %d: %+v", startup, r)
		}
	}
	for at, costs := range map[int]int{-4: 150, -3: 150, -2: 0, 2: 0} {
		ada.Moves[0].OnGuard = some(at)
		if got := answer(t, p, 2, Gauges{}).Rises[0][timeline.LineGuardLow].Points; got != some(40-costs) {
			t.Errorf("%+d on guard: %v points, want %d", at, got, 40-costs)
		}
	}
}
