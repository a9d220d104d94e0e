package model

import (
	"context"

	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/timeline/value"
	"wakeline/timeline/words"
)

// Matchup is what was judged of the setups of one attacker and rival.
type Matchup struct {
	Grid   compare.Grid
	Places []int    // of the grid's rows, among all setups
	Left   []string // why some setups are not in it
	Fewest compare.Cover
}

// MatchupQuery says which setups are judged, against what.
type MatchupQuery struct {
	Attacker, Rival string
	All             bool // all replies of the rival, not those alone that a setup names
	Safe            bool // safe setups alone
}

// Judge judges the setups that each yields, until ctx ends; tell hears how far
// it is.
func (q MatchupQuery) Judge(ctx context.Context, each func(context.Context, func(*timeline.Setup) error) error, data *timeline.Project, tell func(done, of int)) (got Matchup, err error) {
	p := *data.Bare()
	pair, err := PairOf(ctx, each, q.Attacker, q.Rival)
	if err != nil {
		return got, err
	}
	p.Setups = pair.Setups
	m, err := compare.NewMatchup(&p, q.Attacker, q.Rival, q.All)
	if err != nil {
		return got, err
	}
	for i := range p.Setups {
		if ctx.Err() != nil {
			return got, ctx.Err()
		}
		if err := m.Add(p.Setups[i]); err != nil {
			got.Left = append(got.Left, err.Error())
		} else {
			got.Places = append(got.Places, pair.Places[i])
		}
		tell(i+1, len(p.Setups))
	}
	got.Grid = m.Grid()
	if q.Safe {
		got.keepSafe()
	}
	got.Fewest = got.Grid.Fewest(compare.CoverLimit)
	setups := map[string]timeline.Setup{}
	for _, s := range p.Setups {
		setups[s.Name] = s
	}
	book, index := value.NewBook(&p), timeline.NewIndex(data.Bare())
	return got, got.Grid.Weigh(ctx, func(setup string, replies []timeline.Reply) ([]string, [][]words.Worth) {
		return book.Against(index, setups[setup], replies)
	})
}

// keepSafe leaves the safe setups.
func (m *Matchup) keepSafe() {
	rows, places := m.Grid.Rows, m.Places
	m.Grid.Rows, m.Places = nil, nil
	for i := range rows {
		if rows[i].Word == timeline.Safe {
			m.Grid.Rows, m.Places = append(m.Grid.Rows, rows[i]), append(m.Places, places[i])
		}
	}
}
