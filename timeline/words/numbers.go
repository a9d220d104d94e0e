package words

import (
	"fmt"
	"math"
	"strings"

	"wakeline/timeline"
)

// Count writes a number of things: "1 move", "2 moves", "2 replies".
func Count(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %s", n, Several(thing))
}

// Several is the word for more than one of a thing.
func Several(thing string) string {
	switch {
	case strings.HasSuffix(thing, "ly"), strings.HasSuffix(thing, "ry"):
		return strings.TrimSuffix(thing, "y") + "ies"
	case strings.HasSuffix(thing, "s"), strings.HasSuffix(thing, "x"):
		return thing + "es"
	}
	return thing + "s"
}

// Frames writes a count of frames: "1 frame", "2 frames".
func Frames(n int) string { return Count(n, "frame") }

// List writes "a", "a and b", "a, b and c".
func List(of []string) string { return join(of, " and ") }

// Or writes "a", "a or b", "a, b or c".
func Or(of []string) string { return join(of, " or ") }

func join(of []string, last string) string {
	if len(of) < 2 {
		return strings.Join(of, "")
	}
	return strings.Join(of[:len(of)-1], ", ") + last + of[len(of)-1]
}

// Runs writes a set of frames or delays: "2", "2 to 3", "2 and 5 to 7".
func Runs(s timeline.Set) string {
	var runs []string
	for _, r := range s.Spans() {
		if r.Len() == 1 {
			runs = append(runs, fmt.Sprint(r.From))
		} else {
			runs = append(runs, fmt.Sprintf("%d to %d", r.From, r.To-1))
		}
	}
	return List(runs)
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

// Window says which delays are good, and which demanded replies no timing
// covers.
func Window(window []timeline.Bounds, uncovered []string) string {
	out := "no window"
	if len(window) > 0 {
		out = "window " + Bounds(window)
	}
	if len(uncovered) > 0 {
		out += ", uncovered: " + strings.Join(uncovered, ", ")
	}
	return out
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
