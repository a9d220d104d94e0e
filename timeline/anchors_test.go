package timeline

import (
	"slices"
	"testing"
)

func TestAnchorsOfASafeJump(t *testing.T) {
	_, plan := busyPlan(t, 0)
	got := map[AnchorKind]Anchor{}
	for _, a := range plan.Anchors(3, 0, 3) {
		got[a.Kind] = a
	}
	want := []Anchor{
		{0, AnchorZero, false},
		{54, AnchorWake, false},
		{56, AnchorReply, false},
		{14, AnchorStart, true},
		{57, AnchorTouchdown, true},
		{57, AnchorGuard, true},
		{60, AnchorActs, true},
		{51, AnchorFirst, true},
		{56, AnchorLast, true},
	}
	for _, w := range want {
		if got[w.Kind] != w {
			t.Errorf("anchor %d = %+v, want %+v", w.Kind, got[w.Kind], w)
		}
	}
	if _, ok := got[AnchorThrowable]; ok {
		t.Error("the first frame to be thrown on stands beside a wake-up without grace")
	}
}

// slowAnchors reads the frames that matter off the slow sides.
func slowAnchors(p *Project, s *Setup, d, rise, i int) (fixed, moving map[AnchorKind]int) {
	x := newSlowPlan(p, s)
	x.judge()
	x.look(d)
	fixed = map[AnchorKind]int{AnchorZero: 0, AnchorWake: x.k + x.rises[rise].Extra}
	if n := p.Ruleset.ThrowGraceRise; n > 0 && x.landing != nil && x.landing.Kind == Throw {
		fixed[AnchorThrowable] = fixed[AnchorWake] + n
	}
	reach := func(sw *slowSwing) (on []int) {
		for f := range sw.on {
			if sw.on[f] > 0 && !sw.tooHigh[f] {
				on = append(on, f)
			}
		}
		return on
	}
	def, _ := x.defender(x.rises[rise], i-3)
	for _, sw := range def.swings {
		fixed[AnchorReply] = reach(sw)[0]
	}
	moving = map[AnchorKind]int{}
	var guards, acts int
	moving[AnchorStart], guards, acts, _ = x.clock(d)
	if x.jump != nil {
		moving[AnchorTouchdown] = moving[AnchorStart] + x.jump.Prejump + x.jump.Airborne
		moving[AnchorGuard], moving[AnchorActs] = guards, acts
	}
	for _, sw := range x.attacker(d).swings {
		first, last := AnchorLandingFirst, AnchorLandingLast
		if sw.air {
			first, last = AnchorFirst, AnchorLast
		}
		if on := reach(sw); len(on) > 0 {
			moving[first], moving[last] = on[0], on[len(on)-1]
		}
	}
	return fixed, moving
}

func TestAnchorsAgreeWithFrames(t *testing.T) {
	seen := map[AnchorKind]int{}
	for seed := range uint64(900) {
		p := randomProject(seed)
		s := p.Setups[0]
		plan, err := Compile(p, s)
		if err != nil {
			continue
		}
		d, rise, line := int(seed)%min(20, plan.Fits()+1), int(seed)%plan.Rises(), int(seed)%plan.Lines()
		fixed, moving := slowAnchors(p, &s, d, rise, line)
		starts := []int{}
		for _, a := range plan.Anchors(d, rise, line) {
			seen[a.Kind]++
			if a.Kind == AnchorWindowFrom || a.Kind == AnchorWindowTo {
				starts = append(starts, a.Frame-plan.jumpOn)
				continue
			}
			of := fixed
			if a.Moves {
				of = moving
			}
			if want, ok := of[a.Kind]; !ok || want != a.Frame {
				t.Fatalf("seed %d delay %d: anchor %+v, want frame %d (%v)", seed, d, a, want, ok)
			}
			delete(of, a.Kind)
		}
		if len(fixed)+len(moving) > 0 {
			t.Fatalf("seed %d: left out: %v %v", seed, fixed, moving)
		}
		ends := []int{}
		for _, b := range Runs(plan.window) {
			ends = append(ends, b.From, b.To)
		}
		if !slices.Equal(starts, ends) {
			t.Fatalf("seed %d: window at %v, want %v", seed, starts, ends)
		}
	}
	for kind := range AnchorLastAir {
		if seen[kind] < 10 {
			t.Errorf("anchor %d seen %d times, want 10 or more", kind, seen[kind])
		}
	}
}

// landsOn reports whether in the setup an anchor of those that move falls on
// one that doesn't, read off the slow sides.
func landsOn(p *Project, s Setup, h held, rise, line, d int, window []Bounds) bool {
	rival, own := slowAnchors(p, &s, d, rise, line)
	zero := rival[AnchorZero]
	delete(rival, AnchorZero)
	start := own[AnchorStart]
	delete(own, AnchorStart)
	moving, fixed := own, rival
	switch h {
	case heldDelay:
		for _, b := range window {
			if start-d+b.From == start || start-d+b.To == start {
				return true
			}
		}
	case heldPress:
		moving = map[AnchorKind]int{}
		for _, k := range []AnchorKind{AnchorFirst, AnchorLast} {
			if f, ok := own[k]; ok {
				moving[k] = f
				delete(own, k)
			}
		}
		if last, ok := moving[AnchorLast]; ok && last == own[AnchorTouchdown]-1 {
			return true
		}
		for k, f := range own {
			fixed[k] = f
		}
	case heldAdvantage:
		moving, fixed = rival, own
	}
	fixed[AnchorZero] = zero
	for k, m := range moving {
		for l, f := range fixed {
			throws := k == AnchorThrowable || l == AnchorThrowable
			if m == f && (!throws || max(k, l) >= AnchorLandingFirst) {
				return true
			}
		}
	}
	return false
}

func TestSnapIsTheNearest(t *testing.T) {
	n, least := 400, 20
	if testing.Short() {
		n, least = 80, 3
	}
	hits := [3]int{}
	for seed := range uint64(n) {
		p := randomProject(seed)
		s := p.Setups[0]
		s.Delay = int(seed) % 20
		plan, err := Compile(p, s)
		if err != nil {
			continue
		}
		const reach = 4
		rise, line := int(seed)%plan.Rises(), int(seed)%plan.Lines()
		for _, h := range []held{heldDelay, heldPress, heldAdvantage} {
			at := s.Delay
			got, ok := plan.SnapDelay(at, rise, line, reach)
			try := func(v int) (Setup, int, bool) { return s, v, v <= plan.Fits() }
			switch h {
			case heldPress:
				at = plan.Press()
				got, ok = plan.SnapPress(at, s.Delay, rise, line, reach)
				try = func(v int) (Setup, int, bool) {
					next := s
					next.Press = Some(v)
					return next, s.Delay, plan.base.jumpAttack() != nil && v < slowJump(p.Fighter(s.Attacker), s.Jump).Airborne
				}
			case heldAdvantage:
				at = plan.K
				got, ok = plan.SnapAdvantage(at, s.Delay, rise, line, reach)
				try = func(v int) (Setup, int, bool) {
					next := s
					next.Advantage = Some(v)
					_, err := Compile(p, next)
					return next, s.Delay, err == nil
				}
			}
			want, found := 0, false
			for away := 0; away <= reach && !found; away++ {
				for _, v := range []int{at - away, at + away} {
					if found || v < 0 {
						continue
					}
					next, d, fits := try(v)
					if fits && landsOn(p, next, h, rise, line, d, Runs(plan.window)) {
						want, found = v, true
					}
				}
			}
			if ok != found || got.Value != want {
				t.Fatalf("seed %d, hold %d: snaps from %d to %d (%v), want %d (%v)", seed, h, at, got.Value, ok, want, found)
			}
			if ok {
				hits[h]++
				if got.Moving.Frame != got.Fixed.Frame || !got.Moving.Moves || got.Fixed.Moves {
					t.Fatalf("seed %d: %+v", seed, got)
				}
			}
		}
	}
	if slices.Min(hits[:]) < least {
		t.Errorf("snaps = %v, want %d of each", hits, least)
	}
}
