package timeline

// SlowWorth is what an exchange comes to by the slow reading of value.md.
type SlowWorth struct {
	Points Maybe
	Route  string
	Kills  Maybe
}

// SlowAnswer is what a setup comes to.
type SlowAnswer struct {
	Forgone, KillsOnHit Maybe
	String              *SlowString
	Rises               [][]SlowWorth
}

// slowValue weighs a setup at its delay.
type slowValue struct {
	x            *slowPlan
	d            int
	gauge, rival int // on frame 0
	mine, theirs []slowRoute
	chain        *SlowString
}

// slowOwn is a move of the attacker's plan and its first frame.
type slowOwn struct {
	m     *Move
	begin int
}

// own are the moves of the plan in the order in which they begin, up to a
// meeting where there is one.
func (v *slowValue) own(meeting Maybe) (out []slowOwn) {
	x := v.x
	at := 0
	add := func(m *Move, begin int) {
		if !meeting.Given || begin <= meeting.N {
			out = append(out, slowOwn{m, begin})
		}
	}
	for _, name := range x.s.Fillers {
		if j := slowJump(x.att, name); j != nil {
			at += j.Prejump + j.Airborne + j.Landing
			continue
		}
		m := slowMove(x.att, name)
		add(m, at)
		at += x.total(m)
	}
	jumpOn, _, acts, _ := x.clock(v.d)
	if x.attack != nil {
		add(x.attack, jumpOn+x.jump.Prejump+x.press())
	}
	if x.landing != nil {
		add(x.landing, acts)
	}
	return out
}

// left is the gauge after those moves; ok is false where one can't be paid.
func (v *slowValue) left(moves []slowOwn) (gauge int, ok bool) {
	gauge = v.gauge
	for _, o := range moves {
		if gauge < o.m.GaugeCost {
			return 0, false
		}
		gauge = min(gauge-o.m.GaugeCost+o.m.GaugeGain, v.x.p.Ruleset.Gauge)
	}
	return gauge, true
}

// replyMove is the move of reply i, nil for a jump and for what is always judged.
func (v *slowValue) replyMove(i int) *Move {
	if i < 0 {
		return nil
	}
	return slowMove(v.x.riv, v.x.s.Replies[i].Move)
}

// costs is what reply i takes where it wins.
func (v *slowValue) costs(i int) int {
	m := v.replyMove(i)
	switch {
	case i < 0:
		return 0
	case v.x.s.Replies[i].Costs.Given:
		return v.x.s.Replies[i].Costs.N
	case m == nil || m.Kind == Dash || m.Kind == Evade:
		return 0
	}
	return m.Damage
}

// slowExchange is one exchange with what it takes to weigh it.
type slowExchange struct {
	*slowValue
	g        *slowGo
	c        Cell
	reply    int
	begun    int // the reply's first frame
	replyEnd int
	att, def *slowSide
	points   int
	kills    int
	route    *slowRoute // the attacker's
	answer   *slowRoute // the rival's
}

// weigh is what the exchange with reply i on rise r comes to.
func (v *slowValue) weigh(r Rise, i int) SlowWorth {
	if _, ok := v.left(v.own(Maybe{})); !ok {
		v.x.note("the setup can't be paid")
		return SlowWorth{}
	}
	e := &slowExchange{slowValue: v, reply: i}
	e.att = v.x.attacker(v.d)
	def, end := v.x.defender(r, i)
	e.def, e.replyEnd = def, end.Or(0)
	e.g = v.x.exchange(e.att, def, end, v.d, r, i)
	e.c = e.g.play()
	if i >= 0 {
		e.begun, _ = v.x.span(r, i)
	}
	e.play()
	e.addGauge()
	w := SlowWorth{Points: Some(e.points)}
	if e.kills > 0 {
		w.Kills = Some(e.kills)
	}
	if e.route != nil {
		w.Route = e.route.name
	}
	return w
}

func (e *slowExchange) play() {
	x := e.x
	_, _, _, ends := x.clock(e.d)
	switch e.c.Outcome {
	case AttackHits:
		e.hit()
	case AttackBlocked:
		e.points = x.s.Pressure
		e.blocked()
	case AttackWhiffs:
		if x.isBait() || e.reply == -1 {
			return
		}
		from := e.g.wake
		for f := from; f < x.frames; f++ {
			for _, sw := range e.att.swings {
				if sw.on[f] != 0 {
					from = f + 1
				}
			}
		}
		e.lose("after a whiff", func(m *Move) bool {
			return e.g.punishes(m, true, from+x.p.Ruleset.Reaction, ends, e.att, x.firstActive(m))
		})
	case ReplyBlocked:
		if !e.c.ToPunish.Given {
			return
		}
		from := max(e.c.Meeting.N+1, e.replyEnd-e.c.ToPunish.N)
		e.win("after a guarded reply", func(m *Move) bool {
			return e.g.punishes(m, false, from, e.replyEnd, e.def, x.firstActive(m))
		})
	case NoContact:
		e.win("after no contact", func(m *Move) bool {
			return e.g.punishes(m, false, ends, e.replyEnd, e.def, x.firstActive(m))
		})
		if ends > e.replyEnd {
			e.lose("after no contact", func(m *Move) bool {
				return e.g.punishes(m, true, e.replyEnd, ends, e.att, x.firstActive(m))
			})
		}
	case ReplyParried:
		if n := x.p.Ruleset.ParryAdvantage; n.Given {
			e.win("after a parry", func(m *Move) bool { return e.within(m, n.N) })
		}
	case Trade:
		e.kills = e.touched()
		e.points = e.kills - e.costs(e.reply)
	default:
		e.points = -e.costs(e.reply)
	}
}

// within reports whether m's first active frame comes in so many frames.
func (e *slowExchange) within(m *Move, frames int) bool {
	return slowHits(m) && m.Level != LevelAirThr && e.x.firstActive(m)+1 <= frames
}

// touched is the damage of the attacker's touch.
func (e *slowExchange) touched() int {
	n := e.g.touch.swing.m.Damage
	if e.reply >= 0 && e.begun <= e.c.Meeting.N {
		n = n * e.x.p.Ruleset.CounterDamage / 100
		e.x.note("a counter")
	}
	return n * e.x.percent(1) / 100
}

// hit is the touch and what follows it.
func (e *slowExchange) hit() {
	x := e.x
	e.kills = e.touched()
	for i := range e.mine {
		if r := &e.mine[i]; r.named && r.name == x.s.OnHit && e.follows(r) {
			e.route = r
			e.kills += x.damage(r, 1)
			x.note("a route follows a hit")
		}
	}
	e.points = e.kills
}

// follows reports whether a route is played after a hit.
func (e *slowExchange) follows(r *slowRoute) bool {
	step := r.steps[0]
	linked := slowHits(step.m) && e.c.Advantage.Given && e.x.firstActive(step.m)+1 <= e.c.Advantage.N
	if !(step.m.Kind != Throw && (linked || step.by == Cancel) || r.as.Confirmed) || !r.counts {
		return false
	}
	gauge, _ := e.left(e.own(e.c.Meeting))
	return e.x.paid(r, gauge)
}

// blocked takes off what a guarded attack is punished by.
func (e *slowExchange) blocked() {
	a := e.c.Advantage
	if e.chain != nil {
		a = e.chain.Advantage
	}
	if !a.Given || a.N >= 0 {
		return
	}
	if e.chain != nil {
		e.lose("after a string", func(m *Move) bool { return e.within(m, -a.N) })
		return
	}
	free := e.g.touch.swing.free
	e.lose("after a guarded attack", func(m *Move) bool {
		return e.g.punishes(m, true, free+a.N, free, e.att, e.x.firstActive(m))
	})
}

// worth is what gauge is worth in points.
func (e *slowExchange) worth(r *slowRoute) int {
	cost, gain := r.gauge()
	return e.x.p.Ruleset.GaugeWorth * (gain - cost)
}

// win plays the attacker's best route that punishes.
func (e *slowExchange) win(when string, punishes func(first *Move) bool) {
	x := e.x
	gauge, _ := e.left(e.own(e.c.Meeting))
	var can []*slowRoute
	for i := range e.mine {
		if len(x.s.Punish) == 0 {
			can = append(can, &e.mine[i])
		}
	}
	for _, name := range x.s.Punish {
		for i := range e.mine {
			if e.mine[i].named && e.mine[i].name == name {
				can = append(can, &e.mine[i])
			}
		}
	}
	var best *slowRoute
	for _, r := range can {
		if r.counts && x.paid(r, gauge) && punishes(r.steps[0].m) && (best == nil || e.better(r, best)) {
			best = r
		}
	}
	if best == nil {
		return
	}
	if x.damage(best, 0)+e.worth(best) < 0 {
		x.note("a punish that isn't worth its gauge")
		return
	}
	x.note("a punish " + when)
	e.route, e.kills = best, x.damage(best, 0)
	e.points += e.kills
}

// better reports whether r is a better punish than o, an earlier one.
func (e *slowExchange) better(r, o *slowRoute) bool {
	a, b := e.x.damage(r, 0), e.x.damage(o, 0)
	if p, q := a+e.worth(r), b+e.worth(o); p != q {
		return p > q
	}
	if a != b {
		return a > b
	}
	c, _ := r.gauge()
	d, _ := o.gauge()
	if c != d {
		return c < d
	}
	return r.named && !o.named
}

// lose takes off the rival's route of most damage that punishes.
func (e *slowExchange) lose(when string, punishes func(first *Move) bool) {
	x := e.x
	gauge := e.rival
	if m := e.replyMove(e.reply); m != nil {
		gauge = min(gauge-m.GaugeCost+m.GaugeGain, x.p.Ruleset.Gauge)
	}
	var best *slowRoute
	for i := range e.theirs {
		r := &e.theirs[i]
		if !r.counts || !x.paid(r, gauge) || !punishes(r.steps[0].m) {
			continue
		}
		a, _ := r.gauge()
		if best == nil || x.damage(r, 0) > x.damage(best, 0) {
			best = r
		} else if b, _ := best.gauge(); x.damage(r, 0) == x.damage(best, 0) && a < b {
			best = r
		}
	}
	if best != nil {
		x.note("punished " + when)
		e.answer = best
		e.points -= x.damage(best, 0)
	}
}

// addGauge adds what the gauge that both sides gained and spent is worth.
func (e *slowExchange) addGauge() {
	gained := 0
	for _, o := range e.own(e.c.Meeting) {
		gained += o.m.GaugeGain - o.m.GaugeCost
	}
	if m := e.replyMove(e.reply); m != nil && (!e.c.Meeting.Given || e.begun <= e.c.Meeting.N) {
		gained -= m.GaugeGain - m.GaugeCost
	}
	if e.route != nil {
		cost, gain := e.route.gauge()
		gained += gain - cost
	}
	if e.answer != nil {
		cost, gain := e.answer.gauge()
		gained -= gain - cost
	}
	e.points += e.x.p.Ruleset.GaugeWorth * gained
}

// forgone is what the setup's ender gives up.
func (v *slowValue) forgone() Maybe {
	s := v.x.s
	if s.Ender == "" {
		return Maybe{}
	}
	most, ends := Maybe{}, Maybe{}
	for i := range v.mine {
		r := &v.mine[i]
		if !r.named || !r.counts {
			continue
		}
		if n := v.x.damage(r, 0); r.steps[len(r.steps)-1].m.Name == s.Ender {
			ends = Some(max(n, ends.Or(n)))
		}
		for k := range v.mine {
			o := &v.mine[k]
			if o.named && o.counts && o.steps[len(o.steps)-1].m.Name == s.Ender && o.steps[0].m == r.steps[0].m {
				n := v.x.damage(r, 0)
				most = Some(max(n, most.Or(n)))
			}
		}
	}
	if !ends.Given {
		return Maybe{}
	}
	return Some(most.N - ends.N)
}

// SlowValue weighs the setup at its own delay; nil gauges are full ones.
func SlowValue(p *Project, setup *Setup, gauge, rival Maybe, seen map[string]int) SlowAnswer {
	s := *setup
	x := newSlowPlan(p, &s)
	if s.Replies == nil {
		s.Replies = x.riv.Replies
	}
	x.seen = seen
	v := &slowValue{x: x, d: s.Delay, gauge: gauge.Or(p.Ruleset.Gauge), rival: rival.Or(p.Ruleset.Gauge)}
	v.mine, v.theirs = x.routes(x.att), x.routes(x.riv)
	x.look(v.d)
	v.chain = v.follow()
	out := SlowAnswer{Forgone: v.forgone(), String: v.chain}
	for _, r := range x.rises {
		var line []SlowWorth
		for i := -3; i < len(s.Replies); i++ {
			line = append(line, v.weigh(r, i))
		}
		out.Rises = append(out.Rises, line)
	}
	def, end := x.defender(x.rises[0], -1)
	if c := x.exchange(x.attacker(v.d), def, end, v.d, x.rises[0], -1).play(); c.Outcome == AttackHits && out.Rises[0][2].Points.Given {
		out.KillsOnHit = Some(out.Rises[0][2].Kills.Or(0))
	}
	return out
}
