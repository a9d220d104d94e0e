package model

import (
	"context"
	"slices"

	"wakeline/storage/guard"
	"wakeline/timeline"
	"wakeline/timeline/compare"
)

// MostCast is how many setups are judged against the cast at a time.
const MostCast = 1000

// firstCast is how many of them are told of before the others.
const firstCast = 4

// CastQuery says which setups are judged against every rival. An empty part
// lets everything pass.
type CastQuery struct {
	Attacker string
	Filter   timeline.Search
	Ender    string
	Position timeline.Position
	Tag      string
	Verdict  timeline.Word // against a setup's own rival
}

// passes reports whether a setup is asked for, as far as that is known before
// it is judged.
func (q *CastQuery) passes(s *timeline.Setup, ix *timeline.Index) bool {
	if s.Attacker != q.Attacker || q.Ender != "" && s.Ender != q.Ender || q.Position != "" && s.Position != q.Position {
		return false
	}
	if q.Tag != "" && !slices.Contains(s.Tags, q.Tag) {
		return false
	}
	return q.Filter.Match(func(t timeline.Term) bool { return ix.Has(s, t) })
}

// CastSetups are setups of one attacker, as far as they were judged.
type CastSetups struct {
	Cast   *compare.Cast
	Setups []timeline.Setup
	Places []int // of Setups, among all
	Rows   []compare.CastRow
	More   int // that pass too, and are not judged, as there are too many
	Fewest compare.Cover
}

// Find reads the setups that are asked for.
func (q *CastQuery) Find(ctx context.Context, each func(context.Context, func(*timeline.Setup) error) error, data *timeline.Project) (got CastSetups, err error) {
	if got.Cast, err = compare.NewCast(data, q.Attacker); err != nil {
		return got, err
	}
	ix, place := timeline.NewIndex(data), 0
	err = each(ctx, func(s *timeline.Setup) error {
		switch pass := q.passes(s, ix); {
		case pass && len(got.Setups) < MostCast:
			got.Setups, got.Places = append(got.Setups, *s), append(got.Places, place)
		case pass:
			got.More++
		}
		place++
		return ctx.Err()
	})
	return got, err
}

// Judge judges the setups found, on all cores; tell hears of each row, in their
// order, the first ones at once.
func (c *CastSetups) Judge(ctx context.Context, tell func(row compare.CastRow)) error {
	first := min(firstCast, len(c.Setups))
	for i := range c.Setups[:first] {
		if ctx.Err() != nil {
			return ctx.Err()
		}
		tell(c.Cast.Marks(&c.Setups[i]))
	}
	return guard.InOrder(ctx, "The cast", func(ctx context.Context, hand func(*timeline.Setup) error) error {
		for i := first; i < len(c.Setups); i++ {
			if err := hand(&c.Setups[i]); err != nil {
				return err
			}
		}
		return nil
	}, func(_ context.Context, s *timeline.Setup) (compare.CastRow, error) {
		return c.Cast.Marks(s), nil
	}, func(row compare.CastRow) error {
		tell(row)
		return ctx.Err()
	})
}

// Keep leaves the setups that have the query's verdict against their own rival,
// and finds the fewest that hold against every rival against whom any does. All
// rows are judged.
func (c *CastSetups) Keep(q *CastQuery) {
	n := 0
	for i := range c.Rows {
		if q.Verdict == "" || c.ownWord(i) == q.Verdict {
			c.Setups[n], c.Places[n], c.Rows[n] = c.Setups[i], c.Places[i], c.Rows[i]
			n++
		}
	}
	c.Setups, c.Places, c.Rows = c.Setups[:n], c.Places[:n], c.Rows[:n]
	c.Fewest = compare.FewestOfCast(len(c.Cast.Rivals), c.Rows, compare.CoverLimit)
}

// ownWord is the verdict of setup i against its own rival.
func (c *CastSetups) ownWord(i int) timeline.Word {
	for k, rival := range c.Cast.Rivals {
		if rival == c.Rows[i].Rival {
			return c.Rows[i].Cells[k].Word
		}
	}
	return ""
}

// Table is the setups judged, in an order of their rows; told: with a sentence
// for each cell, which takes as long as judging them.
func (c *CastSetups) Table(ctx context.Context, order []int, told bool) (compare.CastTable, error) {
	out := compare.CastTable{Cast: c.Cast, Fewest: c.Fewest, More: c.More}
	out.Fewest.Sets = nil
	for at, i := range order {
		if err := ctx.Err(); err != nil {
			return out, err
		}
		row := c.Rows[i]
		if told {
			row = c.Cast.Row(&c.Setups[i])
		}
		out.Rows = append(out.Rows, row)
		if slices.Contains(c.Fewest.Sets, i) {
			out.Fewest.Sets = append(out.Fewest.Sets, at)
		}
	}
	return out, nil
}

// Table finds and judges the setups that are asked for, in the project's order.
func (q *CastQuery) Table(ctx context.Context, each func(context.Context, func(*timeline.Setup) error) error, data *timeline.Project, told bool) (compare.CastTable, error) {
	got, err := q.Find(ctx, each, data)
	if err == nil {
		err = got.Judge(ctx, func(row compare.CastRow) { got.Rows = append(got.Rows, row) })
	}
	if err != nil {
		return compare.CastTable{}, err
	}
	got.Keep(q)
	order := make([]int, len(got.Rows))
	for i := range order {
		order[i] = i
	}
	return got.Table(ctx, order, told)
}
