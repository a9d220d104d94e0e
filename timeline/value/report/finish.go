package report

import (
	"fmt"
	"io"

	"wakeline/timeline"
	"wakeline/timeline/value"
	"wakeline/timeline/words"
)

// Finish is a finish to be told.
type Finish struct{ *value.Finish }

// Answer says whether it ends, and in how many rounds, or what stops it.
func (f Finish) Answer() string {
	if f.Ends {
		return f.Because
	}
	return "Nothing ends it. " + f.Because
}

// Costs says what all rounds do and spend, of what was asked.
func (f Finish) Costs(q *value.FinishQuery, rules timeline.Ruleset) string {
	if len(f.Rounds) == 0 {
		return "No round does any damage."
	}
	damage := 0
	for i := range f.Rounds {
		damage += f.Rounds[i].Damage
	}
	return fmt.Sprintf("%s of damage to %s of health. Gauge: %d before, %d after. The rival does %s every time, on its first free frame.",
		words.Count(damage, "point"), words.Count(q.Health.Or(rules.Health), "point"), q.Gauge.Or(rules.Gauge), f.Rounds[len(f.Rounds)-1].Gauge, q.Reply)
}

// What says what happens in round i: "reply blocked, then Long ladder".
func (f Finish) What(i int) string {
	r := &f.Rounds[i]
	if r.Route == "" {
		return r.Outcome.String()
	}
	return fmt.Sprintf("%v, then %s", r.Outcome, r.Route)
}

// Left says what round i does, and what is left after it.
func (f Finish) Left(i int) string {
	r := &f.Rounds[i]
	return fmt.Sprintf("Damage %d; health left %d, gauge left %d.", r.Damage, max(r.Health, 0), r.Gauge)
}

// Text writes it for people: the answer first, then a line a round.
func (f Finish) Text(out io.Writer) error {
	if _, err := fmt.Fprintln(out, f.Answer()); err != nil {
		return err
	}
	for i, r := range f.Rounds {
		if _, err := fmt.Fprintf(out, "  %d. %s against %s: %s. %s\n", i+1, r.Setup, r.Reply, f.What(i), f.Left(i)); err != nil {
			return err
		}
	}
	return nil
}

// The JSON of a finish.
type (
	finishText struct {
		Rounds  []finishRoundText `json:"rounds"`
		Ends    bool              `json:"ends"`
		Because string            `json:"because"`
	}
	finishRoundText struct {
		Setup   string           `json:"setup"`
		Reply   string           `json:"reply"`
		Outcome timeline.Outcome `json:"outcome"`
		Route   *string          `json:"route"` // null: the touch alone
		Damage  int              `json:"damage"`
		Gauge   int              `json:"gauge"`
		Health  int              `json:"health"`
	}
)

// JSON writes it as one document.
func (f Finish) JSON(to io.Writer) error {
	text := finishText{[]finishRoundText{}, f.Ends, f.Because}
	for i := range f.Rounds {
		r := &f.Rounds[i]
		row := finishRoundText{Setup: r.Setup, Reply: r.Reply, Outcome: r.Outcome, Damage: r.Damage, Gauge: r.Gauge, Health: r.Health}
		if r.Route != "" {
			row.Route = &r.Route
		}
		text.Rounds = append(text.Rounds, row)
	}
	return encode(to, text)
}
