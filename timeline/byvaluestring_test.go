package timeline

// SlowString is what follows a guarded attack by the slow reading.
type SlowString struct {
	Steps      []SlowStringStep
	Advantage  Maybe
	PunishedBy string
}

// SlowStringStep is one step of it.
type SlowStringStep struct {
	Move                 string
	Before, Touches, Gap Maybe
	BeatenBy             string
	Replies              []string // each as "name: outcome"
}

// follow reads the string after the guarded touch on the first claimed rise.
func (v *slowValue) follow() *SlowString {
	x := v.x
	if len(x.s.Follow) == 0 {
		return nil
	}
	a := Maybe{}
	for _, i := range []int{-2, -3} { // the high guard counts where both take it
		def, end := x.defender(x.rises[0], i)
		if c := x.exchange(x.attacker(v.d), def, end, v.d, x.rises[0], i).play(); c.Outcome == AttackBlocked {
			a = c.Advantage
		}
	}
	if !a.Given {
		x.note("no string")
		return nil
	}
	out := &SlowString{}
	for _, f := range x.s.Follow {
		step := SlowStringStep{Move: f.Move, Before: a}
		if a.Given {
			a = v.follows(f, &step)
		}
		out.Steps = append(out.Steps, step)
	}
	out.Advantage = a
	least := -a.N
	for i := range x.riv.Moves {
		m := &x.riv.Moves[i]
		if a.Given && !m.Air && slowHits(m) && m.Level != LevelAirThr && x.firstActive(m)+1 <= least {
			if out.PunishedBy == "" || x.firstActive(m) < x.firstActive(slowMove(x.riv, out.PunishedBy)) {
				out.PunishedBy = m.Name
			}
		}
	}
	return out
}

// follows plays one step from the advantage before it, and returns the one
// after it: absent where the string stops.
func (v *slowValue) follows(f FollowStep, step *SlowStringStep) Maybe {
	x := v.x
	m := slowMove(x.att, f.Move)
	if f.By == Link {
		a := step.Before.N
		if !slowHits(m) {
			x.note("a string stops at a move without active frames")
			return Maybe{}
		}
		t := f.Wait + x.firstActive(m)
		if m.Kind == Throw && t < a+x.p.Ruleset.ThrowGraceRise {
			x.note("a string stops at a throw")
			return Maybe{}
		}
		step.Touches, step.Gap = Some(t), Some(max(0, t+1-a))
		if step.Gap.N > 0 {
			v.gap(f, step)
		} else {
			x.note("a true string")
		}
	}
	if m.Kind == Throw {
		return Maybe{}
	}
	return x.first(m, m.OnGuard, m.Guardstun)
}

// gap judges a step with a gap as a plan of its own.
func (v *slowValue) gap(f FollowStep, step *SlowStringStep) {
	x := v.x
	a := step.Before.N
	riv := *x.riv
	riv.Rises = []Rise{{Name: "gap"}}
	fighters := []Fighter{*x.att, riv}
	fighters[0].Name, fighters[1].Name = "the attacker", "the rival"
	p := &Project{Ruleset: x.p.Ruleset, Fighters: fighters}
	s := &Setup{Attacker: "the attacker", Rival: "the rival", Position: Midscreen, Advantage: Some(max(a, 0)),
		Delay: f.Wait + max(-a, 0), Landing: f.Move}
	for _, r := range x.s.Replies {
		again := false
		for _, o := range s.Replies {
			again = again || o.Move == r.Move
		}
		if !again {
			s.Replies = append(s.Replies, Reply{Move: r.Move})
		}
	}
	y := newSlowPlan(p, s)
	if y.fits() < s.Delay {
		x.note("a gap past the width")
		return
	}
	for i, c := range y.table(s.Delay) {
		name := []string{GuardHigh, GuardLow, Nothing}[min(i, 2)]
		if i > 2 {
			name = s.Replies[i-3].Move
		}
		step.Replies = append(step.Replies, name+": "+c.Outcome.String())
		if i > 2 && step.BeatenBy == "" && !slowMeets(&c, Survive) {
			step.BeatenBy = name
			x.note("a gap is beaten")
		}
	}
}
