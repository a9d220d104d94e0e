package timeline

import "slices"

// Sweep returns the delays, in order, that show a window and both its ends:
// from past frames before its first delay to past frames after its last, as
// far as delays go (0 to LastDelay(), and d itself). Where no delay is good it
// goes past frames each way from d. Of more than most, delays inside are left
// out evenly; d, both sides of every edge of the window and the ends stay.
func (p *Plan) Sweep(d, past, most int) []int {
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

// Rate is how many frames of the plan's game a second has.
func (p *Plan) Rate() Rate { return p.rules.Rate }
