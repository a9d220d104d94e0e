package timeline

// The slow reading of space.md: both fighters walk frame by frame, their
// places are exact fractions, and nothing is asked of the core.

// slowPlace is up/per units, per above 0.
type slowPlace struct{ up, per int }

func (a slowPlace) plus(b slowPlace) slowPlace {
	return slowPlace{a.up*b.per + b.up*a.per, a.per * b.per}
}
func (a slowPlace) times(n int) slowPlace { return slowPlace{a.up * n, a.per} }
func (a slowPlace) less(b slowPlace) bool { return a.up*b.per < b.up*a.per }

// slowAct is one action that moves its owner: gone(n) is how far on its n-th
// frame, counted from 0.
type slowAct struct {
	begins, ends int
	gone         func(n int) slowPlace
}

// slowWalker is one fighter on the axis.
type slowWalker struct {
	at     slowPlace // where it stood before its action, or stands without one
	facing int
	act    *slowAct
}

// slowAxis is one exchange on the axis, walked as far as it was asked for.
type slowAxis struct {
	x              *slowPlan
	d              int
	wall           Maybe
	wake           int
	todo           []*slowAct // the attacker's, in order
	reply          *slowAct
	att, riv       slowWalker
	atts, rivs     []slowPlace
	attWas, rivWas []slowPlace // what begins on the frame hasn't moved
	attFace, rFace []int
}

// slowD is where the rival lies, absent where the distance isn't known.
func slowD(x *slowPlan) Maybe {
	switch {
	case x.s.Distance.Given:
		return x.s.Distance
	case x.s.Ender == "":
		return Maybe{}
	case x.s.Position == Wall:
		return slowMove(x.att, x.s.Ender).Distance.Wall
	}
	return slowMove(x.att, x.s.Ender).Distance.Midscreen
}

// slowRoom is the way from the rival to the wall, absent where there is none.
func slowRoom(x *slowPlan) Maybe {
	if !slowD(x).Given {
		return Maybe{}
	}
	if !x.s.Room.Given && x.s.Position == Wall {
		return Some(0)
	}
	return x.s.Room
}

func (x *slowPlan) moveAct(m *Move, begins int) *slowAct {
	total := x.total(m)
	return &slowAct{begins, begins + total, func(n int) slowPlace {
		if n < total {
			return slowPlace{m.Travel * n, total}
		}
		return slowPlace{m.Travel, 1}
	}}
}

func (x *slowPlan) jumpAct(j *Jump, begins int) *slowAct {
	return &slowAct{begins, begins + j.Prejump + j.Airborne + j.Landing, func(n int) slowPlace {
		i := n - j.Prejump
		switch {
		case i < 0:
			return slowPlace{0, 1}
		case i < j.Airborne:
			return slowPlace{j.Travel * (i + 1), j.Airborne + 1}
		}
		return slowPlace{j.Travel, 1}
	}}
}

// axis sets the fighters up for the exchange with reply i on rise r at delay
// d; nil where the distance isn't known.
func (x *slowPlan) axis(r Rise, i, d int) *slowAxis {
	lies := slowD(x)
	if !lies.Given {
		return nil
	}
	a := &slowAxis{x: x, d: lies.N, wake: x.k + r.Extra}
	if room := slowRoom(x); room.Given {
		a.wall = Some(lies.N + room.N)
	}
	at := 0
	for _, name := range x.s.Fillers {
		if j := slowJump(x.att, name); j != nil {
			a.todo = append(a.todo, x.jumpAct(j, at))
		} else {
			a.todo = append(a.todo, x.moveAct(slowMove(x.att, name), at))
		}
		at = a.todo[len(a.todo)-1].ends
	}
	at += d
	if x.jump != nil {
		a.todo = append(a.todo, x.jumpAct(x.jump, at))
		at += x.jump.Prejump + x.jump.Airborne + x.recovery
		a.todo[len(a.todo)-1].ends = at
	}
	if x.landing != nil {
		a.todo = append(a.todo, x.moveAct(x.landing, at))
	}
	if i >= 0 {
		begins := a.wake + x.s.Replies[i].Late
		if j := slowJump(x.riv, x.s.Replies[i].Move); j != nil {
			a.reply = x.jumpAct(j, begins)
		} else {
			a.reply = x.moveAct(slowMove(x.riv, x.s.Replies[i].Move), begins)
		}
	}
	a.att = slowWalker{at: a.cut(slowPlace{0, 1}), facing: 1}
	a.riv = slowWalker{at: a.cut(slowPlace{lies.N + r.Shift, 1}), facing: -1}
	return a
}

// cut is a place, or the wall where that is past it.
func (a *slowAxis) cut(p slowPlace) slowPlace {
	if a.wall.Given && (slowPlace{a.wall.N, 1}).less(p) {
		a.x.note("the wall takes something")
		return slowPlace{a.wall.N, 1}
	}
	return p
}

// place is where the walker is on frame f, its action under way or done.
func (a *slowAxis) place(w *slowWalker, f int) slowPlace {
	if w.act == nil {
		return w.at
	}
	return a.cut(w.at.plus(w.act.gone(f - w.act.begins).times(w.facing)))
}

// turn turns a walker towards a place.
func (a *slowAxis) turn(w *slowWalker, here, other slowPlace) {
	was := w.facing
	switch {
	case here.less(other):
		w.facing = 1
	case other.less(here):
		w.facing = -1
	default:
		a.x.note("turning on one spot")
	}
	if w.facing != was {
		a.x.note("turning round")
	}
}

// frame walks one frame on.
func (a *slowAxis) frame() {
	f := len(a.atts)
	for _, w := range []*slowWalker{&a.att, &a.riv} {
		if w.act != nil && f >= w.act.ends {
			w.at, w.act = a.place(w, w.act.ends), nil
		}
	}
	mine, theirs := a.place(&a.att, f), a.place(&a.riv, f) // what begins now hasn't moved
	a.attWas, a.rivWas = append(a.attWas, mine), append(a.rivWas, theirs)
	if len(a.todo) > 0 && a.todo[0].begins == f {
		other := theirs
		if f < a.wake {
			other = slowPlace{a.d, 1}
		} else {
			a.x.note("the attacker turns after the wake-up")
		}
		a.turn(&a.att, mine, other)
		a.att.act, a.todo = a.todo[0], a.todo[1:]
	}
	if a.reply != nil && a.reply.begins == f {
		a.turn(&a.riv, theirs, mine)
		a.riv.act = a.reply
	}
	a.atts, a.rivs = append(a.atts, a.place(&a.att, f)), append(a.rivs, a.place(&a.riv, f))
	a.attFace, a.rFace = append(a.attFace, a.att.facing), append(a.rFace, a.riv.facing)
}

func (a *slowAxis) walkTo(f int) {
	for len(a.atts) <= f {
		a.frame()
	}
}

// reaches reports whether a move reaches the other side on frame f: the
// rival's where theirs is set.
func (a *slowAxis) reaches(m *Move, theirs bool, f int) bool {
	if a == nil || m.Reach == nil {
		return true
	}
	a.walkTo(f)
	gap := a.rivs[f].plus(a.atts[f].times(-1)).times(a.attFace[f])
	if theirs {
		gap = a.atts[f].plus(a.rivs[f].times(-1)).times(a.rFace[f])
	}
	return a.within(m, gap)
}

// reachesStunned is the same after a touch: the other side stands where that
// found it.
func (a *slowAxis) reachesStunned(m *Move, theirs bool, f, touch int) bool {
	if a == nil || m.Reach == nil {
		return true
	}
	a.walkTo(f)
	if theirs {
		return a.within(m, a.atts[touch].plus(a.rivs[f].times(-1)).times(a.rFace[f]))
	}
	return a.within(m, a.rivs[touch].plus(a.atts[f].times(-1)).times(a.attFace[f]))
}

// within reports whether a move reaches that far.
func (a *slowAxis) within(m *Move, gap slowPlace) bool {
	near, far := slowPlace{m.Reach.Near, 1}, slowPlace{m.Reach.Far, 1}
	switch {
	case gap.less(near):
		a.x.note("too near")
		return false
	case far.less(gap):
		a.x.note("too far")
		return false
	}
	return true
}

// tell fills in what a cell says of the places on its meeting.
func (a *slowAxis) tell(c *Cell) {
	if a == nil || !c.Meeting.Given {
		return
	}
	f := c.Meeting.N
	a.walkTo(f)
	gap := a.rivs[f].plus(a.atts[f].times(-1))
	twice := gap.times(2)
	if gap.up < 0 {
		twice = gap.times(-2)
	}
	whole := 0
	for !twice.less(slowPlace{2*whole + 1, 1}) {
		whole++
	}
	if gap.up < 0 {
		whole = -whole
	}
	c.Apart = Some(whole)
	switch ahead := gap.up * a.attFace[f]; {
	case ahead > 0:
		c.Side = InFront
	case ahead < 0:
		c.Side = Behind
		a.x.note("met from behind")
	default:
		c.Side = Over
	}
}

func (x *slowPlan) note(what string) {
	if x.seen != nil {
		x.seen[what]++
	}
}

// good reports whether the plan at delay d, on this ground and with this
// advantage, is meaty and meets every demand but those of waived.
func (x *slowPlan) good(d int, waived []int) bool {
	x.look(d)
	att := x.attacker(d)
	for _, r := range x.rises {
		if x.isBait() {
			break
		}
		def, end := x.defender(r, -1)
		if c := x.play(att, def, end, d, r, -1); c.AfterWake != Some(0) {
			return false
		}
	}
	for i, reply := range x.s.Replies {
		skip := reply.Demand == DemandNone
		for _, n := range waived {
			skip = skip || n == i
		}
		for _, r := range x.rises {
			if skip {
				break
			}
			def, end := x.defender(r, i)
			if c := x.play(att, def, end, d, r, i); !slowMeets(&c, reply.Demand) {
				return false
			}
		}
	}
	return true
}

// holds lists the spans of from to to that are good by is.
func slowHolds(from, to int, is func(n int) bool) []Bounds {
	out := []Bounds{}
	for n := from; n <= to; n++ {
		switch last := len(out) - 1; {
		case !is(n):
		case last >= 0 && out[last].To == n-1:
			out[last].To = n
		default:
			out = append(out, Bounds{n, n})
		}
	}
	return out
}

// holdsAdvantage, holdsDistance and holdsStartup are those of space.md, "What
// is told", at delay d.
func (x *slowPlan) holdsAdvantage(d int, uncovered []int) []Bounds {
	return slowHolds(max(0, x.k-16), x.k+16, func(k int) bool {
		y := *x
		y.k, y.seen = k, nil
		return y.fits() >= d && y.good(d, uncovered)
	})
}

func (x *slowPlan) holdsDistance(d int, uncovered []int) []Bounds {
	lies := slowD(x)
	if !lies.Given {
		return nil
	}
	s := *x.s
	y := *x
	y.s, y.seen = &s, nil
	s.Room = slowRoom(x)
	return slowHolds(0, lies.N+200, func(n int) bool {
		s.Distance = Some(n)
		return y.good(d, uncovered)
	})
}

func (x *slowPlan) holdsStartup(d int) Maybe {
	if x.landing != nil || !x.good(d, x.all()) {
		return Maybe{}
	}
	_, guards, _, _ := x.clock(d)
	first := Width
	for _, r := range x.rises {
		first = min(first, x.k+r.Extra)
	}
	for s := 1; ; s++ {
		touches := first + s
		if x.p.Ruleset.StartupCountsFirstActive {
			touches--
		}
		if touches >= guards {
			return Some(s)
		}
	}
}

// all are the replies' indices.
func (x *slowPlan) all() (out []int) {
	for i := range x.s.Replies {
		out = append(out, i)
	}
	return out
}
