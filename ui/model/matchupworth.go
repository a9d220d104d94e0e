package model

import (
	"context"

	"wakeline/timeline"
	"wakeline/timeline/value"
	"wakeline/timeline/words"
)

// weigh works out what each cell of the grid comes to, with full gauges: of the
// setups that its rows are of. A row whose setup can't be asked all replies at
// once stays without.
func (m *Matchup) weigh(ctx context.Context, data *timeline.Project, setups map[string]timeline.Setup) error {
	book, index := value.NewBook(data), timeline.NewIndex(data)
	m.Worth = make([][]words.Worth, len(m.Grid.Rows))
	for i := range m.Grid.Rows {
		if err := ctx.Err(); err != nil {
			return err
		}
		row := &m.Grid.Rows[i]
		m.Worth[i] = make([]words.Worth, len(row.Cells))
		s, ok := setups[row.Setup]
		if !ok {
			continue
		}
		own, err := index.Compile(s)
		if err != nil {
			continue
		}
		wide := s
		wide.Replies = append([]timeline.Reply{}, own.Asked()...)
		for k := range m.Grid.Replies {
			if r := m.Grid.Replies[k].Reply; lineOf(own, r) < 0 {
				wide.Replies = append(wide.Replies, timeline.Reply{Move: r.Move, Late: r.Late, Demand: timeline.DemandNone})
			}
		}
		plan, err := index.Compile(wide)
		if err != nil {
			continue
		}
		met := plan.Meetings(s.Delay, nil)
		answer := book.Of(&met, value.Gauges{})
		for k := range row.Cells {
			line := lineOf(plan, m.Grid.Replies[k].Reply)
			for rise := range plan.Rises() {
				if line >= 0 && row.Cells[k].Judged && plan.Rise(rise).Name == row.Cells[k].Rise {
					m.Worth[i][k] = answer.Rises[rise][line]
				}
			}
		}
	}
	if !words.Tells(m.Worth) {
		m.Worth = nil
	}
	return nil
}

// lineOf is the line of a plan that asks that reply, -1 where none does.
func lineOf(p *timeline.Plan, r timeline.Reply) int {
	for l := range p.Lines() {
		if got := p.Reply(l); got.Move == r.Move && got.Late == r.Late {
			return l
		}
	}
	return -1
}
