package timeline

import (
	"fmt"
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// A third reading of space.md, for the solver: places are terms over a frame,
// the delay d and the distance D, all times one number that every length of an
// action divides, so that they are whole.

// smtSpace is one exchange on the axis: names of functions from a frame to a
// place, and of facings, true up the axis.
type smtSpace struct {
	att, riv        string
	jump, own, back string // facings: of the jump, of the landing move, of the reply
	scale           int
}

// smtAct is an action of the attacker: on frame begin+zero it sets off.
type smtAct struct {
	begin               string
	zero, parts, travel int
}

func smtMove(m *Move, total int, begin string) smtAct { return smtAct{begin, 0, total, m.Travel} }

func smtJump(j *Jump, begin string) smtAct {
	return smtAct{begin, j.Prejump - 1, j.Airborne + 1, j.Travel}
}

// acts lists the attacker's actions.
func (w *smt) acts() (out []smtAct, jump, own int) {
	x := w.x
	at := 0
	for _, name := range x.s.Fillers {
		begin := fmt.Sprint(at)
		if j := slowJump(x.att, name); j != nil {
			out = append(out, smtJump(j, begin))
			at += j.Prejump + j.Airborne + j.Landing
		} else {
			m := slowMove(x.att, name)
			out = append(out, smtMove(m, x.total(m), begin))
			at += x.total(m)
		}
	}
	begin := "J"
	if x.jump != nil {
		jump = len(out)
		out = append(out, smtJump(x.jump, begin))
		begin = fmt.Sprintf("(+ J %d)", x.jump.Prejump+x.jump.Airborne+x.recovery)
	}
	if x.landing != nil {
		own = len(out)
		out = append(out, smtMove(x.landing, x.total(x.landing), begin))
	}
	return out, jump, own
}

// space writes the exchange of rise r and reply i, -1 for a rival that does
// nothing.
func (w *smt) space(r Rise, i int) *smtSpace {
	x := w.x
	wake := x.k + r.Extra
	acts, jump, own := w.acts()
	var reply *smtAct
	begins := 0
	if i >= 0 {
		begins = wake + x.s.Replies[i].Late
		act := smtAct{}
		if j := slowJump(x.riv, x.s.Replies[i].Move); j != nil {
			act = smtJump(j, fmt.Sprint(begins))
		} else {
			m := slowMove(x.riv, x.s.Replies[i].Move)
			act = smtMove(m, x.total(m), fmt.Sprint(begins))
		}
		reply = &act
	}
	scale := 1
	for _, a := range append(slices.Clone(acts), smtAct{parts: 1}) {
		scale = lcm(scale, a.parts)
	}
	if reply != nil {
		scale = lcm(scale, reply.parts)
	}
	cut := func(place string) string {
		if room := slowRoom(x); room.Given {
			return fmt.Sprintf("(least %s (* %d (+ D %d)))", place, scale, room.N)
		}
		return place
	}
	rises := w.is("Int", cut(fmt.Sprintf("(* %d (+ D %d))", scale, r.Shift)))
	place := func(from, up string, a *smtAct, f string) string {
		gone := fmt.Sprintf("(* %d (gone (- %s (+ %s %d)) %d))", a.travel*scale/a.parts, f, a.begin, a.zero, a.parts)
		return cut(fmt.Sprintf("(ite %s (+ %s %s) (- %s %s))", up, from, gone, from, gone))
	}
	// The attacker's legs before the reply: where each begins, faces and ends.
	type leg struct{ from, up string }
	legs := []leg{}
	// standing is the attacker's place on frame f by the legs laid so far,
	// without those that begin on f where strict.
	standing := func(f string, strict bool) string {
		s := cut("0")
		for k, l := range legs {
			op := "<="
			if strict {
				op = "<"
			}
			s = fmt.Sprintf("(ite (%s %s %s) %s %s)", op, acts[k].begin, f, place(l.from, l.up, &acts[k], f), s)
		}
		return s
	}
	w.n++
	back := fmt.Sprintf("back%d", w.n)
	theirs := func(f string) string { // the rival's place on frame f, its reply's facing known
		if reply == nil {
			return rises
		}
		return fmt.Sprintf("(ite (< %d %s) %s %s)", begins, f, place(rises, back, reply, f), rises)
	}
	// The reply's facing hangs on legs that begin before it, a later leg's on
	// the reply's: so the facing is a name of its own, said to be what follows.
	if reply != nil {
		w.put("(declare-const %s Bool)", back)
	}
	from, up := w.def("Int", cut("0")), "true"
	for k := range acts {
		b := acts[k].begin
		other := fmt.Sprintf("(ite (< %s %d) (* %d D) %s)", b, wake, scale, theirs(b))
		up = w.is("Bool", fmt.Sprintf("(ite (= %s %s) %s (< %s %s))", from, other, up, from, other))
		legs = append(legs, leg{from, up})
		from = w.is("Int", place(from, up, &acts[k], fmt.Sprintf("(+ %s %d)", b, acts[k].zero+acts[k].parts)))
	}
	if reply != nil {
		there := w.is("Int", standing(fmt.Sprint(begins), true))
		w.put("(assert (= %s (< %s %s)))", back, rises, there)
	}
	w.n++
	out := &smtSpace{att: fmt.Sprintf("att%d", w.n), riv: fmt.Sprintf("riv%d", w.n), back: back, scale: scale}
	w.put("(define-fun %s ((f Int)) Int %s)", out.att, standing("f", false))
	if reply == nil {
		w.put("(define-fun %s ((f Int)) Int %s)", out.riv, rises)
	} else {
		w.put("(define-fun %s ((f Int)) Int (ite (<= %d f) %s %s))", out.riv, begins, place(rises, back, reply, "f"), rises)
	}
	if x.jump != nil {
		out.jump = legs[jump].up
	}
	if x.landing != nil {
		out.own = legs[own].up
	}
	return out
}

// is gives a formula a name that the solver doesn't write out where it stands.
func (w *smt) is(sort, body string) string {
	w.n++
	name := fmt.Sprintf("v%d", w.n)
	w.put("(declare-const %s %s)\n(assert (= %s %s))", name, sort, name, body)
	return name
}

const smtSpaceRules = `
(define-fun least ((a Int) (b Int)) Int (ite (< a b) a b))
(define-fun gone ((n Int) (parts Int)) Int (ite (< n 0) 0 (ite (< n parts) n parts)))
`

func lcm(a, b int) int {
	x, y := a, b
	for y != 0 {
		x, y = y, x%y
	}
	return a / x * b
}

// reaches is the formula: that active frame reaches the other side; the
// attacker where theirs is set.
func (s *smtSpace) reaches(w *smt, h smtHit, theirs bool) string {
	if s == nil || h.m.Reach == nil {
		return "true"
	}
	up, gap := s.own, fmt.Sprintf("(- (%s %s) (%s %s))", s.riv, h.frame, s.att, h.frame)
	if h.m.Air {
		up = s.jump
	}
	if theirs {
		up, gap = s.back, fmt.Sprintf("(- (%s %s) (%s %s))", s.att, h.frame, s.riv, h.frame)
	}
	gap = w.is("Int", gap)
	gap = w.is("Int", fmt.Sprintf("(ite %s %s (- %s))", up, gap, gap))
	return fmt.Sprintf("(and (<= (* %d (- %d)) %s) (<= %s (* %d %d)))", s.scale, -h.m.Reach.Near, gap, gap, s.scale, h.m.Reach.Far)
}

// spacedProject is a plain project whose distance is known, without what smt
// can't say: stun from a span that a reach lets touch.
func spacedProject(seed uint64) *Project {
	p := randomProject(seed)
	lies := p.Setups[0].Distance
	ender := p.Fighters[0].Moves[len(p.Fighters[0].Moves)-1].Distance
	plain := plainProject(seed)
	s := &plain.Setups[0]
	s.Distance, s.Replies = lies, s.Replies[:min(len(s.Replies), 4)] // the solver takes its time
	plain.Fighters[0].Moves[len(plain.Fighters[0].Moves)-1].Distance = ender
	for i := range plain.Fighters {
		for k := range plain.Fighters[i].Moves {
			if m := &plain.Fighters[i].Moves[k]; len(m.Active) > 1 && m.Guardstun.Given {
				m.Reach = nil
			}
		}
	}
	return plain
}

// TestSolverFindsTheSameReach asks the solver for a frame on which a move
// reaches though the sets say otherwise, or the other way round; and for a
// distance from which a setup is good though it isn't said to hold, likewise.
func TestSolverFindsTheSameReach(t *testing.T) {
	if _, err := exec.LookPath("z3"); err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal("z3 is not installed: no oracle for reach")
		}
		t.Skip("z3 is not installed: reach is not held against a solver")
	}
	const shards = 2
	n := 300
	if testing.Short() {
		n = 16
	}
	for i := range shards {
		t.Run(fmt.Sprint(i), func(t *testing.T) {
			t.Parallel()
			solveReach(t, uint64(i)<<32, n/shards)
		})
	}
}

func solveReach(t *testing.T, seed uint64, n int) {
	text := &strings.Builder{}
	text.WriteString(smtRules + smtSpaceRules)
	var asked []ask
	spans, bounded := 0, 0
	for done := 0; done < n; seed++ {
		p := spacedProject(seed)
		if err := p.Check(); err != nil {
			t.Fatalf("seed %d: Check() = %v, want nil", seed, err)
		}
		s := &p.Setups[0]
		plan, err := Compile(p, *s)
		x := newSlowPlan(p, s)
		if err != nil || !slowD(x).Given || slowD(x).N < 0 {
			continue
		}
		d := s.Delay
		if in := plan.WindowSet().Spans(); len(in) > 0 {
			d = in[0].From
		}
		holds, most := plan.Holds(d).HoldsDistance, slowD(x).N+DistanceTried
		if seed%8 > 0 && (len(holds) == 0 || holds[0] == Bounds{0, most}) {
			continue // little to say
		}
		done++
		note := func(some []ask) {
			for _, a := range some {
				a.what = fmt.Sprintf("seed %d: %s", seed, a.what)
				asked = append(asked, a)
			}
		}
		w := &smt{x: x, spaced: true, at: Some(d)}
		w.put("(push)\n(define-fun D () Int %d)\n(define-fun J () Int %d)\n(declare-const F Int)", slowD(x).N, x.burnt+d)
		note(reachQuestions(w, plan, d))
		w.put("(pop)")
		text.WriteString(w.String())

		w = &smt{x: x, spaced: true, at: Some(d)}
		w.put("(push)\n(declare-const D Int)\n(assert (and (<= 0 D) (<= D %d)))", most)
		w.write(d)
		note(distanceQuestions(w, plan, holds))
		w.put("(pop)")
		text.WriteString(w.String())
		spans += len(holds)
		for _, b := range holds {
			if b.From > 0 || b.To < most {
				bounded++
			}
		}
	}
	cmd := exec.Command("z3", "-in")
	cmd.Stdin = strings.NewReader(text.String())
	out, err := cmd.CombinedOutput()
	got := strings.Fields(string(out))
	if err != nil || len(got) != len(asked) {
		t.Fatalf("z3: %v, %d answers to %d questions: %.400s", err, len(got), len(asked), out)
	}
	for i, a := range asked {
		if got[i] != a.want {
			t.Errorf("%s: %s, want %s", a.what, got[i], a.want)
		}
	}
	if spans < n/2 || bounded < n/4 {
		t.Errorf("%d spans of distance, %d with an end, in %d setups: too few to prove much", spans, bounded, n)
	}
}

// reachQuestions puts to the solver that each move with a reach reaches on the
// frames that the sets have, and on no other of its active ones.
func reachQuestions(w *smt, plan *Plan, d int) (out []ask) {
	a := plan.base.later(d)
	for r, rise := range w.x.rises {
		for i := LineNothing; i < plan.Lines(); i++ {
			sp := plan.spotOf(&a, r, i)
			space := w.space(rise, i-FirstReply)
			put := func(b *hit, far Set, theirs bool) {
				if b.move.Reach == nil || b.Active.Empty() {
					return
				}
				in := func(s Set) string {
					ours := []string{}
					for _, span := range s.And(since(plan.wakes[r])).Spans() {
						ours = append(ours, fmt.Sprintf("(in F %d %d)", span.From, span.To))
					}
					return smtOr(ours...)
				}
				reaches := space.reaches(w, smtHit{m: b.move, frame: "F"}, theirs)
				w.put("(push)\n(assert (and %s (not (= %s %s))))\n(check-sat)\n(pop)", in(b.Active), reaches, in(b.Active.Minus(far)))
				out = append(out, ask{fmt.Sprintf("rise %d, line %d: %s reaches on other frames", r, i, b.move.Name), "unsat"})
			}
			for k := range a.hits[:a.nhits] {
				put(&a.hits[k], sp.mine[k], false)
			}
			if body := &plan.bodies[r*plan.Lines()+i]; body.nhits > 0 {
				put(&body.hits[0], sp.theirs, true)
			}
		}
	}
	return out
}

// distanceQuestions puts to the solver that a plan holds from those distances,
// and from no other.
func distanceQuestions(w *smt, plan *Plan, holds []Bounds) (out []ask) {
	good := []string{"meaty"}
	for i := range plan.Setup.Replies {
		if (tolerance{Plan: plan}).asked(i + FirstReply) {
			good = append(good, fmt.Sprintf("met%d", i))
		}
	}
	ours := []string{}
	for _, b := range holds {
		ours = append(ours, fmt.Sprintf("(in D %d %d)", b.From, b.To+1))
	}
	for _, c := range [][2]string{
		{fmt.Sprintf("(and %s (not %s))", smtOr(ours...), smtAnd(good...)), "a distance that it holds from isn't good"},
		{fmt.Sprintf("(and %s (not %s))", smtAnd(good...), smtOr(ours...)), "a distance that it doesn't hold from is good"},
	} {
		w.put("(push)\n(assert %s)\n(check-sat)\n(pop)", c[0])
		out = append(out, ask{c[1], "unsat"})
	}
	return out
}
