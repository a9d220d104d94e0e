package value

import (
	"context"
	"math/big"
	"slices"

	"wakeline/timeline"
)

// process is a game of rounds: the mix of each ender, whose exchanges may lead
// to another of them, where a part of its value is added (a stochastic game in
// Shapley's sense). Its values are the one fixed point of solving every mix with
// the values before.
type process struct {
	mixes  []*Mix
	carry  *big.Rat
	bits   uint // values are whole numbers of 2 to the power of minus so many
	values []*big.Rat
	games  []*Game
	next   []*big.Rat // the values of the games
}

// rounds finds the values of all mixes that m may lead to, writes them into m,
// and returns what each ender adds to a payoff.
func (b *Book) rounds(ctx context.Context, ix *timeline.Index, m *Mix, o MixOptions) (map[string]*big.Rat, error) {
	m.Rounds, m.Bound = []Round{}, new(big.Rat)
	p := &process{carry: o.Carry.Rat()}
	byEnder := map[string][]timeline.Setup{}
	var order []string
	for _, s := range o.Pair {
		if s.Attacker == m.Attacker && s.Rival == m.Rival && s.Position == m.Position && s.Ender != "" {
			if byEnder[s.Ender] == nil {
				order = append(order, s.Ender)
			}
			byEnder[s.Ender] = append(byEnder[s.Ender], s)
		}
	}
	seen := map[string]bool{}
	var visit func(from *Mix) error
	visit = func(from *Mix) error {
		for _, ender := range from.leads() {
			if seen[ender] || byEnder[ender] == nil {
				continue
			}
			seen[ender] = true
			next, err := b.lay(ctx, ix, byEnder[ender], MixOptions{Hand: o.Hand})
			if err != nil {
				return err
			}
			if len(next.Rows) == 0 {
				continue // none of its setups can be played: it leads nowhere
			}
			p.mixes = append(p.mixes, next)
			if err := visit(next); err != nil {
				return err
			}
		}
		return nil
	}
	if err := visit(m); err != nil || len(p.mixes) == 0 {
		return nil, err
	}
	slices.SortFunc(p.mixes, func(a, b *Mix) int { return slices.Index(order, a.Ender) - slices.Index(order, b.Ender) })
	bound, err := p.settle(ctx)
	if err != nil {
		return nil, err
	}
	m.Bound = bound
	for i, mix := range p.mixes {
		m.Rounds = append(m.Rounds, Round{mix.Ender, mix.Position, p.values[i]})
	}
	return p.worth(p.values), nil
}

// leads are the enders that the exchanges may lead to, as they come.
func (m *Mix) leads() (out []string) {
	seen := map[string]bool{"": true}
	for _, row := range m.cells {
		for _, c := range row {
			for k := range c {
				for _, o := range c[k].options {
					if !seen[o.leads] {
						seen[o.leads] = true
						out = append(out, o.leads)
					}
				}
			}
		}
	}
	return out
}

// worth is what each ender adds to a payoff.
func (p *process) worth(values []*big.Rat) map[string]*big.Rat {
	out := map[string]*big.Rat{}
	for i, m := range p.mixes {
		out[m.Ender] = new(big.Rat).Mul(p.carry, values[i])
	}
	return out
}

// settle finds the values to within 1e-9 of the payoffs' range, and returns
// how far they may be off: carry by (1 - carry) of the last change. Each step
// guesses the fixed point by holding both sides to the shares just found; where
// that doesn't bring the change down as much as the plain step is sure to, it
// takes the plain step, so that it always ends.
func (p *process) settle(ctx context.Context) (bound *big.Rat, err error) {
	left := new(big.Rat).Sub(big.NewRat(1, 1), p.carry)
	times := new(big.Rat).Quo(p.carry, left)
	p.bits = 64 + 2*uint(new(big.Int).Quo(left.Denom(), left.Num()).BitLen())
	for range p.mixes {
		p.values = append(p.values, new(big.Rat))
	}
	change, span, err := p.solve(ctx)
	if err != nil {
		return nil, err
	}
	grain := new(big.Rat).SetFrac(big.NewInt(1), new(big.Int).Lsh(big.NewInt(1), p.bits))
	for {
		bound = new(big.Rat).Mul(times, change)
		if bound.Add(bound, grain).Cmp(within(span)) <= 0 {
			p.values = p.rounded(p.next)
			return bound, nil
		}
		before := *p
		p.values = p.rounded(p.guess())
		most := new(big.Rat).Mul(p.carry, change)
		if change, span, err = p.solve(ctx); err == nil && change.Cmp(most) > 0 {
			p.values = p.rounded(before.next)
			change, span, err = p.solve(ctx)
		}
		if err != nil {
			return nil, err
		}
	}
}

// within is 1e-9 of the range of payoffs, or 1e-9 where that is 0.
func within(span *big.Rat) *big.Rat {
	if span.Sign() == 0 {
		return big.NewRat(1, 1e9)
	}
	return new(big.Rat).Mul(span, big.NewRat(1, 1e9))
}

// solve solves every mix with the values as they are, and returns how far the
// values change, and the range of the payoffs.
func (p *process) solve(ctx context.Context) (change, span *big.Rat, err error) {
	worth := p.worth(p.values)
	change = new(big.Rat)
	games, next := make([]*Game, len(p.mixes)), make([]*big.Rat, len(p.mixes))
	var least, most *big.Rat
	for i, m := range p.mixes {
		from := basis{}
		if p.games != nil {
			from = p.games[i].basis
		}
		payoff := m.payoffs(worth)
		if games[i], err = solveFrom(ctx, payoff, from); err != nil {
			return nil, nil, err
		}
		next[i] = games[i].Value
		if d := new(big.Rat).Sub(next[i], p.values[i]); d.Abs(d).Cmp(change) > 0 {
			change = d
		}
		for _, row := range payoff {
			for _, v := range row {
				if least == nil || v.Cmp(least) < 0 {
					least = v
				}
				if most == nil || v.Cmp(most) > 0 {
					most = v
				}
			}
		}
	}
	p.games, p.next = games, next
	return change, new(big.Rat).Sub(most, least), nil
}

// rounded are values rounded to the grain.
func (p *process) rounded(of []*big.Rat) (out []*big.Rat) {
	one := new(big.Int).Lsh(big.NewInt(1), p.bits)
	for _, v := range of {
		n := new(big.Int).Mul(v.Num(), one)
		out = append(out, new(big.Rat).SetFrac(n.Div(n, v.Denom()), one))
	}
	return out
}

// guess is where the values would settle if both sides kept to their shares and
// the attacker to its routes. What is missing to it is small, so it is computed
// in floats.
func (p *process) guess() (out []*big.Rat) {
	n := len(p.mixes)
	at := map[string]int{}
	for i, m := range p.mixes {
		at[m.Ender] = i
	}
	worth := p.worth(p.values)
	carry, _ := p.carry.Float64()
	a := make([][]float64, n) // (1 - carry * chances to lead there), then what is missing
	for s, m := range p.mixes {
		a[s] = make([]float64, n+1)
		a[s][s] = 1
		a[s][n], _ = new(big.Rat).Sub(p.next[s], p.values[s]).Float64()
		for i, row := range m.cells {
			x, _ := p.games[s].Rows[i].Float64()
			for j := range row {
				y, _ := p.games[s].Columns[j].Float64()
				for k := 0; k < len(row[j]) && x*y > 0; k++ {
					top, _ := row[j][k].best(worth)
					if to, ok := at[top.leads]; ok {
						chance, _ := row[j][k].chance.Float64()
						a[s][to] -= carry * x * y * chance
					}
				}
			}
		}
	}
	for c := range n { // the diagonal outweighs the rest of its row: no swaps
		for r := range n {
			if f := a[r][c] / a[c][c]; r != c && f != 0 {
				for k := c; k <= n; k++ {
					a[r][k] -= f * a[c][k]
				}
			}
		}
	}
	for s := range p.mixes {
		d := new(big.Rat)
		if d.SetFloat64(a[s][n]/a[s][s]) == nil {
			return p.next
		}
		out = append(out, d.Add(d, p.values[s]))
	}
	return out
}
