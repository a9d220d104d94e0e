package guard

import (
	"context"
	"runtime"
)

// together is how many values InOrder gives to a core at a time.
const together = 32

// InOrder runs do with every value that feed hands over, on as many goroutines
// as there are cores, and take with what came of it, on this goroutine and in
// the order of the values. The first error in that order ends it, as does the
// end of ctx; when it returns, nothing of it runs any more.
func InOrder[T, R any](ctx context.Context, where string, feed func(ctx context.Context, hand func(T) error) error,
	do func(ctx context.Context, v T) (R, error), take func(R) error) error {
	type job struct {
		values []T
		made   []R
		err    error
		done   chan struct{}
	}
	ctx, cancel := context.WithCancel(ctx)
	order := make(chan *job, 4*runtime.GOMAXPROCS(0))
	var fed error // is told after all that was handed over before it
	wait := Start(where, func() error {
		defer close(order)
		return Each(ctx, where, func(ctx context.Context, hand func(*job) error) error {
			next := &job{}
			send := func() error {
				j := next
				j.done, next = make(chan struct{}), &job{}
				if err := hand(j); err != nil {
					return err
				}
				select {
				case order <- j:
					return nil
				case <-ctx.Done():
					return ctx.Err()
				}
			}
			fed = Try(where, func() error {
				return feed(ctx, func(v T) error {
					if next.values = append(next.values, v); len(next.values) < together {
						return nil
					}
					return send()
				})
			})
			if len(next.values) > 0 {
				return send()
			}
			return ctx.Err()
		}, func(ctx context.Context, j *job) error {
			defer close(j.done)
			j.err = Try(where, func() error {
				for _, v := range j.values {
					if ctx.Err() != nil {
						return ctx.Err()
					}
					r, err := do(ctx, v)
					if err != nil {
						return err
					}
					j.made = append(j.made, r)
				}
				return nil
			})
			return nil
		})
	})
	defer wait()
	defer cancel() // before waiting
	for j := range order {
		select {
		case <-j.done:
		case <-ctx.Done():
			return ctx.Err()
		}
		if err := Try(where, func() error {
			for _, r := range j.made {
				if err := take(r); err != nil {
					return err
				}
			}
			return j.err
		}); err != nil {
			return err
		}
	}
	if err := wait(); err != nil {
		return err
	}
	return fed
}
