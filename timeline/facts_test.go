package timeline

import (
	"slices"
	"testing"
)

// The facts of frames.md, "Trade facts to hold in tests": common practice, no
// source. Every number here was worked out by hand.

// dropIn is a deep jump attack of 43 frames to touchdown (prejump 4, airborne
// 39) that guards as it lands, from that advantage, against those replies.
func dropIn(advantage int, replies ...Move) *Project {
	att := Fighter{
		Name: "Hesk",
		Moves: []Move{
			{Name: "dive", Kind: Strike, Air: true, Level: Overhead, Startup: 7, Active: []int{6}, Hitstun: Some(20), Guardstun: Some(16)},
			{Name: "jab", Kind: Strike, Level: Mid, Startup: 5, Active: []int{3}, Recovery: 12, OnHit: Some(4), OnGuard: Some(2)},
			{Name: "step", Kind: Dash, Length: 12},
		},
		Jumps: []Jump{{Name: "hop", Prejump: 4, Airborne: 39, Landing: 3}},
		Rises: []Rise{{Name: "normal"}},
	}
	riv := Fighter{Name: "Tarn", Moves: replies, Rises: []Rise{{Name: "normal"}}}
	s := Setup{Name: "drop in", Attacker: "Hesk", Rival: "Tarn", Position: Midscreen, Advantage: Some(advantage), Jump: "hop", Attack: "dive", Landing: DoGuard}
	for _, m := range replies {
		s.Replies = append(s.Replies, Reply{Move: m.Name, Demand: Survive})
	}
	return &Project{DefaultRuleset(), []Fighter{att, riv}, []Setup{s}}
}

// jabAt is a jab without a jump, on frame 0.
func jabAt(advantage int, replies ...Move) *Project {
	p := dropIn(advantage, replies...)
	p.Setups[0].Jump, p.Setups[0].Attack, p.Setups[0].Landing = "", "", "jab"
	return p
}

// reversal is a strike that nothing touches until it is active.
func reversal(startup int) Move {
	return Move{
		Name: "reversal", Kind: Strike, Level: Mid, Startup: startup, Active: []int{3}, Recovery: 30, OnGuard: Some(-25),
		Immune: []Immunity{{Window{1, startup + 2}, true, true}},
	}
}

// judged compiles the first setup of p and returns its verdict at its delay.
func judged(t *testing.T, p *Project) Verdict {
	t.Helper()
	if err := p.Check(); err != nil {
		t.Fatal(err)
	}
	plan, err := Compile(p, p.Setups[0])
	if err != nil {
		t.Fatal(err)
	}
	return plan.Verdict(p.Setups[0].Delay)
}

// replyOf returns the exchange with reply name on the first rise.
func replyOf(t *testing.T, v Verdict, name string) ReplyVerdict {
	t.Helper()
	for _, r := range v.Rises[0].Replies {
		if r.Reply == name {
			return r
		}
	}
	t.Fatalf("no reply %q", name)
	return ReplyVerdict{}
}

// Common practice, no source: a move's frames come in three parts: those before
// its first active frame, the active ones, and those until its owner is free
// again.
func TestFactStartupActiveRecovery(t *testing.T) {
	for _, c := range []struct {
		wake    int
		outcome Outcome
		meeting Maybe
		gap     Maybe
		adv     Maybe
	}{
		{0, AttackHits, Some(4), Some(4), Some(4)}, // four frames of startup pass first
		{4, AttackHits, Some(4), Some(0), Some(4)},
		{5, AttackHits, Some(5), Some(0), Some(5)},   // one frame into the span: one more
		{6, AttackHits, Some(6), Some(0), Some(6)},   // the last active frame
		{7, AttackWhiffs, Maybe{}, Maybe{}, Maybe{}}, // recovery hits nothing
	} {
		r := replyOf(t, judged(t, jabAt(c.wake)), Nothing)
		if r.Outcome != c.outcome || r.Meeting != c.meeting || r.AfterWake != c.gap || r.Advantage != c.adv {
			t.Errorf("wake %d: %v on %v, after wake-up %v, advantage %v, want %v on %v, after wake-up %v, advantage %v", c.wake, r.Outcome, r.Meeting, r.AfterWake, r.Advantage, c.outcome, c.meeting, c.gap, c.adv)
		}
	}
	// The jab ends on 4 + 3 + 12 = 19; an evade of 30 from frame 7 ends on 37.
	r := replyOf(t, judged(t, jabAt(7, Move{Name: "roll", Kind: Evade, Length: 30})), "roll")
	if r.Outcome != NoContact || r.ToPunish != Some(18) {
		t.Errorf("roll: %v, to punish %v, want no contact, 18", r.Outcome, r.ToPunish)
	}
}

// Common practice, no source: low enough in the air, the owner of a jump attack
// is on the ground and guarding by the first active frame of a reversal.
func TestFactSafeJump(t *testing.T) {
	for _, c := range []struct {
		startup int
		word    Word
		outcome Outcome
		spare   Maybe
	}{
		{6, Safe, ReplyBlocked, Some(4)}, // active on 42+5, guards from 43
		{3, Safe, ReplyBlocked, Some(1)},
		{2, Safe, ReplyBlocked, Some(0)},
		{1, Unsafe, ReplyHits, Some(-1)}, // active on 42, still in the air
	} {
		v := judged(t, dropIn(42, reversal(c.startup)))
		r := replyOf(t, v, "reversal")
		if v.Word != c.word || r.Outcome != c.outcome || r.Spare != c.spare {
			t.Errorf("startup %d: %v, %v, spare %v, want %v, %v, %v", c.startup, v.Word, r.Outcome, r.Spare, c.word, c.outcome, c.spare)
		}
	}
	// The same attack met high up is over before the rival stands.
	p := dropIn(42, reversal(6))
	p.Setups[0].Press = Some(0)
	if v := judged(t, p); v.Word != Unsafe || replyOf(t, v, Nothing).Outcome != AttackWhiffs {
		t.Errorf("pressed at once: %v, %v, want unsafe, attack whiffs", v.Word, replyOf(t, v, Nothing).Outcome)
	}
}

// Common practice, no source: a jump with 43 frames to touchdown (prejump 4,
// airborne 39), not delayed, meets the first wake-up frame with its last air
// frame at an advantage of 42; at 43 it is over one frame too soon; at 41 it
// has one frame less to spare.
func TestFactFortyTwo(t *testing.T) {
	for _, c := range []struct {
		advantage int
		word      Word
		outcome   Outcome // of doing nothing
		meeting   Maybe
		spare     Maybe // of the reversal
	}{
		{43, Unsafe, AttackWhiffs, Maybe{}, Some(5)},
		{42, Safe, AttackHits, Some(42), Some(4)},
		{41, Safe, AttackHits, Some(41), Some(3)},
		{40, Safe, AttackHits, Some(40), Some(2)},
	} {
		v := judged(t, dropIn(c.advantage, reversal(6)))
		idle, rev := replyOf(t, v, Nothing), replyOf(t, v, "reversal")
		if v.Word != c.word || idle.Outcome != c.outcome || idle.Meeting != c.meeting || rev.Spare != c.spare {
			t.Errorf("advantage %d: %v, %v on %v, spare %v, want %v, %v on %v, spare %v", c.advantage, v.Word, idle.Outcome, idle.Meeting, rev.Spare, c.word, c.outcome, c.meeting, c.spare)
		}
	}
	if v := judged(t, dropIn(42)); v.Touchdown != Some(43) || v.ActsFrom != 46 {
		t.Errorf("touchdown %v, acts from %d, want 43, 46", v.Touchdown, v.ActsFrom)
	}
}

// Common practice, no source: a parry or armour that works from its first
// frame wins whatever the timing.
func TestFactParryOrArmourFromTheFirstFrame(t *testing.T) {
	for _, c := range []struct {
		from    int
		armour  bool
		word    Word
		outcome Outcome
	}{{1, false, Unsafe, AttackParried}, {2, false, Safe, AttackHits}, {1, true, Unsafe, AttackAbsorbed}, {2, true, Safe, AttackHits}} {
		m := Move{Name: "answer", Kind: Parry, Length: 30, Parry: []Window{{c.from, 10}}}
		if c.armour {
			m = Move{Name: "answer", Kind: Strike, Level: Mid, Startup: 12, Active: []int{3}, Recovery: 15, Armour: []Armour{{Window{c.from, 10}, 1}}}
		}
		v := judged(t, dropIn(42, m))
		r := replyOf(t, v, "answer")
		if covered := len(v.Uncovered) == 0; covered != (c.from > 1) {
			t.Errorf("armour %v from frame %d: uncovered = %v", c.armour, c.from, v.Uncovered)
		}
		if v.Word != c.word || r.Outcome != c.outcome || r.Meeting != Some(42) {
			t.Errorf("from frame %d: %v, %v on %v, want %v, %v on 42", c.from, v.Word, r.Outcome, r.Meeting, c.word, c.outcome)
		}
	}
}

// Common practice, no source: too much advantage is burned by a whiffed
// filler of known length; such a chain is exact, a counted wait is not.
func TestFactFillersBurnAdvantage(t *testing.T) {
	p := dropIn(54, reversal(2))
	v := judged(t, p)
	if v.Word != Unsafe || !slices.Equal(v.Window, []Bounds{{12, 12}}) {
		t.Errorf("12 frames too many: %v, window %v, want unsafe, 12 alone", v.Word, v.Window)
	}
	for d, want := range map[int]Word{11: Unsafe, 12: Safe, 13: Unsafe} {
		if p.Setups[0].Delay = d; judged(t, p).Word != want {
			t.Errorf("counted %d: %v, want %v", d, judged(t, p).Word, want)
		}
	}
	p.Setups[0].Delay, p.Setups[0].Fillers = 0, []string{"step"}
	if v = judged(t, p); v.Word != Safe || v.JumpOn != Some(12) || !slices.Equal(v.Window, []Bounds{{0, 0}}) {
		t.Errorf("a filler of 12: %v, jump on %v, window %v, want safe, 12, 0 alone", v.Word, v.JumpOn, v.Window)
	}
}

// Common practice, no source: a move at -3 on guard loses its turn to a
// 3-frame punish; at +2 the striker's next button of equal startup wins.
func TestFactTurns(t *testing.T) {
	poke := Move{Name: "poke", Kind: Strike, Level: Mid, Startup: 4, Active: []int{2}, Recovery: 14, OnGuard: Some(-3)}
	p := dropIn(42, poke)
	p.Setups[0].Attack = "" // guard, and have the turn
	r := replyOf(t, judged(t, p), "poke")
	if r.Outcome != ReplyBlocked || r.ToPunish != Some(3) {
		t.Fatalf("poke: %v, to punish %v, want reply blocked, 3", r.Outcome, r.ToPunish)
	}
	for startup, want := range map[int]bool{3: true, 4: false} {
		m := Move{Kind: Strike, Startup: startup}
		if got := m.FirstActive(p.Ruleset)+1 <= r.ToPunish.N; got != want {
			t.Errorf("a punish of %d frames in time = %v, want %v", startup, got, want)
		}
	}
	// The jab leaves +2 on guard: the striker acts two frames earlier.
	if r = replyOf(t, judged(t, jabAt(4)), GuardHigh); r.Outcome != AttackBlocked || r.Advantage != Some(2) {
		t.Errorf("guarded jab: %v at %v, want attack blocked at 2", r.Outcome, r.Advantage)
	}
	equal := Move{Name: "equal", Kind: Strike, Level: Mid, Startup: 5, Active: []int{3}, Recovery: 12}
	if r = replyOf(t, judged(t, jabAt(2, equal)), "equal"); r.Outcome != AttackHits || r.Spare != Some(1) {
		t.Errorf("equal startup at +2: %v, spare %v, want attack hits, 1", r.Outcome, r.Spare)
	}
	if r = replyOf(t, judged(t, jabAt(0, equal)), "equal"); r.Outcome != Trade {
		t.Errorf("equal startup at 0: %v, want trade", r.Outcome)
	}
}

// Common practice, no source: a back rise changes distance and may change the
// frame; at the wall it can't change distance. Distance isn't judged: a shift
// alone must change nothing, at either place, and extra frames must.
func TestFactBackRise(t *testing.T) {
	for _, pos := range []Position{Midscreen, Wall} {
		for extra, want := range map[int]Word{0: Safe, 1: Unsafe} {
			p := dropIn(42, reversal(6))
			p.Setups[0].Position = pos
			p.Fighters[1].Rises = append(p.Fighters[1].Rises, Rise{Name: "backward", Extra: extra, Shift: 40})
			v := judged(t, p)
			if back := v.Rises[1]; v.Word != want || back.Wake != 42+extra {
				t.Errorf("%s, %d extra: %v, back rise on %d, want %v, %d", pos, extra, v.Word, back.Wake, want, 42+extra)
			}
			same := slices.Equal(v.Rises[0].Replies, v.Rises[1].Replies)
			if same != (extra == 0) {
				t.Errorf("%s, %d extra: both rises alike = %v, want %v", pos, extra, same, extra == 0)
			}
		}
	}
}

// Common practice, no source: a parry buffered on landing as an option select
// appears only where the jump attack touched nothing.
func TestFactOptionSelectParry(t *testing.T) {
	slow := Move{Name: "slow", Kind: Strike, Level: Mid, Startup: 6, Active: []int{3}, Recovery: 20, OnGuard: Some(-9)}
	p := dropIn(42, slow, reversal(6))
	p.Setups[0].Landing = DoParry
	v := judged(t, p)
	// It touches the slow move on 42, which would have touched on 47.
	if r := replyOf(t, v, "slow"); r.Outcome != AttackHits || r.Meeting != Some(42) || r.Spare != Some(4) {
		t.Errorf("slow: %v on %v, spare %v, want attack hits on 42, 4", r.Outcome, r.Meeting, r.Spare)
	}
	// It goes through the reversal, and the parry takes it: nothing to punish, no guard.
	r := replyOf(t, v, "reversal")
	if r.Outcome != ReplyParried || r.Meeting != Some(47) || r.ToPunish.Given {
		t.Errorf("reversal: %v on %v, to punish %v, want reply parried on 47, none", r.Outcome, r.Meeting, r.ToPunish)
	}
	p.Setups[0].Landing = DoGuard
	if r = replyOf(t, judged(t, p), "reversal"); r.Outcome != ReplyBlocked || r.ToPunish != Some(25) {
		t.Errorf("reversal guarded: %v, to punish %v, want reply blocked, 25", r.Outcome, r.ToPunish)
	}
	p.Setups[0].Landing, p.Setups[0].Replies[1].Demand = DoParry, Beat
	if v = judged(t, p); v.Word != Safe {
		t.Errorf("the parry beats the reversal: %v, want safe", v.Word)
	}
}
