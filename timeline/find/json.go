package find

import (
	"encoding/json"
	"io"
	"math/big"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// The JSON of a search; the command's help says what it means.
type (
	resultText struct {
		Setup     string         `json:"setup"`
		Advantage int            `json:"advantage"`
		Fillers   int            `json:"fillers"`
		Wait      timeline.Maybe `json:"wait"`
		Gauge     int            `json:"gauge"`
		Spread    float64        `json:"spread_ms"`
		Bias      float64        `json:"bias_ms"`
		Assumed   bool           `json:"assumed"`
		Presses   int            `json:"presses"`
		Hand      string         `json:"hand"`
		Count     *big.Int       `json:"count"`
		Exact     *big.Int       `json:"exact"`
		Orders    *big.Int       `json:"orders"`
		Passed    *big.Int       `json:"passed"`
		Because   []string       `json:"because"`
		Limited   *big.Int       `json:"limited"`
		Ways      []wayText      `json:"ways"`
		Answers   []answerText   `json:"answers"`
	}
	wayText struct {
		Jump    string            `json:"jump"`
		Attack  string            `json:"attack"`
		Starts  []timeline.Bounds `json:"starts"`
		Count   *big.Int          `json:"count"`
		Because string            `json:"because"`
	}
	answerText struct {
		Rank     int            `json:"rank"`
		Fillers  []string       `json:"fillers"`
		Delay    int            `json:"delay"`
		Jump     string         `json:"jump"`
		Attack   string         `json:"attack"`
		JumpOn   int            `json:"jump_on"`
		Chance   float64        `json:"chance"`
		Spare    timeline.Maybe `json:"spare"`
		Gauge    int            `json:"gauge"`
		Travel   int            `json:"travel"`
		Place    timeline.Maybe `json:"place"`
		Orders   *big.Int       `json:"orders"`
		Why      string         `json:"why"`
		Verdicts []verdictText  `json:"verdicts"`
	}
	verdictText struct {
		Rival   string        `json:"rival"`
		Verdict timeline.Word `json:"verdict"`
		Because string        `json:"because"`
	}
	rowsText struct {
		Setup  string    `json:"setup"`
		Enders []rowText `json:"enders"`
	}
	rowText struct {
		Ender     string            `json:"ender"`
		Position  timeline.Position `json:"position"`
		Advantage int               `json:"advantage"`
		Cells     []cellText        `json:"cells"`
	}
	cellText struct {
		Jump     string            `json:"jump"`
		Attack   string            `json:"attack"`
		Starts   []timeline.Bounds `json:"starts"`
		Shortest *answerText       `json:"shortest"`
		Because  string            `json:"because"`
		Limited  bool              `json:"limited"`
	}
)

// JSON writes a search as one document.
func (t *Told) JSON(to io.Writer) error {
	h, q, r := &t.Hand, &t.Query, t.Result
	out := resultText{t.Setup, r.Advantage, q.Most, q.Wait, q.Gauge, h.Spread, h.Bias, h.Assumed, h.Presses, h.Name,
		r.Count, r.Exact, r.Orders, r.Passed, append([]string{}, r.Because...), r.Limited, []wayText{}, []answerText{}}
	for _, w := range r.Ways {
		out.Ways = append(out.Ways, wayText(w))
	}
	index := timeline.NewIndex(t.Project)
	for i := range r.Answers {
		text, err := r.Answers[i].text(index)
		if err != nil {
			return err
		}
		out.Answers = append(out.Answers, text)
	}
	return writeJSON(to, out)
}

// JSON writes the table of enders as one document.
func (t *ToldEnders) JSON(to io.Writer) error {
	index, out := timeline.NewIndex(t.Project), rowsText{t.Setup, []rowText{}}
	for _, r := range t.Rows {
		row := rowText{r.Ender, r.Position, r.Advantage, []cellText{}}
		for _, c := range r.Cells {
			cell := cellText{c.Jump, c.Attack, c.Starts, nil, c.Because, c.Limited}
			if c.Shortest != nil {
				text, err := c.Shortest.text(index)
				if err != nil {
					return err
				}
				cell.Shortest = &text
			}
			row.Cells = append(row.Cells, cell)
		}
		out.Enders = append(out.Enders, row)
	}
	return writeJSON(to, out)
}

func writeJSON(to io.Writer, document any) error {
	enc := json.NewEncoder(to)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", " ")
	return enc.Encode(document)
}

// text is an answer, judged against each of its rivals.
func (a *Answer) text(index *timeline.Index) (answerText, error) {
	s := &a.Setups[0]
	out := answerText{a.Rank, append([]string{}, s.Fillers...), s.Delay, s.Jump, s.Attack, a.JumpOn,
		a.Chance, a.Spare, a.Gauge, a.Travel, a.Place, a.Orders, a.Why, nil}
	for _, one := range a.Setups {
		v, err := words.Judge(index, one)
		if err != nil {
			return out, err
		}
		out.Verdicts = append(out.Verdicts, verdictText{one.Rival, v.Word, v.Because})
	}
	return out, nil
}
