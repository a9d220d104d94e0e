package odds

import (
	"errors"
	"math"
	"slices"
)

// ErrFewPresses is what Measure says of fewer than two presses: a spread
// needs two.
var ErrFewPresses = errors.New("expected two presses or more: a spread needs two")

// Figure is an estimate and its standard error, both in the unit of the
// presses.
type Figure struct{ Value, Error float64 }

// Estimate is what a drill's presses say of a hand, in the unit of the
// presses (milliseconds or frames).
type Estimate struct {
	N int // presses

	// The mean and the standard deviation (n-1). Their standard errors are
	// s/sqrt(n) and, for Gaussian errors, s/sqrt(2(n-1)).
	Bias, Spread Figure

	// The median, and 1.4826 times the median distance from it, which a few
	// missed presses don't move: Hampel, "The influence curve and its role in
	// robust estimation", Journal of the American Statistical Association 69,
	// 1974. Their standard errors are those of a large Gaussian sample,
	// 1.2533 s/sqrt(n) and 1.1664 s/sqrt(n). Where more than half the presses
	// are equal and that distance is 0, the spread is the plain one.
	RobustBias, RobustSpread Figure

	// Missed counts the presses further than 3.5 robust spreads from the
	// median, which Iglewicz and Hoaglin ("How to detect and handle outliers",
	// 1993) call outliers.
	Missed int
}

const (
	madToSpread   = 1.482602218505602  // 1 / the upper quartile of the normal distribution
	medianError   = 1.2533141373155003 // sqrt(pi/2)
	madError      = 1.1664             // of the scaled median distance
	missedSpreads = 3.5
)

// Measure estimates a hand from how late each press came (negative: early). It
// returns ErrFewPresses for fewer than two. Values must be finite.
func Measure(late []float64) (Estimate, error) {
	n := len(late)
	if n < 2 {
		return Estimate{N: n}, ErrFewPresses
	}
	e := Estimate{N: n}
	mean, sd := moments(late)
	root := math.Sqrt(float64(n))
	e.Bias = Figure{mean, sd / root}
	e.Spread = Figure{sd, sd / math.Sqrt(2*float64(n-1))}
	middle := median(late)
	off := make([]float64, n)
	for i, x := range late {
		off[i] = math.Abs(x - middle)
	}
	s := madToSpread * median(off)
	if s == 0 {
		s = sd
	}
	e.RobustBias = Figure{middle, medianError * s / root}
	e.RobustSpread = Figure{s, madError * s / root}
	for _, d := range off {
		if d > missedSpreads*s {
			e.Missed++
		}
	}
	return e, nil
}

// moments returns the mean and the standard deviation (n-1). The second pass
// takes off what rounding left of the mean, so that a small spread round a
// large mean keeps its digits.
func moments(xs []float64) (mean, sd float64) {
	n := float64(len(xs))
	for _, x := range xs {
		mean += (x - xs[0]) / n
	}
	mean += xs[0]
	var rest, squares float64
	for _, x := range xs {
		rest += x - mean
		squares += (x - mean) * (x - mean)
	}
	return mean + rest/n, math.Sqrt((squares - rest*rest/n) / (n - 1))
}

// median returns the middle value, or the mean of the middle two.
func median(xs []float64) float64 {
	s := slices.Sorted(slices.Values(xs))
	n := len(s)
	if n%2 == 1 {
		return s[n/2]
	}
	return s[n/2-1] + (s[n/2]-s[n/2-1])/2
}
