package table

import (
	"strings"

	"wakeline/timeline"
)

// Said is what a cell of a pasted row was taken for.
type Said struct {
	Column      string // that it stood in
	Wrote, Took string
	Why         string
}

// Understood reads the cells of a pasted row of moves, which stand in those
// columns, in the writing of others too. It returns them as they are typed: a cell
// that isn't understood as it was, and under the name of another column what a
// cell says for that.
func Understood(names, cells []string, rules timeline.Ruleset) (out []string, aside map[string]string, said []Said) {
	out = append(out, cells...)
	var m timeline.Move
	for i := range columns { // in their order: what a cell means may depend on those before
		c := &columns[i]
		for k, name := range names {
			if name != c.name || c.field == nil || c.isText() || strings.TrimSpace(cells[k]) == "" {
				continue
			}
			cell := strings.TrimSpace(cells[k])
			if c.field.SetText(&m, cell) == "" {
				continue
			}
			c.field.Reset(&m)
			first := 0
			if m.Startup > 0 {
				first = m.FirstActive(rules) + 1
			}
			got, ok := (&foreign{c.traits, cell, rules, first}).understand()
			if !ok {
				continue
			}
			out[k] = ""
			for _, t := range got {
				took := t.text
				if t.to != "" && t.to != c.name {
					took = t.to + " " + t.text
					if aside == nil {
						aside = map[string]string{}
					}
					aside[t.to] = t.text
				} else {
					out[k] = t.text
				}
				if took == "" {
					took = "nothing"
				}
				if t.why != "" {
					said = append(said, Said{c.name, cell, took, t.why})
				}
			}
			if out[k] != "" {
				c.field.SetText(&m, out[k])
			}
		}
	}
	return out, aside, said
}
