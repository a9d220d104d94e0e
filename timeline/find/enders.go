package find

import (
	"context"

	"wakeline/timeline"
)

// Row is one ender of a match-up, at one position.
type Row struct {
	Ender     string
	Position  timeline.Position
	Advantage int
	Cells     []Cell // a jump and attack each, the same in every row
}

// Cell is an ender with a jump and attack.
type Cell struct {
	Jump, Attack string
	Starts       []timeline.Bounds // frames on which the jump may start
	Shortest     *Answer           // no counted wait first, then the fewest fillers; nil: none
	Because      string            // why there is none, empty where there is one
	Limited      bool              // there is none, but there would be with the query's Limited set
}

// Enders tries every ender of the query's attacker at those positions against
// its targets: the table of ender by jump and attack. The ender, position and
// advantage of the query's setup are not read, nor is List. Progress, which may
// be nil, is told after each row how many of how many are done. Errors are
// those of Search; at ctx's error the rows done so far come with it.
func Enders(ctx context.Context, p *timeline.Project, q Query, positions []timeline.Position, progress func(done, of int)) ([]Row, error) {
	q.List = 1
	ix := timeline.NewIndex(p)
	var rows []Row
	attacker := p.Fighter(q.Setup.Attacker)
	if attacker != nil {
		for i := range attacker.Moves {
			for _, pos := range positions {
				if k := attacker.Moves[i].Knockdown.At(pos); k.Given {
					rows = append(rows, Row{Ender: attacker.Moves[i].Name, Position: pos, Advantage: k.N})
				}
			}
		}
	}
	if len(rows) == 0 { // still the query may be wrong
		q.Setup.Advantage, q.Setup.Ender = timeline.Some(0), ""
		_, err := newSearch(ix, p, q)
		return nil, err
	}
	for i := range rows {
		q.Setup.Ender, q.Setup.Position, q.Setup.Advantage = rows[i].Ender, rows[i].Position, timeline.Maybe{}
		s, err := newSearch(ix, p, q)
		if err == nil {
			err = s.row(ctx, &rows[i])
		}
		if err != nil {
			return rows[:i], err
		}
		if progress != nil {
			progress(i+1, len(rows))
		}
	}
	return rows, nil
}

// row fills the cells of one ender, each by a search of its own.
func (s *search) row(ctx context.Context, row *Row) error {
	s.layPlaces(s.targets(), s.pairs(s.attacker))
	for _, pair := range s.pairs(s.attacker) {
		one := *s
		one.Jumps, one.Attacks = pair[:1], pair[1:]
		found, err := one.run(ctx, shortest)
		if err != nil {
			return err
		}
		cell := Cell{Jump: pair[0], Attack: pair[1], Starts: found.Ways[0].Starts}
		if len(found.Answers) > 0 {
			cell.Shortest = &found.Answers[0]
		} else if cell.Because = found.Ways[0].Because; cell.Because == "" {
			cell.Because = found.Because[len(found.Because)-1]
		}
		cell.Limited = found.Limited.Sign() > 0
		row.Cells = append(row.Cells, cell)
	}
	return nil
}
