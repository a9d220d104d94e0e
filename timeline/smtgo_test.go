package timeline

import "fmt"

// write puts the setup as formulas: d's range, "meaty", and "met<i>" for each
// demanded reply.
func (w *smt) write(last int) {
	x, s := w.x, w.x.s
	if w.at.Given {
		w.put("(define-fun d () Int %d)", w.at.N)
	} else {
		w.put("(declare-const d Int)")
		w.put("(assert (and (<= 0 d) (<= d %d)))", last)
	}
	w.put("(define-fun J () Int (+ %d d))", x.burnt)
	parts := map[string][]string{}
	guards, acts := "J", "J"
	var mine []smtHit
	if x.jump != nil {
		w.put("(define-fun L () Int %s)", w.fly(parts, x.jump, "J"))
		guards = w.def("Int", fmt.Sprintf("(+ L %d)", x.guardAfter))
		acts = w.def("Int", fmt.Sprintf("(+ L %d)", x.recovery))
	}
	if x.attack != nil {
		deep := 0
		for _, n := range x.attack.Active {
			deep += n
		}
		mine = w.hits(x.attack, fmt.Sprintf("(+ J %d)", x.jump.Prejump+w.press()))
		for i := range mine {
			mine[i].when = fmt.Sprintf("(in %s (- L %d) L)", mine[i].frame, x.attack.Deep.Or(deep))
		}
	}
	guarded := fmt.Sprintf("(<= %s f)", guards)
	switch {
	case x.landing != nil:
		w.windows(parts, x.landing, acts)
		guarded = fmt.Sprintf("(and %s (not (in f %s (+ %s %d))))", guarded, acts, acts, x.total(x.landing))
		mine = append(mine, w.hits(x.landing, acts)...)
	case s.Landing == DoParry:
		parts["parry"] = []string{guarded}
		guarded = "false"
	}
	parts["high"], parts["low"] = []string{guarded}, []string{guarded}
	att := w.body(parts)

	meaty := []string{}
	for _, r := range x.rises {
		if !x.isBait() {
			meaty = append(meaty, w.meaty(mine, r))
		}
	}
	w.put("(define-fun meaty () Bool %s)", smtAnd(meaty...))
	for i, reply := range s.Replies {
		met := []string{}
		for _, r := range x.rises {
			if reply.Demand != DemandNone {
				met = append(met, w.met(mine, att, r, i))
			}
		}
		w.put("(define-fun met%d () Bool %s)", i, smtAnd(met...))
	}
}

// press is the air frame of the attack's press: the earliest from which the
// attack is active on the jump's last air frame.
func (w *smt) press() int {
	if w.x.s.Press.Given {
		return w.x.s.Press.N
	}
	for press := range w.x.jump.Airborne {
		if w.x.activeAt(w.x.attack, w.x.jump.Airborne-1-press) > 0 {
			return press
		}
	}
	return 0
}

// down is a rival that gets up on frame wake and does nothing yet.
func (w *smt) down(wake int) map[string][]string {
	return map[string][]string{
		"strikeProof": {fmt.Sprintf("(< f %d)", wake)},
		"throwProof":  {fmt.Sprintf("(< f %d)", wake+w.x.p.Ruleset.ThrowGraceRise)},
	}
}

// meaty is the formula: the first touch on an idle rival has gap 0.
func (w *smt) meaty(mine []smtHit, r Rise) string {
	wake := w.x.k + r.Extra
	idle := w.body(w.down(wake))
	if w.spaced {
		idle.space = w.space(r, -1)
	}
	var touches []string
	for _, h := range mine {
		touches = append(touches, w.touch(h, idle))
	}
	return w.pick("Bool", touches, func(i int) string {
		due := wake
		if mine[i].m.Kind == Throw {
			due += w.x.p.Ruleset.ThrowGraceRise
		}
		return fmt.Sprintf("(= %s %d)", mine[i].frame, due)
	}, "false")
}

// met is the formula: on that rise, what is demanded of reply i happens.
func (w *smt) met(mine []smtHit, att smtBody, r Rise, i int) string {
	wake := w.x.k + r.Extra
	reply := w.x.s.Replies[i]
	start := fmt.Sprint(wake + reply.Late)
	parts := w.down(wake)
	var theirs []smtHit
	var guards string
	end := 0
	if j := slowJump(w.x.riv, reply.Move); j != nil {
		guards = fmt.Sprintf("(<= (+ %s %d) f)", w.fly(parts, j, start), j.GuardAfter)
	} else {
		m := slowMove(w.x.riv, reply.Move)
		w.windows(parts, m, start)
		theirs = w.hits(m, start)
		end = wake + reply.Late + w.x.total(m)
		guards = fmt.Sprintf("(<= %d f)", end)
	}
	parts["high"], parts["low"] = []string{guards}, []string{guards}
	def := w.body(parts)
	att.attacks = true
	if w.spaced {
		def.space = w.space(r, i)
		att.space = def.space
	}

	t := w.theirs(theirs, att, end)
	m := w.mine(mine, def, t)
	g := w.def("Int", fmt.Sprintf("(go %s %s %s %s %s %s %s %s %s %s %s %s %v)",
		m.is, m.frame, m.throw, m.guard, m.parry, m.arm, m.broke, t.is, t.frame, t.throw, t.guard, t.parry, w.x.p.Ruleset.Trades))
	if reply.Demand == Beat {
		return fmt.Sprintf("(beats %s %s)", g, t.punish)
	}
	return fmt.Sprintf("(survives %s)", g)
}

// smtTouch is the first touch of one side, in formulas.
type smtTouch struct{ is, frame, throw, guard, parry, arm, broke, punish string }

// theirs is the reply's first touch that the attacker's armour, good for one
// span, doesn't swallow.
func (w *smt) theirs(hits []smtHit, att smtBody, end int) smtTouch {
	var counts []string
	swallowed := "false" // some span before this one
	for from := 0; from < len(hits); {
		to := from
		var touches []string
		for ; to < len(hits) && hits[to].span == hits[from].span; to++ {
			touches = append(touches, w.touch(hits[to], att))
		}
		gone := w.pick("Bool", touches, func(n int) string {
			h := hits[from+n]
			if h.m.Kind == Throw {
				return "false"
			}
			return fmt.Sprintf("(and (not %s) (not %s) (not (%s %s)) (%s %s))", swallowed, w.guard(h, att), att.parry, h.frame, att.arm, h.frame)
		}, "false")
		for _, t := range touches {
			counts = append(counts, smtAnd(t, "(not "+gone+")"))
		}
		swallowed = w.def("Bool", smtOr(swallowed, gone))
		from = to
	}
	return smtTouch{
		is:    w.def("Bool", smtOr(counts...)),
		frame: w.pick("Int", counts, func(n int) string { return hits[n].frame }, "0"),
		throw: w.pick("Bool", counts, func(n int) string { return fmt.Sprint(hits[n].m.Kind == Throw) }, "false"),
		guard: w.pick("Bool", counts, func(n int) string { return w.guard(hits[n], att) }, "false"),
		parry: w.pick("Bool", counts, func(n int) string { return fmt.Sprintf("(%s %s)", att.parry, hits[n].frame) }, "false"),
		punish: w.pick("Int", counts, func(n int) string {
			h, last := hits[n], hits[len(hits)-1]
			switch {
			case h.m.OnGuard.Given:
				return fmt.Sprintf("(- (+ (- %d) (- %s %s)))", -h.m.OnGuard.N, h.frame, h.begin)
			case h.m.Guardstun.Given && last.span > h.span:
				return fmt.Sprintf("(- %d (+ %s 1 %d))", end, last.begin, h.m.Guardstun.N)
			case h.m.Guardstun.Given:
				return fmt.Sprintf("(- %d (+ %s 1 %d))", end, h.frame, h.m.Guardstun.N)
			}
			return "0"
		}, "0"),
	}
}

// mine is the attacker's first touch, and whether a later span breaks the
// armour that takes it before the reply touches.
func (w *smt) mine(hits []smtHit, def smtBody, reply smtTouch) smtTouch {
	var touches []string
	for _, h := range hits {
		touches = append(touches, w.touch(h, def))
	}
	at := func(p string) func(n int) string {
		return func(n int) string { return fmt.Sprintf("(%s %s)", p, hits[n].frame) }
	}
	t := smtTouch{
		is:    w.def("Bool", smtOr(touches...)),
		frame: w.pick("Int", touches, func(n int) string { return hits[n].frame }, "0"),
		throw: w.pick("Bool", touches, func(n int) string { return fmt.Sprint(hits[n].m.Kind == Throw) }, "false"),
		guard: w.pick("Bool", touches, func(n int) string { return w.guard(hits[n], def) }, "false"),
		parry: w.pick("Bool", touches, at(def.parry), "false"),
		arm:   w.pick("Bool", touches, at(def.arm), "false"),
	}
	through := make([]string, len(hits)) // by span: its first touch gets past everything in time
	for from := 0; from < len(hits); {
		to := from
		for to < len(hits) && hits[to].span == hits[from].span && hits[to].m == hits[from].m {
			to++
		}
		own := w.pick("Bool", touches[from:to], func(n int) string {
			h := hits[from+n]
			return smtAnd("(not "+w.guard(h, def)+")", "(not "+at(def.parry)(from+n)+")",
				fmt.Sprintf("(or (not %s) (< %s %s))", reply.is, h.frame, reply.frame))
		}, "false")
		for n := from; n < to; n++ {
			through[n] = own
		}
		from = to
	}
	t.broke = w.pick("Bool", touches, func(n int) string {
		var later []string
		for k := n + 1; k < len(hits); k++ {
			if hits[k].m == hits[n].m && hits[k].span > hits[n].span && hits[k].span != hits[k-1].span {
				later = append(later, through[k])
			}
		}
		return smtOr(later...)
	}, "false")
	return t
}
