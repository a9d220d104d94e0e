package patch

import (
	"context"
	"math/big"
	"strings"

	"wakeline/timeline"
	"wakeline/timeline/value"
)

// Mix is the mix of all setups of one attacker, rival, ender and position under
// two states, with both gauges full and no hand, and with each state's carry.
type Mix struct {
	Attacker, Rival, Ender string
	Position               timeline.Position
	Setups                 []string // in the project's order
	Before, After          MixState
}

// MixState is a mix weighed under one state.
type MixState struct {
	Mix     *value.Mix // nil: there is none
	Because string     // why not
}

// Changed reports whether a round is worth something else, or can be weighed in
// one state alone. With a carry, where values are known to within a bound, only
// more than both bounds together is a change.
func (m *Mix) Changed() bool {
	b, a := m.Before.Mix, m.After.Mix
	if b == nil || a == nil {
		return (b == nil) != (a == nil)
	}
	if b.Exact && a.Exact {
		return b.Value.Cmp(a.Value) != 0
	}
	apart := new(big.Rat).Sub(a.Value, b.Value)
	return apart.Abs(apart).Cmp(new(big.Rat).Add(slack(b), slack(a))) > 0
}

// slack is how far a mix's value may be from the true one.
func slack(m *value.Mix) *big.Rat {
	if m.Exact {
		return new(big.Rat)
	}
	out := big.NewRat(1, 1e9) // how near the fixed point is found
	if m.Bound != nil {
		out.Add(out, m.Bound)
	}
	return out
}

// Mixes weighs the setups of one attacker and rival at one position: a mix for
// each ender, in the order in which the setups have them. A setup without an
// ender belongs to none. Each mix is given to do as it is weighed, changed or
// not.
func (p *Patch) Mixes(ctx context.Context, setups []timeline.Setup, do func(Mix)) error {
	var enders []string
	of := map[string][]timeline.Setup{}
	for _, s := range setups {
		if s.Ender == "" {
			continue
		}
		if of[s.Ender] == nil {
			enders = append(enders, s.Ender)
		}
		of[s.Ender] = append(of[s.Ender], s)
	}
	for _, ender := range enders {
		m := Mix{Attacker: setups[0].Attacker, Rival: setups[0].Rival, Ender: ender, Position: setups[0].Position}
		for _, s := range of[ender] {
			m.Setups = append(m.Setups, s.Name)
		}
		for i, to := range []*MixState{&m.Before, &m.After} {
			if err := p.sides[i].weigh(ctx, of[ender], setups, to); err != nil {
				return err
			}
		}
		do(m)
	}
	return nil
}

// weigh weighs setups of one ender; pair are all that may follow.
func (s *side) weigh(ctx context.Context, setups, pair []timeline.Setup, to *MixState) error {
	fit, out := s.fitting(setups)
	if len(fit) == 0 {
		to.Because = out[0].Because
		return ctx.Err()
	}
	o := value.MixOptions{Carry: s.project.Ruleset.Carry}
	if o.Carry.Num > 0 {
		o.Pair, _ = s.fitting(pair)
	}
	m, err := s.book.Mix(ctx, s.index, fit, o)
	if ctx.Err() != nil {
		return ctx.Err()
	}
	if err != nil {
		to.Because = err.Error()
		return nil
	}
	m.LeftOut = append(out, m.LeftOut...)
	to.Mix = m
	return nil
}

// fitting are the setups that fit the state: what it lacks, they can't use.
func (s *side) fitting(setups []timeline.Setup) (fit []timeline.Setup, out []value.LeftOut) {
	for i := range setups {
		if err := s.index.CheckSetup(nil, &setups[i]); err != nil {
			out = append(out, value.LeftOut{Setup: setups[i].Name, Because: strings.TrimPrefix(err.Error(), "$.")})
			continue
		}
		fit = append(fit, setups[i])
	}
	return fit, out
}
