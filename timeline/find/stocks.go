package find

import "slices"

// stock is a set of fillers as far as it decides where its orders end: those
// that go back taken first, it is known by its sum, at most d, and by the sums
// below 0 that some of its fillers make, for what comes last. Sums that the
// wall can't make tell from 0, whatever fillers follow, are left out.
type stock struct{ all, below int } // below: a number of stocks.below

// stocks number the stocks there are.
type stocks struct {
	d      int
	known  []stock
	number map[stock]int
	below  *lists // sums below 0

	to []kept // by stock, where the filler at work takes it
}

// kept is an answer found in the given round.
type kept struct{ round, number int32 }

func newStocks(d int) *stocks {
	t := &stocks{d: d, number: map[stock]int{}, below: newLists()}
	t.numberOf(stock{0, t.below.numberOf(nil)})
	return t
}

func (t *stocks) numberOf(s stock) int {
	n, ok := t.number[s]
	if !ok {
		n = len(t.known)
		t.number[s] = n
		t.known = append(t.known, s)
		t.to = append(t.to, kept{})
	}
	return n
}

// with returns where a filler takes a stock, by number, after which others may
// add so much. round is above 0, and another one each time: most stocks are
// asked for many times, so what it finds is kept until then.
func (t *stocks) with(room, more int, round int32) func(number int) int {
	var scratch []int
	return func(number int) int {
		if k := t.to[number]; k.round == round {
			return int(k.number)
		}
		s := t.known[number]
		all, below := min(s.all+room, t.d), t.below.of[s.below]
		scratch = joined(scratch[:0], below, room, min(0, all+more-t.d))
		n := t.numberOf(stock{all, t.below.numberOf(scratch)})
		t.to[number] = kept{round, int32(n)}
		return n
	}
}

// joined adds to out the sums of below, which ascends, and those and 0 with
// room, each once and ascending, as far as they are below least.
func joined(out, below []int, room, least int) []int {
	put := func(n int) {
		if n < least && (len(out) == 0 || out[len(out)-1] != n) {
			out = append(out, n)
		}
	}
	i := 0
	for k := 0; k <= len(below); k++ {
		n := room // of 0, the last
		if k < len(below) {
			n += below[k]
		}
		for ; i < len(below) && below[i] <= n; i++ {
			put(below[i])
		}
		put(n)
	}
	for ; i < len(below); i++ {
		put(below[i])
	}
	return out
}

// places are all the places that the fillers of a stock may end on, ascending.
func (t *stocks) places(s stock) (at []int) {
	for _, n := range t.below.of[s.below] { // they ascend, and so do these
		if t.d+n < s.all {
			at = append(at, t.d+n)
		}
	}
	return append(at, s.all)
}

// lists number lists of whole numbers.
type lists struct {
	of    [][]int
	first map[uint64]int // by hash, plus 1
	next  []int          // with the same hash, plus 1; 0: none
}

func newLists() *lists { return &lists{first: map[uint64]int{}} }

// numberOf is the number of a list, of which it keeps a copy.
func (l *lists) numberOf(list []int) int {
	hash := uint64(len(list))
	for _, n := range list {
		hash = (hash ^ uint64(n)) * 0x9e3779b97f4a7c15
		hash ^= hash >> 29
	}
	for k := l.first[hash]; k > 0; k = l.next[k-1] {
		if slices.Equal(l.of[k-1], list) {
			return k - 1
		}
	}
	l.of, l.next = append(l.of, slices.Clone(list)), append(l.next, l.first[hash])
	l.first[hash] = len(l.of)
	return len(l.of) - 1
}

// layMany lays the same fillers once for all of their places.
func (p *places) layMany() {
	t := newStocks(p.d)
	own := p.layer()
	var back, on []int
	for i, f := range p.t.fillers {
		if f.room < 0 {
			back = append(back, i)
		} else {
			on = append(on, i)
		}
	}
	// The longest first: what the next ones may still add is then the least.
	slices.SortStableFunc(on, func(a, b int) int { return p.t.fillers[b].room - p.t.fillers[a].room })
	longest := 0
	if len(on) > 0 {
		longest = p.t.fillers[on[0]].room
	}
	round := int32(0)
	for _, i := range append(back, on...) {
		room := p.t.fillers[i].room
		if room >= 0 {
			longest = room
		}
		for k := 1; k <= p.t.most; k++ {
			round++
			p.addMany(own, k, i, t.with(room, (p.t.most-k)*longest, round))
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
