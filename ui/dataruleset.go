package ui

import (
	"fmt"
	"strconv"
	"strings"

	"wakeline/storage/table"
	"wakeline/timeline"
)

// rulesetRows are the fields of the ruleset, a row each: a field, its value,
// and what it says.
type rulesetRows struct{ p *timeline.Project }

// rule is one field of the ruleset: as files call it, and as it is read.
type rule struct {
	field, name, about string
	read               func(r *timeline.Ruleset, cell string) (want string)
	write              func(r *timeline.Ruleset) string
}

var rulesetFields = []rule{
	{"rate", "Frames per second", "such as 60, or 60/1", func(r *timeline.Ruleset, cell string) string {
		num, den, given := strings.Cut(cell, "/")
		if !given {
			den = "1"
		}
		var ok1, ok2 bool
		r.Rate.Num, ok1 = table.ReadWhole(num)
		r.Rate.Den, ok2 = table.ReadWhole(den)
		if !ok1 || !ok2 {
			return "a number such as 60, or 60/1"
		}
		return ""
	}, func(r *timeline.Ruleset) string { return fmt.Sprintf("%d/%d", r.Rate.Num, r.Rate.Den) }},
	ruleFlag("startup_counts_first_active", "Startup includes first active frame", "yes: with a startup of 5 the fifth frame is the first active one; no: the sixth",
		func(r *timeline.Ruleset) *bool { return &r.StartupCountsFirstActive }),
	ruleNumber("throw_grace_rise", "Throw immunity after wake-up", "frames after the wake-up on which no throw connects", func(r *timeline.Ruleset) *int { return &r.ThrowGraceRise }),
	ruleNumber("throw_grace_landing", "Throw immunity on landing", "frames after a touchdown on which no throw connects", func(r *timeline.Ruleset) *int { return &r.ThrowGraceLanding }),
	ruleFlag("prejump_throw_proof", "Prejump immune to throws", "yes: a throw misses prejump frames", func(r *timeline.Ruleset) *bool { return &r.PrejumpThrowProof }),
	ruleNumber("buffer", "Buffer", "frames an input may come early and still act on the first possible frame", func(r *timeline.Ruleset) *int { return &r.Buffer }),
	ruleFlag("trades", "Strikes trade", "yes: two strikes on one frame hit both sides; no: the attacker's wins", func(r *timeline.Ruleset) *bool { return &r.Trades }),
	ruleNumber("health", "Health", "points of full health", func(r *timeline.Ruleset) *int { return &r.Health }),
	ruleNumber("gauge", "Gauge", "segments of a full gauge", func(r *timeline.Ruleset) *int { return &r.Gauge }),
}

func ruleFlag(field, name, about string, at func(r *timeline.Ruleset) *bool) rule {
	return rule{field, name, about, func(r *timeline.Ruleset, cell string) string {
		value, ok := table.ReadFlag(cell)
		if *at(r) = value; !ok {
			return "yes or no"
		}
		return ""
	}, func(r *timeline.Ruleset) string {
		if *at(r) {
			return "yes"
		}
		return "no"
	}}
}

func ruleNumber(field, name, about string, at func(r *timeline.Ruleset) *int) rule {
	return rule{field, name, about, func(r *timeline.Ruleset, cell string) string {
		n, ok := table.ReadWhole(cell)
		if *at(r) = n; !ok {
			return wantWhole
		}
		return ""
	}, func(r *timeline.Ruleset) string { return strconv.Itoa(*at(r)) }}
}

// The columns of the ruleset.
const (
	ruleName = iota
	ruleValue
	ruleAbout
)

func (r *rulesetRows) thing() string                     { return "ruleset" }
func (r *rulesetRows) len() int                          { return len(rulesetFields) }
func (r *rulesetRows) grows() bool                       { return false }
func (r *rulesetRows) turns(int) bool                    { return false }
func (r *rulesetRows) remove(int) timeline.Edit          { return nil }
func (r *rulesetRows) alone(_, _ int, _ []string) *fault { return nil }

func (r *rulesetRows) columns() []column {
	return []column{{name: "rule", fixed: true}, {name: "value"}, {name: "meaning", fixed: true}}
}

func (r *rulesetRows) cell(row, col int) string {
	switch col {
	case ruleName:
		return rulesetFields[row].name
	case ruleValue:
		return rulesetFields[row].write(&r.p.Ruleset)
	}
	return rulesetFields[row].about
}

// read reads the value; an empty one is the default.
func (r *rulesetRows) read(row int, cells []string) (timeline.Edit, *fault) {
	next := r.p.Ruleset
	cell := strings.TrimSpace(cells[ruleValue])
	if cell == "" {
		standard := timeline.DefaultRuleset()
		cell = rulesetFields[row].write(&standard)
	}
	if want := rulesetFields[row].read(&next, cell); want != "" {
		return nil, &fault{col: ruleValue, want: want, got: quoteCell(cell)}
	}
	e := timeline.RulesetEdit{Ruleset: next}
	data := r.p.Bare()
	if _, err := data.With(e); err != nil {
		f := faultOf(r, err)
		f.col = ruleValue
		if broken, ok := err.(*timeline.FieldError); ok {
			if thing, _ := pathWords(data, broken.Path); thing != "" {
				f.plain = errorWords(data, err)
			}
		}
		return nil, f
	}
	return e, nil
}
