package storage

import (
	"fmt"
	"strings"

	"wakeline/timeline"
)

// The columns of the tables whose rows are values with a table of fields.
var (
	rulesetFields = timeline.Columns(timeline.RulesetFields)
	fighterFields = timeline.Columns(timeline.FighterFields)
	moveFields    = timeline.Columns(timeline.MoveFields)
	jumpFields    = timeline.Columns(timeline.JumpFields)
	riseFields    = timeline.Columns(timeline.RiseFields)
	routeFields   = timeline.Columns(timeline.RouteFields)
)

// maybe turns an optional number into a column's value.
func maybe(m timeline.Maybe) any {
	if !m.Given {
		return nil
	}
	return int64(m.N)
}

// textOrNull is s, or NULL where s is empty.
func textOrNull(s string) any {
	if s == "" {
		return nil
	}
	return s
}

// maybe, int64 and text read a column back; a column of another type reads as
// nothing, which the check of the whole project then finds.
func (r row) maybe(name string) timeline.Maybe {
	n, ok := r[name].(int64)
	return timeline.Maybe{N: int(n), Given: ok}
}

func (r row) int64(name string) int64 {
	n, _ := r[name].(int64)
	return n
}

func (r row) text(name string) string {
	s, _ := r[name].(string)
	return s
}

// rowOf is v without what only the file knows of it: uid, owner and place.
func rowOf[T any](of []*timeline.Field[T], v *T) row {
	r := make(row, len(of)+3)
	for _, f := range of {
		c := f.Get(v)
		switch f.Kind() {
		case timeline.TextField, timeline.ListField:
			r[f.Stored] = c.Text
		case timeline.WordField:
			r[f.Stored] = textOrNull(c.Text)
		default:
			r[f.Stored] = maybe(c.Maybe)
		}
	}
	return r
}

// valueOf is what the row holds.
func valueOf[T any](of []*timeline.Field[T], r row) (v T, err error) {
	for _, f := range of {
		if want := f.Set(&v, timeline.Content{Maybe: r.maybe(f.Stored), Text: r.text(f.Stored)}); want != "" && err == nil {
			err = fmt.Errorf("%q, %s: expected %s, got %q", r.text("name"), f.Label, want, r.text(f.Stored))
		}
	}
	return v, err
}

// moveOf is the move that the row holds.
func moveOf(r row) (timeline.Move, error) {
	m, err := valueOf(moveFields, r)
	m.ClearUnused()
	return m, err
}

// stored are the columns of a table of values, after those that only the file
// knows of.
func stored[T any](own string, of []*timeline.Field[T]) []string {
	out := strings.Fields(own)
	for _, f := range of {
		out = append(out, f.Stored)
	}
	return out
}
