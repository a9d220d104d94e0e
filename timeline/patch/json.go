package patch

import (
	"encoding/json"
	"io"
	"math/big"

	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/timeline/value"
	"wakeline/timeline/value/report"
)

// The JSON of a comparison; the command's help says what it means.
type (
	dayText struct {
		From      string       `json:"from"`
		To        string       `json:"to"`
		Changed   []changeText `json:"changed"`
		Unchanged int          `json:"unchanged"`
		Answer    string       `json:"answer"`
		Data      []causeText  `json:"data"`
		Routes    []routeText  `json:"routes"`
		Mixes     []movedText  `json:"mixes"`
	}
	changeText struct {
		Setup    string      `json:"setup"`
		Before   stateText   `json:"before"`
		After    stateText   `json:"after"`
		Because  string      `json:"because"`
		Together bool        `json:"together"`
		Moves    []causeText `json:"moves"`
	}
	stateText struct {
		Verdict   *timeline.Word    `json:"verdict"`
		Window    []timeline.Bounds `json:"window"`
		Uncovered []string          `json:"uncovered"`
		Reason    *string           `json:"reason"`
	}
	causeText struct {
		Kind    string      `json:"kind"`
		Fighter *string     `json:"fighter"`
		Name    *string     `json:"name"`
		State   string      `json:"state"`
		Fields  []fieldText `json:"fields"`
	}
	fieldText struct {
		Field  string `json:"field"`
		Before string `json:"before"`
		After  string `json:"after"`
	}
	routeText struct {
		Fighter string      `json:"fighter"`
		Name    string      `json:"name"`
		State   RouteKind   `json:"state"`
		Before  *workedText `json:"before"`
		After   *workedText `json:"after"`
	}
	workedText struct {
		Steps   string `json:"steps"`
		Links   bool   `json:"links"`
		Counts  bool   `json:"counts"`
		Margins []*int `json:"margins"`
		Damage  int    `json:"damage"`
		Cost    int    `json:"cost"`
		Gain    int    `json:"gain"`
		Needs   *int   `json:"needs"`
	}
	movedText struct {
		Attacker string            `json:"attacker"`
		Rival    string            `json:"rival"`
		Ender    string            `json:"ender"`
		Position timeline.Position `json:"position"`
		Before   weighedText       `json:"before"`
		After    weighedText       `json:"after"`
	}
	weighedText struct {
		Value  any         `json:"value"`
		Exact  bool        `json:"exact"`
		Reason *string     `json:"reason"`
		Rows   []shareText `json:"rows"`
	}
	shareText struct {
		Setup string `json:"setup"`
		Share any    `json:"share"`
	}
)

// JSON writes what changed from one revision to another as one document.
func (d *Day) JSON(to io.Writer, from, until string) error {
	doc := dayText{from, until, []changeText{}, d.Unchanged, d.Answer(), causesJSON(d.Parts), []routeText{}, []movedText{}}
	for i := range d.Setups {
		doc.Changed = append(doc.Changed, changeJSON(&d.Setups[i]))
	}
	for i := range d.Routes {
		r := &d.Routes[i]
		doc.Routes = append(doc.Routes, routeText{r.Fighter, r.Name, r.Kind, workedJSON(r.Before), workedJSON(r.After)})
	}
	for i := range d.Mixes {
		m := &d.Mixes[i]
		doc.Mixes = append(doc.Mixes, movedText{m.Attacker, m.Rival, m.Ender, m.Position, weighedJSON(&m.Before), weighedJSON(&m.After)})
	}
	enc := json.NewEncoder(to)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", " ")
	return enc.Encode(doc)
}

func changeJSON(c *compare.Change) changeText {
	return changeText{Setup: c.Setup, Before: stateJSON(&c.Before), After: stateJSON(&c.After), Because: c.Because, Together: c.Together, Moves: causesJSON(c.By)}
}

func causesJSON(of []compare.Cause) []causeText {
	out := []causeText{}
	for _, by := range of {
		text := causeText{Kind: string(by.Kind), Fighter: orNull(by.Fighter), Name: orNull(by.Name), State: "changed", Fields: []fieldText{}}
		if by.Jump {
			text.Kind = "jump"
		}
		switch {
		case by.New:
			text.State = "new"
		case by.Gone:
			text.State = "gone"
		}
		for _, f := range by.Fields {
			text.Fields = append(text.Fields, fieldText{f.Field, f.Before, f.After})
		}
		out = append(out, text)
	}
	return out
}

func stateJSON(s *compare.State) stateText {
	if !s.Judged() {
		return stateText{Window: []timeline.Bounds{}, Uncovered: []string{}, Reason: &s.Reason}
	}
	return stateText{Verdict: &s.Word, Window: s.Window, Uncovered: s.Uncovered}
}

func workedJSON(s *RouteState) *workedText {
	if s == nil {
		return nil
	}
	out := &workedText{Steps: timeline.StepsText(s.Steps), Links: s.Links, Counts: s.Counts, Margins: []*int{},
		Damage: s.Damage, Cost: s.Cost, Gain: s.Gain, Needs: numberOrNull(s.Needs())}
	for _, m := range s.Margins {
		out.Margins = append(out.Margins, numberOrNull(m))
	}
	return out
}

func weighedJSON(s *MixState) weighedText {
	if s.Mix == nil {
		return weighedText{Reason: &s.Because, Rows: []shareText{}}
	}
	number := func(r *big.Rat) any { return mixNumber(s.Mix, r) }
	out := weighedText{Value: number(s.Mix.Value), Exact: s.Mix.Exact}
	for i := range s.Mix.Rows {
		out.Rows = append(out.Rows, shareText{s.Mix.Rows[i].Setup, number(s.Mix.Rows[i].Share)})
	}
	return out
}

// mixNumber is an exact number as a text, another as a number.
func mixNumber(m *value.Mix, r *big.Rat) any {
	told := report.Mix{Mix: m}
	if m.Exact {
		return told.Number(r)
	}
	return json.Number(told.Number(r))
}

func numberOrNull(m timeline.Maybe) *int {
	if !m.Given {
		return nil
	}
	return &m.N
}

func orNull(s string) *string {
	if s == "" {
		return nil
	}
	return &s
}
