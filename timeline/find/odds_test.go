package find

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"wakeline/timeline"
	"wakeline/timeline/odds"
)

// What an answer says of its chance, timeline/odds says of the same setup: the
// same number, exact in the same places, and no aim with more than the best.
func TestAnswersAndOddsAgree(t *testing.T) {
	exact, waits, mended := 0, 0, 0
	for seed := range uint64(80) {
		p, q := trial(seed, 8)
		q.Also, q.Wait, q.List = nil, timeline.Maybe{}, 200
		p.Ruleset.Buffer = int(seed % 4)
		me := odds.Person{Bias: float64(seed%7) - 3, Spread: 25}
		hand := me.Timing(p.Ruleset)
		q.Hand = hand
		for _, a := range look(t, p, q).Answers {
			plan, err := timeline.Compile(p, a.Setups[0])
			if err != nil {
				t.Fatal(err)
			}
			w := odds.WaitOf(plan, a.Wait(), hand)
			name := fmt.Sprintf("seed %d, buffer %d, %s", seed, hand.Buffer, a.Setups[0].Name)
			if math.Abs(w.Chance-a.Chance) > 1e-12 || w.Best < w.Chance {
				t.Errorf("%s: chance %v, by odds %v and at best %v", name, a.Chance, w.Chance, w.Best)
			}
			says := w.Words(me)
			if sure := a.Wait() == 0 && hand.Buffer > 0; sure != strings.Contains(a.Why, "exact") || sure != strings.Contains(says, "the chain is exact") || sure && a.Chance != 1 {
				t.Errorf("%s: chance %v; %q; odds say %q", name, a.Chance, a.Why, says)
			} else if sure {
				exact++
			}
			if a.Wait() == 0 {
				continue
			}
			waits++
			// Where the jump may start at once, the buffer makes it exact.
			if plan.SafeDelays().Has(0) && hand.Buffer > 0 {
				mended++
				if w.Best != 1 || !strings.Contains(w.Advice(), "exact") {
					t.Errorf("%s: the best aim is %v: %q", name, w.Best, w.Advice())
				}
			} else if strings.Contains(w.Advice(), "exact") {
				t.Errorf("%s: %q", name, w.Advice())
			}
		}
	}
	if exact < 20 || waits < 1000 || mended < 20 {
		t.Errorf("%d exact answers, %d waits, %d of which need none: too few to prove much", exact, waits, mended)
	}
}
