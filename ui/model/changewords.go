package model

import (
	"fmt"
	"slices"
	"strings"

	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/timeline/words"
)

// ChangeWords says in a few words what became of a setup.
func ChangeWords(c *compare.Change) string {
	switch {
	case !c.After.Judged():
		return "can't be judged any more"
	case !c.Before.Judged():
		return "can be judged again, " + string(c.After.Word)
	case c.Turned() && len(c.Lost) > 0:
		return fmt.Sprintf("%s to %s; %s", c.Before.Word, c.After.Word, lostWords(c))
	case c.Turned():
		return fmt.Sprintf("%s to %s", c.Before.Word, c.After.Word)
	}
	return CoveredWords(c)
}

// CoveredWords says what a setup covers no longer, how its window changed, and
// what it covers now: a reply that is lost comes first, as a window often
// grows by one.
func CoveredWords(c *compare.Change) string {
	var out []string
	for _, part := range []string{lostWords(c), windowChange(c)} {
		if part != "" {
			out = append(out, part)
		}
	}
	if len(c.Won) > 0 {
		out = append(out, "now covers "+strings.Join(c.Won, ", "))
	}
	return strings.Join(out, "; ")
}

// lostWords names the replies that no delay covers any more, nothing where
// there is none.
func lostWords(c *compare.Change) string {
	if len(c.Lost) == 0 {
		return ""
	}
	return "no longer covers " + strings.Join(c.Lost, ", ")
}

// windowChange writes the delays of the window before and after, nothing
// where it is the same or not known.
func windowChange(c *compare.Change) string {
	if !c.Before.Judged() || !c.After.Judged() || slices.Equal(c.Before.Window, c.After.Window) {
		return ""
	}
	of := func(b []timeline.Bounds) string {
		if len(b) == 0 {
			return "none"
		}
		return words.Bounds(b)
	}
	return "window " + of(c.Before.Window) + " → " + of(c.After.Window)
}
