package timeline

import (
	"fmt"
	"math"
)

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
