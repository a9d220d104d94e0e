package value

import (
	"context"
	"fmt"
	"slices"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// mostRounds is how many rounds a finish may take.
const mostRounds = 200

// FinishQuery asks how a fight ends from a setup on.
type FinishQuery struct {
	Begin  timeline.Setup   // the first round's
	Setups []timeline.Setup // of the project, in its order; those of later rounds are among them
	Reply  string           // timeline.Nothing, or a move or jump of the rival: what it does in every round
	Health timeline.Maybe   // of the rival; absent: the ruleset's
	Gauge  timeline.Maybe   // of the attacker; absent: full
}

// FinishReplies are what a rival may do in every round, by name: nothing, its
// moves on the ground, and its jumps.
func FinishReplies(rival *timeline.Fighter) []string {
	names := []string{timeline.Nothing}
	for i := range rival.Moves {
		if !rival.Moves[i].Air {
			names = append(names, rival.Moves[i].Name)
		}
	}
	for i := range rival.Jumps {
		names = append(names, rival.Jumps[i].Name)
	}
	return names
}

// Finish is how a fight ends: the fewest rounds, or, where none ends it, those
// that do the most damage.
type Finish struct {
	Rounds  []FinishRound
	Ends    bool
	Because string
}

// FinishRound is one setup of a finish, played against the reply.
type FinishRound struct {
	Setup, Reply  string
	Outcome       timeline.Outcome
	Route         string // empty: the touch alone
	Damage        int
	Gauge, Health int // what is left after it; health below 0 is damage over
}

// Finish finds the fewest rounds that end it; of those the ones that spend the
// least gauge, that do the most damage, that come first in the project.
func (b *Book) Finish(ctx context.Context, index *timeline.Index, q FinishQuery) (Finish, error) {
	begin, err := b.opening(index, &q.Begin, q.Reply)
	if err != nil {
		return Finish{}, err
	}
	f := finisher{ctx: ctx, book: b, index: index, query: &q, nodes: map[place]*finishNode{}, after: map[string][]*opening{}}
	health, gauge := q.Health.Or(begin.rules.Health), q.Gauge.Or(begin.rules.Gauge)
	f.start = &finishNode{gauge: gauge}
	f.open(f.start, []*opening{begin})
	return f.find(health)
}

// opening is a setup as a round, whatever the gauge.
type opening struct {
	setup   *timeline.Setup
	rules   timeline.Ruleset
	good    bool // safe or limited, survived and covered
	outcome timeline.Outcome
	paid    []*timeline.Move // its own moves that begin by the meeting
	own     []*timeline.Move // all of its own moves
	ways    []way            // that do damage, in their order
}

// way is one way of doing damage in a round.
type way struct {
	route  *Route // nil: the touch alone
	damage int
	ender  string // that it leads to; empty: none
}

// opening judges a setup against the reply on its first claimed rise.
func (b *Book) opening(index *timeline.Index, s *timeline.Setup, reply string) (*opening, error) {
	own, err := index.Compile(*s)
	if err != nil {
		return nil, err
	}
	_, rival := own.Fighters()
	o := &opening{setup: s, rules: own.Rules()}
	word := own.Word(s.Delay)
	line, plan, covered := timeline.LineNothing, own, true
	if reply != timeline.Nothing {
		asked := own.Asked()
		at := slices.IndexFunc(asked, func(r timeline.Reply) bool { return r.Move == reply && r.Late == 0 })
		if at >= 0 {
			line = timeline.FirstReply + at
			covered = asked[at].Demand == timeline.DemandNone || !slices.Contains(own.Uncovered(), reply)
		} else {
			alone := *s
			alone.Rises = []string{s.Claimed(rival)[0].Name}
			alone.Replies = []timeline.Reply{{Move: reply, Demand: timeline.DemandNone}}
			if plan, err = index.Compile(alone); err != nil {
				return nil, err
			}
			line = timeline.FirstReply
		}
	}
	m := plan.Meetings(s.Delay, nil)
	p := b.plan(&m, Gauges{})
	e := timeline.Exchange{Line: line}
	c := m.Cell(e)
	o.outcome = c.Outcome
	o.good = word != timeline.Unsafe && covered && c.Outcome.Survived()
	p.eachOwn(c.Meeting.Or(timeline.Width), func(m *timeline.Move) { o.paid = append(o.paid, m) })
	p.eachOwn(timeline.Width, func(m *timeline.Move) { o.own = append(o.own, m) })
	if !o.good {
		return o, nil
	}
	add := func(r *Route, damage int, last *timeline.Move) {
		if damage <= 0 {
			return
		}
		w := way{route: r, damage: damage}
		if last != nil && last.Knockdown.At(s.Position).Given {
			w.ender = last.Name
		}
		o.ways = append(o.ways, w)
	}
	x := weighing{plan: p, e: e, c: c, gauge: timeline.MaxPoints}
	from, free := 0, 0
	switch c.Outcome {
	case timeline.AttackHits:
		touching, _ := m.Touching(e)
		add(nil, x.touch(), touching)
		if r := p.onHit; r != nil && x.fits(r) {
			add(r, x.touch()+x.afterTouch(r), r.Ends())
		}
		return o, nil
	case timeline.ReplyParried:
		if n := p.rules.ParryAdvantage; n.Given {
			for _, r := range p.punish {
				if x.within(r.steps[0], n.N) {
					add(r, r.Damage, r.Ends())
				}
			}
		}
		return o, nil
	case timeline.ReplyBlocked:
		if !c.ToPunish.Given {
			return o, nil
		}
		free = m.Ends(e).N
		from = max(free-c.ToPunish.N, c.Meeting.N+1)
	case timeline.NoContact:
		from, free = m.Free(), m.Ends(e).N
	default:
		return o, nil
	}
	after := m.Aftermath(e)
	for _, r := range p.punish {
		if _, ok := after.Punishes(true, r.steps[0], from, free); ok {
			add(r, r.Damage, r.Ends())
		}
	}
	return o, nil
}

// pay pays a round from a gauge: its own moves, then its route.
func (o *opening) pay(w *way, gauge int) (left, spent int, ok bool) {
	g := gauge
	for _, m := range o.own {
		if g < m.GaugeCost {
			return 0, 0, false
		}
		g = min(g-m.GaugeCost+m.GaugeGain, o.rules.Gauge)
	}
	left = gauge
	for _, m := range o.paid {
		left = min(left-m.GaugeCost+m.GaugeGain, o.rules.Gauge)
		spent += m.GaugeCost
	}
	if w.route == nil {
		return left, spent, true
	}
	left, ok = w.route.Pay(left)
	return left, spent + w.route.Cost, ok
}

// place is where a fight stands between rounds: what the next setups follow,
// and the gauge.
type place struct {
	ender string
	gauge int
}

// finishNode is a place with the rounds that can be played from it.
type finishNode struct {
	gauge  int
	moves  []finishMove
	poor   bool // a round was left out for want of gauge
	setups int
	good   bool
	most   []int            // by rounds: the most damage in at most that many
	best   [][]finishAnswer // by exact rounds: the most damage for each gauge spent
}

type finishMove struct {
	opening *opening
	way     *way
	left    int
	spent   int
	next    *finishNode
}

type finishAnswer struct {
	spent, damage int
	move, rest    int // indexes of the move, and of the answer after it
}

type finisher struct {
	ctx   context.Context
	book  *Book
	index *timeline.Index
	query *FinishQuery
	start *finishNode
	nodes map[place]*finishNode
	all   []*finishNode
	after map[string][]*opening
}

// open lists the rounds of a node, and the nodes after it.
func (f *finisher) open(n *finishNode, openings []*opening) {
	f.all = append(f.all, n)
	n.setups = len(openings)
	type same struct {
		damage, left, spent int
		ender               string
	}
	seen := map[same]bool{}
	for _, o := range openings {
		n.good = n.good || o.good
		for i := range o.ways {
			w := &o.ways[i]
			left, spent, ok := o.pay(w, n.gauge)
			if !ok {
				n.poor = true
				continue
			}
			if key := (same{w.damage, left, spent, w.ender}); !seen[key] {
				seen[key] = true
				n.moves = append(n.moves, finishMove{opening: o, way: w, left: left, spent: spent})
			}
		}
	}
	for i := range n.moves {
		m := &n.moves[i]
		m.next = f.node(place{m.way.ender, m.left})
	}
}

func (f *finisher) node(at place) *finishNode {
	if n := f.nodes[at]; n != nil {
		return n
	}
	n := &finishNode{gauge: at.gauge}
	f.nodes[at] = n
	if f.ctx.Err() == nil {
		f.open(n, f.openings(at.ender))
	}
	return n
}

// openings are the setups of the same pair and position after that ender, of
// which those that can't be judged are left out.
func (f *finisher) openings(ender string) []*opening {
	if ender == "" {
		return nil
	}
	if out, ok := f.after[ender]; ok {
		return out
	}
	var out []*opening
	b := &f.query.Begin
	for i := range f.query.Setups {
		s := &f.query.Setups[i]
		if s.Ender != ender || s.Attacker != b.Attacker || s.Rival != b.Rival || s.Position != b.Position || f.ctx.Err() != nil {
			continue
		}
		if o, err := f.book.opening(f.index, s, f.query.Reply); err == nil {
			out = append(out, o)
		}
	}
	f.after[ender] = out
	return out
}

// find finds the number of rounds first, which the most damage of each node
// tells, then the best of that many.
func (f *finisher) find(health int) (Finish, error) {
	for _, n := range f.all {
		n.most = []int{0}
	}
	rounds := 0
	for rounds < mostRounds && f.start.most[rounds] < health {
		if err := f.ctx.Err(); err != nil {
			return Finish{}, err
		}
		more := false
		for _, n := range f.all {
			most := n.most[rounds]
			for i := range n.moves {
				most = max(most, n.moves[i].way.damage+n.moves[i].next.most[rounds])
			}
			more = more || most > n.most[rounds]
			n.most = append(n.most, most)
		}
		rounds++
		if !more {
			break
		}
	}
	if err := f.ctx.Err(); err != nil {
		return Finish{}, err
	}
	target := min(health, f.start.most[rounds])
	long := rounds == mostRounds && target < health
	rounds = slices.IndexFunc(f.start.most, func(n int) bool { return n >= target })
	answers := f.answers(f.start, rounds)
	best := slices.IndexFunc(answers, func(a finishAnswer) bool { return a.damage >= target })
	if best < 0 { // cancelled
		return Finish{}, f.ctx.Err()
	}
	out := Finish{Rounds: []FinishRound{}, Ends: target >= health}
	n, left := f.start, health
	for rounds > 0 {
		a := n.best[rounds][best]
		m := &n.moves[a.move]
		left -= m.way.damage
		r := FinishRound{Setup: m.opening.setup.Name, Reply: f.query.Reply, Outcome: m.opening.outcome, Damage: m.way.damage, Gauge: m.left, Health: left}
		if m.way.route != nil {
			r.Route = m.way.route.Name
		}
		out.Rounds = append(out.Rounds, r)
		n, best, rounds = m.next, a.rest, rounds-1
	}
	out.Because = f.because(&out, n, left, long)
	return out, nil
}

// answers are the most damage in exactly that many rounds from a node, for each
// gauge spent that does more than a smaller one.
func (f *finisher) answers(n *finishNode, rounds int) []finishAnswer {
	for len(n.best) <= rounds {
		n.best = append(n.best, nil)
	}
	if n.best[rounds] != nil || f.ctx.Err() != nil {
		return n.best[rounds]
	}
	out := []finishAnswer{}
	if rounds == 0 {
		out = append(out, finishAnswer{})
	} else {
		for i := range n.moves {
			m := &n.moves[i]
			for k, a := range f.answers(m.next, rounds-1) {
				out = append(out, finishAnswer{m.spent + a.spent, m.way.damage + a.damage, i, k})
			}
		}
		slices.SortStableFunc(out, func(a, b finishAnswer) int {
			if a.spent != b.spent {
				return a.spent - b.spent
			}
			return b.damage - a.damage
		})
		most := -1
		out = slices.DeleteFunc(out, func(a finishAnswer) bool {
			if a.damage <= most {
				return true
			}
			most = a.damage
			return false
		})
	}
	n.best[rounds] = out
	return out
}

// because says how it ends, or what stopped it after the last round.
func (f *finisher) because(out *Finish, last *finishNode, left int, long bool) string {
	switch {
	case out.Ends && len(out.Rounds) == 1:
		return fmt.Sprintf("1 round ends it, with %s of damage over.", words.Count(-left, "point"))
	case out.Ends:
		return fmt.Sprintf("%d rounds end it, with %s of damage over.", len(out.Rounds), words.Count(-left, "point"))
	}
	why := "after the last round no setup follows the ender"
	switch {
	case long:
		why = fmt.Sprintf("%d rounds are not enough", mostRounds)
	case last.poor:
		why = "the gauge doesn't pay what comes next"
	case len(out.Rounds) == 0 && !last.good:
		why = "this setup isn't safe against this reply"
	case last.setups > 0 && !last.good:
		why = "no setup that follows is safe against this reply"
	case last.setups > 0:
		why = "no route punishes, and no attack hits"
	}
	are := "are"
	if left == 1 {
		are = "is"
	}
	return fmt.Sprintf("%s of health %s left: %s.", words.Count(left, "point"), are, why)
}
