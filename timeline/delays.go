package timeline

import "slices"

// Sweep returns the delays, in order, that show a window and both its ends:
// from past frames before its first delay to past frames after its last, as
// far as delays go (0 to LastDelay(), and d itself). Where no delay is good it
// goes past frames each way from d. Of more than most, delays inside are left
// out evenly; d, both sides of every edge of the window and the ends stay.
func Sweep(p *Plan, d, past, most int) []int {
	from, to := d, d
	runs := p.window.Spans()
	if len(runs) > 0 {
		from, to = min(d, runs[0].From), max(d, runs[len(runs)-1].To-1)
	}
	from, to = max(0, from-past), max(d, min(to+past, p.last))
	keep := []int{from, d, to}
	for _, r := range runs {
		keep = append(keep, max(from, r.From-1), r.From, r.To-1, min(r.To, to))
	}
	step := 1
	for most > 0 && (to-from)/step >= most {
		step++
	}
	var out []int
	for at := from; at <= to; at++ {
		if (at-from)%step == 0 || slices.Contains(keep, at) {
			out = append(out, at)
		}
	}
	return out
}

// pastSafe is how many frames past the last safe delay an exercise may start.
const pastSafe = 8

// StartDelay returns a delay for an exercise to start from: one that isn't
// safe, up to a few frames past the last that is. Where all are safe it is any
// of them. pick returns a random number from 0 to n-1.
func StartDelay(p *Plan, pick func(n int) int) int {
	good := p.SafeDelays()
	to := min(p.last, max(good.Last(), p.Setup.Delay)+pastSafe)
	if from := between(0, to+1).Minus(good); !from.Empty() {
		n := pick(from.Count())
		for _, s := range from.Spans() {
			if n < s.Len() {
				return s.From + n
			}
			n -= s.Len()
		}
	}
	return pick(p.last + 1)
}
