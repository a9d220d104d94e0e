package timeline

import (
	"reflect"
	"sync"
	"testing"
)

// TestHoldsStopsAtOnce has it end at each number that it tries, one after
// another: it tries no more than what it is in the midst of, and says that it
// hasn't ended.
func TestHoldsStopsAtOnce(t *testing.T) {
	for n, name := range []string{"attack", "bait"} {
		p := spread(busyProject())
		p.Setups[n].Distance = Some(400)
		_, plan := planOf(t, p, n)
		whole := 0
		want, ok := HoldsUntil(plan, 3, func() bool { whole++; return false })
		if !ok || !reflect.DeepEqual(want, plan.Holds(3)) {
			t.Fatalf("%s: HoldsUntil = %v, %v, want %v and true", name, want, ok, plan.Holds(3))
		}
		if least := 2*AdvantageTried + 1 + 10; whole < least { // for each advantage, and for some steps of distance
			t.Fatalf("%s: it was asked to stop %d times, want at least %d", name, whole, least)
		}
		for at := range whole {
			asked := 0
			_, ok := HoldsUntil(plan, 3, func() bool { asked++; return asked > at })
			// The loop that it is in, then one for each rise, and the end.
			if most := at + 3 + plan.Rises(); ok || asked > most {
				t.Errorf("%s: stopped after %d of %d, it asked %d times, want at most %d, and said %v", name, at, whole, asked, most, ok)
			}
		}
	}
}

// TestHoldsTellsTheMostThatWasTried moves the rival's plans up to the width: an
// advantage past it was not tried, so nothing is known of it.
func TestHoldsTellsTheMostThatWasTried(t *testing.T) {
	p := spread(busyProject())
	longest := 0
	_, plan := planOf(t, p, 0)
	for r := range plan.Rises() {
		for i := range plan.lines {
			longest = max(longest, plan.wakes[r]-plan.K+plan.lines[i].late+plan.lines[i].end)
		}
	}
	for room := range AdvantageTried + 3 { // how much more advantage still fits
		p.Setups[0].Advantage = Some(Width - longest - room)
		_, plan := planOf(t, p, 0)
		if got, want := plan.Holds(0).MostAdvantage, plan.K+min(room, AdvantageTried); got != want {
			t.Errorf("with room for %d more, the highest advantage tried is %d, want %d", room, got, want)
		}
	}
}

// TestHoldsBesideTheVerdict works it out on goroutines of their own while the
// plan serves its verdicts.
func TestHoldsBesideTheVerdict(t *testing.T) {
	_, plan := planOf(t, spread(busyProject()), 0)
	want := plan.Holds(3)
	var behind sync.WaitGroup
	for range 3 {
		behind.Go(func() {
			if got := plan.Holds(3); !reflect.DeepEqual(got, want) {
				t.Errorf("beside the verdicts Holds = %v, want %v", got, want)
			}
		})
	}
	for d := range 9 {
		plan.Verdict(d)
	}
	behind.Wait()
}
