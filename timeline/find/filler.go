package find

import (
	"slices"

	"wakeline/timeline"
)

// filler is one thing that burns frames.
type filler struct {
	name                string
	frames, gauge, room int // exact total; segments; units of travel
}

// fillers lists what the query allows, in the fighter's order, moves first;
// with every set, also what Not leaves out.
func (q *Query) fillers(f *timeline.Fighter, r timeline.Ruleset, every bool) (out []filler) {
	allowed := func(name string) bool {
		return (len(q.Fillers) == 0 || slices.Contains(q.Fillers, name)) && (every || !slices.Contains(q.Not, name))
	}
	for i := range f.Moves {
		if m := &f.Moves[i]; !m.Air && allowed(m.Name) {
			out = append(out, filler{m.Name, m.Total(r), m.GaugeCost, m.Travel})
		}
	}
	for i := range f.Jumps {
		if j := &f.Jumps[i]; allowed(j.Name) {
			out = append(out, filler{j.Name, j.Total(), 0, j.Travel})
		}
	}
	return out
}

// pairs lists the jumps and attacks to try, in the fighter's order.
func (q *Query) pairs(f *timeline.Fighter) (out [][2]string) {
	for i := range f.Jumps {
		jump := f.Jumps[i].Name
		if len(q.Jumps) > 0 && !slices.Contains(q.Jumps, jump) {
			continue
		}
		for k := range f.Moves {
			m := &f.Moves[k]
			if isAttack(m) && (len(q.Attacks) == 0 || slices.Contains(q.Attacks, m.Name)) {
				out = append(out, [2]string{jump, m.Name})
			}
		}
	}
	return out
}
