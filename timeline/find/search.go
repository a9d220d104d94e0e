package find

import (
	"context"
	"math/big"

	"wakeline/timeline"
)

// Result is what a search found.
type Result struct {
	Advantage int // K

	// How many answers there are in all, exactly: with and without a counted
	// wait; those without one; and both where each order of the same fillers
	// counts by itself.
	Count, Exact, Orders *big.Int

	// Passed is how many more there would be by frames alone, whose fillers
	// pass the rival: they are left out. Counted as Count is.
	Passed *big.Int

	Ways    []Way    // every jump and attack tried, in the fighter's order
	Answers []Answer // the best, in rank order

	// Where there is no answer: a sentence for each constraint that rules
	// them out and what would do instead, the nearest miss last. And how many
	// answers there would be with the query's Limited set; else 0.
	Because []string
	Limited *big.Int
}

// Way is one jump and attack of a search.
type Way struct {
	Jump, Attack string
	Starts       []timeline.Bounds // frames on which the jump may start; none: not nil
	Count        *big.Int          // answers with it
	Because      string            // why no start is good, empty where one is
}

// Search looks for what makes a safe jump. The project must pass Check. A
// query that can't be meant is a *QueryError or a *timeline.FieldError; that
// nothing is found is no error, but the Result's Because. It ends early with
// ctx's error.
func Search(ctx context.Context, p *timeline.Project, q Query) (*Result, error) {
	s, err := newSearch(timeline.NewIndex(p), p, q)
	if err != nil {
		return nil, err
	}
	return s.run(ctx, best)
}

// search is a query at work.
type search struct {
	Query
	p        *timeline.Project
	ix       *timeline.Index
	attacker *timeline.Fighter
	table    *table
	ways     []way

	// Where the distance is known: where the fillers leave the attacker, and
	// the same where each order counts by itself.
	places, orders *places
}

// newSearch checks the query and lays its table.
func newSearch(ix *timeline.Index, p *timeline.Project, q Query) (*search, error) {
	s := &search{Query: q, p: p, ix: ix, attacker: p.Fighter(q.Setup.Attacker)}
	if err := q.check(ix, s.attacker); err != nil {
		return nil, err
	}
	var err error
	s.table, err = newTable(q.fillers(s.attacker, p.Ruleset, false), q.Most, q.Gauge, q.Ordered)
	return s, err
}

// layWays compiles every jump and attack.
func (s *search) layWays(ctx context.Context) error {
	targets := s.targets()
	pairs := s.pairs(s.attacker)
	s.layPlaces(targets, pairs)
	for _, pair := range pairs {
		if err := ctx.Err(); err != nil {
			return err
		}
		s.ways = append(s.ways, s.lay(targets, pair[0], pair[1]))
	}
	return nil
}

// run searches; by is the order of the answers.
func (s *search) run(ctx context.Context, by rank) (*Result, error) {
	if err := s.layWays(ctx); err != nil {
		return nil, err
	}
	out := &Result{Advantage: s.Setup.K(s.attacker).N, Limited: new(big.Int)}
	s.tally(out)
	if out.Count.Sign() == 0 {
		out.Because = s.whyNone()
		return out, s.countLimited(ctx, out)
	}
	if s.List == 0 {
		return out, ctx.Err()
	}
	groups, err := s.gather(ctx, s.table, s.ways, by)
	if err != nil {
		return nil, err
	}
	var before *group
	for i := range groups {
		if len(out.Answers) == s.List {
			break
		}
		g := &groups[i]
		s.each(g, func(seq []int, place int) bool {
			a := s.answer(g, seq, place)
			a.Rank = len(out.Answers) + 1
			a.Why = why(&a, g, before, by)
			before = g
			out.Answers = append(out.Answers, a)
			return len(out.Answers) < s.List
		})
	}
	return out, ctx.Err()
}

// countLimited counts what there would be, were limited answers let through.
func (s *search) countLimited(ctx context.Context, out *Result) error {
	if s.Limited {
		return ctx.Err()
	}
	other := *s
	other.Limited, other.ways = true, nil
	if err := other.layWays(ctx); err != nil {
		return err
	}
	var with Result
	other.tally(&with)
	out.Limited = with.Count
	return ctx.Err()
}

// tally counts the answers of every way.
func (s *search) tally(out *Result) {
	out.Count, out.Exact, out.Orders, out.Passed = new(big.Int), new(big.Int), new(big.Int), new(big.Int)
	if s.places == nil {
		s.countFrames()
	}
	for i := range s.ways {
		w := &s.ways[i]
		way := Way{Jump: w.jump, Attack: w.attack, Starts: []timeline.Bounds{}, Count: new(big.Int), Because: w.because}
		for _, span := range w.good.Spans() {
			way.Starts = append(way.Starts, timeline.Bounds{From: span.From, To: span.To - 1})
		}
		for k := range w.ends {
			e := &w.ends[k]
			s.sum(e.count, w, e.good, way.Count, out.Exact)
			s.sum(e.orders, w, e.good, out.Orders, new(big.Int))
		}
		out.Passed.Add(out.Passed, w.passed)
		out.Count.Add(out.Count, way.Count)
		out.Ways = append(out.Ways, way)
	}
}

// countFrames counts the sequences of each way's one end, where no distance is
// known.
func (s *search) countFrames() {
	last := 0
	for i := range s.ways {
		last = max(last, s.ways[i].last)
	}
	each := s.table.count(last, true)
	plain := each
	if !s.Ordered {
		plain = s.table.count(last, false)
	}
	for i := range s.ways {
		for k := range s.ways[i].ends {
			s.ways[i].ends[k].count, s.ways[i].ends[k].orders = plain, each
		}
	}
}

// sum adds to all what the counts hold for w's good starts, and to exact those
// without a counted wait.
func (s *search) sum(counts [][]big.Int, w *way, good timeline.Set, all, exact *big.Int) {
	for c, spent := range s.table.gauges {
		if spent+w.gauge > s.Gauge {
			break
		}
		for _, span := range good.Spans() {
			for start := span.From; start < span.To; start++ {
				exact.Add(exact, &counts[c][start])
				for sum := max(0, start-s.Wait.Or(timeline.Width)); sum <= start; sum++ {
					all.Add(all, &counts[c][sum])
				}
			}
		}
	}
}
