// Package guard keeps a failure of the program's own where it happened: it runs
// what it is given, here or on goroutines of its own, and makes a panic an
// error. It knows neither the window nor the project.
package guard

import (
	"context"
	"fmt"
	"log"
	"runtime"
	"runtime/debug"
	"sync"
	"time"
)

// Crash is a failure of the program's own in one view, command or task. The
// rest lives on.
type Crash struct {
	Where string // what failed, as a sentence begins
	Why   any    // what it panicked with
	Stack []byte // of the goroutine on which it did
}

// Error says in one line what failed.
func (c *Crash) Error() string { return fmt.Sprintf("%s failed: %v", c.Where, c.Why) }

// Report is what may be sent to who can mend it.
func (c *Crash) Report() string { return "Wakeline: " + c.Error() + "\n\n" + string(c.Stack) }

// What is done with each failure. Both may be called on any goroutine, and are
// set before anything runs.
var (
	Note = func(c *Crash) { log.Print(c.Report()) } // writes it where the program's errors go
	Tell = func(*Crash) {}                          // tells of it in the window
)

// Recovered makes a failure of what was recovered, on its own goroutine, and
// notes it.
func Recovered(where string, why any) *Crash {
	c := &Crash{where, why, debug.Stack()}
	Note(c)
	return c
}

// Survive, deferred, ends a failure there: it is noted, and told of.
func Survive(where string) {
	if why := recover(); why != nil {
		Tell(Recovered(where, why))
	}
}

// Try runs do and returns its error, or how it failed, as a *Crash.
func Try(where string, do func() error) (err error) {
	defer func() {
		if why := recover(); why != nil {
			err = Recovered(where, why)
		}
	}()
	return do()
}

// Go runs do on a goroutine of its own. A failure of it is noted, and told of.
func Go(where string, do func()) {
	go func() {
		defer Survive(where)
		do()
	}()
}

// After runs do on a goroutine of its own after a while. A failure of it is
// noted, and told of.
func After(long time.Duration, where string, do func()) *time.Timer {
	return time.AfterFunc(long, func() {
		defer Survive(where)
		do()
	})
}

// Start runs do on a goroutine of its own. wait waits for its end, and returns
// its error, or how it failed.
func Start(where string, do func() error) (wait func() error) {
	ended := make(chan error, 1)
	go func() { ended <- Try(where, do) }()
	return sync.OnceValue(func() error { return <-ended })
}

// Each runs do with every value that feed hands over, on as many goroutines as
// there are cores. The first error, of feed or do, or the first failure, or the
// end of ctx, ends it: hand then returns an error, and what was handed over and
// not begun is left. Each returns when all of its goroutines have ended.
func Each[T any](ctx context.Context, where string, feed func(ctx context.Context, hand func(T) error) error, do func(ctx context.Context, v T) error) error {
	inner, cut := context.WithCancelCause(ctx)
	defer cut(nil)
	work := make(chan T, runtime.GOMAXPROCS(0)) // what is read ahead
	var workers sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		workers.Add(1)
		go func() {
			defer workers.Done()
			for v := range work {
				if inner.Err() != nil {
					continue
				}
				if err := Try(where, func() error { return do(inner, v) }); err != nil {
					cut(err)
				}
			}
		}()
	}
	err := Try(where, func() error {
		return feed(inner, func(v T) error {
			select {
			case work <- v:
				return nil
			case <-inner.Done():
				return inner.Err()
			}
		})
	})
	if err != nil {
		cut(err)
	}
	close(work)
	workers.Wait()
	return context.Cause(inner)
}
