package words

import (
	"fmt"
	"strings"

	"wakeline/timeline"
)

// Fact is one number or property in words, for the card of a move or block.
type Fact struct{ Name, Value string }

// facts gathers what is worth saying.
type facts []Fact

// say adds a fact where ok.
func (f *facts) say(ok bool, name, form string, with ...any) {
	if ok {
		*f = append(*f, Fact{name, fmt.Sprintf(form, with...)})
	}
}

// number adds a number where it is given.
func (f *facts) number(n timeline.Maybe, name, form string) { f.say(n.Given, name, form, n.N) }

// places adds the numbers of the two positions that are given.
func (f *facts) places(p timeline.Places, name, unit string) {
	var say []string
	if p.Midscreen.Given {
		say = append(say, fmt.Sprintf("%d %s midscreen", p.Midscreen.N, unit))
	}
	if p.Wall.Given {
		say = append(say, fmt.Sprintf("%d %s at the wall", p.Wall.N, unit))
	}
	f.say(len(say) > 0, name, "%s", strings.Join(say, ", "))
}

// sayCards adds the numbers that their rows say how to tell.
func sayCards[T any](out *facts, of []timeline.Field[T], v *T) {
	for i := range of {
		if f := &of[i]; f.Card != "" && !f.IsDefault(v) {
			out.say(true, f.Label, f.Card, f.Get(v).N)
		}
	}
}

// MovePhases writes the move's frames in one line, as the trade counts them:
// "startup 5, active 2(5)1, recovery 12; total 24", or the total alone.
func MovePhases(m *timeline.Move, r timeline.Ruleset) string {
	if !m.Hits() {
		return fmt.Sprintf("total %d", m.Total(r))
	}
	return fmt.Sprintf("startup %d, active %s, recovery %d; total %d", m.Startup, timeline.ActiveWords(m.Active), m.Recovery, m.Total(r))
}

// JumpPhases writes the jump's frames in one line.
func JumpPhases(j *timeline.Jump) string {
	return fmt.Sprintf("prejump %d, airborne %d, landing %d; total %d", j.Prejump, j.Airborne, j.Landing, j.Total())
}

// AboutMove tells the move in words and numbers; what it doesn't have is left
// out. Windows count from 1, both ends in them.
func AboutMove(m *timeline.Move, r timeline.Ruleset) []Fact {
	kind := string(m.Kind)
	if m.Hits() && m.Level != timeline.LevelThrow {
		kind += ", " + string(m.Level)
	}
	if m.Air {
		kind += ", done in the air"
	}
	out := facts{{"kind", kind}, {"frames", MovePhases(m, r)}}
	out.number(m.OnHit, "on hit", "%+d")
	out.number(m.OnGuard, "on guard", "%+d")
	out.number(m.Hitstun, "hitstun", "%d frames")
	out.number(m.Guardstun, "guardstun", "%d frames")
	for _, w := range m.Immune {
		against := "strikes and throws"
		if w.Strikes != w.Throws {
			against = map[bool]string{true: "strikes", false: "throws"}[w.Strikes]
		}
		out.say(true, "immune", "%s, to %s", w.Window, against)
	}
	for _, w := range m.Armour {
		hits := fmt.Sprintf("%d hits", w.Hits)
		if w.Hits == 1 {
			hits = "1 hit"
		}
		out.say(true, "armour", "%s, %s", w.Window, hits)
	}
	for _, w := range m.Parry {
		out.say(true, "parry", "%s", w)
	}
	out.number(m.AirborneFrom, "airborne", "from frame %d")
	out.say(m.MissesAir, "passes", "under an airborne body")
	out.number(m.Deep, "reaches a grounded body", "on the last %d air frames")
	out.number(m.Drop, "drop", "%d units")
	out.number(m.Top, "reaches up to", "%d units")
	if m.Reach != nil {
		out.say(true, "reach", "%d to %d units", m.Reach.Near, m.Reach.Far)
	}
	if m.Landing != nil {
		out.say(true, "landing", "recovery %d, guard after %d", m.Landing.Recovery, m.Landing.GuardAfter)
	}
	sayCards(&out, timeline.MoveFields, m)
	out.places(m.Knockdown, "advantage", "frames")
	out.places(m.Distance, "distance", "units")
	return out
}

// AboutJump tells the jump in words and numbers.
func AboutJump(j *timeline.Jump) []Fact {
	out := facts{{"kind", "jump"}, {"frames", JumpPhases(j)}}
	out.say(true, "guards", "%s after touchdown", Frames(j.GuardAfter))
	sayCards(&out, timeline.JumpFields, j)
	return out
}

// AboutRise tells the rise in words and numbers.
func AboutRise(r *timeline.Rise) []Fact {
	out := facts{{"kind", "rise"}, {"extra", Frames(r.Extra)}}
	sayCards(&out, timeline.RiseFields, r)
	return out
}

// About tells a block of this plan's scenes: the move, jump or rise that it
// is, then how it lasts, with its first and last frame of the clock.
func About(p *timeline.Plan, b *timeline.Block) []Fact {
	var out facts
	attacker, rival := p.Fighters()
	switch b.Part {
	case timeline.PartEnder:
		out = about(attacker, p.Setup.Ender, p.Rules())
		out.say(true, "knockdown advantage", "%s", Frames(p.K))
	case timeline.PartFiller:
		out = about(attacker, p.Setup.Fillers[b.Index], p.Rules())
	case timeline.PartDelay:
		var safe []string
		for _, w := range timeline.Runs(p.WindowSet()) {
			safe = append(safe, timeline.Window(w).String())
		}
		out.say(!p.Blank(), "window", "%s", List(append(safe, "empty")[:max(1, len(safe))]))
	case timeline.PartJump:
		out = about(attacker, p.Setup.Jump, p.Rules())
	case timeline.PartAttack:
		out = about(attacker, p.Setup.Attack, p.Rules())
		how := "by hand"
		if !p.Setup.Press.Given {
			how = timeline.Auto
		}
		out.say(true, "press", "air frame %d, %s", p.Press(), how)
	case timeline.PartLanding:
		out = about(attacker, p.Setup.Landing, p.Rules())
	case timeline.PartRise:
		rise := p.Rise(b.Index)
		out = AboutRise(&rise)
		out.say(true, "wake-up", "on %d", p.Wake(b.Index))
	case timeline.PartReply:
		out = about(rival, p.Reply(b.Index).Move, p.Rules())
		demand := p.Reply(b.Index).Demand
		out.say(demand != timeline.DemandNone, "demand", "%s", demand)
	}
	switch n := b.Length(); {
	case n.N > 0:
		out.say(true, "lasts", "%s, %s", Frames(n.N), timeline.Window{From: b.Span.From, To: b.Span.To - 1})
	case n.Given:
		out.say(true, "lasts", "0 frames")
	case b.Part != timeline.PartEnder:
		out.say(true, "lasts", "from %d on", b.Span.From)
	}
	return out
}

// about tells the move or jump of that name, nothing where there is none.
func about(f *timeline.Fighter, name string, r timeline.Ruleset) facts {
	if j := f.Jump(name); j != nil {
		return AboutJump(j)
	}
	if m := f.Move(name); m != nil {
		return AboutMove(m, r)
	}
	return nil
}
