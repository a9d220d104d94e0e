package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"math/big"
	"strconv"

	"wakeline/timeline"
	"wakeline/timeline/odds"
	"wakeline/timeline/value"
	"wakeline/timeline/words"
)

// The JSON of mix; what it means stands in mixMore.
type (
	mixText struct {
		Attacker string            `json:"attacker"`
		Rival    string            `json:"rival"`
		Ender    *string           `json:"ender"`
		Position timeline.Position `json:"position"`
		Gauge    int               `json:"gauge"`
		Rows     []mixRowText      `json:"rows"`
		Columns  []mixColumnText   `json:"columns"`
		Payoff   [][]any           `json:"payoff"`
		Value    any               `json:"value"`
		Unique   bool              `json:"unique"`
		Exact    bool              `json:"exact"`
		Carry    string            `json:"carry"`
		Bound    any               `json:"bound"`
		Rounds   []roundText       `json:"rounds"`
	}
	mixRowText struct {
		Setup   string `json:"setup"`
		Share   any    `json:"share"`
		Against any    `json:"against"`
		Worst   any    `json:"worst"`
	}
	mixColumnText struct {
		Rise    string `json:"rise"`
		Reply   string `json:"reply"`
		Late    int    `json:"late"`
		Share   any    `json:"share"`
		Against any    `json:"against"`
	}
	roundText struct {
		Ender    string            `json:"ender"`
		Position timeline.Position `json:"position"`
		Value    any               `json:"value"`
	}
)

// digits is how many digits of a number that isn't exact are written.
const digits = 12

func writeMix(out io.Writer, m *value.Mix, gauge int) error {
	inexact := func(r *big.Rat) any {
		f, _ := r.Float64()
		return json.Number(strconv.FormatFloat(f, 'g', digits, 64))
	}
	number := func(r *big.Rat) any { return r.RatString() }
	if !m.Exact {
		number = inexact
	}
	doc := mixText{Attacker: m.Attacker, Rival: m.Rival, Position: m.Position, Gauge: gauge,
		Value: number(m.Value), Unique: m.Unique, Exact: m.Exact, Carry: m.Carry.String()}
	if m.Ender != "" {
		doc.Ender = &m.Ender
	}
	for i := range m.Rows {
		r := &m.Rows[i]
		doc.Rows = append(doc.Rows, mixRowText{r.Setup, number(r.Share), number(r.Against), number(r.Worst)})
		var row []any
		for _, v := range m.Payoff[i] {
			row = append(row, number(v))
		}
		doc.Payoff = append(doc.Payoff, row)
	}
	for j := range m.Columns {
		c := &m.Columns[j]
		doc.Columns = append(doc.Columns, mixColumnText{c.Rise, c.Reply, c.Late, number(c.Share), number(c.Against)})
	}
	if m.Rounds != nil {
		doc.Bound, doc.Rounds = inexact(m.Bound), []roundText{}
		for _, r := range m.Rounds {
			doc.Rounds = append(doc.Rounds, roundText{r.Ender, r.Position, inexact(r.Value)})
		}
	}
	enc := json.NewEncoder(out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", " ")
	return enc.Encode(doc)
}

// sayMix writes a mix for people: the value, the shares, what is never worth
// doing, what each habit costs, and the proof.
func sayMix(to io.Writer, m *value.Mix, byHand bool, person odds.Person) error {
	out := bufio.NewWriter(to)
	points := func(r *big.Rat) string {
		f, _ := r.Float64()
		text := strconv.FormatFloat(f, 'f', 2, 64)
		switch {
		case r.IsInt():
			return r.RatString()
		case m.Exact:
			return text + " (" + r.RatString() + ")"
		}
		return text
	}
	share := func(r *big.Rat) string {
		f, _ := r.Float64()
		if text := words.Percent(f); !m.Exact || r.IsInt() {
			return text
		}
		return words.Percent(f) + " (" + r.RatString() + ")"
	}
	name := func(c *value.MixColumn) string {
		out := c.Reply
		if c.Late > 0 {
			out += " late " + strconv.Itoa(c.Late)
		}
		return out + ", " + c.Rise + " rise"
	}
	fmt.Fprintf(out, "A round is worth %s points to %s, against %s after %s (%s).\n", points(m.Value), m.Attacker, m.Rival, enderWords(m.Ender), m.Position)
	if byHand {
		fmt.Fprintf(out, "%s: counted waits are weighed by where its presses land.\n", person.Words())
	}
	fmt.Fprintf(out, "\n%s plays:\n", m.Attacker)
	for i := range m.Rows {
		if r := &m.Rows[i]; r.Share.Sign() > 0 {
			fmt.Fprintf(out, "  %s: %s; if it is played every time, it may make as little as %s\n", r.Setup, share(r.Share), points(r.Worst))
		}
	}
	fmt.Fprintf(out, "%s plays:\n", m.Rival)
	for j := range m.Columns {
		if c := &m.Columns[j]; c.Share.Sign() > 0 {
			fmt.Fprintf(out, "  %s: %s\n", name(c), share(c.Share))
		}
	}
	var never []string
	for i := range m.Rows {
		if m.Rows[i].Never {
			never = append(never, m.Rows[i].Setup)
		}
	}
	if len(never) > 0 {
		fmt.Fprintf(out, "Never worth playing: %s.\n", words.List(never))
	}
	never = nil
	for j := range m.Columns {
		if m.Columns[j].Never {
			never = append(never, name(&m.Columns[j]))
		}
	}
	if len(never) > 0 {
		fmt.Fprintf(out, "Never worth it for %s:\n", m.Rival)
		for _, n := range never {
			fmt.Fprintf(out, "  %s\n", n)
		}
	}
	fmt.Fprintf(out, "\nWhat a habit costs %s:\n", m.Rival)
	for j := range m.Columns {
		c := &m.Columns[j]
		fmt.Fprintf(out, "  always %s: %s makes %s, %s more\n", name(c), m.Rows[c.BestRow].Setup, points(c.Best), points(new(big.Rat).Sub(c.Best, m.Value)))
	}
	for i, r := range m.Rounds {
		if i == 0 {
			bound, _ := m.Bound.Float64()
			fmt.Fprintf(out, "\n%s of the next round is added; what a round is worth after each ender, to within %.1g points:\n", m.Carry, bound)
		}
		fmt.Fprintf(out, "  %s (%s): %s\n", r.Ender, r.Position, points(r.Value))
	}
	if err := m.Check(); err != nil {
		return err
	}
	fmt.Fprintf(out, "\nProof: against %s's shares no reply makes a round worth less than %s, and against %s's no setup makes more.\n", m.Attacker, points(m.Value), m.Rival)
	if !m.Unique {
		fmt.Fprintln(out, "These are not the only best shares.")
	}
	return out.Flush()
}
