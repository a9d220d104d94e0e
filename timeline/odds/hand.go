package odds

import "wakeline/timeline"

// DefaultSpread is the spread taken for a person of whom nothing is known, in
// milliseconds. It is an assumption, not a measurement, and is to be shown as
// one.
const DefaultSpread = 25.0

// Hand is a person's own timing error, in frames.
type Hand struct {
	Bias   float64 // how late presses come on average; negative: early
	Spread float64 // standard deviation, 0 or more; 0 is a hand that never errs
}

// HandOf returns the hand of that bias and spread in milliseconds.
func HandOf(bias, spread float64, rate timeline.Rate) Hand {
	frame := rate.Milliseconds(1)
	return Hand{bias / frame, spread / frame}
}

// Span is the chance that a press aimed at moment aim acts on a frame of s:
// Phi((to-m-b)/s) - Phi((from-m-b)/s). It is 0 when s is empty.
func (h Hand) Span(s timeline.Span, aim float64) float64 {
	if s.Len() == 0 {
		return 0
	}
	from, to := float64(s.From)-aim-h.Bias, float64(s.To)-aim-h.Bias
	if h.Spread <= 0 {
		if from <= 0 && 0 < to {
			return 1
		}
		return 0
	}
	return between(from/h.Spread, to/h.Spread)
}

// Window is what one press may hit. Frames are those of one clock: counted
// from the ender for starts of a jump, or from the fillers' end for delays.
type Window struct {
	Good   timeline.Set // frames on which acting is good
	First  int          // the first frame on which the person can act
	Buffer int          // a press up to so many frames before First acts on First
}

// Exact reports whether acting at once is good and needs no timing: the buffer
// holds the press until First.
func (w Window) Exact() bool { return w.Buffer > 0 && w.Good.Has(w.First) }

// Spans returns the frames on which a press is good: those of Good from First
// on, and the buffer before First where First is good.
func (w Window) Spans() []timeline.Span {
	var out []timeline.Span
	for _, s := range w.Good.Spans() {
		s.From = max(s.From, w.First)
		if s.Len() == 0 {
			continue
		}
		if s.From == w.First {
			s.From -= w.Buffer
		}
		out = append(out, s)
	}
	return out
}

// Chance is the chance that a press aimed at moment aim hits w.
func (h Hand) Chance(w Window, aim float64) (sum float64) {
	for _, s := range w.Spans() {
		sum += h.Span(s, aim)
	}
	return sum
}

// On is the chance that a press aimed at the middle of frame f hits w.
func (h Hand) On(w Window, f int) float64 { return h.Chance(w, float64(f)+0.5) }

// Best returns the moment to aim at and the chance there. For one span it is
// its middle less the bias; for several it is searched for, to a thousandth of
// a frame. Where nothing is good, ok is false.
func (h Hand) Best(w Window) (aim, chance float64, ok bool) {
	spans := w.Spans()
	if len(spans) == 0 {
		return 0, 0, false
	}
	for _, s := range spans {
		middle := float64(s.From+s.To)/2 - h.Bias
		if c := h.Chance(w, middle); c > chance || !ok {
			aim, chance, ok = middle, c, true
		}
	}
	if len(spans) == 1 || h.Spread <= 0 {
		return aim, chance, true
	}
	// Between spans that a hand can't tell apart, the best aim may lie in the
	// gap: look along the whole, ever finer.
	lo, hi := float64(spans[0].From)-h.Bias, float64(spans[len(spans)-1].To)-h.Bias
	for step := 0.25; step > 0.0005; step /= 8 {
		for m := lo; m <= hi; m += step {
			if c := h.Chance(w, m); c > chance {
				aim, chance = m, c
			}
		}
		lo, hi = aim-step, aim+step
	}
	return aim, chance, true
}

// Curve is the chance of hitting w by aiming at the middle of each frame of s,
// in order: what stands over the delays on a sheet.
func (h Hand) Curve(w Window, s timeline.Span) []float64 {
	out := make([]float64, s.Len())
	for i := range out {
		out[i] = h.On(w, s.From+i)
	}
	return out
}

// Timing is a hand under a ruleset's buffer.
type Timing struct {
	Hand   Hand
	Buffer int // frames an input may come early, 0 or more
}

// Link is the chance of doing one thing on the first frame after another: 1
// with a buffer, which holds the press until then. Without one it takes a
// press on that very frame, aimed as well as the hand can.
func (t Timing) Link() float64 {
	if t.Buffer > 0 {
		return 1
	}
	middle := 0.5 - t.Hand.Bias
	return t.Hand.Span(timeline.Span{From: 0, To: 1}, middle)
}

// Wait is the chance that what is to start on frame aim starts on a good one,
// where the person can act from frame first on. On first itself there is no
// wait to count, and a buffer makes it certain, as in Link; else the press is
// aimed at the middle of frame aim.
func (t Timing) Wait(good timeline.Set, first, aim int) float64 {
	w := Window{good, first, t.Buffer}
	if aim == first && w.Exact() {
		return 1
	}
	return t.Hand.On(w, aim)
}
