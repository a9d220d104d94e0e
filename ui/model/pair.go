package model

import (
	"context"

	"wakeline/timeline"
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
