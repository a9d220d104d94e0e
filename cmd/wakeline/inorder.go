package main

import (
	"context"
	"fmt"
	"runtime"
	"runtime/debug"

	"wakeline/timeline"
	"wakeline/ui/guard"
)

// bunch is how many setups go to a core at a time.
const bunch = 32

// job is some setups, and what became of them once done is closed.
type job[R any] struct {
	first  int
	setups []timeline.Setup
	made   []R
	err    error
	done   chan struct{}
}

// inOrder calls work for every setup of each, on all cores, and take with
// what came of it, on this goroutine and in the order of the setups. The first
// error in that order ends it, as does the end of ctx; when it returns,
// nothing of it runs any more.
func inOrder[R any](ctx context.Context, each func(ctx context.Context, do func(at int, s *timeline.Setup) error) error,
	work func(at int, s *timeline.Setup) (R, error), take func(r R) error) error {
	// A plan is some hundred KiB that live for a moment: with little else in
	// memory the collector would run all the time.
	defer debug.SetGCPercent(debug.SetGCPercent(800))
	ctx, cancel := context.WithCancel(ctx)
	cores := runtime.GOMAXPROCS(0)
	jobs, order := make(chan *job[R], 4*cores), make(chan *job[R], 4*cores)
	read := guard.Start("Reading the setups", func() error {
		defer close(jobs)
		defer close(order)
		return deal(ctx, each, jobs, order)
	})
	defer read()
	for range cores {
		defer guard.Start("Working on the setups", func() error {
			for j := range jobs {
				j.do(ctx, work)
			}
			return nil
		})()
	}
	defer cancel() // before waiting
	for j := range order {
		<-j.done
		for _, r := range j.made {
			if err := take(r); err != nil {
				return err
			}
		}
		if j.err != nil {
			return j.err
		}
	}
	return read()
}

// deal makes jobs of the setups.
func deal[R any](ctx context.Context, each func(ctx context.Context, do func(at int, s *timeline.Setup) error) error, jobs, order chan<- *job[R]) error {
	j := &job[R]{}
	send := func() error {
		j.done = make(chan struct{})
		for _, to := range []chan<- *job[R]{jobs, order} { // first jobs: what is in order gets done
			select {
			case to <- j:
			case <-ctx.Done():
				return ctx.Err()
			}
		}
		return nil
	}
	err := each(ctx, func(at int, s *timeline.Setup) error {
		if len(j.setups) == 0 {
			j.first = at
		}
		j.setups = append(j.setups, *s)
		if len(j.setups) < bunch {
			return nil
		}
		err := send()
		j = &job[R]{}
		return err
	})
	if len(j.setups) > 0 && ctx.Err() == nil {
		if sent := send(); err == nil {
			err = sent
		}
	}
	return err
}

// do works on the setups, up to the first error.
func (j *job[R]) do(ctx context.Context, work func(at int, s *timeline.Setup) (R, error)) {
	defer close(j.done)
	for i := range j.setups {
		if j.err = ctx.Err(); j.err != nil {
			return
		}
		r, err := guarded(work, j.first+i, &j.setups[i])
		if err != nil {
			j.err = err
			return
		}
		j.made = append(j.made, r)
	}
}

// guarded calls work; where the program fails in it, that is an error.
func guarded[R any](work func(at int, s *timeline.Setup) (R, error), at int, s *timeline.Setup) (r R, err error) {
	defer func() {
		if failed := recover(); failed != nil {
			err = fmt.Errorf("setup %q: the program failed: %v\n%s", s.Name, failed, debug.Stack())
		}
	}()
	return work(at, s)
}
