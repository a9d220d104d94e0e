package find

import (
	"fmt"
	"math/big"
	"slices"

	"wakeline/timeline"
)

// table knows, for some fillers, which sums of frames can still be made.
type table struct {
	fillers []filler
	most    int
	ordered bool
	gauges  []int // the sums of gauge that can be spent, ascending
	price   []int // by filler and sum: the place of the sum with it, -1 past the limit

	// reach[i][k][c] holds the sums of frames that exactly k fillers from the
	// i-th on can make for gauges[c]. Ordered, only i = 0 is used.
	reach [][][]timeline.Set
}

// newTable lays the table; no sum of gauge in it is above limit.
func newTable(fillers []filler, most, limit int, ordered bool) (*table, error) {
	t := &table{most: most, ordered: ordered}
	for _, f := range fillers {
		if f.gauge <= limit {
			t.fillers = append(t.fillers, f)
		}
	}
	if err := t.spend(limit); err != nil {
		return nil, err
	}
	n := len(t.fillers)
	if n*most*len(t.gauges) > maxTable {
		fits := maxTable / n / len(t.gauges)
		return nil, &QueryError{"most", fmt.Sprintf("at most %d, as there are %d fillers to choose from that cost %d different sums of gauge", fits, n, len(t.gauges)), fmt.Sprint(most)}
	}
	t.reach = make([][][]timeline.Set, n+1)
	for i := n; i >= 0; i-- {
		t.reach[i] = make([][]timeline.Set, most+1)
		for k := range t.reach[i] {
			t.reach[i][k] = make([]timeline.Set, len(t.gauges))
		}
		t.reach[i][0][0], _ = timeline.Range(0, 1)
		if ordered && i > 0 {
			continue
		}
		for k := 1; k <= most; k++ {
			for c := range t.gauges {
				if ordered {
					for f := range t.fillers {
						t.add(0, 0, k, c, f)
					}
				} else if i < n {
					t.reach[i][k][c] = t.reach[i][k][c].Or(t.reach[i+1][k][c])
					t.add(i, i, k, c, i)
				}
			}
		}
	}
	return t, nil
}

// add puts into reach[i][k] what filler f makes of reach[from][k-1][c].
func (t *table) add(i, from, k, c, f int) {
	to := t.price[f*len(t.gauges)+c]
	if to < 0 {
		return
	}
	room, _ := timeline.Range(0, timeline.Width-t.fillers[f].frames)
	if moved, err := t.reach[from][k-1][c].And(room).Shift(t.fillers[f].frames); err == nil {
		t.reach[i][k][to] = t.reach[i][k][to].Or(moved)
	}
}

// spend lists the sums of gauge that can come up.
func (t *table) spend(limit int) error {
	costs := []int{}
	for _, f := range t.fillers {
		if f.gauge > 0 && !slices.Contains(costs, f.gauge) {
			costs = append(costs, f.gauge)
		}
	}
	seen := map[int]bool{0: true}
	t.gauges = []int{0}
	for done, k := 0, 0; k < t.most; k++ {
		fresh := t.gauges[done:]
		done = len(t.gauges)
		for _, sum := range fresh {
			for _, c := range costs {
				if sum+c <= limit && !seen[sum+c] {
					seen[sum+c] = true
					t.gauges = append(t.gauges, sum+c)
				}
			}
		}
		if len(t.gauges) > maxGauges {
			return &QueryError{"gauge", fmt.Sprintf("a lower limit, as the fillers' costs add up to more than %d different sums within it", maxGauges), fmt.Sprint(limit)}
		}
	}
	slices.Sort(t.gauges)
	place := map[int]int{}
	for i, sum := range t.gauges {
		place[sum] = i
	}
	for _, f := range t.fillers {
		for _, sum := range t.gauges {
			to, ok := place[sum+f.gauge]
			if !ok {
				to = -1
			}
			t.price = append(t.price, to)
		}
	}
	return nil
}

// sums returns every sum of frames that at most most fillers make for at most
// that gauge.
func (t *table) sums(most, gauge int) (all timeline.Set) {
	for k := 0; k <= min(most, t.most); k++ {
		for c, spent := range t.gauges {
			if spent <= gauge {
				all = all.Or(t.reach[0][k][c])
			}
		}
	}
	return all
}

// count returns by gauge and by sum of frames, up to last, how many
// sequences make it: those of each order counted, where ordered is set.
func (t *table) count(last int, ordered bool) [][]big.Int {
	n := len(t.gauges)
	ways := make([][][]big.Int, t.most+1) // by number of fillers
	for k := range ways {
		ways[k] = make([][]big.Int, n)
		for c := range ways[k] {
			ways[k][c] = make([]big.Int, last+1)
		}
	}
	ways[0][0][0].SetInt64(1)
	step := func(k, i int) {
		f := t.fillers[i]
		for c := range n {
			to := t.price[i*n+c]
			if to < 0 {
				continue
			}
			from, into := ways[k-1][c], ways[k][to]
			for s := f.frames; s <= last; s++ {
				if w := &from[s-f.frames]; w.Sign() > 0 {
					into[s].Add(&into[s], w)
				}
			}
		}
	}
	if ordered {
		for k := 1; k <= t.most; k++ {
			for i := range t.fillers {
				step(k, i)
			}
		}
	} else {
		for i := range t.fillers {
			for k := 1; k <= t.most; k++ {
				step(k, i)
			}
		}
	}
	for k := 1; k <= t.most; k++ {
		for c := range n {
			for s := range last + 1 {
				ways[0][c][s].Add(&ways[0][c][s], &ways[k][c][s])
			}
		}
	}
	return ways[0]
}

// each calls do with every sequence of exactly k fillers that makes that sum
// for gauges[c], as places in t.fillers, in their order; do returns false to
// end it. The slice is reused.
func (t *table) each(k, c, sum int, do func(seq []int) bool) {
	seq := make([]int, 0, k)
	var down func(from, k, c, sum int) bool
	down = func(from, k, c, sum int) bool {
		if k == 0 {
			return do(seq)
		}
		for i := from; i < len(t.fillers); i++ {
			f := t.fillers[i]
			next := i
			if t.ordered {
				next = 0
			}
			before := t.before(i, c)
			if before < 0 || sum < f.frames || !t.reach[next][k-1][before].Has(sum-f.frames) {
				continue
			}
			seq = append(seq, i)
			on := down(next, k-1, before, sum-f.frames)
			seq = seq[:len(seq)-1]
			if !on {
				return false
			}
		}
		return true
	}
	if t.reach[0][k][c].Has(sum) {
		down(0, k, c, sum)
	}
}

// before is the place of the sum of gauge that is left of gauges[c] once
// filler i is paid, -1 where there is none.
func (t *table) before(i, c int) int {
	if t.fillers[i].gauge == 0 {
		return c
	}
	if at, ok := slices.BinarySearch(t.gauges, t.gauges[c]-t.fillers[i].gauge); ok {
		return at
	}
	return -1
}
