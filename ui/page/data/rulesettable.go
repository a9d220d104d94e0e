package data

import (
	"strings"

	"wakeline/timeline"
	"wakeline/ui/model"
)

// rulesetTable are the fields of the ruleset, a row each: a field, its value,
// and what it says.
type rulesetTable struct{ p *timeline.Project }

var rulesetFields = timeline.RulesetFields

// The columns of the ruleset.
const (
	ruleName = iota
	ruleValue
	ruleAbout
)

func (r *rulesetTable) rowWord() string                   { return "ruleset" }
func (r *rulesetTable) len() int                          { return len(rulesetFields) }
func (r *rulesetTable) grows() bool                       { return false }
func (r *rulesetTable) turns(int) bool                    { return false }
func (r *rulesetTable) remove(int) timeline.Edit          { return nil }
func (r *rulesetTable) alone(_, _ int, _ []string) *fault { return nil }

func (r *rulesetTable) columns() []column {
	return []column{{name: "rule", fixed: true}, {name: "value"}, {name: "meaning", fixed: true}}
}

func (r *rulesetTable) cell(row, col int) string {
	switch col {
	case ruleName:
		return rulesetFields[row].Label
	case ruleValue:
		return rulesetFields[row].Text(&r.p.Ruleset)
	}
	return rulesetFields[row].About
}

// read reads the value; an empty one is the default.
func (r *rulesetTable) read(row int, cells []string) (timeline.Edit, *fault) {
	next := r.p.Ruleset
	cell := strings.TrimSpace(cells[ruleValue])
	if cell == "" {
		rulesetFields[row].Reset(&next)
	} else if want := rulesetFields[row].SetText(&next, cell); want != "" {
		return nil, &fault{col: ruleValue, want: want, got: quoteCell(cell)}
	}
	e := timeline.RulesetEdit{Ruleset: next}
	data := r.p.Bare()
	if _, err := data.With(e); err != nil {
		f := faultOf(r, err)
		f.col = ruleValue
		if broken, ok := err.(*timeline.FieldError); ok {
			if thing, _ := model.PathWords(data, broken.Path); thing != "" {
				f.plain = model.ErrorWords(data, err)
			}
		}
		return nil, f
	}
	return e, nil
}
