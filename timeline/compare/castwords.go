package compare

import (
	"fmt"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// Words says how a setup fares against one rival, on one line.
func (c *CastCell) Words() string {
	switch {
	case c.Word == "":
		return "can't be judged: " + c.Because
	case c.Unknown():
		return "unknown: this rival has no replies, so only the wake-up is judged"
	case c.Word == timeline.Unsafe:
		return fmt.Sprintf("%s: %s", c.Word, c.Because)
	}
	out := fmt.Sprintf("%s, %s", c.Word, words.Window(c.Window, c.Uncovered))
	if c.HoldsStartup.Given {
		out += fmt.Sprintf(", holds against reversals of %s or slower", words.Frames(c.HoldsStartup.N))
	}
	return out
}

// Short is Words for the cell of a table, which has the verdict's mark beside
// it: the delays that are good, and the quickest reversal that is met safely.
func (c *CastCell) Short() string {
	switch {
	case c.Word == "":
		return "not judged"
	case c.Unknown():
		return "no replies"
	case len(c.Window) == 0:
		return "no safe delay"
	}
	out := words.Bounds(c.Window)
	if c.HoldsStartup.Given {
		out += "; " + words.Frames(c.HoldsStartup.N) + " or slower"
	}
	return out
}

// CoverWords says which setups are the fewest that hold against every rival
// against whom any does, and against whom none does; fewest is of rows.
func (c *Cast) CoverWords(rows []CastRow, fewest *Cover) (lines []string) {
	var use, missing []string
	for _, i := range fewest.Sets {
		use = append(use, rows[i].Setup)
	}
	for _, i := range fewest.Missing {
		missing = append(missing, c.Rivals[i])
	}
	if len(use) > 0 {
		say := "The fewest setups that hold against every rival against whom any does"
		if !fewest.Proved {
			say = "A few setups that hold against every rival against whom any does (fewer may do)"
		}
		lines = append(lines, fmt.Sprintf("%s: %s.", say, words.List(use)))
	}
	if len(missing) > 0 {
		lines = append(lines, fmt.Sprintf("No setup is known to hold against %s.", words.List(missing)))
	}
	return lines
}
