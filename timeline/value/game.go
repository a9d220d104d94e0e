package value

import (
	"context"
	"errors"
	"fmt"
	"math/big"
)

// Game is a zero-sum game solved: the rows' side wants many points, the
// columns' side few, and neither sees what the other takes. Everything is
// exact.
type Game struct {
	Value         *big.Rat   // what the rows' side gets when both play their best shares
	Rows, Columns []*big.Rat // best shares of both sides; each side's add up to 1
	Unique        bool       // neither side has other best shares

	basis basis // leads to these shares; a start for a game much like this one
}

// Solve solves the game of those payoffs, row by row: at least one row and one
// column, all rows of one length. Where there are several best shares it
// returns some, and the same ones for the same payoffs.
//
// The smallest payoff is moved to 1, which changes no shares. Then the columns'
// side looks for weights of the largest sum with which no row makes more than
// 1: the value is 1 by that sum, and the rows' shares are what the rows of the
// solved table give. The table holds whole numbers over one denominator, so
// that nothing is ever rounded.
func Solve(ctx context.Context, payoff [][]*big.Rat) (*Game, error) {
	return solveFrom(ctx, payoff, basis{})
}

// solveFrom solves from where another game ended.
func solveFrom(ctx context.Context, payoff [][]*big.Rat, from basis) (*Game, error) {
	if len(payoff) == 0 || len(payoff[0]) == 0 {
		return nil, errors.New("a game needs a row and a column")
	}
	for i := range payoff {
		if len(payoff[i]) != len(payoff[0]) {
			return nil, fmt.Errorf("row %d has %d columns, expected %d", i, len(payoff[i]), len(payoff[0]))
		}
	}
	whole := wholeOf(payoff)
	t := newTable(whole.n)
	if !t.start(from) {
		t = newTable(whole.n)
	}
	for t.step() {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
	}
	return t.game(&whole), nil
}

// Check returns an error where the shares don't prove the value: shares below 0
// or that don't add up to 1, a column that pays the rows' shares less than the
// value, a row that makes more against the columns' shares. Without one the
// value and both shares are right, however they were found.
func (g *Game) Check(payoff [][]*big.Rat) error {
	one := big.NewRat(1, 1)
	for _, side := range [][]*big.Rat{g.Rows, g.Columns} {
		sum := new(big.Rat)
		for i, s := range side {
			if s.Sign() < 0 {
				return fmt.Errorf("share %d is %s", i, s.RatString())
			}
			sum.Add(sum, s)
		}
		if sum.Cmp(one) != 0 {
			return fmt.Errorf("the shares add up to %s", sum.RatString())
		}
	}
	for j, pays := range columnsAgainst(payoff, g.Rows) {
		if pays.Cmp(g.Value) < 0 {
			return fmt.Errorf("column %d pays %s, less than %s", j, pays.RatString(), g.Value.RatString())
		}
	}
	for i, makes := range rowsAgainst(payoff, g.Columns) {
		if makes.Cmp(g.Value) > 0 {
			return fmt.Errorf("row %d makes %s, more than %s", i, makes.RatString(), g.Value.RatString())
		}
	}
	return nil
}

// rowsAgainst is what each row makes against those shares of the columns.
func rowsAgainst(payoff [][]*big.Rat, shares []*big.Rat) []*big.Rat {
	out := make([]*big.Rat, len(payoff))
	var one big.Rat
	for i := range payoff {
		out[i] = new(big.Rat)
		for j, s := range shares {
			if s.Sign() != 0 && payoff[i][j].Sign() != 0 {
				out[i].Add(out[i], one.Mul(s, payoff[i][j]))
			}
		}
	}
	return out
}

// columnsAgainst is what each column pays those shares of the rows.
func columnsAgainst(payoff [][]*big.Rat, shares []*big.Rat) []*big.Rat {
	out := make([]*big.Rat, len(payoff[0]))
	var one big.Rat
	for j := range out {
		out[j] = new(big.Rat)
		for i, s := range shares {
			if s.Sign() != 0 && payoff[i][j].Sign() != 0 {
				out[j].Add(out[j], one.Mul(s, payoff[i][j]))
			}
		}
	}
	return out
}

// whole is a payoff table in whole numbers from 1 on: each is the payoff less
// least, by unit, and 1 more.
type whole struct {
	n           [][]*big.Int
	least, unit big.Rat
}

func wholeOf(payoff [][]*big.Rat) (w whole) {
	den, least := big.NewInt(1), payoff[0][0]
	var gcd big.Int
	for i := range payoff {
		for _, p := range payoff[i] {
			if d := p.Denom(); d.CmpAbs(den) != 0 || d.BitLen() > 1 {
				den.Mul(den, new(big.Int).Quo(d, gcd.GCD(nil, nil, d, den)))
			}
			if p.Cmp(least) < 0 {
				least = p
			}
		}
	}
	whole := func(p *big.Rat) *big.Int {
		n := new(big.Int).Quo(den, p.Denom())
		return n.Mul(n, p.Num())
	}
	from, common := whole(least), new(big.Int)
	for i := range payoff {
		row := make([]*big.Int, len(payoff[i]))
		for j, p := range payoff[i] {
			row[j] = whole(p)
			row[j].Sub(row[j], from)
			common.GCD(nil, nil, common, row[j])
		}
		w.n = append(w.n, row)
	}
	if common.Sign() == 0 {
		common.SetInt64(1)
	}
	one := big.NewInt(1)
	for _, row := range w.n {
		for _, n := range row {
			n.Quo(n, common).Add(n, one)
		}
	}
	w.least.Set(least)
	w.unit.SetFrac(common, den)
	return w
}
