package words

import (
	"fmt"
	"slices"
	"strings"

	"wakeline/timeline"
)

// Cheat is what a player keeps in mind of one setup.
type Cheat struct {
	Setup  string
	Pair   string // who meets whom
	After  string // the ender, and where
	Called timeline.Word
	Do     []string // in order, after the ender
	Read   []string // what the game must show
	Beaten []string // what wins all the same, and how; empty: nothing that it was asked
	Note   string
}

// CheatOf is what to keep in mind of a setup at its own delay.
func CheatOf(p *timeline.Plan) Cheat {
	s, v := &p.Setup, p.Verdict(p.Setup.Delay)
	c := Cheat{Setup: s.Name, Pair: s.Attacker + " vs " + s.Rival, After: "after any knockdown, " + string(s.Position), Called: p.Called(s.Delay), Do: Inputs(p, s.Delay), Note: strings.TrimSpace(s.Note)}
	if s.Ender != "" {
		c.After, c.Do = "after "+s.Ender+", "+string(s.Position), c.Do[1:]
	}
	var rises []string
	for r := range p.Rises() {
		rises = append(rises, p.Rise(r).Name)
	}
	a := byAdvantage(v.Advantage, &v.Holds)
	read := fmt.Sprintf("knockdown advantage %d", v.Advantage)
	if len(a.Spans) > 0 && a.List() != fmt.Sprint(v.Advantage) {
		read += fmt.Sprintf(" (good at %s)", a.List())
	}
	c.Read = append(c.Read, read, List(rises)+" rise")
	if v.Distance.Given {
		if h := byDistance(v.Distance.N, v.HoldsDistance); len(h.Spans) > 0 {
			c.Read = append(c.Read, fmt.Sprintf("distance %d (good at %s)", v.Distance.N, h.List()))
		}
	}
	if s.Delay > 0 && len(v.Window) > 0 {
		c.Read = append(c.Read, "delay "+Bounds(v.Window))
	}
	if v.HoldsStartup.Given {
		c.Read = append(c.Read, "reversals of "+OrSlower(v.HoldsStartup.N))
	}
	for i := range v.Rises {
		for _, r := range v.Rises[i].Replies {
			if said := fmt.Sprintf("%s (%s)", r.Title(), r.Outcome); !r.Outcome.Survived() && !slices.Contains(c.Beaten, said) {
				c.Beaten = append(c.Beaten, said)
			}
		}
	}
	return c
}
