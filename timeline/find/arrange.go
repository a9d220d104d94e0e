package find

import (
	"math/big"
	"slices"
)

// each calls do with every sequence of a group, in the order of the fighter's
// lists, and where it leaves the attacker; do returns false to end it. The
// slice is reused. Where the order of fillers matters though it isn't asked
// for, it may be one that has to be rearranged.
func (s *search) each(g *group, do func(seq []int, place int) bool) {
	if s.places == nil {
		s.table.each(g.count, g.gauge, g.sum, func(seq []int) bool { return do(seq, 0) })
		return
	}
	e := &s.ways[g.way].ends[g.end]
	p := s.places
	if p.many != nil {
		s.table.each(g.count, g.gauge, g.sum, func(seq []int) bool {
			for _, at := range p.ends(seq) {
				if at >= e.lo && at <= e.hi && !do(seq, at) {
					return false
				}
			}
			return true
		})
		return
	}
	p.each(g, e, do)
}

// each is the search's each where a spot is one place.
func (p *places) each(g *group, e *end, do func(seq []int, place int) bool) {
	t := p.t
	seq := make([]int, 0, g.count)
	type state struct{ k, c, sum, at int }
	dead := map[state]bool{} // ordered: what leads to no sequence of the group
	var down func(from, k, c, sum, at int) (found, on bool)
	down = func(from, k, c, sum, at int) (found, on bool) {
		if k == 0 {
			if at < e.lo || at > e.hi {
				return false, true
			}
			return true, do(seq, at)
		}
		if dead[state{k, c, sum, at}] {
			return false, true
		}
		for i := from; i < len(t.fillers); i++ {
			f := &t.fillers[i]
			before := t.before(i, c)
			if before < 0 || sum < f.frames {
				continue
			}
			next, there := i, at+f.room
			if t.ordered {
				var ok bool
				next = 0
				if there, ok = p.step(at, f); !ok || !t.reach[0][k-1][before].Has(sum-f.frames) {
					continue
				}
			} else if !p.leads(next, k-1, before, sum-f.frames, e, there) {
				continue
			} else if p.walled {
				there = min(there, p.d)
			}
			seq = append(seq, i)
			some, on := down(next, k-1, before, sum-f.frames, there)
			seq = seq[:len(seq)-1]
			found = found || some
			if !on {
				return found, false
			}
		}
		if !found && t.ordered {
			dead[state{k, c, sum, at}] = true
		}
		return found, true
	}
	down(0, g.count, g.gauge, g.sum, 0)
}

// leads reports whether some k fillers from the i-th on, of those frames and
// that gauge, lead from a place to an end.
func (p *places) leads(i, k, c, frames int, e *end, at int) bool {
	list := p.from[i][k][c][frames].at
	n, _ := slices.BinarySearch(list, e.lo-at)
	return n < len(list) && (list[n] <= e.hi-at || p.walled && e.hi >= p.d)
}

// ends are the places that the fillers of seq may end on, in some order,
// ascending.
func (p *places) ends(seq []int) []int {
	all, below := 0, []int{0}
	for _, back := range []bool{true, false} {
		for _, i := range seq {
			room := p.t.fillers[i].room
			if room < 0 != back {
				continue
			}
			all = min(all+room, p.d)
			for _, n := range below[:len(below):len(below)] {
				if n+room <= 0 {
					below = append(below, n+room)
				}
			}
			slices.Sort(below)
			below = slices.Compact(below)
		}
	}
	for i, n := range below {
		below[i] = min(all, p.d+n)
	}
	slices.Sort(below)
	return slices.Compact(below)
}

// arrange returns the first order of the fillers of seq that ends on a place
// without passing the rival, and how many orders do.
func (p *places) arrange(seq []int, place int) (order []int, orders *big.Int) {
	left := map[int]int{} // by filler
	var kinds []int
	for _, i := range seq {
		if left[i]++; left[i] == 1 {
			kinds = append(kinds, i)
		}
	}
	slices.Sort(kinds)
	known := map[string]*big.Int{}
	var count func(at, n int) *big.Int
	count = func(at, n int) *big.Int {
		if n == 0 {
			if at == place {
				return big.NewInt(1)
			}
			return new(big.Int)
		}
		key := make([]byte, 0, len(kinds)+8)
		for _, i := range kinds {
			key = append(key, byte(left[i]))
		}
		for b := range 8 {
			key = append(key, byte(at>>(8*b)))
		}
		if sum, ok := known[string(key)]; ok {
			return sum
		}
		sum := new(big.Int)
		for _, i := range kinds {
			if next, ok := p.step(at, &p.t.fillers[i]); ok && left[i] > 0 {
				left[i]--
				sum.Add(sum, count(next, n-1))
				left[i]++
			}
		}
		known[string(key)] = sum
		return sum
	}
	orders = count(0, len(seq))
	at := 0
	for n := len(seq) - 1; n >= 0; n-- {
		for _, i := range kinds {
			next, ok := p.step(at, &p.t.fillers[i])
			if !ok || left[i] == 0 {
				continue
			}
			if left[i]--; count(next, n).Sign() > 0 {
				order, at = append(order, i), next
				break
			}
			left[i]++
		}
	}
	return order, orders
}
