package compare

import (
	"cmp"
	"encoding/binary"
	"math/bits"
	"slices"
)

// CoverLimit is how many steps a search for the fewest sets is given where
// nobody says otherwise: a second or two.
const CoverLimit = 100000

// Cover is a choice of sets that together hold every element that any holds.
type Cover struct {
	Sets    []int // the chosen ones, ascending
	Missing []int // the elements that no set holds, ascending
	Proved  bool  // no fewer sets do; else the work ran out
}

// FewestSets returns the fewest of the sets that hold every element, 0 to
// elements-1, that any of them holds. Of several choices as small it is the
// one with the earlier sets, compared from the first on. The search takes at
// most limit steps, the same ones on every machine; where they run out the
// best choice so far comes back, not proved, or proved with its ties open.
func FewestSets(elements int, sets [][]int, limit int) Cover {
	c, ids, rows := Cover{Proved: true}, []int{}, []flags{}
	held := newFlags(elements)
	seen := map[string]bool{}
	for i, set := range sets { // of like sets the first serves
		row := newFlags(elements)
		for _, e := range set {
			row.set(e)
			held.set(e)
		}
		if key := row.key(); !seen[key] {
			seen[key] = true
			ids, rows = append(ids, i), append(rows, row)
		}
	}
	for e := range elements {
		if !held.has(e) {
			c.Missing = append(c.Missing, e)
		}
	}
	x := newCovering(elements, rows, limit)
	todo := x.needed(held)
	all := newFlags(len(rows))
	for i := range rows {
		all.set(i)
	}
	alive := x.undominated(todo, all)
	best := x.greedy(todo)
	for len(best) > 0 && x.solve(todo, alive, len(best)-1) {
		best = slices.Clone(x.picked)
	}
	c.Proved = x.left >= 0
	if c.Proved {
		best = x.earliest(todo, alive, best)
	}
	for _, i := range best {
		c.Sets = append(c.Sets, ids[i])
	}
	slices.Sort(c.Sets)
	return c
}

// flags is a set of small numbers of any count, one bit each.
type flags []uint64

func newFlags(n int) flags     { return make(flags, (n+63)/64) }
func (f flags) set(i int)      { f[i/64] |= 1 << (i % 64) }
func (f flags) clear(i int)    { f[i/64] &^= 1 << (i % 64) }
func (f flags) has(i int) bool { return f[i/64]>>(i%64)&1 == 1 }
func (f flags) minus(a, b flags) flags { // into f
	for i := range f {
		f[i] = a[i] &^ b[i]
	}
	return f
}

// common counts what f and g share.
func (f flags) common(g flags) (n int) {
	for i := range f {
		n += bits.OnesCount64(f[i] & g[i])
	}
	return n
}

// within reports whether g holds all of f that is in mask.
func (f flags) within(g, mask flags) bool {
	for i := range f {
		if f[i]&mask[i]&^g[i] != 0 {
			return false
		}
	}
	return true
}

// each calls yield with the numbers of f that are in mask, in order.
func (f flags) each(mask flags, yield func(i int)) {
	for w := range f {
		for b := f[w] & mask[w]; b != 0; b &= b - 1 {
			yield(w*64 + bits.TrailingZeros64(b))
		}
	}
}

func (f flags) key() string {
	var out []byte
	for _, w := range f {
		out = binary.LittleEndian.AppendUint64(out, w)
	}
	return string(out)
}

// covering is one search: rows hold elements, cols the rows that hold them.
type covering struct {
	rows, cols []flags
	left       int   // steps; below 0 when they have run out
	picked     []int // the rows of the branch
	slack      []int // scratch, by row
	price      []int // by element
}

func newCovering(elements int, rows []flags, limit int) *covering {
	x := &covering{rows: rows, left: limit, slack: make([]int, len(rows)), price: make([]int, elements)}
	for range elements {
		x.cols = append(x.cols, newFlags(len(rows)))
	}
	for i, row := range rows {
		row.each(row, func(e int) { x.cols[e].set(i) })
	}
	return x
}

// needed drops from the elements those that come with another: every row that
// holds the other holds them.
func (x *covering) needed(held flags) flags {
	out := slices.Clone(held)
	held.each(held, func(e int) {
		held.each(held, func(f int) {
			if e == f || !out.has(f) || !out.has(e) {
				return
			}
			if x.cols[f].within(x.cols[e], x.cols[f]) {
				out.clear(e)
			}
		})
	})
	return out
}

// undominated keeps the rows whose elements of todo no other row of among
// holds; of two alike the earlier.
func (x *covering) undominated(todo, among flags) flags {
	out := slices.Clone(among)
	among.each(among, func(i int) {
		out.each(out, func(k int) {
			if i != k && out.has(i) && x.rows[i].within(x.rows[k], todo) && (k < i || !x.rows[k].within(x.rows[i], todo)) {
				out.clear(i)
			}
		})
	})
	return out
}

// greedy takes the row that holds most of what is left, over and over.
func (x *covering) greedy(todo flags) (out []int) {
	todo = slices.Clone(todo)
	for todo.common(todo) > 0 {
		best, most := 0, 0
		for i, row := range x.rows {
			if n := row.common(todo); n > most {
				best, most = i, n
			}
		}
		out = append(out, best)
		todo.minus(todo, x.rows[best])
	}
	return out
}

// earliest is, of the choices as small as best, the one with the earlier
// rows; best where the steps run out.
func (x *covering) earliest(todo, alive flags, best []int) []int {
	out := make([]int, 0, len(best))
	todo = slices.Clone(todo)
	for i, row := range x.rows {
		if len(out) == len(best) || row.common(todo) == 0 {
			continue
		}
		rest := newFlags(len(x.price)).minus(todo, row)
		if x.solve(rest, alive, len(best)-len(out)-1) {
			out, todo = append(out, i), rest
		}
		if x.left < 0 {
			return best
		}
	}
	return out
}

// solve looks for at most k rows of alive that hold todo, and leaves them in
// picked. It is false also where the steps run out.
func (x *covering) solve(todo, alive flags, k int) bool {
	x.picked = x.picked[:0]
	return x.branch(todo, slices.Clone(alive), k)
}

// branch tries the rows of the element that fewest hold. A row that was tried
// is not looked at again in its siblings. alive is used up.
func (x *covering) branch(todo, alive flags, k int) bool {
	if todo.common(todo) == 0 {
		return true
	}
	if x.left--; x.left < 0 || x.bound(todo, alive) > k {
		return false
	}
	next, fewest := 0, len(x.rows)+1
	todo.each(todo, func(e int) {
		if n := x.cols[e].common(alive); n < fewest {
			next, fewest = e, n
		}
	})
	try := slices.Clone(alive)
	for i := range try {
		try[i] &= x.cols[next][i]
	}
	try = x.undominated(todo, try)
	var order []int
	try.each(try, func(i int) { order = append(order, i) })
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(x.rows[b].common(todo), x.rows[a].common(todo))
	})
	rest := newFlags(len(x.price))
	for _, i := range order {
		alive.clear(i)
		x.picked = append(x.picked, i)
		if x.branch(rest.minus(todo, x.rows[i]), slices.Clone(alive), k-1) {
			return true
		}
		x.picked = x.picked[:len(x.picked)-1]
	}
	return false
}

// unit is the price that no row's elements may pass together.
const unit = 1 << 20

// bound is how many rows are needed at least. Each element is given a price
// so that no row's prices pass a unit; the sum of the prices, rounded up, is
// then a bound. An element starts with an even share of the largest row that
// holds it, and is raised while its rows leave room. Where no row holds an
// element the bound is more than all rows.
func (x *covering) bound(todo, alive flags) int {
	alive.each(alive, func(i int) { x.slack[i] = max(1, x.rows[i].common(todo)) })
	stuck := false
	todo.each(todo, func(e int) {
		most := 0
		x.cols[e].each(alive, func(i int) { most = max(most, x.slack[i]) })
		stuck = stuck || most == 0
		x.price[e] = unit / max(1, most)
	})
	if stuck {
		return len(x.rows) + 1
	}
	alive.each(alive, func(i int) {
		x.slack[i] = unit
		x.rows[i].each(todo, func(e int) { x.slack[i] -= x.price[e] })
	})
	sum := 0
	todo.each(todo, func(e int) {
		room := unit
		x.cols[e].each(alive, func(i int) { room = min(room, x.slack[i]) })
		if room > 0 {
			x.cols[e].each(alive, func(i int) { x.slack[i] -= room })
		}
		sum += x.price[e] + room
	})
	return (sum + unit - 1) / unit
}
