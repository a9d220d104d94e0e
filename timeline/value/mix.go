package value

import (
	"context"
	"errors"
	"fmt"
	"math/big"
	"strings"

	"wakeline/timeline"
	"wakeline/timeline/odds"
)

// Mix is what the setups of one attacker, rival, ender and position are worth
// together: the attacker picks a setup, the rival a rise and a reply, and
// neither sees what the other takes.
type Mix struct {
	Attacker, Rival, Ender string
	Position               timeline.Position
	Rows                   []MixRow
	Columns                []MixColumn
	Payoff                 [][]*big.Rat // points, row by row
	Value                  *big.Rat     // points that a round is worth to the attacker
	Unique                 bool         // neither side has other best shares
	Exact                  bool         // no hand, and nothing carried: the payoffs are whole, and nothing is rounded
	LeftOut                []LeftOut    // setups that are no row

	Carry  timeline.Ratio
	Rounds []Round  // what later rounds are worth; nil without a carry
	Bound  *big.Rat // how far their values may be from the true ones, in points; nil without a carry

	cells [][]cell // row by row
}

// MixRow is one setup of a mix.
type MixRow struct {
	Setup   string
	Share   *big.Rat // how often to play it
	Against *big.Rat // what it makes against the rival's shares
	Worst   *big.Rat // what it makes where the rival knows that it comes
	Never   bool     // no best shares have it
}

// MixColumn is one thing that the rival may do.
type MixColumn struct {
	Rise, Reply string
	Late        int
	Share       *big.Rat // how often the rival should do it
	Against     *big.Rat // what it leaves the attacker's shares
	BestRow     int      // the first row of those that make most of it where the rival always does it
	Best        *big.Rat // what that makes
	Never       bool     // no best shares have it
}

// Round is the mix that follows an ender: of all setups of the pair after it, at
// the same position, with a full gauge.
type Round struct {
	Ender    string
	Position timeline.Position
	Value    *big.Rat
}

// MixOptions is how setups are weighed.
type MixOptions struct {
	Gauges Gauges
	Hand   *odds.Hand       // nil: each wait is counted as it is set
	Carry  timeline.Ratio   // of the next round's value, below 1; 0/1: none
	Pair   []timeline.Setup // those of a next round, in the project's order: the rows' pair's are used; for a carry
}

// LeftOut is a setup that is no row of a mix, and why.
type LeftOut struct{ Setup, Because string }

// Mix weighs setups of one attacker, rival, ender and position, of the index's
// and the book's project, at their set delays; with a hand a setup with a
// counted wait is the mean over where the press lands. A setup that can't be
// judged, or whose own moves the gauge doesn't pay, is left out; it is an error
// where none is left, and where two don't belong to one mix.
func (b *Book) Mix(ctx context.Context, ix *timeline.Index, setups []timeline.Setup, o MixOptions) (*Mix, error) {
	if c := o.Carry; c.Num < 0 || c.Num > 0 && c.Num >= c.Den {
		return nil, fmt.Errorf("carry: expected 0 or more and less than 1, got %v", c)
	}
	m, err := b.lay(ctx, ix, setups, o)
	if err != nil {
		return nil, err
	}
	if len(m.Rows) == 0 {
		why := []string{"expected a setup that can be played"}
		for _, out := range m.LeftOut {
			why = append(why, fmt.Sprintf("%q: %s", out.Setup, out.Because))
		}
		return nil, errors.New(strings.Join(why, "; "))
	}
	m.Exact, m.Carry = o.Hand == nil, timeline.Ratio{Num: o.Carry.Num, Den: max(o.Carry.Den, 1)}
	var worth map[string]*big.Rat
	if o.Carry.Num > 0 {
		if worth, err = b.rounds(ctx, ix, m, o); err != nil {
			return nil, err
		}
		m.Exact = m.Exact && len(worth) == 0
	}
	m.Payoff = m.payoffs(worth)
	g, err := Solve(ctx, m.Payoff)
	if err != nil {
		return nil, err
	}
	m.take(g)
	return m, nil
}

// lay lays out the rows, columns and cells of a mix; there may be none.
func (b *Book) lay(ctx context.Context, ix *timeline.Index, setups []timeline.Setup, o MixOptions) (*Mix, error) {
	m := &Mix{}
	var rows []timeline.Setup
	for i := range setups {
		s := &setups[i]
		if first := &setups[0]; s.Attacker != first.Attacker || s.Rival != first.Rival || s.Ender != first.Ender || s.Position != first.Position {
			return nil, fmt.Errorf("expected setups of one attacker, rival, ender and position, got %q and %q", first.Name, s.Name)
		}
		m.Attacker, m.Rival, m.Ender, m.Position = s.Attacker, s.Rival, s.Ender, s.Position
		plan, err := ix.Compile(*s)
		if err != nil {
			m.LeftOut = append(m.LeftOut, LeftOut{s.Name, err.Error()})
			continue
		}
		at := plan.Meetings(s.Delay, nil)
		if !b.planWith(&at, o.Gauges).payable() {
			m.LeftOut = append(m.LeftOut, LeftOut{s.Name, "the gauge doesn't pay its moves"})
			continue
		}
		rows = append(rows, *s)
	}
	if len(rows) == 0 {
		return m, nil
	}
	return m, b.fill(ctx, ix, m, rows, o)
}

// fill lays out the columns and cells of those rows.
func (b *Book) fill(ctx context.Context, ix *timeline.Index, m *Mix, rows []timeline.Setup, o MixOptions) error {
	var asked []timeline.Reply // by all rows, in the order in which they first are
	claimed := map[string]bool{}
	var rival *timeline.Fighter
	find := func(in []timeline.Reply, r timeline.Reply) *timeline.Reply {
		for i := range in {
			if in[i].Move == r.Move && in[i].Late == r.Late {
				return &in[i]
			}
		}
		return nil
	}
	for i := range rows {
		plan, err := ix.Compile(rows[i])
		if err != nil {
			return err
		}
		_, rival = plan.Fighters()
		rules := plan.Rules()
		for _, r := range rows[i].Claimed(rival) {
			claimed[r.Name] = true
		}
		for _, r := range plan.Asked() {
			move := rival.Move(r.Move)
			if find(asked, r) == nil && (move == nil || move.GaugeCost <= o.Gauges.Rival.Or(rules.Gauge)) {
				asked = append(asked, r)
			}
		}
	}
	var rises []string
	for _, r := range rival.Rises {
		if claimed[r.Name] {
			rises = append(rises, r.Name)
		}
	}
	for i := range rows {
		if err := ctx.Err(); err != nil {
			return err
		}
		own, err := ix.Compile(rows[i])
		if err != nil {
			return err
		}
		wide := rows[i]
		wide.Rises, wide.Replies = rises, []timeline.Reply{}
		for _, r := range asked {
			if mine := find(own.Asked(), r); mine != nil {
				r.Costs = mine.Costs
			}
			wide.Replies = append(wide.Replies, timeline.Reply{Move: r.Move, Late: r.Late, Demand: timeline.DemandNone, Costs: r.Costs})
		}
		plan, err := ix.Compile(wide)
		if err != nil {
			return fmt.Errorf("setup %q, asked what the other setups are: %w", wide.Name, err)
		}
		at, mine := plan.Meetings(wide.Delay, nil), own.Meetings(wide.Delay, nil)
		row := make([]cell, plan.Rises()*plan.Lines())
		for _, l := range landings(o.Hand, wide.Delay, plan.Fits()) {
			if l.delay != at.Delay {
				at.To(l.delay)
				mine.To(l.delay)
			}
			p := b.planWith(&at, o.Gauges)
			p.string = stringOf(&mine) // on its own first rise
			for k := range row {
				e := timeline.Exchange{Rise: k / plan.Lines(), Line: k % plan.Lines()}
				row[k] = append(row[k], part{l.chance, p.open(e)})
			}
		}
		for k := range row {
			if i == 0 {
				r := plan.Reply(k % plan.Lines())
				m.Columns = append(m.Columns, MixColumn{Rise: plan.Rise(k / plan.Lines()).Name, Reply: r.Move, Late: r.Late})
			}
		}
		m.Rows, m.cells = append(m.Rows, MixRow{Setup: wide.Name}), append(m.cells, row)
	}
	return nil
}

// take writes a solved game into the rows and columns.
func (m *Mix) take(g *Game) {
	m.Value, m.Unique = g.Value, g.Unique
	for i, makes := range rowsAgainst(m.Payoff, g.Columns) {
		r := &m.Rows[i]
		r.Share, r.Against, r.Worst = g.Rows[i], makes, m.Payoff[i][0]
		for _, p := range m.Payoff[i] {
			if p.Cmp(r.Worst) < 0 {
				r.Worst = p
			}
		}
		r.Never = makes.Cmp(g.Value) < 0
	}
	for j, pays := range columnsAgainst(m.Payoff, g.Rows) {
		c := &m.Columns[j]
		c.Share, c.Against, c.Never = g.Columns[j], pays, pays.Cmp(g.Value) > 0
		for i := range m.Payoff {
			if c.Best == nil || m.Payoff[i][j].Cmp(c.Best) > 0 {
				c.Best, c.BestRow = m.Payoff[i][j], i
			}
		}
	}
}

// Check returns an error where the shares don't prove the value, as Game.Check
// does.
func (m *Mix) Check() error {
	g := Game{Value: m.Value}
	for i := range m.Rows {
		g.Rows = append(g.Rows, m.Rows[i].Share)
	}
	for j := range m.Columns {
		g.Columns = append(g.Columns, m.Columns[j].Share)
	}
	return g.Check(m.Payoff)
}
