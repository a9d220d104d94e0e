package timeline_test

import (
	"fmt"
	"reflect"
	"testing"

	. "wakeline/timeline"
	"wakeline/timeline/value"
)

// disagreeOnValue holds timeline/value against the slow reading on the project
// of that seed and returns where they part, empty where they don't.
func disagreeOnValue(seed uint64, seen map[string]int) string {
	p, gauge, rival := RandomValue(seed)
	if err := p.Check(); err != nil {
		return fmt.Sprintf("Check() = %v, want nil", err)
	}
	s := p.Setups[0]
	plan, err := Compile(p, s)
	if err != nil {
		return ""
	}
	for i := range p.Fighters {
		if msg := disagreeOnRoutes(p, &p.Fighters[i]); msg != "" {
			return fmt.Sprintf("fighter %d: %s", i, msg)
		}
	}
	m := plan.Meetings(s.Delay, nil)
	got := value.NewBook(p).Of(&m, value.Gauges{Attacker: gauge, Rival: rival})
	want := SlowValue(p, &s, gauge, rival, seen)
	for r := range want.Rises {
		for i, w := range want.Rises[r] {
			e := Exchange{Rise: r, Line: i}
			if g := got.Rises[r][i]; (SlowWorth{Points: g.Points, Route: g.Route, Kills: g.Kills}) != w {
				return fmt.Sprintf("rise %d line %d, %v: %+v, want %+v", r, i, m.Cell(e).Outcome, g, w)
			}
		}
	}
	if got.Forgone != want.Forgone || got.KillsOnHit != want.KillsOnHit {
		return fmt.Sprintf("forgone %v, kills on hit %v, want %v, %v", got.Forgone, got.KillsOnHit, want.Forgone, want.KillsOnHit)
	}
	if chain := slowString(got.String); !reflect.DeepEqual(chain, want.String) {
		return fmt.Sprintf("string %+v, want %+v", chain, want.String)
	}
	return ""
}

// slowString is a string in the form of the slow reading.
func slowString(s *value.String) *SlowString {
	if s == nil {
		return nil
	}
	out := &SlowString{Advantage: s.Advantage, PunishedBy: s.PunishedBy}
	for _, step := range s.Steps {
		o := SlowStringStep{Move: step.Move, Before: step.Before, Touches: step.Touches, Gap: step.Gap, BeatenBy: step.BeatenBy}
		for _, r := range step.Exchanges {
			o.Replies = append(o.Replies, r.Reply+": "+r.Outcome.String())
		}
		out.Steps = append(out.Steps, o)
	}
	return out
}

func disagreeOnRoutes(p *Project, f *Fighter) string {
	got, want := value.Routes(p.Ruleset, f), SlowRoutes(p, f)
	if len(got) != len(want) {
		return fmt.Sprintf("%d routes, want %d", len(got), len(want))
	}
	for i, w := range want {
		g := &got[i]
		is := SlowRoute{Name: g.Name, Named: g.Named, Damage: g.Damage, Cost: g.Cost, Gain: g.Gain, Needs: g.Needs(), Margins: g.Margins, Counts: g.Counts, Ends: g.Ends().Name}
		if !reflect.DeepEqual(is, w) {
			return fmt.Sprintf("route %+v, want %+v", is, w)
		}
	}
	return ""
}

func TestAgreeWithValue(t *testing.T) {
	n, least := 10000, 20
	if testing.Short() {
		n, least = 2000, 4
	}
	seen := map[string]int{}
	for bad, seed := 0, 0; seed < n && bad < 10; seed++ {
		if msg := disagreeOnValue(uint64(seed), seen); msg != "" {
			t.Errorf("seed %d: %s", seed, msg)
			bad++
		}
	}
	for _, what := range mustHappenInValue {
		if seen[what] < least {
			t.Errorf("%q happened %d times, want %d or more", what, seen[what], least)
		}
	}
}

// mustHappenInValue is what the random setups must bring about often enough,
// so that agreeing on them means something.
var mustHappenInValue = []string{
	"a route counts since it is confirmed", "a route follows a hit", "a counter",
	"a punish from a later start", "a punish after a guarded reply", "a punish after no contact", "a punish after a parry",
	"a punish that isn't worth its gauge", "punished after a whiff", "punished after no contact", "punished after a string",
	"punished after a guarded attack", "no punish: out of reach", "no punish: strike-proof", "no punish: throw at the air",
	"no punish: guard", "no punish: parry", "no punish: armour", "no punish: air throw at the ground", "no punish: not risen",
	"the setup can't be paid", "no string", "a true string", "a gap is beaten",
	"a string stops at a throw", "a string stops at a move without active frames",
}

// FuzzValueAgainstFrames holds the points against the slow reading on any seed.
func FuzzValueAgainstFrames(f *testing.F) {
	for seed := range uint64(20) {
		f.Add(seed << 40)
	}
	f.Fuzz(func(t *testing.T, seed uint64) {
		if msg := disagreeOnValue(seed, map[string]int{}); msg != "" {
			t.Errorf("seed %d: %s", seed, msg)
		}
	})
}
