package model

import (
	"context"
	"slices"
	"sync"

	"wakeline/storage/guard"
	"wakeline/timeline"
	"wakeline/timeline/compare"
)

// Changed is a setup that two states of the move data judge otherwise.
type Changed struct {
	At int // among the setups, when it was compared
	compare.Change
}

// compareBunch is how many setups go to a core at a time.
const compareBunch = 32

// CompareAll compares every setup of each on all cores, and returns those
// that changed, in their order. It ends early when ctx does. tell is told how
// many are done; it may be called from any goroutine.
func CompareAll(ctx context.Context, each func(ctx context.Context, do func(at int, s *timeline.Setup) error) error,
	before, after *timeline.Project, tell func(done int)) (out []Changed, err error) {
	type bunch struct {
		first  int
		setups []timeline.Setup
	}
	both := compare.New(before, after)
	var mu sync.Mutex
	done := 0
	err = guard.Each(ctx, "Comparing the setups", func(ctx context.Context, hand func(bunch) error) error {
		next := bunch{}
		if err := each(ctx, func(at int, s *timeline.Setup) error {
			if len(next.setups) == 0 {
				next.first = at
			}
			if next.setups = append(next.setups, *s); len(next.setups) < compareBunch {
				return ctx.Err()
			}
			full := next
			next = bunch{}
			return hand(full)
		}); err != nil {
			return err
		}
		return hand(next)
	}, func(ctx context.Context, j bunch) error {
		var found []Changed
		for i := range j.setups {
			if ctx.Err() != nil {
				break
			}
			if s := &j.setups[i]; both.Touches(s) {
				if c := both.Of(s); c.Changed() {
					found = append(found, Changed{j.first + i, c})
				}
			}
		}
		mu.Lock()
		defer mu.Unlock()
		out = append(out, found...)
		done += len(j.setups)
		tell(done)
		return nil
	})
	if err != nil {
		return nil, err
	}
	slices.SortFunc(out, func(a, b Changed) int { return a.At - b.At })
	return out, nil
}
