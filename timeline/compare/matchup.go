package compare

import (
	"context"
	"fmt"
	"slices"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// GridReply is a column of a match-up.
type GridReply struct {
	Title string         // as verdicts title it
	Reply timeline.Reply // its Demand means nothing here; a reply always judged has its name as Move
	Shown bool           // one of those always judged: high guard, low guard, nothing
}

// GridCell is what one setup does to one reply at its own delay, on the rise
// that is worst by the order of Danger.
type GridCell struct {
	Judged bool // false where the reply doesn't fit the width there
	Rise   string
	Demand timeline.Demand // the setup's own; none where it doesn't name the reply
	Mark   timeline.Judgement
	Cell   timeline.Cell

	// Covers: the setup is meaty, and the attacker survives the reply, on
	// every rise that the setup claims, at its own delay. A setup that
	// demands to beat the reply covers it all the same where it survives.
	Covers bool

	Worth words.Worth // what the exchange comes to; nothing before Weigh
}

// GridRow is one setup of a match-up.
type GridRow struct {
	Setup string
	Delay int
	Word  timeline.Word
	Meaty bool
	Cells []GridCell // one a column

	Called timeline.Word // on a page: the verdict, or Blank
}

// Grid is a match-up as far as it has come: all setups against all replies.
type Grid struct {
	Replies []GridReply
	Rows    []GridRow // in the order they were added
	Valued  bool      // some cell has points
}

// Matchup gathers the setups of one attacker against one rival, one by one,
// so that long work can be shown and stopped in between. It is not for
// several goroutines at once; the project must not change meanwhile.
type Matchup struct {
	index           *timeline.Index
	attacker, rival string
	setups          []timeline.Setup
	grid            Grid
	rivalFighter    *timeline.Fighter
	columns         map[timeline.Reply]int // by move and lateness
	lanes           []timeline.Lane        // scratch
}

// chunk is how many replies are laid at a time beside a setup's own.
const chunk = 256

// NewMatchup makes an empty match-up. Its columns are the replies always
// judged, then those that the project's setups of that pair name, in order,
// then, with all, whatever else the rival has. A fighter that p doesn't have
// is an error.
func NewMatchup(p *timeline.Project, attacker, rival string, all bool) (*Matchup, error) {
	m := &Matchup{index: timeline.NewIndex(p), attacker: attacker, rival: rival, rivalFighter: p.Fighter(rival), columns: map[timeline.Reply]int{}}
	for _, name := range []string{attacker, rival} {
		if p.Fighter(name) == nil {
			return nil, fmt.Errorf("expected a fighter of the project, got %q", name)
		}
	}
	for _, name := range []string{timeline.GuardHigh, timeline.GuardLow, timeline.Nothing} {
		m.columns[timeline.Reply{Move: name}] = len(m.grid.Replies)
		m.grid.Replies = append(m.grid.Replies, GridReply{name, timeline.Reply{Move: name, Demand: timeline.DemandNone}, true})
	}
	for i := range p.Setups {
		if s := &p.Setups[i]; s.Attacker == attacker && s.Rival == rival && m.index.CheckSetup(nil, s) == nil {
			m.widen(s.Asked(m.rivalFighter))
		}
	}
	if all {
		f := m.rivalFighter
		for i := range f.Moves {
			if !f.Moves[i].Air {
				m.widen([]timeline.Reply{{Move: f.Moves[i].Name}})
			}
		}
		for i := range f.Jumps {
			m.widen([]timeline.Reply{{Move: f.Jumps[i].Name}})
		}
	}
	return m, nil
}

// widen adds the columns of replies that have none.
func (m *Matchup) widen(replies []timeline.Reply) {
	for _, r := range replies {
		r.Demand, r.Costs = "", timeline.Maybe{}
		if _, ok := m.columns[r]; !ok {
			m.columns[r] = len(m.grid.Replies)
			r.Demand = timeline.DemandNone
			m.grid.Replies = append(m.grid.Replies, GridReply{Title: r.Title(), Reply: r})
		}
	}
}

// Add judges setup s at its own delay against every column. Replies that have
// no column yet get one, and the setups added before are judged against them
// too. A setup of another pair, one that Check refuses or one that doesn't fit
// the width is an error, and changes nothing.
func (m *Matchup) Add(s timeline.Setup) error {
	if s.Attacker != m.attacker || s.Rival != m.rival {
		return fmt.Errorf("setup %q: expected %s against %s, got %s against %s", s.Name, m.attacker, m.rival, s.Attacker, s.Rival)
	}
	if err := m.index.CheckSetup(timeline.SetupPath(s.Name), &s); err != nil {
		return err
	}
	plan, err := m.index.Compile(s)
	if err != nil {
		return err
	}
	s.Replies = s.Asked(m.rivalFighter)
	m.widen(s.Replies)
	m.setups = append(m.setups, s)
	m.grid.Rows = append(m.grid.Rows, GridRow{Setup: s.Name, Delay: s.Delay, Word: plan.Word(s.Delay), Meaty: plan.Meaty(s.Delay), Called: plan.Called(s.Delay)})
	for i := range m.grid.Rows {
		if err := m.fill(i); err != nil {
			return err
		}
	}
	return nil
}

// fill judges row i against the columns it hasn't met.
func (m *Matchup) fill(i int) error {
	row, s := &m.grid.Rows[i], m.setups[i]
	for from := len(row.Cells); from < len(m.grid.Replies); from = len(row.Cells) {
		to := min(from+chunk, len(m.grid.Replies))
		with := s
		with.Replies = append([]timeline.Reply{}, s.Replies...)
		for _, c := range m.grid.Replies[from:to] {
			if !c.Shown && !lists(&s, c.Reply) && m.index.Fits(&s, c.Reply) {
				with.Replies = append(with.Replies, c.Reply)
			}
		}
		plan, err := m.index.Compile(with)
		if err != nil {
			return err
		}
		cells := make([]GridCell, to-from)
		m.lanes = plan.Lanes(s.Delay, -1, m.lanes)
		for _, l := range m.lanes {
			key := plan.Reply(l.Line)
			key.Demand = ""
			if at := m.columns[key]; at >= from && at < to {
				cells[at-from] = GridCell{Judged: true, Rise: plan.Rise(l.Rise).Name, Demand: l.Demand, Mark: l.Mark, Cell: l.Cell, Covers: row.Meaty && l.Survives}
			}
		}
		row.Cells = append(row.Cells, cells...)
	}
	return nil
}

// lists reports whether the setup names that reply itself.
func lists(s *timeline.Setup, r timeline.Reply) bool {
	return slices.ContainsFunc(s.Replies, func(own timeline.Reply) bool { return own.Move == r.Move && own.Late == r.Late })
}

// Grid returns the match-up as it stands. What is added later doesn't change
// it; its rows are as wide as its replies.
func (m *Matchup) Grid() Grid {
	return Grid{Replies: slices.Clone(m.grid.Replies), Rows: slices.Clone(m.grid.Rows)}
}

// Weigh notes in each cell what its exchange comes to, on its rise. of says that
// of a row's setup against the replies of all columns, rise by rise; nothing
// where it isn't known. It ends when ctx does.
func (g *Grid) Weigh(ctx context.Context, of func(setup string, replies []timeline.Reply) (rises []string, worth [][]words.Worth)) error {
	replies := make([]timeline.Reply, len(g.Replies))
	for k := range g.Replies {
		replies[k] = g.Replies[k].Reply
	}
	for i := range g.Rows {
		if err := ctx.Err(); err != nil {
			return err
		}
		row := &g.Rows[i]
		row.Cells = slices.Clone(row.Cells) // others may hold them
		rises, worth := of(row.Setup, replies)
		for k := range row.Cells {
			c := &row.Cells[k]
			if at := slices.Index(rises, c.Rise); at >= 0 && c.Judged {
				c.Worth = worth[at][k]
			}
		}
		g.Valued = g.Valued || words.Tells(worth)
	}
	return nil
}

// Fewest returns the fewest setups that cover every reply that any covers:
// Sets are rows, Missing are columns that no setup covers. Replies that are
// always judged ask for nothing. limit is that of FewestSets.
func (g *Grid) Fewest(limit int) Cover {
	sets := make([][]int, len(g.Rows))
	for i := range g.Rows {
		for k, c := range g.Rows[i].Cells {
			if c.Covers && !g.Replies[k].Shown {
				sets[i] = append(sets[i], k-timeline.FirstReply)
			}
		}
	}
	c := FewestSets(len(g.Replies)-timeline.FirstReply, sets, limit)
	for i := range c.Missing {
		c.Missing[i] += timeline.FirstReply
	}
	return c
}
