package guard

import (
	"context"
	"errors"
	"runtime"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"
)

// heard collects what is noted and told while a test runs.
func heard(t *testing.T) (noted, told func() []*Crash) {
	t.Helper()
	var mu sync.Mutex
	var all [2][]*Crash
	keep := func(i int) func(*Crash) {
		return func(c *Crash) {
			mu.Lock()
			defer mu.Unlock()
			all[i] = append(all[i], c)
		}
	}
	of := func(i int) func() []*Crash {
		return func() []*Crash {
			mu.Lock()
			defer mu.Unlock()
			return append([]*Crash(nil), all[i]...)
		}
	}
	note, tell := Note, Tell
	Note, Tell = keep(0), keep(1)
	t.Cleanup(func() { Note, Tell = note, tell })
	return of(0), of(1)
}

func fail() { panic("no such thing") }

func TestAFailureIsAnError(t *testing.T) {
	noted, told := heard(t)
	err := Try("The search", func() error { fail(); return nil })
	c := new(Crash)
	if !errors.As(err, &c) || err.Error() != "The search failed: no such thing" || !strings.Contains(c.Report(), "guard_test.go") {
		t.Errorf("the failure is %v", err)
	}
	if len(noted()) != 1 || len(told()) != 0 {
		t.Errorf("noted %d times, told %d times", len(noted()), len(told()))
	}
	if err := Try("The search", func() error { return context.Canceled }); err != context.Canceled {
		t.Errorf("an error is %v", err)
	}
}

func TestAFailingGoroutineIsTold(t *testing.T) {
	noted, told := heard(t)
	Go("The watch", fail)
	After(time.Millisecond, "The pause", fail)
	for end := time.Now().Add(10 * time.Second); len(told()) < 2 && time.Now().Before(end); time.Sleep(time.Millisecond) {
	}
	if len(told()) != 2 || len(noted()) != 2 {
		t.Errorf("told %v, noted %v", told(), noted())
	}
	wait := Start("The reading", func() error { fail(); return nil })
	for range 2 {
		if err := wait(); err == nil || err.Error() != "The reading failed: no such thing" {
			t.Errorf("the failure is %v", err)
		}
	}
}

// numbers hands over the first n numbers, and counts them.
func numbers(n int, handed *int) func(context.Context, func(int) error) error {
	return func(_ context.Context, hand func(int) error) error {
		for *handed = 0; *handed < n; *handed++ {
			if err := hand(*handed); err != nil {
				return err
			}
		}
		return nil
	}
}

func TestEachWorksOnAll(t *testing.T) {
	var sum atomic.Int64
	handed := 0
	err := Each(context.Background(), "The sum", numbers(1000, &handed), func(_ context.Context, v int) error {
		sum.Add(int64(v))
		return nil
	})
	if err != nil || sum.Load() != 999*1000/2 {
		t.Errorf("sum %d, %v", sum.Load(), err)
	}
}

func TestEachEndsWithAFailure(t *testing.T) {
	heard(t)
	own := errors.New("full")
	before := runtime.NumGoroutine()
	for name, c := range map[string]struct {
		do   func(ctx context.Context, v int) error
		feed func(context.Context, func(int) error) error
		want string
	}{
		"a worker fails": {do: func(_ context.Context, v int) error {
			if v == 20 {
				fail()
			}
			return nil
		}, want: "The work failed: no such thing"},
		"every worker fails": {do: func(context.Context, int) error { fail(); return nil }, want: "The work failed: no such thing"},
		"a worker's error": {do: func(_ context.Context, v int) error {
			if v == 20 {
				return own
			}
			return nil
		}, want: "full"},
		"what feeds fails": {feed: func(context.Context, func(int) error) error { fail(); return nil }, want: "The work failed: no such thing"},
		"its error":        {feed: func(context.Context, func(int) error) error { return own }, want: "full"},
	} {
		handed := 0
		if c.feed == nil {
			c.feed = numbers(1_000_000, &handed)
		}
		if c.do == nil {
			c.do = func(context.Context, int) error { return nil }
		}
		if err := Each(context.Background(), "The work", c.feed, c.do); err == nil || err.Error() != c.want {
			t.Errorf("%s: %v, want %s", name, err, c.want)
		}
		if handed == 1_000_000 {
			t.Errorf("%s: all was handed over", name)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	handed := 0
	err := Each(ctx, "The work", numbers(1_000_000, &handed), func(_ context.Context, v int) error {
		if v == 20 {
			cancel()
		}
		return nil
	})
	if err != context.Canceled || handed == 1_000_000 {
		t.Errorf("cancelled: %v after %d", err, handed)
	}
	for end := time.Now().Add(10 * time.Second); runtime.NumGoroutine() > before && time.Now().Before(end); time.Sleep(time.Millisecond) {
	}
	if n := runtime.NumGoroutine(); n > before {
		t.Errorf("%d goroutines, %d before", n, before)
	}
}
