package guard

import (
	"context"
	"errors"
	"fmt"
	"testing"
)

func same(_ context.Context, v int) (int, error) { return v, nil }

func TestInOrderTakesInOrder(t *testing.T) {
	for _, n := range []int{0, 1, together, together + 1, 1000} {
		next, handed := 0, 0
		if err := InOrder(context.Background(), "The work", numbers(n, &handed), same, func(v int) error {
			if v != next {
				t.Fatalf("%d came in the place of %d", v, next)
			}
			next++
			return nil
		}); err != nil || next != n {
			t.Errorf("%d values: %d taken, %v", n, next, err)
		}
	}
}

// The first error by the values' order, whichever core meets one first.
func TestInOrderEndsWithTheFirstError(t *testing.T) {
	heard(t)
	for range 50 {
		taken, handed := 0, 0
		err := InOrder(context.Background(), "The work", numbers(1000, &handed), func(_ context.Context, v int) (int, error) {
			if v >= 70 {
				return 0, fmt.Errorf("at %d", v)
			}
			return v, nil
		}, func(int) error { taken++; return nil })
		if err == nil || err.Error() != "at 70" || taken != 70 {
			t.Fatalf("error = %v after %d, want at 70", err, taken)
		}
	}
	bad := errors.New("bad")
	handed := 0
	if err := InOrder(context.Background(), "The work", numbers(1000, &handed), same, func(int) error { return bad }); err != bad {
		t.Errorf("error of take = %v, want %v", err, bad)
	}
	// What feeds fails: what it handed over before is taken.
	for name, feed := range map[string]func(hand func(int) error) error{
		"bad":                            func(func(int) error) error { return bad },
		"The work failed: no such thing": func(func(int) error) error { fail(); return nil },
	} {
		taken := 0
		err := InOrder(context.Background(), "The work", func(ctx context.Context, hand func(int) error) error {
			if err := numbers(100, &handed)(ctx, hand); err != nil {
				return err
			}
			return feed(hand)
		}, same, func(int) error { taken++; return nil })
		if err == nil || err.Error() != name || taken != 100 {
			t.Errorf("%v after %d, want %s after 100", err, taken, name)
		}
	}
	if err := InOrder(context.Background(), "The work", numbers(10, &handed), same, func(int) error { fail(); return nil }); err == nil || err.Error() != "The work failed: no such thing" {
		t.Errorf("a failure of take = %v", err)
	}
	// A failure in a worker.
	err := InOrder(context.Background(), "The work", numbers(1000, &handed), func(_ context.Context, v int) (int, error) {
		if v == 70 {
			fail()
		}
		return v, nil
	}, func(int) error { return nil })
	if c := new(Crash); !errors.As(err, &c) {
		t.Errorf("a failure = %v", err)
	}
}

func TestInOrderEndsWithItsContext(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	taken, handed := 0, 0
	err := InOrder(ctx, "The work", numbers(100_000, &handed), same, func(int) error {
		if taken++; taken == 100 {
			cancel()
		}
		return nil
	})
	if !errors.Is(err, context.Canceled) || taken > 5000 {
		t.Errorf("cancelled: %v after %d values", err, taken)
	}
	// Where what feeds waits for the end.
	ctx, cancel = context.WithCancel(context.Background())
	err = InOrder(ctx, "The work", func(ctx context.Context, hand func(int) error) error {
		cancel()
		<-ctx.Done()
		return nil
	}, same, func(int) error { return nil })
	if !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled before the first: %v", err)
	}
}
