package timeline

import (
	"fmt"
	"testing"
)

// chase is an attacker that runs from frame 0 on, active all the way, after a
// rival that is up on frame 0 and runs off: so far in as many frames each.
func chase(ahead, mine, theirs, frames int) *Project {
	run := Move{Name: "run", Kind: Strike, Level: Mid, Startup: 1, Active: []int{frames - 1}, Recovery: 1, Travel: mine, Reach: &Interval{-MaxUnits, 0}}
	flee := Move{Name: "flee", Kind: Dash, Length: frames, Travel: -theirs}
	return &Project{DefaultRuleset(), []Fighter{
		{Name: "Hound", Moves: []Move{run}, Rises: DefaultRises()}, {Name: "Hare", Moves: []Move{flee}, Rises: DefaultRises()},
	}, []Setup{{Name: "chase", Attacker: "Hound", Rival: "Hare", Position: Midscreen, Advantage: Some(0), Distance: Some(ahead), Landing: "run",
		Replies: []Reply{{Move: "flee", Demand: Survive}}}}}
}

// TestOvertaking holds meetings of two movers against a published table of
// answers: The Nine Chapters on the Mathematical Art, chapter 6, problems 12 to
// 14 (translated by Shen, Crossley and Lun, Oxford 1999).
func TestOvertaking(t *testing.T) {
	for _, c := range []struct {
		name                        string
		ahead, mine, theirs, frames int
		caught                      int // the first frame on which it is
		gap                         map[int]int
	}{
		// A good walker goes 100 paces while a poor one goes 60; the poor one
		// is 100 paces ahead. Caught after 250 paces: 5 a frame against 3.
		{"12", 100, 500, 300, 100, 50, map[int]int{0: 100, 25: 50, 50: 0}},
		// The poor walker is 10 miles ahead; after 100 miles the good one is 20
		// ahead. Caught after 33 1/3 miles. In thirds of a mile, 3 a frame.
		{"13", 30, 300, 210, 100, 34, map[int]int{33: 0, 34: -1, 99: -59}}, // 0.3, -0.6 and -59.1 apart
		// A hare is 100 paces ahead; after 250 the hound is 30 behind. Caught
		// after 107 1/7 paces more. In sevenths of a pace, 25 a frame.
		{"14", 700, 5000, 3600, 200, 100, map[int]int{70: 210, 99: 7, 100: 0}},
	} {
		p := chase(c.ahead, c.mine, c.theirs, c.frames)
		if err := p.Check(); err != nil {
			t.Fatal(err)
		}
		plan, err := Compile(p, p.Setups[0])
		if err != nil {
			t.Fatal(err)
		}
		r := plan.Verdict(0).Rises[0].Replies[3]
		if r.Outcome != AttackHits || r.Meeting != Some(c.caught) {
			t.Errorf("problem %s: %v on %v, want caught on %d", c.name, r.Outcome, r.Meeting, c.caught)
		}
		a := plan.base.later(0)
		sp := plan.spotOf(&a, 0, 3)
		for f, want := range c.gap {
			if got, _ := sp.walk.apart(f); got != want {
				t.Errorf("problem %s: %d apart on frame %d, want %d", c.name, got, f, want)
			}
		}
	}
}

// TestMotionByHand holds places and heights against values worked by hand.
func TestMotionByHand(t *testing.T) {
	place := func(s stretch, f int) string { return fmt.Sprintf("%d/%d", s.over(f), s.parts) }
	g := groundAt(300, Maybe{})
	step := Move{Kind: Dash, Length: 12, Travel: 30} // 2.5 a frame
	l := g.setOff(20, 20, 12, 100, 0, step.Travel, 1)
	for f, want := range map[int]string{20: "1200/12", 24: "1320/12", 31: "1530/12", 32: "130/1", 90: "130/1"} {
		if s := l.on(f); place(s, f) != want {
			t.Errorf("a step of 30 in 12 from 100, frame %d: %s, want %s", f, place(s, f), want)
		}
	}
	// 200 in 39 air frames from frame 10+4 on: a fortieth of it on the first.
	j := Jump{Prejump: 4, Airborne: 39, Landing: 3, Travel: 200, Apex: Some(200)}
	p := j.pace()
	l = g.setOff(10, 10+p.zero, p.parts, 0, 0, p.travel, 1)
	for f, want := range map[int]string{10: "0/1", 13: "0/40", 14: "200/40", 33: "4000/40", 52: "7800/40", 53: "200/1"} {
		if s := l.on(f); place(s, f) != want {
			t.Errorf("a jump of 200 on frame 10, frame %d: %s, want %s", f, place(s, f), want)
		}
	}
	// The wall at 150 takes it on the air frame on which it would pass: 150 is
	// the 30th of 40 parts.
	g.wall = 150
	l = g.setOff(10, 10+p.zero, p.parts, 0, 0, p.travel, 1)
	for f, want := range map[int]string{42: "5800/40", 43: "150/1", 53: "150/1"} {
		if s := l.on(f); place(s, f) != want {
			t.Errorf("a jump of 200 to a wall at 150, frame %d: %s, want %s", f, place(s, f), want)
		}
	}
	// 4 * 200 * u * (1-u), u in fortieths: 19.5, 150, 200, 150, 19.5 units.
	for i, want := range map[int]int{0: 19, 9: 150, 19: 200, 29: 150, 38: 19} {
		if got := j.HeightAt(i); got != want {
			t.Errorf("height on air frame %d = %d, want %d", i, got, want)
		}
	}
}

// spaced is a dive in a jump that goes 160, from a distance, on a rival who may
// rise 40 further back.
func spaced(distance int, position Position) *Project {
	att := Fighter{Name: "Hesk", Rises: DefaultRises(),
		Moves: []Move{
			{Name: "dive", Kind: Strike, Air: true, Level: Overhead, Startup: 7, Active: []int{6}, Hitstun: Some(20), Guardstun: Some(16), Reach: &Interval{-25, 45}},
			{Name: "grip", Kind: Throw, Level: LevelThrow, Startup: 3, Active: []int{2}, Recovery: 20, Reach: &Interval{-10, 50}},
		},
		Jumps: []Jump{{Name: "hop", Prejump: 4, Airborne: 39, Landing: 3, Travel: 160}}}
	riv := Fighter{Name: "Tarn", Rises: []Rise{{Name: "normal"}, {Name: "backward", Shift: 40}},
		Moves: []Move{
			{Name: "upper", Kind: Strike, Level: Mid, Startup: 3, Active: []int{3}, Recovery: 30, OnGuard: Some(-25), Immune: []Immunity{{Window{1, 5}, true, true}}},
			{Name: "hold", Kind: Throw, Level: LevelThrow, Startup: 3, Active: []int{2}, Recovery: 25, Reach: &Interval{-10, 40}},
			{Name: "back off", Kind: Dash, Length: 18, Travel: -90},
		}}
	s := Setup{Name: "near", Attacker: "Hesk", Rival: "Tarn", Position: position, Advantage: Some(42), Distance: Some(distance), Jump: "hop", Attack: "dive",
		Landing: DoGuard, Rises: []string{"normal"}, Replies: []Reply{{Move: "upper", Demand: Survive}}}
	return &Project{DefaultRuleset(), []Fighter{att, riv}, []Setup{s}}
}

// verdictOf judges the one setup of p, changed.
func verdictOf(t *testing.T, p *Project, change func(s *Setup)) Verdict {
	t.Helper()
	s := p.Setups[0]
	if change != nil {
		change(&s)
	}
	p.Setups[0] = s
	if err := p.Check(); err != nil {
		t.Fatal(err)
	}
	plan, err := Compile(p, s)
	if err != nil {
		t.Fatal(err)
	}
	return plan.Verdict(s.Delay)
}

// The trade facts of space.md: common practice, no source.

func TestBackToTheWallABackRiseChangesNothing(t *testing.T) {
	backward := func(s *Setup) { s.Rises = []string{"backward"} }
	normal, back := verdictOf(t, spaced(170, Wall), nil), verdictOf(t, spaced(170, Wall), backward)
	for i, r := range back.Rises[0].Replies {
		if want := normal.Rises[0].Replies[i]; r != want {
			t.Errorf("at the wall, %s = %+v, want %+v as on the normal rise", r.Reply, r, want)
		}
	}
	if normal.Word != Safe {
		t.Errorf("at the wall: %s, want safe", normal.Word)
	}
	if v := verdictOf(t, spaced(190, Midscreen), backward); v.Word != Unsafe || v.Rises[0].Replies[LineNothing].Outcome != AttackWhiffs {
		t.Errorf("at midscreen the rise back gives %s, %v, want the attack to miss", v.Word, v.Rises[0].Replies[LineNothing].Outcome)
	}
}

func TestTooFarAndTooNear(t *testing.T) {
	// On 42, its last air frame, the jump has gone 156: the attack touches from
	// 131 to 201.
	for d, want := range map[int]struct {
		outcome Outcome
		side    Bearing
	}{
		202: {AttackWhiffs, 0}, 201: {AttackHits, InFront}, 157: {AttackHits, InFront}, 156: {AttackHits, Over},
		155: {AttackHits, Behind}, 131: {AttackHits, Behind}, 130: {AttackWhiffs, 0},
	} {
		if r := verdictOf(t, spaced(d, Midscreen), nil).Rises[0].Replies[LineNothing]; r.Outcome != want.outcome || r.Side != want.side {
			t.Errorf("from %d: %v %v, want %v %v", d, r.Outcome, r.Side, want.outcome, want.side)
		}
	}
	v := verdictOf(t, spaced(160, Midscreen), nil)
	if len(v.HoldsDistance) != 1 || v.HoldsDistance[0] != (Bounds{131, 201}) {
		t.Errorf("HoldsDistance = %v, want 131 to 201", v.HoldsDistance)
	}
}

func TestAThrowBeatsAGuardOnlyInItsRange(t *testing.T) {
	// From the ground, on 40: active on 42. It reaches 50.
	grab := func(s *Setup) { s.Jump, s.Attack, s.Landing, s.Delay, s.Replies = "", "", "grip", 40, nil }
	for d, want := range map[int]Outcome{50: AttackHits, 51: AttackWhiffs} {
		if r := verdictOf(t, spaced(d, Midscreen), grab).Rises[0].Replies[0]; r.Outcome != want {
			t.Errorf("a throw on a guard from %d: %v, want %v", d, r.Outcome, want)
		}
	}
	// An empty jump lands at 160 on 43 and guards; the hold is active on 44 and
	// 45 and reaches 40.
	empty := func(s *Setup) { s.Attack, s.Replies = "", []Reply{{Move: "hold", Demand: Survive}} }
	for d, want := range map[int]Outcome{200: ReplyThrows, 201: NoContact, 150: ReplyThrows} {
		if r := verdictOf(t, spaced(d, Midscreen), empty).Rises[0].Replies[3]; r.Outcome != want {
			t.Errorf("a hold from %d: %v, want %v", d, r.Outcome, want)
		}
	}
}

func TestABackDashOutOfRangeKeepsItsTurn(t *testing.T) {
	// The dash goes 5 a frame from 42 on, the grip is active on 44 and 45.
	grab := func(s *Setup) {
		s.Jump, s.Attack, s.Landing, s.Delay = "", "", "grip", 42
		s.Replies = []Reply{{Move: "back off", Demand: Survive}}
	}
	for d, want := range map[int]Outcome{40: AttackHits, 41: NoContact} {
		r := verdictOf(t, spaced(d, Midscreen), grab).Rises[0].Replies[3]
		if r.Outcome != want {
			t.Errorf("a grip after a dash from %d: %v, want %v", d, r.Outcome, want)
		}
		if want == NoContact && r.ToPunish != Some(42+18-66) {
			t.Errorf("after the grip missed, to punish = %v, want the attacker 6 behind", r.ToPunish)
		}
	}
	// With its back to the wall the dash goes nowhere.
	if r := verdictOf(t, spaced(41, Wall), grab).Rises[0].Replies[3]; r.Outcome != AttackHits {
		t.Errorf("a grip after a dash into the wall: %v, want it to hit", r.Outcome)
	}
}

func TestNothingToSpareHoldsAtOneAdvantage(t *testing.T) {
	// The upper is active on K+2; the guard works from 43.
	p := spaced(160, Midscreen)
	p.Fighters[0].Moves[0].Deep = Some(1)
	v := verdictOf(t, p, nil)
	if len(v.HoldsAdvantage) != 1 || v.HoldsAdvantage[0] != (Bounds{42, 42}) || v.HoldsStartup != Some(2) {
		t.Errorf("HoldsAdvantage, HoldsStartup = %v, %v, want 42 alone and 2", v.HoldsAdvantage, v.HoldsStartup)
	}
	p = spaced(160, Midscreen)
	p.Fighters[1].Moves[0].Startup, p.Fighters[1].Moves[0].Immune = 2, []Immunity{{Window{1, 4}, true, true}}
	if v := verdictOf(t, p, nil); len(v.HoldsAdvantage) != 1 || v.HoldsAdvantage[0] != (Bounds{42, 42}) {
		t.Errorf("against a 2-frame reversal, HoldsAdvantage = %v, want 42 alone: one less lets it out, one more misses", v.HoldsAdvantage)
	}
}
