package odds

import "math"

// Phi is the standard normal distribution: the chance of a value of at most
// z. It keeps its digits in the lower tail (Phi(-8) is 6.2e-16); for the upper
// one ask for Phi(-z).
func Phi(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// between is Phi(b) - Phi(a) for a <= b, taken on the side where neither is
// near 1.
func between(a, b float64) float64 {
	if a > 0 {
		a, b = -b, -a
	}
	return Phi(b) - Phi(a)
}
