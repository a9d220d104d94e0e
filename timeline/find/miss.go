package find

import (
	"fmt"
	"slices"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// whyNone says, a sentence each, which constraint rules every answer out, and
// the nearest miss.
func (s *search) whyNone() []string {
	if len(s.ways) == 0 {
		if len(s.attacker.Jumps) == 0 {
			return []string{s.attacker.Name + " has no jump."}
		}
		return []string{s.attacker.Name + " has no attack to do in a jump."}
	}
	var fits []*way
	for i := range s.ways {
		if s.ways[i].last >= 0 {
			fits = append(fits, &s.ways[i])
		}
	}
	if len(fits) == 0 {
		return s.whyNoWay()
	}
	if s.places != nil {
		return s.whyNoPlace(fits)
	}
	var out []string
	if len(s.table.fillers) == 0 {
		out = append(out, s.whyNoFiller())
	}
	alone := s.wouldDo(fits)
	if len(alone) == 0 {
		alone = s.together(fits)
	}
	out = append(out, alone...)
	if miss, ok := s.nearest(fits); ok {
		out = append(out, miss.String())
	}
	return out
}

// whyNoWay tells of the ways without a start, a few of them.
func (s *search) whyNoWay() (out []string) {
	const most = 3
	for i := range s.ways {
		w := &s.ways[i]
		if i == most {
			return append(out, fmt.Sprintf("No start is good for the other %d of %s's jumps and attacks either.", len(s.ways)-most, s.attacker.Name))
		}
		out = append(out, fmt.Sprintf("%s %s: %s", w.jump, w.attack, w.because))
	}
	return out
}

func (s *search) whyNoFiller() string {
	all := s.fillers(s.attacker, s.p.Ruleset, true)
	switch {
	case len(all) == 0:
		return s.attacker.Name + " has no filler: no move done on the ground, and no jump."
	case len(s.fillers(s.attacker, s.p.Ruleset, false)) == 0:
		return "No filler is left: all are ruled out by name."
	}
	return fmt.Sprintf("No filler is left: each costs more than the gauge allowed, %d.", s.Gauge)
}

// ends returns the sums of fillers that would be an answer for w with waits of
// at most wait.
func ends(w *way, wait int) (out timeline.Set) {
	for _, r := range w.good.Spans() {
		in, _ := timeline.Range(max(0, r.From-wait), r.To)
		out = out.Or(in)
	}
	return out
}

// wouldDo lifts one constraint after another and says which alone rules the
// answers out, and what would do.
func (s *search) wouldDo(fits []*way) (out []string) {
	wait := s.Wait.Or(timeline.Width)
	made := func(t *table, w *way, most, gauge, wait int) timeline.Set {
		if gauge < w.gauge {
			return timeline.Set{}
		}
		return t.sums(most, gauge-w.gauge).And(ends(w, wait))
	}
	some := func(t *table, most, gauge, wait int) bool {
		return slices.ContainsFunc(fits, func(w *way) bool { return !made(t, w, most, gauge, wait).Empty() })
	}
	if s.Wait.Given {
		for n := wait + 1; n < timeline.Width; n++ {
			if some(s.table, s.Most, s.Gauge, n) {
				out = append(out, tooFew("a counted wait", "Counted waits of at most "+words.Frames(wait), wait, fmt.Sprintf("one of %s", words.Frames(n))))
				break
			}
		}
	}
	fillers := s.fillers(s.attacker, s.p.Ruleset, false)
	if t, err := newTable(fillers, s.Most, timeline.MaxPoints, s.Ordered); err == nil {
		for _, n := range s.prices(t, fits) {
			if n > s.Gauge && some(t, s.Most, n, wait) {
				out = append(out, tooFew("gauge", fmt.Sprintf("Gauge costs of at most %d", s.Gauge), s.Gauge, fmt.Sprint(n)))
				break
			}
		}
	}
	if t, err := newTable(fillers, min(s.Most+3, MaxFillers), s.Gauge, s.Ordered); err == nil {
		for n := s.Most + 1; n <= t.most; n++ {
			if some(t, n, s.Gauge, wait) {
				out = append(out, tooFew("a filler", "Sequences of at most "+number(s.Most, "filler", ""), s.Most, fmt.Sprint(n)))
				break
			}
		}
	}
	return append(out, s.unbarred(func(t *table) bool { return some(t, s.Most, s.Gauge, wait) })...)
}

// together says that no limit alone rules the answers out. Of those that may
// be lifted the wait would do by itself, were an attack of fits paid for.
func (s *search) together(fits []*way) (out []string) {
	if s.Wait.Given {
		out = append(out, "More than one limit rules the answers out: lifting any one alone leaves none.")
	}
	w := slices.MinFunc(fits, func(a, b *way) int { return a.gauge - b.gauge })
	return append(out, fmt.Sprintf("%s %s costs %s, more than the %d allowed.", w.jump, w.attack, number(w.gauge, "segment of gauge", ""), s.Gauge))
}

// tooFew says that a limit alone leaves no answer, and what would do.
func tooFew(what, limits string, limit int, would string) string {
	if limit == 0 {
		return "Without " + what + " there is no answer; " + would + " would do."
	}
	return limits + " leave no answer; " + would + " would do."
}

// prices lists what answers of t may cost, ascending.
func (s *search) prices(t *table, fits []*way) (out []int) {
	for _, w := range fits {
		for _, n := range t.gauges {
			out = append(out, n+w.gauge)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// unbarred says which fillers, ruled out by name, would do by themselves.
func (s *search) unbarred(some func(t *table) bool) []string {
	var names []string
	for _, f := range s.fillers(s.attacker, s.p.Ruleset, true) {
		if !slices.Contains(s.Not, f.name) {
			continue
		}
		with := append(slices.Clone(s.table.fillers), f)
		if t, err := newTable(with, s.Most, s.Gauge, false); err == nil && some(t) {
			names = append(names, f.name)
		}
	}
	if len(names) == 0 {
		return nil
	}
	return []string{"The fillers ruled out by name leave no answer; " + words.Or(names) + " would do."}
}

// miss is the sum of fillers that comes nearest to an answer.
type miss struct {
	sum, off    int   // off: frames too many, negative: short
	would, have []int // lengths of a filler that would do; the lengths next to them
}

// nearest finds the nearest miss, where none of fits can be paid as if its
// attack were free; ok is false where the frames are not what is missing.
func (s *search) nearest(fits []*way) (m miss, ok bool) {
	wait := s.Wait.Or(timeline.Width)
	would := map[int]bool{}
	paid := slices.ContainsFunc(fits, func(w *way) bool { return w.gauge <= s.Gauge })
	for _, w := range fits {
		left := s.Gauge - w.gauge
		if left < 0 && paid {
			continue
		}
		left = max(0, left)
		goal := ends(w, wait)
		for _, sum := range frameList(s.table.sums(s.Most, left)) {
			for _, end := range frameList(goal) {
				if off := sum - end; !ok || abs(off) < abs(m.off) || abs(off) == abs(m.off) && off > m.off {
					m.sum, m.off, ok = sum, off, true
				}
			}
		}
		if s.Most > 0 {
			for _, sum := range frameList(s.table.sums(s.Most-1, left)) {
				for _, end := range frameList(goal) {
					if end > sum {
						would[end-sum] = true
					}
				}
			}
		}
	}
	m.would, m.have = s.closest(would)
	return m, ok && m.off != 0
}

// closest keeps the lengths nearest to those of the fillers there are, and
// names these; without fillers the shortest length.
func (s *search) closest(would map[int]bool) (near, have []int) {
	const most = 4
	least := timeline.Width
	for n := range would {
		away := n
		for _, f := range s.table.fillers {
			away = min(away, abs(n-f.frames))
		}
		if away < least {
			least, near = away, nil
		}
		if away == least {
			near = append(near, n)
		}
	}
	slices.Sort(near)
	near = near[:min(len(near), most)]
	for _, f := range s.table.fillers {
		for _, n := range near {
			if abs(n-f.frames) == least {
				have = append(have, f.frames)
			}
		}
	}
	slices.Sort(have)
	return near, slices.Compact(have)
}

// String tells the miss: "43: 1 frame too many; a filler of 13 or 14 would do,
// you have 12 and 15."
func (m miss) String() string {
	out := fmt.Sprintf("%d: %s too many", m.sum, words.Frames(m.off))
	if m.off < 0 {
		out = fmt.Sprintf("%d: %s short", m.sum, words.Frames(-m.off))
	}
	if len(m.would) > 0 {
		out += "; a filler of " + words.Or(numbers(m.would)) + " would do"
		if len(m.have) > 0 {
			out += ", you have " + words.List(numbers(m.have))
		}
	}
	return out + "."
}

func numbers(of []int) (out []string) {
	for _, n := range of {
		out = append(out, fmt.Sprint(n))
	}
	return out
}

func frameList(s timeline.Set) (out []int) {
	for _, r := range s.Spans() {
		for f := r.From; f < r.To; f++ {
			out = append(out, f)
		}
	}
	return out
}

func abs(n int) int { return max(n, -n) }
