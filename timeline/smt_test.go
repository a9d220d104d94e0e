package timeline

import (
	"fmt"
	"strings"
)

// A third reading of frames.md, as SMT-LIB 2 for a solver: the delay d is an
// unknown, every rule a formula over it. What it can't say is left out by
// plainProject: heights, and armour of more than one window or hit.

// smtRules are the rules of "Meeting" that don't depend on the setup. The
// codes of go: 0 no contact, 1 attack hits, 2 attack blocked, 3 reply blocked,
// 4 reply parried, 5 trade, 6 reply hits, 7 attack parried or absorbed, 8 reply
// throws.
const smtRules = `
(define-fun in ((f Int) (from Int) (to Int)) Bool (and (<= from f) (< f to)))
(define-fun mineFirst ((throw Bool) (guard Bool) (parry Bool) (arm Bool) (broke Bool)) Int
  (ite throw 1 (ite guard 2 (ite parry 7 (ite arm (ite broke 1 7) 1)))))
(define-fun theirsFirst ((throw Bool) (guard Bool) (parry Bool)) Int
  (ite throw 8 (ite guard 3 (ite parry 4 6))))
(define-fun go ((m Bool) (mF Int) (mThrow Bool) (mGuard Bool) (mParry Bool) (mArm Bool) (broke Bool)
                (t Bool) (tF Int) (tThrow Bool) (tGuard Bool) (tParry Bool) (trades Bool)) Int
  (let ((a (mineFirst mThrow mGuard mParry mArm broke)) (b (theirsFirst tThrow tGuard tParry)))
    (ite (and (not m) (not t)) 0
    (ite (or (not t) (and m (< mF tF))) a
    (ite (or (not m) (< tF mF)) b
    (ite (and (not mThrow) (or mParry mArm)) a
    (ite (and (not mThrow) tThrow) a
    (ite (and mThrow (not tThrow)) b
    (ite (or mThrow trades) 5 a)))))))))
(define-fun survives ((g Int)) Bool (<= g 4))
(define-fun beats ((g Int) (punish Int)) Bool (or (= g 1) (= g 2) (= g 4) (and (= g 3) (> punish 0))))
`

// plainProject strips from a random project what smt can't say.
func plainProject(seed uint64) *Project {
	p := randomProject(seed)
	p.Setups[0].Distance = Maybe{}
	for i := range p.Fighters {
		f := &p.Fighters[i]
		for k := range f.Jumps {
			f.Jumps[k].Apex = Maybe{}
		}
		f.Moves[len(f.Moves)-1].Distance = Places{}
		for k := range f.Moves {
			if m := &f.Moves[k]; len(m.Armour) > 0 {
				m.Armour = m.Armour[:1]
				m.Armour[0].Hits = 1
			}
		}
	}
	return p
}

// smt writes one setup as formulas.
type smt struct {
	strings.Builder
	x      *slowPlan
	spaced bool  // the distance D is known
	at     Maybe // the delay, where it is no unknown
	n      int   // names given
}

func (w *smt) put(format string, args ...any) { fmt.Fprintf(w, format+"\n", args...) }

// def gives a formula a name, so that it is written once.
func (w *smt) def(sort, body string) string {
	w.n++
	name := fmt.Sprintf("v%d", w.n)
	w.put("(define-fun %s () %s %s)", name, sort, body)
	return name
}

func smtOr(parts ...string) string  { return "(or false " + strings.Join(parts, " ") + ")" }
func smtAnd(parts ...string) string { return "(and true " + strings.Join(parts, " ") + ")" }

// smtBody is one side: the name of a predicate over frames for each property.
type smtBody struct {
	strikeProof, throwProof, air, high, low, parry, arm string
	space                                               *smtSpace // where the other side reaches it
	attacks                                             bool      // it is the attacker's
}

// body defines the predicates of a side from the stretches of each.
func (w *smt) body(parts map[string][]string) smtBody {
	name := func(what string) string {
		w.n++
		name := fmt.Sprintf("%s%d", what, w.n)
		w.put("(define-fun %s ((f Int)) Bool %s)", name, smtOr(parts[what]...))
		return name
	}
	return smtBody{name("strikeProof"), name("throwProof"), name("air"), name("high"), name("low"), name("parry"), name("arm"), nil, false}
}

// windows adds the windows of a move that starts on frame start.
func (w *smt) windows(parts map[string][]string, m *Move, start string) {
	add := func(what string, from, to int) {
		parts[what] = append(parts[what], fmt.Sprintf("(in (+ 1 (- f %s)) %d %d)", start, from, to+1))
	}
	for _, i := range m.Immune {
		if i.Strikes {
			add("strikeProof", i.From, i.To)
		}
		if i.Throws {
			add("throwProof", i.From, i.To)
		}
	}
	for _, a := range m.Armour {
		add("arm", a.From, a.To)
	}
	for _, c := range m.Parry {
		add("parry", c.From, c.To)
	}
	if m.AirborneFrom.Given {
		add("air", m.AirborneFrom.N, w.x.total(m))
	}
}

// fly adds a jump that starts on frame start, and returns its touchdown.
func (w *smt) fly(parts map[string][]string, j *Jump, start string) (down string) {
	up := fmt.Sprintf("(+ %s %d)", start, j.Prejump)
	down = fmt.Sprintf("(+ %s %d)", up, j.Airborne)
	if w.x.p.Ruleset.PrejumpThrowProof {
		parts["throwProof"] = append(parts["throwProof"], fmt.Sprintf("(in f %s %s)", start, up))
	}
	parts["air"] = append(parts["air"], fmt.Sprintf("(in f %s %s)", up, down))
	parts["throwProof"] = append(parts["throwProof"], fmt.Sprintf("(in f %s (+ %s %d))", down, down, w.x.p.Ruleset.ThrowGraceLanding))
	return down
}

// smtHit is one active frame of a swing.
type smtHit struct {
	m     *Move
	span  int
	begin string // first frame of the span
	frame string
	when  string // the frame counts: before touchdown, low enough
}

// hits lists the active frames of a move that starts on frame start.
func (w *smt) hits(m *Move, start string) (out []smtHit) {
	if m.Kind != Strike && m.Kind != Throw {
		return nil
	}
	at := w.x.firstActive(m)
	for i, long := range m.Active {
		for n := 0; n < long && i%2 == 0; n++ {
			out = append(out, smtHit{m, i / 2, fmt.Sprintf("(+ %s %d)", start, at), w.def("Int", fmt.Sprintf("(+ %s %d)", start, at+n)), "true"})
		}
		at += long
	}
	return out
}

// touch is the formula: that active frame touches body b.
func (w *smt) touch(h smtHit, b smtBody) string {
	if reach := b.space.reaches(w, h, b.attacks); reach != "true" {
		h.when = smtAnd(h.when, reach)
	}
	is := func(p string) string { return fmt.Sprintf("(%s %s)", p, h.frame) }
	not := func(p string) string { return fmt.Sprintf("(not (%s %s))", p, h.frame) }
	switch {
	case h.m.Level == LevelThrow:
		return w.def("Bool", smtAnd(h.when, not(b.throwProof), not(b.air)))
	case h.m.Level == LevelAirThr:
		return w.def("Bool", smtAnd(h.when, not(b.throwProof), is(b.air)))
	case h.m.Level == Low || h.m.MissesAir:
		return w.def("Bool", smtAnd(h.when, not(b.strikeProof), not(b.air)))
	}
	return w.def("Bool", smtAnd(h.when, not(b.strikeProof)))
}

// guard is the formula: body b guards that active frame.
func (w *smt) guard(h smtHit, b smtBody) string {
	switch h.m.Level {
	case Mid:
		return fmt.Sprintf("(or (%s %s) (%s %s))", b.high, h.frame, b.low, h.frame)
	case Low:
		return fmt.Sprintf("(%s %s)", b.low, h.frame)
	case Overhead:
		return fmt.Sprintf("(%s %s)", b.high, h.frame)
	}
	return "false"
}

// pick is the value of the first hit that touches, by ites; none without.
func (w *smt) pick(sort string, touches []string, value func(i int) string, none string) string {
	s := none
	for i := len(touches) - 1; i >= 0; i-- {
		s = w.def(sort, fmt.Sprintf("(ite %s %s %s)", touches[i], value(i), s))
	}
	return s
}
