package value

import (
	"math"
	"math/big"

	"wakeline/timeline"
	"wakeline/timeline/odds"
)

// landing is a delay that a press may land on, and its chance.
type landing struct {
	delay  int
	chance *big.Rat
}

// chanceBits: chances are whole numbers of 2 to the power of minus so many, so
// that they add up to just 1 and what follows from them is exact.
const chanceBits = 40

// landings is where a press lands that is to make that delay: it is aimed at
// the middle of its frame, less the hand's bias. What falls before frame 0
// counts there, what passes last counts there. Without a hand, or a wait to
// count, it lands where it is aimed.
func landings(h *odds.Hand, delay, last int) []landing {
	one := int64(1) << chanceBits
	if h == nil || h.Spread <= 0 || delay == 0 {
		return []landing{{delay, big.NewRat(1, 1)}}
	}
	const far = 1 << 20 // frames, past all that can be
	parts, left := make([]int64, last+1), one
	for k := range parts {
		s := timeline.Span{From: k, To: k + 1}
		if k == 0 {
			s.From = -far
		}
		if k == last {
			s.To = far
		}
		parts[k] = int64(math.Round(h.Span(s, float64(delay)+0.5-h.Bias) * float64(one)))
		left -= parts[k]
	}
	parts[delay] += left
	var out []landing
	for k, n := range parts {
		if n > 0 {
			out = append(out, landing{k, big.NewRat(n, one)})
		}
	}
	return out
}
