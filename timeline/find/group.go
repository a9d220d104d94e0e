package find

import (
	"cmp"
	"container/heap"
	"context"
	"math"
	"slices"

	"wakeline/timeline"
)

// group is all sequences that rank alike: one way, one of its ends, one start,
// and one sum of fillers of the same number and gauge.
type group struct {
	way, end, start, sum, count, gauge int // gauge: the place in the table's sums
	chance                             float64
	parts                              int // the chance in whole parts of a thousand million: rounding decides no rank
	spare                              int // noSpare where no demanded reply has one
	cost                               int // segments, the attack's too
}

// noSpare stands for the spare of a setup that no demanded reply comes near.
const noSpare = timeline.Width

func (g *group) wait() int { return g.start - g.sum }

// rank orders two groups of answers, the better first, and says by what.
type rank func(a, b *group) (order int, by reason)

// reason is what tells two answers apart.
type reason int

const (
	byNothing reason = iota // only their order in the fighter's lists
	byWait
	byChance
	bySpare
	byCount
	byCost
)

// best is the rank of frames.md, "Search": no counted wait first, then
// chance, spare, fewer actions, lower cost.
func best(a, b *group) (int, reason) {
	if n := cmp.Compare(min(a.wait(), 1), min(b.wait(), 1)); n != 0 {
		return n, byWait
	}
	if n := cmp.Compare(b.parts, a.parts); n != 0 {
		return n, byChance
	}
	if n := cmp.Compare(b.spare, a.spare); n != 0 {
		return n, bySpare
	}
	if n := cmp.Compare(a.count, b.count); n != 0 {
		return n, byCount
	}
	if n := cmp.Compare(a.cost, b.cost); n != 0 {
		return n, byCost
	}
	return cmp.Or(cmp.Compare(a.way, b.way), cmp.Compare(a.start, b.start), cmp.Compare(a.sum, b.sum), cmp.Compare(a.end, b.end)), byNothing
}

// shortest puts fewer fillers before chance and spare, still without a
// counted wait first.
func shortest(a, b *group) (int, reason) {
	if n := cmp.Compare(min(a.wait(), 1), min(b.wait(), 1)); n != 0 {
		return n, byWait
	}
	if n := cmp.Compare(a.count, b.count); n != 0 {
		return n, byCount
	}
	return best(a, b)
}

// shortlist keeps the best of the groups that it is shown, no more than most:
// a heap with the worst on top. Each group holds an answer, so there need never
// be more of them than answers are listed.
type shortlist struct {
	groups []group
	most   int // 1 or more
	rank   rank
}

func (l *shortlist) Len() int { return len(l.groups) }
func (l *shortlist) Less(i, j int) bool {
	n, _ := l.rank(&l.groups[i], &l.groups[j])
	return n > 0
}
func (l *shortlist) Swap(i, j int) { l.groups[i], l.groups[j] = l.groups[j], l.groups[i] }

// Push implements heap.Interface.
func (l *shortlist) Push(x any) { l.groups = append(l.groups, x.(group)) }

// Pop implements heap.Interface.
func (l *shortlist) Pop() any {
	g := l.groups[len(l.groups)-1]
	l.groups = l.groups[:len(l.groups)-1]
	return g
}

// show takes g in where it is among the best so far.
func (l *shortlist) show(g *group) {
	if len(l.groups) < l.most {
		heap.Push(l, *g)
	} else if n, _ := l.rank(g, &l.groups[0]); n < 0 {
		l.groups[0] = *g
		heap.Fix(l, 0)
	}
}

// gather returns the best groups that hold an answer, the best first, no more
// than there are answers to list.
func (q *Query) gather(ctx context.Context, t *table, ways []way, by rank) ([]group, error) {
	kept := &shortlist{most: q.List, rank: by}
	links := []float64{1} // by number
	for range t.most {
		link := 1.0
		if q.Hand != nil {
			link = q.Hand.Link()
		}
		links = append(links, links[len(links)-1]*link)
	}
	for w := range ways {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		for n := range ways[w].ends {
			e := &ways[w].ends[n]
			for _, s := range e.good.Spans() {
				for start := s.From; start < s.To; start++ {
					q.gatherStart(kept, t, &ways[w], e, group{way: w, end: n, start: start, spare: e.spare[start].Or(noSpare)}, links)
				}
			}
		}
	}
	slices.SortFunc(kept.groups, func(a, b group) int {
		n, _ := by(&a, &b)
		return n
	})
	return kept.groups, nil
}

// gatherStart shows the groups of one way, end and start, of which g has the
// rest.
func (q *Query) gatherStart(kept *shortlist, t *table, w *way, e *end, g group, links []float64) {
	for g.sum = max(0, g.start-q.Wait.Or(timeline.Width)); g.sum <= g.start; g.sum++ {
		timed := -1.0 // not asked for yet
		for c, spent := range t.gauges {
			if spent+w.gauge > q.Gauge {
				break
			}
			g.gauge, g.cost = c, spent+w.gauge
			for g.count = 0; g.count <= t.most; g.count++ {
				if !e.made[g.count][c].Has(g.sum) {
					continue
				}
				if timed < 0 {
					timed = q.timed(e, &g)
				}
				g.chance = links[g.count] * timed
				g.parts = int(math.Round(g.chance * 1e9))
				kept.show(&g)
			}
		}
	}
}

// timed is the chance that the jump starts on a good frame once the fillers
// are done.
func (q *Query) timed(e *end, g *group) float64 {
	switch {
	case q.Hand != nil:
		return q.Hand.Wait(e.good, g.sum, g.start)
	case g.wait() == 0:
		return 1
	}
	return 0
}
