package report

import (
	"encoding/json"
	"io"
	"math/big"
	"strconv"

	"wakeline/timeline"
)

// The JSON of a mix.
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

func inexact(r *big.Rat) string {
	f, _ := r.Float64()
	return strconv.FormatFloat(f, 'g', digits, 64)
}

// Number writes a number for files: an exact one as a fraction.
func (m *Mix) Number(r *big.Rat) string {
	if m.Exact {
		return r.RatString()
	}
	return inexact(r)
}

// JSON writes a mix as one document.
func (m *Mix) JSON(to io.Writer) error {
	number := func(r *big.Rat) any {
		if m.Exact {
			return m.Number(r)
		}
		return json.Number(m.Number(r))
	}
	doc := mixText{Attacker: m.Attacker, Rival: m.Rival, Position: m.Position, Gauge: m.Gauge,
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
		doc.Bound, doc.Rounds = json.Number(inexact(m.Bound)), []roundText{}
		for _, r := range m.Rounds {
			doc.Rounds = append(doc.Rounds, roundText{r.Ender, r.Position, json.Number(inexact(r.Value))})
		}
	}
	return encode(to, doc)
}

func encode(to io.Writer, doc any) error {
	enc := json.NewEncoder(to)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", " ")
	return enc.Encode(doc)
}
