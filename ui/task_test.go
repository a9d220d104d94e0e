package ui

import (
	"context"
	"errors"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2/test"

	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/ui/model"
	"wakeline/ui/page"
)

// loop gives w a goroutine of its own for what runs behind it; what comes
// back waits for turn.
func loop(w *window) (turn func(t *testing.T)) {
	back := make(chan func(), 1000)
	w.tasks.Spawn, w.tasks.Later = func(do func()) { go do() }, func(do func()) { back <- do }
	return func(t *testing.T) {
		t.Helper()
		select {
		case do := <-back:
			do()
		case <-time.After(20 * time.Second):
			t.Fatal("nothing came back")
		}
	}
}

func TestATaskThatTakesLongShowsItsProgressAndCanBeCancelled(t *testing.T) {
	w := open(t, sample(), laptop)
	turn := loop(w)
	told := make(chan bool)
	var got error
	ended := false
	w.Task("Counting", page.Counting("thing"), func(at page.Work) error {
		<-told
		at.Tell(3, 7)
		<-at.Context.Done()
		return at.Context.Err()
	}, func(err error) { got, ended = err, true })
	if !w.busy() || overlayText(w) != "" {
		t.Errorf("before its time it shows %q", overlayText(w))
	}
	before := w.delay()
	dragDelay(t, w, 2)
	if got := w.delay(); got != before {
		t.Errorf("meanwhile the delay is dragged to %d", got)
	}
	turn(t) // it has taken a while
	told <- true
	turn(t)
	if s := overlayText(w); !strings.Contains(s, "Counting") || !strings.Contains(s, "3 of 7 things") {
		t.Errorf("it shows %q", s)
	}
	tap(t, w, "Cancel")
	for !ended {
		turn(t)
	}
	if !errors.Is(got, context.Canceled) || w.busy() {
		t.Errorf("cancelled it ends with %v, busy %v", got, w.busy())
	}
	if dragDelay(t, w, 2); w.delay() != before+2 {
		t.Errorf("after it the delay is dragged to %d", w.delay())
	}
}

func TestComparingRunsBehindTheWindow(t *testing.T) {
	test.NewTempApp(t)
	p := many(2000)
	each := func(ctx context.Context, do func(at int, s *timeline.Setup) error) error {
		for i := range p.Setups {
			if err := do(i, &p.Setups[i]); err != nil {
				return err
			}
		}
		return nil
	}
	last := 0
	got, err := model.CompareAll(t.Context(), each, sample(), patched(), func(done int) { last = max(last, done) })
	if err != nil || last != len(p.Setups) {
		t.Fatalf("told of %d, %v", last, err)
	}
	n := 0
	for i := range p.Setups {
		c := compare.New(sample(), patched()).Of(&p.Setups[i])
		if !c.Changed() {
			continue
		}
		if n == len(got) || got[n].At != i || got[n].Because != c.Because {
			t.Fatalf("change %d is not that of setup %d", n, i)
		}
		n++
	}
	if n != len(got) || n == 0 {
		t.Errorf("%d changes, want %d", len(got), n)
	}
	ctx, cancel := context.WithCancel(t.Context())
	if _, err := model.CompareAll(ctx, each, sample(), patched(), func(int) { cancel() }); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}
