package find

import "slices"

// stock is a set of fillers as far as it decides where its orders end: those
// that go back taken first, it is known by its sum, at most d, and by the sums
// below 0 that some of its fillers make, for what comes last. Sums that the
// wall can't make tell from 0, whatever fillers follow, are left out.
type stock struct{ all, below int } // below: a number of stocks.belows

// stocks number the stocks there are.
type stocks struct {
	d       int
	known   []stock
	number  map[stock]int
	belows  [][]int // each ascending, 0 the last
	numbers map[string]int
	cuts    [][]int // by number of belows and length: its first sums and 0, by number plus 1
}

func newStocks(d int) *stocks {
	t := &stocks{d: d, number: map[stock]int{}, numbers: map[string]int{}}
	t.numberOf(stock{0, t.belowOf([]int{0})})
	return t
}

func (t *stocks) numberOf(s stock) int {
	n, ok := t.number[s]
	if !ok {
		n = len(t.known)
		t.number[s] = n
		t.known = append(t.known, s)
	}
	return n
}

func (t *stocks) belowOf(sums []int) int {
	key := make([]byte, 0, 8*len(sums))
	for _, n := range sums {
		for b := range 8 {
			key = append(key, byte(n>>(8*b)))
		}
	}
	at, ok := t.numbers[string(key)]
	if !ok {
		at = len(t.belows)
		t.numbers[string(key)] = at
		t.belows = append(t.belows, sums)
	}
	return at
}

// cut is a list of sums below 0, by number, without those from least on.
func (t *stocks) cut(below, least int) int {
	sums := t.belows[below]
	n, _ := slices.BinarySearch(sums[:len(sums)-1], least)
	for len(t.cuts) < len(t.belows) {
		t.cuts = append(t.cuts, nil)
	}
	if t.cuts[below] == nil {
		t.cuts[below] = make([]int, len(sums))
	}
	if t.cuts[below][n] == 0 {
		t.cuts[below][n] = t.belowOf(append(slices.Clone(sums[:n]), 0)) + 1
	}
	return t.cuts[below][n] - 1
}

// with returns where a filler takes a stock, by number, after which others may
// add so much. It keeps what it has found: most stocks are asked for many
// times.
func (t *stocks) with(room, more int) func(number int) int {
	var below, spots []int // by number, plus 1; 0: not asked for yet
	kept := func(list *[]int, n int, find func() int) int {
		for len(*list) <= n {
			*list = append(*list, 0)
		}
		if (*list)[n] == 0 {
			(*list)[n] = find() + 1
		}
		return (*list)[n] - 1
	}
	return func(number int) int {
		return kept(&spots, number, func() int {
			s := t.known[number]
			all := min(s.all+room, t.d)
			next := kept(&below, s.below, func() int {
				next := slices.Clone(t.belows[s.below])
				for _, n := range t.belows[s.below] {
					if n+room <= 0 {
						next = append(next, n+room)
					}
				}
				slices.Sort(next)
				return t.belowOf(slices.Compact(next))
			})
			return t.numberOf(stock{all, t.cut(next, all+more-t.d)})
		})
	}
}

// places are all the places that the fillers of a stock may end on, ascending.
func (t *stocks) places(s stock) (at []int) {
	for _, n := range t.belows[s.below] { // they ascend, and so do these
		if n = min(s.all, t.d+n); len(at) == 0 || at[len(at)-1] != n {
			at = append(at, n)
		}
	}
	return at
}

// layMany lays the same fillers once for all of their places.
func (p *places) layMany() {
	t := newStocks(p.d)
	own := p.layer()
	most := 0
	for _, f := range p.t.fillers {
		most = max(most, f.room)
	}
	for _, back := range []bool{true, false} {
		for i := range p.t.fillers {
			room := p.t.fillers[i].room
			if room < 0 != back {
				continue
			}
			for k := 1; k <= p.t.most; k++ {
				p.addMany(own, k, i, t.with(room, (p.t.most-k)*most))
			}
		}
	}
	p.from = [][][][]spots{own}
	for _, s := range t.known {
		p.many = append(p.many, t.places(s))
	}
}

// addMany is add where to doesn't keep the order of spots.
func (p *places) addMany(own [][][]spots, k, i int, to func(spot int) int) {
	f := &p.t.fillers[i]
	type move struct{ from, to int }
	var moves []move
	for c := range p.t.gauges {
		price := p.t.price[i*len(p.t.gauges)+c]
		if price < 0 {
			continue
		}
		for s := f.frames; s <= p.last; s++ {
			src := own[k-1][c][s-f.frames]
			if len(src.at) == 0 {
				continue
			}
			moves = moves[:0]
			for j, spot := range src.at {
				moves = append(moves, move{j, to(spot)})
			}
			slices.SortFunc(moves, func(a, b move) int { return a.to - b.to })
			moved := spots{make([]int, len(moves)), make([]uint64, 0, len(src.n))}
			for j, m := range moves {
				moved.at[j] = m.to
				moved.n = append(moved.n, src.n[m.from*p.limbs:(m.from+1)*p.limbs]...)
			}
			own[k][price][s] = merge(own[k][price][s], moved, p.limbs, func(spot int) (int, bool) { return spot, true })
		}
	}
}
