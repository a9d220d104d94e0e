package value

import (
	"slices"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// Gauges are the segments that both sides have on frame 0; absent: a full
// gauge.
type Gauges struct{ Attacker, Rival timeline.Maybe }

// Worth is what one exchange comes to, in the attacker's view.
type Worth = words.Worth

// Answer is what a setup is worth.
type Answer struct {
	Forgone    timeline.Maybe // absent without an ender, and where no route ends in it
	KillsOnHit timeline.Maybe // the damage against a rival that does nothing on the first rise; absent where it doesn't hit
	String     *String        // nil without one
	Rises      [][]Worth      // as the verdict has them: rise by rise, line by line
}

// plan is a setup whose exchanges are weighed at one delay.
type plan struct {
	m              *timeline.Meetings
	rules          timeline.Ruleset
	setup          *timeline.Setup
	mine           []Route
	punish         []*Route // those of mine that are considered, in the setup's or the fighter's order
	best           []*Route // the same, the best first
	rivals         []*Route // the rival's, the one that costs most first
	onHit          *Route
	string         *String
	gauges         Gauges
	attacker       *timeline.Fighter
	jumped, landed *timeline.Move // the jump attack, the landing move
	own            []ownMove
}

// OfPlan weighs every exchange of a plan at its set delay, with full gauges.
func OfPlan(p *timeline.Plan) Answer {
	m := p.Meetings(p.Setup.Delay, nil)
	return bookOf(p).Of(&m, Gauges{})
}

// bookOf is the book of a plan's two fighters.
func bookOf(p *timeline.Plan) *Book {
	attacker, rival := p.Fighters()
	return NewBook(&timeline.Project{Ruleset: p.Rules(), Fighters: []timeline.Fighter{*attacker, *rival}})
}

// Of weighs every exchange of a setup at the delay of its meetings, which is
// one of the book's project.
func (b *Book) Of(m *timeline.Meetings, gauges Gauges) Answer {
	p := b.plan(m, gauges)
	out := Answer{Forgone: p.forgone(), String: p.string}
	payable := p.payable()
	lines := m.Plan.Lines()
	all := make([]Worth, m.Plan.Rises()*lines)
	out.Rises = make([][]Worth, 0, m.Plan.Rises())
	for r := range m.Plan.Rises() {
		row := all[r*lines : (r+1)*lines : (r+1)*lines]
		for i := range row {
			if payable {
				row[i] = p.worth(timeline.Exchange{Rise: r, Line: i})
			}
		}
		out.Rises = append(out.Rises, row)
	}
	e := timeline.Exchange{Line: timeline.LineNothing}
	if payable && m.Cell(e).Outcome == timeline.AttackHits {
		out.KillsOnHit = timeline.Some(out.Rises[0][timeline.LineNothing].Kills.Or(0))
	}
	return out
}

func (b *Book) plan(m *timeline.Meetings, gauges Gauges) *plan {
	p := b.planWith(m, gauges)
	p.string = stringOf(m)
	return p
}

// planWith is plan without what follows a guarded attack.
func (b *Book) planWith(m *timeline.Meetings, gauges Gauges) *plan {
	attacker, rival := m.Plan.Fighters()
	rules := m.Plan.Rules()
	p := &plan{m: m, rules: rules, setup: &m.Plan.Setup, gauges: gauges, attacker: attacker,
		mine: b.fighters[attacker.Name].routes, rivals: b.fighters[rival.Name].costliest}
	s := p.setup
	p.punish, p.best = b.fighters[attacker.Name].punishes(s.Punish)
	if s.Attack != "" {
		p.jumped = attacker.Move(s.Attack)
	}
	if s.Landing != timeline.DoGuard && s.Landing != timeline.DoParry {
		p.landed = attacker.Move(s.Landing)
	}
	p.own = p.ownMoves()
	if s.OnHit != "" {
		for i := range p.mine {
			if r := &p.mine[i]; r.Named && r.Name == s.OnHit {
				p.onHit = r
			}
		}
	}
	return p
}

// spent is what the setup's own moves that begin by that frame leave of the
// gauge, and their gain less their cost; ok is false where they can't be paid.
func (p *plan) spent(by int) (gauge, net int, ok bool) {
	gauge, ok = p.gauges.Attacker.Or(p.rules.Gauge), true
	pay := func(m *timeline.Move) {
		if gauge < m.GaugeCost {
			ok = false
		}
		gauge = min(gauge-m.GaugeCost+m.GaugeGain, p.rules.Gauge)
		net += m.GaugeGain - m.GaugeCost
	}
	p.eachOwn(by, pay)
	return gauge, net, ok
}

// eachOwn hands over the setup's own moves that begin by that frame, in order.
func (p *plan) eachOwn(by int, do func(m *timeline.Move)) {
	for i := range p.own {
		if p.own[i].begin <= by {
			do(p.own[i].move)
		}
	}
}

// ownMove is a move of the setup and its first frame.
type ownMove struct {
	move  *timeline.Move
	begin int
}

// ownMoves lists the setup's own moves in the order in which they begin.
func (p *plan) ownMoves() []ownMove {
	t, at := p.m.Plan.Times(p.m.Delay), 0
	out := make([]ownMove, 0, len(p.setup.Fillers)+2)
	for _, name := range p.setup.Fillers {
		if m := p.attacker.Move(name); m != nil {
			out = append(out, ownMove{m, at})
			at += m.Total(p.rules)
		} else {
			at += p.attacker.Jump(name).Total()
		}
	}
	if p.jumped != nil {
		out = append(out, ownMove{p.jumped, t.Touchdown - p.attacker.Jump(p.setup.Jump).Airborne + p.m.Plan.Press()})
	}
	if p.landed != nil {
		out = append(out, ownMove{p.landed, t.ActsFrom})
	}
	return out
}

// payable reports whether the gauge pays all of the setup's own moves.
func (p *plan) payable() bool {
	_, _, ok := p.spent(timeline.Width)
	return ok
}

// worth weighs one exchange.
func (p *plan) worth(e timeline.Exchange) Worth {
	var x weighing
	p.weigh(&x, e, false)
	out := Worth{Points: timeline.Some(x.points)}
	if x.route != nil {
		out.Route = x.route.Name
	}
	if x.dealt > 0 {
		out.Kills = timeline.Some(x.dealt)
	}
	return out
}

// weigh weighs an exchange in x, its choice of a route left open or not.
func (p *plan) weigh(x *weighing, e timeline.Exchange, open bool) {
	c := p.m.Cell(e)
	by := c.Meeting.Or(timeline.Width)
	gauge, net, _ := p.spent(by)
	rivalGauge := p.gauges.Rival.Or(p.rules.Gauge)
	reply := p.m.Plan.ReplyMove(e.Line)
	if reply != nil && p.m.Begins(e) <= by {
		rivalGauge = min(rivalGauge-reply.GaugeCost+reply.GaugeGain, p.rules.Gauge)
		net -= reply.GaugeGain - reply.GaugeCost
	}
	*x = weighing{plan: p, e: e, c: c, gauge: gauge, rivalGauge: rivalGauge, open: open}
	x.play()
	x.points += p.rules.GaugeWorth * net
}

// weighing is one exchange being weighed.
type weighing struct {
	*plan
	e                 timeline.Exchange
	c                 *timeline.Cell
	gauge, rivalGauge int

	points, dealt int
	route         *Route
	from, free    int            // where the route punishes: when the attacker is free, and the rival
	last          *timeline.Move // of the attacker, the last that touched in a hit; nil: none

	open bool     // the choice of a punish is left open
	may  []*Route // those it is between; none of them is another choice
}

func (x *weighing) play() {
	switch x.c.Outcome {
	case timeline.AttackHits:
		x.hit()
	case timeline.AttackBlocked:
		x.blocked()
	case timeline.AttackWhiffs:
		if x.e.Line == timeline.LineNothing || !(x.jumped != nil && x.jumped.Hits() || x.landed != nil && x.landed.Hits()) {
			return
		}
		from := x.m.Plan.Wake(x.e.Rise)
		if last := x.m.LastActive(); last.Given {
			from = max(from, last.N+1)
		}
		x.lose(from+x.rules.Reaction, x.m.Free())
	case timeline.ReplyBlocked:
		end := x.m.Ends(x.e).N
		if x.c.ToPunish.Given {
			x.gain(max(end-x.c.ToPunish.N, x.c.Meeting.N+1), end)
		}
	case timeline.NoContact:
		end := x.m.Ends(x.e).N
		x.gain(x.m.Free(), end)
		if x.m.Free() > end {
			x.lose(end, x.m.Free())
		}
	case timeline.ReplyParried:
		if n := x.rules.ParryAdvantage; n.Given {
			x.choose(func(m *timeline.Move) bool { return x.within(m, n.N) })
		}
	case timeline.Trade:
		x.dealt = x.touch()
		x.points = x.dealt - x.costs()
	default:
		x.points = -x.costs()
	}
}

// within reports whether a route's first step is active within that many
// frames.
func (p *plan) within(m *timeline.Move, frames int) bool {
	return m.Hits() && m.Level != timeline.LevelAirThr && m.FirstActive(p.rules)+1 <= frames
}

// touch is the damage of the attacker's touch.
func (x *weighing) touch() int {
	m, _ := x.m.Touching(x.e)
	if m == nil {
		return 0
	}
	damage := m.Damage
	if x.e.Line >= timeline.FirstReply && x.m.Begins(x.e) <= x.c.Meeting.N {
		damage = damage * x.rules.CounterDamage / 100
	}
	return damage * percent(x.rules, 1) / 100
}

// hit is the touch, and the route that the setup names after it.
func (x *weighing) hit() {
	x.dealt = x.touch()
	x.last, _ = x.m.Touching(x.e)
	if r := x.onHit; r != nil && x.follows(r) {
		x.dealt += x.afterTouch(r)
		x.points, x.route, x.last = r.worth, r, r.Ends()
	}
	x.points += x.dealt
}

// afterTouch is the damage of a route after the touch.
func (x *weighing) afterTouch(r *Route) int {
	if r.measured {
		return r.Damage
	}
	return scaled(x.rules, r.steps, 2)
}

// follows reports whether the route can be played after the hit.
func (x *weighing) follows(r *Route) bool { return x.fits(r) && r.pays(x.gauge) }

// fits is follows whatever the gauge.
func (x *weighing) fits(r *Route) bool {
	m := r.steps[0]
	throw, a := m.Kind == timeline.Throw, x.c.Advantage
	links := !throw && m.Hits() && a.Given && m.FirstActive(x.rules)+1 <= a.N
	return r.Counts && (links || !throw && r.first == timeline.Cancel || r.route.Confirmed)
}

// blocked is what a guarded attack is worth, and what punishes it.
func (x *weighing) blocked() {
	x.points = x.setup.Pressure
	if x.string != nil {
		if a := x.string.Advantage; a.Given && a.N < 0 {
			x.losing(first(x.rivals, x.rivalGauge, func(m *timeline.Move) bool { return x.within(m, -a.N) }))
		}
		return
	}
	if a := x.c.Advantage; a.Given && a.N < 0 {
		_, free := x.m.Touching(x.e)
		x.lose(free+a.N, free)
	}
}

// gain takes the attacker's best route that punishes.
func (x *weighing) gain(from, free int) {
	x.from, x.free = from, free
	after := x.m.Aftermath(x.e)
	x.choose(func(m *timeline.Move) bool {
		_, ok := after.Punishes(true, m, from, free)
		return ok
	})
}

// choose takes the best route of those that fit, or leaves that open.
func (x *weighing) choose(fits func(step *timeline.Move) bool) {
	if !x.open {
		if r := first(x.best, x.gauge, fits); r != nil && r.Damage+r.worth >= 0 {
			x.take(r)
		}
		return
	}
	for _, r := range x.punish {
		if r.pays(x.gauge) && fits(r.steps[0]) {
			x.may = append(x.may, r)
		}
	}
}

func (x *weighing) take(r *Route) {
	x.points, x.dealt, x.route = x.points+r.Damage+r.worth, r.Damage, r
}

// lose takes off the rival's best route that punishes.
func (x *weighing) lose(from, free int) {
	after := x.m.Aftermath(x.e)
	x.losing(first(x.rivals, x.rivalGauge, func(m *timeline.Move) bool {
		_, ok := after.Punishes(false, m, from, free)
		return ok
	}))
}

func (x *weighing) losing(r *Route) {
	if r != nil {
		x.points -= r.Damage + r.worth
	}
}

// costs is what the reply takes where it wins.
func (x *weighing) costs() int {
	if c := x.m.Plan.Asked()[x.e.Line-timeline.FirstReply].Costs; c.Given {
		return c.N
	}
	if m := x.m.Plan.ReplyMove(x.e.Line); m != nil && (m.Hits() || m.Kind == timeline.Parry) {
		return m.Damage
	}
	return 0
}

// first is the first of those routes that can be paid and whose first step fits,
// nil where there is none.
func first(of []*Route, gauge int, fits func(step *timeline.Move) bool) *Route {
	var tried [8]*timeline.Move // that don't fit
	n := 0
	for _, r := range of {
		step := r.steps[0]
		if !r.pays(gauge) || slices.Contains(tried[:n], step) {
			continue
		}
		if fits(step) {
			return r
		}
		if n < len(tried) {
			tried[n] = step
			n++
		}
	}
	return nil
}

// forgone is the damage given up on the ender.
func (p *plan) forgone() timeline.Maybe {
	most, ends := -1, -1
	for i := range p.mine {
		end := &p.mine[i]
		if !end.Named || !end.Counts || p.setup.Ender == "" || end.Ends().Name != p.setup.Ender {
			continue
		}
		ends = max(ends, end.Damage)
		for k := range p.mine {
			if r := &p.mine[k]; r.Named && r.Counts && r.steps[0] == end.steps[0] {
				most = max(most, r.Damage)
			}
		}
	}
	return timeline.Maybe{N: max(most-ends, 0), Given: ends >= 0}
}
