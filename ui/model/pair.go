package model

import (
	"context"

	"wakeline/timeline"
	"wakeline/timeline/value"
	"wakeline/timeline/value/report"
)

// Pair are the setups of one attacker and rival, in the project's order.
type Pair struct {
	Setups []timeline.Setup
	Places []int // of each, among all setups
}

// PairOf reads the setups of one attacker and rival, until ctx ends.
func PairOf(ctx context.Context, each func(context.Context, func(*timeline.Setup) error) error, attacker, rival string) (out Pair, err error) {
	place := 0
	err = each(ctx, func(s *timeline.Setup) error {
		if s.Attacker == attacker && s.Rival == rival {
			out.Setups, out.Places = append(out.Setups, *s), append(out.Places, place)
		}
		place++
		return ctx.Err()
	})
	return out, err
}

// Weigh weighs those of them that follow an ender at a position, with full
// gauges, as the ruleset carries rounds on.
func (p *Pair) Weigh(ctx context.Context, data *timeline.Project, ender string, at timeline.Position) (*report.Mix, error) {
	var setups []timeline.Setup
	for i := range p.Setups {
		if s := &p.Setups[i]; s.Ender == ender && s.Position == at {
			setups = append(setups, *s)
		}
	}
	m, err := value.NewBook(data).Mix(ctx, timeline.NewIndex(data), setups, value.MixOptions{Carry: data.Ruleset.Carry, Pair: p.Setups})
	if err != nil {
		return nil, err
	}
	return &report.Mix{Mix: m, Gauge: data.Ruleset.Gauge}, nil
}
