package patch

import (
	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/timeline/value"
)

// Patch lays two states of the move data side by side. It is not changed after
// New; its methods may be called from several goroutines at once.
type Patch struct {
	Before, After *timeline.Project // their setups are not looked at
	Setups        *compare.Comparison
	Parts         []compare.Cause // all that differs
	Routes        []Route         // the named routes that do otherwise

	sides   [2]side
	touched map[string]bool // fighters of which anything differs
	rules   bool            // the ruleset differs
}

// side is one state, ready to weigh mixes.
type side struct {
	project *timeline.Project
	index   *timeline.Index
	book    *value.Book
}

// New lays two states side by side. Both must keep the rules of CheckData.
func New(before, after *timeline.Project) *Patch {
	p := &Patch{Before: before, After: after, Setups: compare.New(before, after), Parts: compare.Parts(before, after), touched: map[string]bool{}}
	for i := range p.Parts {
		if c := &p.Parts[i]; c.Kind == compare.RulesetPart {
			p.rules = true
		} else {
			p.touched[c.Fighter] = true
		}
	}
	p.Routes = routes(before, after)
	for i, of := range []*timeline.Project{before, after} {
		p.sides[i] = side{of, timeline.NewIndex(of), value.NewBook(of)}
	}
	return p
}

// Touches reports whether anything of the two fighters, or of the ruleset,
// differs. Where nothing does, no mix of theirs has moved, unweighed.
func (p *Patch) Touches(attacker, rival string) bool {
	return p.rules || p.touched[attacker] || p.touched[rival]
}

// Sequel is what follows the meeting of an exchange under one state, with both
// gauges full; nil where nothing does.
func (p *Patch) Sequel(after bool, m *timeline.Meetings, e timeline.Exchange) *timeline.Sequel {
	side := &p.sides[0]
	if after {
		side = &p.sides[1]
	}
	return side.book.Sequel(m, value.Gauges{}, e)
}
