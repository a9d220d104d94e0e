package words

import (
	"fmt"
	"math"
	"strings"

	"wakeline/timeline"
)

// Frames writes a count of frames: "1 frame", "2 frames".
func Frames(n int) string {
	if n == 1 {
		return "1 frame"
	}
	return fmt.Sprintf("%d frames", n)
}

// List writes "a", "a and b", "a, b and c".
func List(of []string) string {
	if len(of) < 2 {
		return strings.Join(of, "")
	}
	return strings.Join(of[:len(of)-1], ", ") + " and " + of[len(of)-1]
}

// Bounds writes delays as people do: "0 to 2, 5", "no delay".
func Bounds(of []timeline.Bounds) string {
	if len(of) == 0 {
		return "no delay"
	}
	out := make([]string, len(of))
	for i, b := range of {
		if out[i] = fmt.Sprint(b.From); b.From != b.To {
			out[i] = fmt.Sprintf("%d to %d", b.From, b.To)
		}
	}
	return strings.Join(out, ", ")
}

// Percent writes a chance from 0 to 1 in whole percent, "63 %"; none and all
// only where it is so.
func Percent(p float64) string {
	n := int(math.Round(100 * p))
	switch {
	case p <= 0:
		return "0 %"
	case n == 0:
		return "under 1 %"
	case n == 100 && p < 1:
		return "over 99 %"
	}
	return fmt.Sprintf("%d %%", n)
}
