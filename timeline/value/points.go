package value

import (
	"cmp"
	"slices"

	"wakeline/timeline"
)

// Gauges are the segments that both sides have on frame 0; absent: a full
// gauge.
type Gauges struct{ Attacker, Rival timeline.Maybe }

// Worth is what one exchange comes to, in the attacker's view.
type Worth struct {
	Points timeline.Maybe // absent where the setup can't pay its own moves
	Route  string         // of the attacker, played in it; empty: none
	Kills  timeline.Maybe // the damage done to the rival; absent where there is none
}

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
	mine, theirs   []Route
	punish         []*Route // those of mine that are considered, in the order of ties
	rivals         []*Route // those of theirs that count
	onHit          *Route
	string         *String
	gauges         Gauges
	attacker       *timeline.Fighter
	jumped, landed *timeline.Move // the jump attack, the landing move
}

// Book holds the routes of all fighters of a project, for many setups. It is
// not changed after NewBook; its methods may be called from several goroutines
// at once.
type Book struct{ routes map[string][]Route }

// NewBook works out the routes of every fighter of p.
func NewBook(p *timeline.Project) *Book {
	b := &Book{map[string][]Route{}}
	for i := range p.Fighters {
		b.routes[p.Fighters[i].Name] = Routes(p.Ruleset, &p.Fighters[i])
	}
	return b
}

// Of weighs every exchange of a setup at the delay of its meetings, which is
// one of the book's project.
func (b *Book) Of(m *timeline.Meetings, gauges Gauges) Answer {
	p := b.plan(m, gauges)
	out := Answer{Forgone: p.forgone(), String: p.string}
	payable := p.payable()
	for r := range m.Plan.Rises() {
		row := make([]Worth, m.Plan.Lines())
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
		mine: b.routes[attacker.Name], theirs: b.routes[rival.Name], landed: attacker.Move(m.Plan.Setup.Landing)}
	s := p.setup
	if s.Attack != "" {
		p.jumped = attacker.Move(s.Attack)
	}
	if s.Landing == timeline.DoGuard || s.Landing == timeline.DoParry {
		p.landed = nil
	}
	for i := range p.mine {
		r := &p.mine[i]
		if r.Named && r.Name == s.OnHit {
			p.onHit = r
		}
		if r.Counts && (len(s.Punish) == 0 || r.Named && slices.Contains(s.Punish, r.Name)) {
			p.punish = append(p.punish, r)
		}
	}
	if len(s.Punish) > 0 {
		slices.SortStableFunc(p.punish, func(a, b *Route) int {
			return cmp.Compare(slices.Index(s.Punish, a.Name), slices.Index(s.Punish, b.Name))
		})
	}
	for i := range p.theirs {
		if r := &p.theirs[i]; r.Counts {
			p.rivals = append(p.rivals, r)
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
	t := p.m.Plan.Times(p.m.Delay)
	at := 0
	for _, name := range p.setup.Fillers {
		if m := p.attacker.Move(name); m != nil {
			if at <= by {
				do(m)
			}
			at += m.Total(p.rules)
		} else {
			at += p.attacker.Jump(name).Total()
		}
	}
	if p.jumped != nil && t.Touchdown-p.attacker.Jump(p.setup.Jump).Airborne+p.m.Plan.Press() <= by {
		do(p.jumped)
	}
	if p.landed != nil && t.ActsFrom <= by {
		do(p.landed)
	}
}

// payable reports whether the gauge pays all of the setup's own moves.
func (p *plan) payable() bool {
	_, _, ok := p.spent(timeline.Width)
	return ok
}

// worth weighs one exchange.
func (p *plan) worth(e timeline.Exchange) Worth {
	x := p.weighed(e, false)
	out := Worth{Points: timeline.Some(x.points)}
	if x.route != nil {
		out.Route = x.route.Name
	}
	if x.dealt > 0 {
		out.Kills = timeline.Some(x.dealt)
	}
	return out
}

// weighed is an exchange weighed, its choice of a route left open or not.
func (p *plan) weighed(e timeline.Exchange, open bool) *weighing {
	c := p.m.Cell(e)
	by := c.Meeting.Or(timeline.Width)
	gauge, net, _ := p.spent(by)
	rivalGauge := p.gauges.Rival.Or(p.rules.Gauge)
	reply := p.reply(e)
	if reply != nil && p.m.Begins(e) <= by {
		rivalGauge = min(rivalGauge-reply.GaugeCost+reply.GaugeGain, p.rules.Gauge)
		net -= reply.GaugeGain - reply.GaugeCost
	}
	x := &weighing{plan: p, e: e, c: c, gauge: gauge, rivalGauge: rivalGauge, open: open}
	x.weigh()
	x.points += p.rules.GaugeWorth * net
	return x
}

// reply is the move of the rival's reply, nil for a jump and what is always
// judged.
func (p *plan) reply(e timeline.Exchange) *timeline.Move {
	if e.Line < timeline.FirstReply {
		return nil
	}
	_, rival := p.m.Plan.Fighters()
	return rival.Move(p.m.Plan.Reply(e.Line).Move)
}

// weighing is one exchange being weighed.
type weighing struct {
	*plan
	e                 timeline.Exchange
	c                 *timeline.Cell
	gauge, rivalGauge int

	points, dealt int
	route         *Route
	last          *timeline.Move // of the attacker, the last that touched in a hit or a punish; nil: none

	open bool     // the choice of a punish is left open
	may  []*Route // those it is between; none of them is another choice
}

func (x *weighing) weigh() {
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
			x.choose(func(r *Route) bool { return x.within(r, n.N) })
		}
	case timeline.Trade:
		x.dealt = x.touch()
		x.points = x.dealt - x.costs()
	default:
		x.points = -x.costs()
	}
}

// within reports whether the route's first step is active within that many
// frames.
func (p *plan) within(r *Route, frames int) bool {
	m := r.steps[0]
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
		x.points, x.route, x.last = r.worth(x.rules), r, r.Ends()
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
			x.losing(best(x.rules, x.rivals, x.rivalGauge, false, func(r *Route) bool { return x.within(r, -a.N) }))
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
	after := x.m.Aftermath(x.e)
	x.choose(func(r *Route) bool {
		_, ok := after.Punishes(true, r.steps[0], from, free)
		return ok
	})
}

// choose takes the best route of those that fit, or leaves that open.
func (x *weighing) choose(fits func(*Route) bool) {
	if !x.open {
		x.take(best(x.rules, x.punish, x.gauge, true, fits))
		return
	}
	for _, r := range x.punish {
		if r.pays(x.gauge) && fits(r) {
			x.may = append(x.may, r)
		}
	}
}

func (x *weighing) take(r *Route) {
	if r != nil {
		x.points, x.dealt, x.route = x.points+r.Damage+r.worth(x.rules), r.Damage, r
		x.last = r.Ends()
	}
}

// lose takes off the rival's best route that punishes.
func (x *weighing) lose(from, free int) {
	after := x.m.Aftermath(x.e)
	x.losing(best(x.rules, x.rivals, x.rivalGauge, false, func(r *Route) bool {
		_, ok := after.Punishes(false, r.steps[0], from, free)
		return ok
	}))
}

func (x *weighing) losing(r *Route) {
	if r != nil {
		x.points -= r.Damage + r.worth(x.rules)
	}
}

// costs is what the reply takes where it wins.
func (x *weighing) costs() int {
	if c := x.m.Plan.Asked()[x.e.Line-timeline.FirstReply].Costs; c.Given {
		return c.N
	}
	if m := x.reply(x.e); m != nil && (m.Hits() || m.Kind == timeline.Parry) {
		return m.Damage
	}
	return 0
}

// best is the route that is taken of those that fit and can be paid, nil where
// there is none: that of most points with the gauge in, where own, else of most
// damage; then of most damage, of least cost, named, first.
func best(rules timeline.Ruleset, of []*Route, gauge int, own bool, fits func(*Route) bool) (top *Route) {
	points := func(r *Route) int {
		if own {
			return r.Damage + r.worth(rules)
		}
		return r.Damage
	}
	for _, r := range of {
		if top != nil && better(top, r, points) <= 0 || !r.pays(gauge) || !fits(r) {
			continue
		}
		top = r
	}
	if top != nil && points(top) < 0 {
		return nil
	}
	return top
}

// better is above 0 where b is taken rather than a, which comes before it.
func better(a, b *Route, points func(*Route) int) int {
	named := 0
	if b.Named && !a.Named {
		named = 1
	} else if a.Named && !b.Named {
		named = -1
	}
	return cmp.Or(cmp.Compare(points(b), points(a)), cmp.Compare(b.Damage, a.Damage), cmp.Compare(a.Cost, b.Cost), named)
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
