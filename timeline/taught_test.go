package timeline_test

import (
	"strings"
	"testing"

	. "wakeline/timeline"
	"wakeline/timeline/words"
)

// TestTaughtTellsEveryOutcome holds what a student reads to numbers worked out
// by hand, for each thing that can become of an exchange.
func TestTaughtTellsEveryOutcome(t *testing.T) {
	strike := func(startup int, immune bool) Move {
		m := Move{Name: "swing", Kind: Strike, Level: Mid, Startup: startup, Active: []int{3}, Recovery: 20, OnGuard: Some(-10)}
		if immune {
			m.Immune = []Immunity{{Window{1, startup + 2}, true, true}}
		}
		return m
	}
	bait := func(p *Project) { p.Setups[0].Attack = "" }
	cases := []struct {
		name    string
		project *Project
		change  func(p *Project)
		delay   int
		line    int
		outcome Outcome
		want    string
	}{
		{"attack hits", DropIn(42, strike(5, false)), nil, 0, 3, AttackHits,
			"The attack hits Tarn on frame 42, the wake-up. swing could touch only from frame 46 on: 3 frames to spare."},
		{"attack hits late", DropIn(42), nil, 6, 2, AttackHits, "The attack hits Tarn on frame 43, 1 frame after the wake-up: too late, as Tarn is free until then."},
		{"attack blocked", DropIn(42), nil, 0, 0, AttackBlocked, "The attack touches Tarn on frame 42, the wake-up, and is blocked: Hesk acts 13 frames before Tarn."},
		{"reply blocked", DropIn(42, strike(4, true)), nil, 1, 3, ReplyBlocked, "On frame 42 the attack is active but touches nothing: swing is immune to strikes then. swing touches on frame 45 and is blocked: Hesk guards from frame 44, with 1 frame to spare. Hesk has 10 frames to punish it."},
		{"leapt over", DropIn(42), func(p *Project) {
			p.Fighters[1].Jumps = append(p.Fighters[1].Jumps, Jump{Name: "hop", Prejump: 0, Airborne: 30, Landing: 2})
			p.Fighters[0].Move(p.Setups[0].Attack).MissesAir = true
			p.Setups[0].Replies = []Reply{{Move: "hop", Demand: Survive}}
		}, 0, 3, NoContact, "On frame 42 the attack is active but touches nothing: hop is in the air then. Neither side touches the other: Hesk acts 28 frames before Tarn."},
		{"to the frame", DropIn(42, strike(4, true)), nil, 2, 3, ReplyBlocked, "Hesk guards from frame 45, with no frame to spare."},
		{"reply parried", DropIn(42, strike(4, true)), func(p *Project) { p.Setups[0].Landing = DoParry }, 1, 3, ReplyParried, "swing touches on frame 45 and is parried: Hesk parries from frame 44, with 1 frame to spare."},
		{"reply hits", DropIn(42, strike(4, true)), nil, 3, 3, ReplyHits, "swing hits on frame 45, but Hesk guards only from frame 46: 1 frame too late."},
		{"reply hits with nothing to guard", DropIn(42, strike(4, true)), func(p *Project) { p.Setups[0].Landing = "jab" }, 3, 3, ReplyHits, "swing hits on frame 45, where Hesk can't guard: dive is active, frame 6 of 6."},
		{"trade", JabAt(4, strike(1, false)), nil, 0, 3, Trade, "The attack and swing touch on the same frame, 4. In this ruleset two strikes on one frame both hit."},
		{"attack parried", DropIn(42, Move{Name: "turn", Kind: Parry, Length: 30, Parry: []Window{{1, 10}}}), nil, 0, 3, AttackParried, "turn parries the attack on frame 42."},
		{"attack absorbed", DropIn(42, Move{Name: "wall", Kind: Strike, Level: Mid, Startup: 12, Active: []int{3}, Recovery: 15, Armour: []Armour{{Window{1, 10}, 1}}}), nil, 0, 3,
			AttackAbsorbed, "wall absorbs the attack on frame 42 with its armour and goes on."},
		{"reply throws", DropIn(44, Move{Name: "grab", Kind: Throw, Level: LevelThrow, Startup: 3, Active: []int{3}, Recovery: 20}), bait, 0, 3, ReplyThrows, "grab throws Hesk on frame 46, and no guard stops a throw."},
		{"reply throws after a miss", DropIn(44, Move{Name: "grab", Kind: Throw, Level: LevelThrow, Startup: 3, Active: []int{3}, Recovery: 20}), nil, 0, 3, ReplyThrows,
			"grab throws Hesk on frame 46, and no guard stops a throw. The attack also misses the wake-up: the attack's last active frame that can touch is 42, 2 frames before the wake-up on 44."},
		{"grounded", JabAt(4), nil, 0, 2, AttackHits, "Hesk begins jab on frame 0."},
		{"no contact", DropIn(44, Move{Name: "wait", Kind: Evade, Length: 10}), bait, 0, 3, NoContact, "Neither side touches the other: Hesk acts 8 frames before Tarn."},
		{"attack whiffs", DropIn(44), nil, 0, 2, AttackWhiffs, "The attack does not touch Tarn in time: the attack's last active frame that can touch is 42, 2 frames before the wake-up on 44."},
		{"bait", DropIn(44), bait, 0, 2, AttackWhiffs, "Nothing touches Tarn, and nothing is meant to: the setup is a bait."},
	}
	seen := map[Outcome]bool{}
	for _, c := range cases {
		if c.change != nil {
			c.change(c.project)
		}
		if err := c.project.Check(); err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		plan, err := Compile(c.project, c.project.Setups[0])
		if err != nil {
			t.Fatal(err)
		}
		s := words.LessonAt(plan, c.delay, 0, 0, c.line).Steps[0]
		if got := s.Scene.Cell.Outcome; got != c.outcome {
			t.Errorf("%s: outcome %v, want %v (%s)", c.name, got, c.outcome, s.Sentence)
		}
		seen[s.Scene.Cell.Outcome] = true
		if !strings.Contains(s.Sentence, c.want) {
			t.Errorf("%s: %q, want %q in it", c.name, s.Sentence, c.want)
		}
	}
	for o := range Outcome(Outcomes) {
		if !seen[o] {
			t.Errorf("no case of %v", o)
		}
	}
}

// TestTaughtSaysWhatElseBreaks: where the reply shown is covered and the setup
// is not, the student is told.
func TestTaughtSaysWhatElseBreaks(t *testing.T) {
	p := DropIn(42, Reversal(4))
	plan, err := Compile(p, p.Setups[0])
	if err != nil {
		t.Fatal(err)
	}
	s := words.LessonAt(plan, 3, 0, 0, 0).Steps[0].Sentence
	if !strings.Contains(s, "The setup is unsafe here for another reason: reversal hits on 45") {
		t.Errorf("against a high guard at delay 3: %q", s)
	}
	p = DropIn(42, Reversal(4), Move{Name: "turn", Kind: Parry, Length: 30, Parry: []Window{{1, 10}}})
	if plan, err = Compile(p, p.Setups[0]); err != nil {
		t.Fatal(err)
	}
	if s := words.LessonAt(plan, 0, 0, 0, 3).Steps[0].Sentence; !strings.HasSuffix(s, "No timing covers turn.") {
		t.Errorf("of a limited setup: %q", s)
	}
}

// TestTaughtOfALateReply: its lateness is said in words.
func TestTaughtOfALateReply(t *testing.T) {
	p := DropIn(42, Reversal(4))
	p.Setups[0].Replies[0].Late = 2
	plan, err := Compile(p, p.Setups[0])
	if err != nil {
		t.Fatal(err)
	}
	// Free on 42 and started on 44, it is active on 47; touched on 42, it is not immune yet.
	want := "The attack hits Tarn on frame 42, the wake-up. reversal, done 2 frames late, could touch only from frame 47 on: 4 frames to spare."
	if got := words.LessonAt(plan, 0, 0, 0, 3).Steps[0].Sentence; !strings.HasSuffix(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}
