package model

import (
	"context"

	"wakeline/storage/guard"
	"wakeline/timeline"
	"wakeline/timeline/compare"
)

// Changed is a setup that two states of the move data judge otherwise.
type Changed struct {
	At int // among the setups, when it was compared
	compare.Change
}

// CompareAll compares every setup of each on all cores, and returns those
// that changed, in their order. It ends early when ctx does. tell is told how
// many are done.
func CompareAll(ctx context.Context, each func(ctx context.Context, do func(at int, s *timeline.Setup) error) error,
	before, after *timeline.Project, tell func(done int)) (out []Changed, err error) {
	type placed struct {
		at    int
		setup timeline.Setup
	}
	both := compare.New(before, after)
	done := 0
	err = guard.InOrder(ctx, "Comparing the setups", func(ctx context.Context, hand func(placed) error) error {
		return each(ctx, func(at int, s *timeline.Setup) error { return hand(placed{at, *s}) })
	}, func(_ context.Context, p placed) (c Changed, err error) {
		if both.Touches(&p.setup) {
			c = Changed{p.at, both.Of(&p.setup)}
		}
		return c, nil
	}, func(c Changed) error {
		if c.Changed() {
			out = append(out, c)
		}
		done++
		tell(done)
		return nil
	})
	if err != nil {
		return nil, err
	}
	return out, nil
}
