package main

import (
	"context"
	"fmt"
	"runtime/debug"

	"wakeline/storage/guard"
	"wakeline/timeline"
)

// inOrder calls work for every setup of each, on all cores, and take with
// what came of it, on this goroutine and in the order of the setups. The first
// error in that order ends it, as does the end of ctx.
func inOrder[R any](ctx context.Context, each func(ctx context.Context, do func(at int, s *timeline.Setup) error) error,
	work func(at int, s *timeline.Setup) (R, error), take func(r R) error) error {
	// A plan is some hundred KiB that live for a moment: with little else in
	// memory the collector would run all the time.
	defer debug.SetGCPercent(debug.SetGCPercent(800))
	type placed struct {
		at    int
		setup timeline.Setup
	}
	return guard.InOrder(ctx, "Reading the setups", func(ctx context.Context, hand func(placed) error) error {
		return each(ctx, func(at int, s *timeline.Setup) error { return hand(placed{at, *s}) })
	}, func(_ context.Context, p placed) (r R, err error) {
		err = guard.Try(fmt.Sprintf("Setup %q", p.setup.Name), func() error {
			r, err = work(p.at, &p.setup)
			return err
		})
		return r, err
	}, take)
}
