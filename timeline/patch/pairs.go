package patch

import (
	"context"

	"wakeline/timeline"
)

// Pairs collects which setups are weighed together, by name, so that few need
// to be in memory at once.
type Pairs struct {
	patch *Patch
	order []pair
	names map[pair][]string
	count int
}

// pair is what setups have in common whose mixes may lead to one another.
type pair struct {
	attacker, rival string
	position        timeline.Position
}

// NewPairs returns an empty collection.
func (p *Patch) NewPairs() *Pairs { return &Pairs{patch: p, names: map[pair][]string{}} }

// Add adds a setup, unless its mix can't have moved.
func (ps *Pairs) Add(s *timeline.Setup) {
	if s.Ender == "" || !ps.patch.Touches(s.Attacker, s.Rival) {
		return
	}
	key := pair{s.Attacker, s.Rival, s.Position}
	if ps.names[key] == nil {
		ps.order = append(ps.order, key)
	}
	ps.names[key] = append(ps.names[key], s.Name)
	ps.count++
}

// Len is how many setups there are to weigh.
func (ps *Pairs) Len() int { return ps.count }

// Weigh weighs them all, and returns the mixes that moved. read returns the
// setup of a name; ok is false where there is none any more. tell is told how
// many setups are done.
func (ps *Pairs) Weigh(ctx context.Context, read func(name string) (s timeline.Setup, ok bool, err error), tell func(done int)) (moved []Mix, err error) {
	done := 0
	for _, key := range ps.order {
		var setups []timeline.Setup
		for _, name := range ps.names[key] {
			if err := ctx.Err(); err != nil {
				return nil, err
			}
			s, ok, err := read(name)
			if err != nil {
				return nil, err
			}
			// It may be another by now.
			if ok && s.Ender != "" && (pair{s.Attacker, s.Rival, s.Position}) == key {
				setups = append(setups, s)
			}
		}
		gone := len(ps.names[key]) - len(setups)
		err := ps.patch.Mixes(ctx, setups, func(m Mix) {
			if m.Changed() {
				moved = append(moved, m)
			}
			done += len(m.Setups)
			tell(done)
		})
		if err != nil {
			return nil, err
		}
		done += gone
	}
	return moved, nil
}
