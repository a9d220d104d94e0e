package timeline

import (
	"fmt"
	"strings"
)

// Fact is one number or property in words, for a hand that rests on a thing.
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
func (f *facts) number(n Maybe, name, form string) { f.say(n.Given, name, form, n.N) }

// places adds the numbers of the two positions that are given.
func (f *facts) places(p Places, name, unit string) {
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
func sayCards[T any](out *facts, of []Field[T], v *T) {
	for i := range of {
		if f := &of[i]; f.Card != "" && !f.isDefault(v) {
			out.say(true, f.Label, f.Card, f.Get(v).N)
		}
	}
}

// Phases writes the move's frames in one line, as the trade counts them:
// "startup 5, active 2(5)1, recovery 12; total 24", or the total alone.
func (m *Move) Phases(r Ruleset) string {
	if !m.Hits() {
		return fmt.Sprintf("total %d", m.Total(r))
	}
	return fmt.Sprintf("startup %d, active %s, recovery %d; total %d", m.Startup, ActiveWords(m.Active), m.Recovery, m.Total(r))
}

// Phases writes the jump's frames in one line.
func (j *Jump) Phases() string {
	return fmt.Sprintf("prejump %d, airborne %d, landing %d; total %d", j.Prejump, j.Airborne, j.Landing, j.Total())
}

// About tells the move in words and numbers; what it doesn't have is left
// out. Windows count from 1, both ends in them.
func (m *Move) About(r Ruleset) []Fact {
	kind := string(m.Kind)
	if m.Hits() && m.Level != LevelThrow {
		kind += ", " + string(m.Level)
	}
	if m.Air {
		kind += ", done in the air"
	}
	out := facts{{"kind", kind}, {"frames", m.Phases(r)}}
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
	sayCards(&out, MoveFields, m)
	out.places(m.Knockdown, "advantage", "frames")
	out.places(m.Distance, "distance", "units")
	return out
}

// String writes the window the trade's way, "1 to 8", or "3" for one frame.
func (w Window) String() string {
	if w.From == w.To {
		return fmt.Sprint(w.From)
	}
	return fmt.Sprintf("%d to %d", w.From, w.To)
}

// About tells the jump in words and numbers.
func (j *Jump) About() []Fact {
	out := facts{{"kind", "jump"}, {"frames", j.Phases()}}
	out.say(true, "guards", "%s after touchdown", frames(j.GuardAfter))
	sayCards(&out, JumpFields, j)
	return out
}

// About tells the rise in words and numbers.
func (r *Rise) About() []Fact {
	out := facts{{"kind", "rise"}, {"extra", frames(r.Extra)}}
	sayCards(&out, RiseFields, r)
	return out
}

// Length is the block's frames; absent where it has no end or no beginning of
// its own: the ender, a guard, a held parry, standing idle.
func (b *Block) Length() Maybe {
	if len(b.Pieces) == 1 {
		switch b.Pieces[0].Phase {
		case EnderPhase, Guarding, Parrying, Idle:
			return Maybe{}
		}
	}
	return Some(b.Span.Len())
}

// About tells a block of this plan's scenes: the move, jump or rise that it
// is, then how it lasts, with its first and last frame of the clock.
func (p *Plan) About(b *Block) []Fact {
	var out facts
	switch b.Part {
	case PartEnder:
		out = about(p.attacker, p.Setup.Ender, p.rules)
		out.say(true, "knockdown advantage", "%s", frames(p.K))
	case PartFiller:
		out = about(p.attacker, p.Setup.Fillers[b.Index], p.rules)
	case PartDelay:
		var safe []string
		for _, w := range p.Window() {
			safe = append(safe, Window(w).String())
		}
		out.say(!p.Blank(), "window", "%s", list(append(safe, "empty")[:max(1, len(safe))]))
	case PartJump:
		out = about(p.attacker, p.Setup.Jump, p.rules)
	case PartAttack:
		out = about(p.attacker, p.Setup.Attack, p.rules)
		how := "by hand"
		if !p.Setup.Press.Given {
			how = Auto
		}
		out.say(true, "press", "air frame %d, %s", p.press, how)
	case PartLanding:
		out = about(p.attacker, p.Setup.Landing, p.rules)
	case PartRise:
		out = p.rises[b.Index].About()
		out.say(true, "wake-up", "on %d", p.wakes[b.Index])
	case PartReply:
		out = about(p.rival, p.replyName(b.Index), p.rules)
		l := &p.lines[b.Index]
		out.say(l.demand != DemandNone, "demand", "%s", l.demand)
	}
	switch n := b.Length(); {
	case n.N > 0:
		out.say(true, "lasts", "%s, %s", frames(n.N), Window{b.Span.From, b.Span.To - 1})
	case n.Given:
		out.say(true, "lasts", "0 frames")
	case b.Part != PartEnder:
		out.say(true, "lasts", "from %d on", b.Span.From)
	}
	return out
}

// about tells the move or jump of that name, nothing where there is none.
func about(f *roster, name string, r Ruleset) facts {
	if j := f.Jump(name); j != nil {
		return j.About()
	}
	if m := f.Move(name); m != nil {
		return m.About(r)
	}
	return nil
}
