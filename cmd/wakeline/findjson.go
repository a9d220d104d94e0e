package main

import (
	"math/big"

	"wakeline/timeline"
	"wakeline/timeline/find"
	"wakeline/timeline/words"
)

// The JSON of find; what it means stands in findMore.
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

// verdicts judges an answer against each of its rivals.
func (s *seeker) verdicts(a *find.Answer) (out []verdictText, err error) {
	for _, setup := range a.Setups {
		v, err := words.Judge(s.p.index, setup)
		if err != nil {
			return nil, err
		}
		out = append(out, verdictText{setup.Rival, v.Word, v.Because})
	}
	return out, nil
}

func (s *seeker) resultJSON(r *find.Result) (resultText, error) {
	out := resultText{s.name, r.Advantage, s.q.Most, s.q.Wait, s.q.Gauge, s.hand.Spread, s.hand.Bias, s.hand.Assumed, s.hand.Presses, s.hand.Name,
		r.Count, r.Exact, r.Orders, r.Passed, append([]string{}, r.Because...), r.Limited, []wayText{}, []answerText{}}
	for _, w := range r.Ways {
		out.Ways = append(out.Ways, wayText(w))
	}
	for i := range r.Answers {
		text, err := s.answerJSON(&r.Answers[i])
		if err != nil {
			return out, err
		}
		out.Answers = append(out.Answers, text)
	}
	return out, nil
}

func (s *seeker) answerJSON(a *find.Answer) (answerText, error) {
	verdicts, err := s.verdicts(a)
	setup := &a.Setups[0]
	return answerText{a.Rank, append([]string{}, setup.Fillers...), setup.Delay, setup.Jump, setup.Attack, a.JumpOn,
		a.Chance, a.Spare, a.Gauge, a.Travel, a.Place, a.Orders, a.Why, verdicts}, err
}

func (s *seeker) rowsJSON(rows []find.Row) (rowsText, error) {
	out := rowsText{s.name, []rowText{}}
	for _, r := range rows {
		row := rowText{r.Ender, r.Position, r.Advantage, []cellText{}}
		for _, c := range r.Cells {
			cell := cellText{c.Jump, c.Attack, c.Starts, nil, c.Because, c.Limited}
			if c.Shortest != nil {
				text, err := s.answerJSON(c.Shortest)
				if err != nil {
					return out, err
				}
				cell.Shortest = &text
			}
			row.Cells = append(row.Cells, cell)
		}
		out.Enders = append(out.Enders, row)
	}
	return out, nil
}
