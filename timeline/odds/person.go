package odds

import (
	"fmt"
	"math"
	"strings"

	"wakeline/timeline"
)

// Person is a hand in milliseconds, and where its numbers come from.
type Person struct {
	Bias, Spread float64 // milliseconds; Spread 0 or more
	Assumed      bool    // of nobody in particular
	Presses      int     // of the drills that they were measured in; 0: none
	Name         string  // whose presses those are; empty: they have no name
}

// Anyone is the person of whom nothing is known.
func Anyone() Person { return Person{Spread: DefaultSpread, Assumed: true} }

// FewestPresses is how many presses it takes to believe a drill rather than
// the assumption.
const FewestPresses = 10

// Measured is the person whose presses come that many milliseconds late, by
// the robust estimates. ok is false where they are fewer than FewestPresses.
func Measured(late []float64) (p Person, ok bool) {
	if len(late) < FewestPresses {
		return Person{}, false
	}
	e, err := Measure(late)
	if err != nil {
		return Person{}, false
	}
	return Person{Bias: e.RobustBias.Value, Spread: e.RobustSpread.Value, Presses: e.N}, true
}

// Timing is the person's hand at that ruleset's rate and buffer.
func (p Person) Timing(r timeline.Ruleset) Timing {
	return Timing{HandOf(p.Bias, p.Spread, r.Rate), r.Buffer}
}

// short is the spread and where it comes from.
func (p Person) short() string {
	from, _, _ := strings.Cut(p.source(), " in ")
	return ms(p.Spread) + ", " + from
}

// source says where the numbers come from.
func (p Person) source() string {
	switch {
	case p.Assumed:
		return "assumed"
	case p.Presses > 0 && p.Name != "":
		return fmt.Sprintf("measured in %d presses of %s", p.Presses, p.Name)
	case p.Presses > 0:
		return fmt.Sprintf("measured in %d presses", p.Presses)
	}
	return "set by hand"
}

// Words says the person's hand, as the beginning of a sentence.
func (p Person) Words() string {
	out := "A hand with " + ms(p.Spread) + " spread"
	switch {
	case p.Bias >= 0.05:
		out += ", " + ms(p.Bias) + " late"
	case p.Bias <= -0.05:
		out += ", " + ms(-p.Bias) + " early"
	}
	return out + " (" + p.source() + ")"
}

// ms writes milliseconds with one decimal, and none where it is 0.
func ms(v float64) string { return fmt.Sprintf("%g ms", math.Round(10*v)/10) }

// Lines says an estimate in milliseconds in words, a sentence a line: plain,
// robust, and what was missed.
func (e Estimate) Lines() []string {
	side := func(v float64) string {
		if v < 0 {
			return "early"
		}
		return "late"
	}
	of := func(bias, spread Figure) string {
		return fmt.Sprintf("%s %s on average (standard error %s), spread %s (standard error %s)",
			ms(math.Abs(bias.Value)), side(bias.Value), ms(bias.Error), ms(spread.Value), ms(spread.Error))
	}
	out := []string{
		"Plain: " + of(e.Bias, e.Spread) + ".",
		"Robust: " + of(e.RobustBias, e.RobustSpread) + ".",
	}
	switch e.Missed {
	case 0:
	case 1:
		out = append(out, "1 press lies far from the rest; the robust numbers hardly move with it.")
	default:
		out = append(out, fmt.Sprintf("%d presses lie far from the rest; the robust numbers hardly move with them.", e.Missed))
	}
	return out
}
