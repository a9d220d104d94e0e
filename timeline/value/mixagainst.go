package value

import "math/big"

// Reading is what to do against a rival of known habits.
type Reading struct {
	Row   int      // the first of those that make most
	Makes *big.Rat // what it makes against these habits
	Mixed *big.Rat // what the best shares make against them
	Gain  *big.Rat // the first less the second, 0 or more
}

// Reading is the best row against a rival that does each column so often; the
// weights are one a column, 0 or more, and count by their sum. ok is false where
// they are not, or where all are 0.
func (m *Mix) Reading(weights []int) (r Reading, ok bool) {
	if len(weights) != len(m.Columns) {
		return r, false
	}
	sum := int64(0)
	for _, w := range weights {
		if w < 0 {
			return r, false
		}
		sum += int64(w)
	}
	if sum == 0 {
		return r, false
	}
	shares := make([]*big.Rat, len(weights))
	for j, w := range weights {
		shares[j] = big.NewRat(int64(w), sum)
	}
	r.Mixed = new(big.Rat)
	for i, makes := range rowsAgainst(m.Payoff, shares) {
		if r.Makes == nil || makes.Cmp(r.Makes) > 0 {
			r.Row, r.Makes = i, makes
		}
		r.Mixed.Add(r.Mixed, new(big.Rat).Mul(m.Rows[i].Share, makes))
	}
	r.Gain = new(big.Rat).Sub(r.Makes, r.Mixed)
	return r, true
}
