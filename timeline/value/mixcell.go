package value

import (
	"math/big"

	"wakeline/timeline"
)

// cell is one payoff of a mix: what comes of each frame that a press may land
// on.
type cell []part

type part struct {
	chance  *big.Rat
	options []option // the attacker takes the best
}

// option is one way for an exchange to end.
type option struct {
	points int
	leads  string // to the setups of that ender; empty: nowhere
}

// open is an exchange with the choice of its punish left open, since where that
// leads may be worth more than its points. Without a choice there is one
// option.
func (p *plan) open(e timeline.Exchange) []option {
	var x weighing
	p.weigh(&x, e, true)
	leads := func(m *timeline.Move) string {
		if m != nil && m.Knockdown.At(p.setup.Position).Given {
			return m.Name
		}
		return ""
	}
	out := []option{{x.points, leads(x.last)}}
	for _, r := range x.may {
		out = append(out, option{x.points + r.Damage + r.worth, leads(r.Ends())})
	}
	return out
}

// best is the option taken, and its points, where what each ender leads to has
// that worth.
func (p *part) best(worth map[string]*big.Rat) (top *option, points *big.Rat) {
	for i := range p.options {
		o := &p.options[i]
		if top != nil && top.leads == o.leads && o.points <= top.points {
			continue
		}
		n := big.NewRat(int64(o.points), 1)
		if w := worth[o.leads]; w != nil {
			n.Add(n, w)
		}
		if top == nil || n.Cmp(points) > 0 {
			top, points = o, n
		}
	}
	return top, points
}

// payoffs are those of the mix where what each ender leads to has that worth.
func (m *Mix) payoffs(worth map[string]*big.Rat) (out [][]*big.Rat) {
	for i := range m.cells {
		row := make([]*big.Rat, len(m.cells[i]))
		for j, c := range m.cells[i] {
			row[j] = new(big.Rat)
			for k := range c {
				_, points := c[k].best(worth)
				if len(c) == 1 {
					row[j] = points
					break
				}
				row[j].Add(row[j], points.Mul(points, c[k].chance))
			}
		}
		out = append(out, row)
	}
	return out
}
