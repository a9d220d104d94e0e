package storage

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"sync/atomic"
	"testing"
	"time"
)

// countdown is a context that ends when it has been asked for the n-th time:
// so a test can stop work at every point where it looks.
type countdown struct {
	context.Context
	left *atomic.Int64
}

func newCountdown(n int) countdown {
	c := countdown{context.Background(), &atomic.Int64{}}
	c.left.Store(int64(n))
	return c
}

// Err implements context.Context.
func (c countdown) Err() error {
	if c.left.Add(-1) < 0 {
		return context.Canceled
	}
	return nil
}

// atEveryPoint has do work until the countdown no longer ends it, and looks
// each time it did. stride thins the points out after the first few.
func atEveryPoint(t *testing.T, stride int, do func(ctx context.Context) error, stopped func(n int)) {
	t.Helper()
	for n := 0; ; n++ {
		if n > 20 {
			n += stride
		}
		err := do(newCountdown(n))
		if err == nil {
			if n < 30 {
				t.Errorf("it looked %d times, want more often", n)
			}
			return
		}
		if !errors.Is(err, context.Canceled) {
			t.Fatalf("stopped at point %d: %v, want %v", n, err, context.Canceled)
		}
		stopped(n)
	}
}

func TestAnImportThatIsStoppedTakesNothing(t *testing.T) {
	p := sample(t)
	f := made(t, nil)
	empty, err := f.Project()
	if err != nil {
		t.Fatal(err)
	}
	atEveryPoint(t, 17, func(ctx context.Context) error { return f.Import(ctx, p, "import", "1.0") }, func(n int) {
		holds(t, f, empty, "stopped")
		if h, err := f.History(1); err != nil || len(h) > 0 {
			t.Fatalf("stopped at point %d: history %v, %v, want none", n, h, err)
		}
	})
	holds(t, f, p, "imported at last")
	if found, err := Check(context.Background(), f.Path()); err != nil || len(found) > 0 {
		t.Errorf("check = %v, %v", found, err)
	}
}

func TestASalvageThatIsStoppedMakesNoFile(t *testing.T) {
	f := made(t, sample(t))
	to := filepath.Join(tempDir(t), "saved"+Ext)
	atEveryPoint(t, 61, func(ctx context.Context) error {
		_, err := Salvage(ctx, f.Path(), to)
		return err
	}, func(n int) {
		if left, err := os.ReadDir(filepath.Dir(to)); err != nil || len(left) > 0 {
			t.Fatalf("stopped at point %d: left behind %v, %v", n, left, err)
		}
	})
	if got, err := readWhole(to); err != nil {
		t.Error(err)
	} else {
		holds(t, f, got, "saved at last")
	}
}

func TestACompactionThatIsStoppedLeavesTheFile(t *testing.T) {
	p := newDice(4).project()
	f := made(t, p)
	ended, cancel := context.WithCancel(context.Background())
	cancel()
	if err := f.Compact(ended); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped before it began: %v, want %v", err, context.Canceled)
	}
	for after := time.Microsecond; after < 20*time.Millisecond; after *= 2 { // before it, in it, and past it
		ctx, cancel := context.WithTimeout(context.Background(), after)
		if err := f.Compact(ctx); err != nil && !errors.Is(err, context.DeadlineExceeded) {
			t.Errorf("stopped after %v: %v", after, err)
		}
		cancel()
		holds(t, f, p, "after a compaction")
	}
	if found, err := Check(context.Background(), f.Path()); err != nil || len(found) > 0 {
		t.Errorf("check = %v, %v", found, err)
	}
}
