package words

import (
	"strings"
	"testing"

	"wakeline/timeline"
)

// A jump of 45 frames to touchdown that travels 100 units, with an attack that
// reaches from 10 behind to 60 in front; a reversal, a throw with a range of 30,
// and a rise that carries the rival 40 units away.
const farAndNear = `{"wakeline": 1, "fighters": [
 {"name": "Brenno", "width": 40, "moves": [
  {"name": "Sweep", "kind": "strike", "level": "low", "startup": 6, "active": [2], "recovery": 20, "knockdown": {"midscreen": 44}, "distance": {"midscreen": 120}},
  {"name": "Heel", "kind": "strike", "air": true, "level": "overhead", "startup": 6, "active": [6], "hitstun": 18, "guardstun": 14, "reach": [-10, 60]}],
  "jumps": [{"name": "forward", "prejump": 4, "airborne": 41, "landing": 3, "travel": 100}]},
 {"name": "Ishka", "width": 40, "moves": [
  {"name": "Rise up", "kind": "strike", "level": "mid", "startup": 4, "active": [3], "recovery": 30, "on_guard": -20, "reach": [0, 200], "immune": [{"from": 1, "to": 6}]},
  {"name": "Grab", "kind": "throw", "startup": 3, "active": [2], "recovery": 20, "reach": [0, 10], "immune": [{"from": 1, "to": 4}]},
  {"name": "Poke", "kind": "strike", "level": "mid", "startup": 4, "active": [2], "recovery": 9}],
  "rises": [{"name": "normal", "extra": 0}, {"name": "backward", "extra": 0, "shift": 40}]}],
 "setups": [{"name": "one", "attacker": "Brenno", "rival": "Ishka", "ender": "Sweep", "jump": "forward", "attack": "Heel", "rises": ["normal"], "replies": [{"move": "Rise up"}]}]}`

func TestDistanceIsToldInUnits(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(s *timeline.Setup)
		want   []string
		never  string
	}{
		{"in reach", func(*timeline.Setup) {}, []string{"Meets the wake-up on 44"}, "short"},
		{"too far", func(s *timeline.Setup) { s.Distance = timeline.Some(180) }, []string{"No delay meets the wake-up: Heel is 23 units short on frame 44."}, ""},
		{"too near", func(s *timeline.Setup) { s.Distance = timeline.Some(60) }, []string{"Heel passes over: it has passed its reach by 28 units on frame 44"}, ""},
		{"from behind", func(s *timeline.Setup) { s.Distance = timeline.Some(93) }, []string{"A touch from behind counts as guarded the other way round"}, ""},
		{"a rise breaks it", func(s *timeline.Setup) { s.Rises = []string{"backward"} }, []string{"Heel is 3 units short on frame 44"}, ""},
		{"no distance", func(s *timeline.Setup) { s.Ender, s.Advantage = "", timeline.Some(44) }, []string{"Distance was not judged."}, ""},
		{"no reach", func(s *timeline.Setup) {
			s.Replies = append(s.Replies, timeline.Reply{Move: "Poke", Demand: timeline.Survive})
		},
			[]string{"Poke has no reach: distance not judged there."}, ""},
	} {
		p, err := timeline.ReadText([]byte(farAndNear))
		if err != nil {
			t.Fatal(err)
		}
		s := p.Setups[0]
		c.change(&s)
		plan, err := timeline.Compile(p, s)
		if err != nil {
			t.Fatal(c.name, err)
		}
		got := VerdictAt(plan, 0).Because
		for _, want := range c.want {
			if !strings.Contains(got, want) {
				t.Errorf("%s: %q, want %q in it", c.name, got, want)
			}
		}
		if c.never != "" && strings.Contains(got, c.never) {
			t.Errorf("%s: %q", c.name, got)
		}
	}
}

// The note stands also where no data speak of distance, and before any demand.
func TestEveryVerdictWithoutADistanceSaysSo(t *testing.T) {
	p := example()
	s := p.Setups[0]
	for _, empty := range []bool{false, true} {
		if empty {
			s.Attack, s.Replies = "", []timeline.Reply{}
		}
		plan, err := timeline.Compile(p, s)
		if err != nil {
			t.Fatal(err)
		}
		if plan.Blank() != empty {
			t.Fatalf("blank: %v", plan.Blank())
		}
		if got := VerdictAt(plan, 0); got.Distance.Given || !strings.HasSuffix(got.Because, ". Distance was not judged.") {
			t.Errorf("%q", got.Because)
		}
	}
}

// An empty jump lands on 45, and a sweep from 48 on is active on 53. A grab
// that reaches throws the attacker on 46; one too short is swept.
func TestAReplyThatIsHitOnlyForItsReachIsToldSo(t *testing.T) {
	p, err := timeline.ReadText([]byte(farAndNear))
	if err != nil {
		t.Fatal(err)
	}
	s := p.Setups[0]
	s.Replies, s.Delay = []timeline.Reply{{Move: "Grab", Demand: timeline.Survive}}, 0
	s.Attack, s.Landing = "", "Sweep"
	p.Fighters[1].Moves[1].Recovery = 30
	for far, want := range map[int]bool{1: true, 200: false} {
		p.Fighters[1].Moves[1].Reach.Far = far
		plan, err := timeline.Compile(p, s)
		if err != nil {
			t.Fatal(err)
		}
		got := ExchangeAt(plan, 0, 0, timeline.FirstReply)
		if strings.Contains(got, "the attacker is out of the throw's range by") != want {
			t.Errorf("reach %d: %q", far, got)
		}
	}
}

func TestPlaceOfAMeeting(t *testing.T) {
	for _, c := range []struct {
		n    int
		side timeline.Bearing
		want string
	}{{120, timeline.InFront, "120 apart"}, {-120, timeline.InFront, "120 apart"}, {-3, timeline.Behind, "3 behind"}, {0, timeline.Over, "0 apart"}} {
		if got := Place(&timeline.ReplyVerdict{Apart: timeline.Some(c.n), Side: c.side}); got != c.want {
			t.Errorf("%d, %v: %q, want %q", c.n, c.side, got, c.want)
		}
	}
	if got := Place(&timeline.ReplyVerdict{Apart: timeline.Some(9), Side: timeline.InFront, OutOfReach: true}); got != "out of reach" {
		t.Errorf("out of reach: %q", got)
	}
	if got := Place(&timeline.ReplyVerdict{}); got != "" {
		t.Errorf("without a distance: %q", got)
	}
}

// On frame 44 the attacker stands at 100 x 41/42, 60.4 units from the rival; it
// lands on 45, at 100, where the throw of reach 10 is 48 units short.
func TestAReplyOutOfReachIsToldSo(t *testing.T) {
	p, err := timeline.ReadText([]byte(farAndNear))
	if err != nil {
		t.Fatal(err)
	}
	rival := &p.Fighters[1]
	rival.Moves = append(rival.Moves, timeline.Move{Name: "Slip away", Kind: timeline.Dash, Length: 20, Travel: -400})
	s := p.Setups[0]
	s.Distance, s.Replies = timeline.Some(158), []timeline.Reply{{Move: "Slip away", Demand: timeline.Survive}, {Move: "Grab", Demand: timeline.Survive}}
	plan, err := timeline.Compile(p, s)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []string{"Slip away makes no contact: Heel is 1 unit short on frame 44", "the throw's range by 48 units on frame 46"} {
		if got := ExchangeAt(plan, 0, 0, timeline.FirstReply+i); !strings.Contains(got, want) {
			t.Errorf("%q, want %q in it", got, want)
		}
	}
}
