package timeline

import "sort"

// Jump is one jump of a fighter; lengths in frames, travel and apex in units.
// Started on frame J: prejump [J, J+P), airborne [J+P, L), touchdown on
// L = J+P+N, guards from L+GuardAfter, acts from L+Landing.
type Jump struct {
	Name       string
	Prejump    int // 0 or more
	Airborne   int // 1 or more
	Landing    int // 0 or more
	GuardAfter int // 0 to Landing
	Travel     int
	Apex       Maybe // 0 or more
}

// Total is the jump's length in frames when it is a filler: P+N+R.
func (j *Jump) Total() int { return j.Prejump + j.Airborne + j.Landing }

// above returns the air frames (0 to Airborne-1) on which the body is higher
// than t units; empty where the apex is not given or nothing is.
//
// Height on air frame i is the parabola 4 H u (1-u), u = (i+1)/(N+1)
// (frames.md, "Jumps"). Both sides are multiplied by (N+1)², so the
// comparison is exact in whole numbers. The parabola is symmetric, so the
// frames above a height are one span in the middle.
func (j *Jump) above(t int) Span {
	if !j.Apex.Given {
		return Span{}
	}
	n := j.Airborne
	half := (n + 1) / 2
	i := sort.Search(half, func(i int) bool {
		return 4*j.Apex.N*(i+1)*(n-i) > t*(n+1)*(n+1)
	})
	if i == half {
		return Span{}
	}
	return Span{i, n - i}
}

// HeightAt returns the body's height on air frame i, in units rounded down:
// for drawing. It is 0 where the apex is not given or i is not an air frame.
func (j *Jump) HeightAt(i int) int {
	n := j.Airborne
	if !j.Apex.Given || i < 0 || i >= n {
		return 0
	}
	return 4 * j.Apex.N * (i + 1) * (n - i) / ((n + 1) * (n + 1))
}

// autoPress is the earliest press, air frame 0 or later, after which m is
// active on the last air frame; 0 where there is none (frames.md, "Jumps").
func (j *Jump) autoPress(m *Move, r Ruleset) int {
	spans := m.Spans(r)
	for i := len(spans) - 1; i >= 0; i-- {
		if spans[i].From < j.Airborne {
			return max(0, j.Airborne-spans[i].To)
		}
	}
	return 0
}
