package handout

import (
	"strings"
	"testing"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// Every demanded exchange of the sample stands in the check list once, with the
// outcome that the verdict has, and no other does.
func TestTheCheckListAsksForEachDemandedExchange(t *testing.T) {
	for _, p := range plans(t, asTheyAre) {
		list := CheckList(p)
		v := words.VerdictAt(p, p.Setup.Delay)
		want := 0
		for i := range v.Rises {
			for k := range v.Rises[i].Replies {
				c := &v.Rises[i].Replies[k]
				if c.Demand == timeline.DemandNone {
					continue
				}
				want++
				line := "  - [ ] Record " + escape(c.Title()) + ", " + escape(v.Rises[i].Rise) + " rise: expected " + c.Outcome.String()
				if n := strings.Count(list, line); n != 1 {
					t.Errorf("%s: %q stands there %d times:\n%s", p.Setup.Name, line, n, list)
				}
			}
		}
		if got := strings.Count(list, "[ ] Record "); got != want {
			t.Errorf("%s: %d replies to record, want %d", p.Setup.Name, got, want)
		}
		if !strings.HasPrefix(list, "- [ ] **"+escape(p.Setup.Name)+"**") || !strings.Contains(list, "Read the knockdown advantage in the game: ") {
			t.Errorf("%s:\n%s", p.Setup.Name, list)
		}
	}
}
