package table

import (
	"slices"
	"strings"

	"wakeline/timeline"
)

// shape is what a table is of: moves or routes.
type shape struct {
	of     string                       // "moves"
	names  []string                     // of its columns, the fighter first
	also   func(column string) []string // what others call a column
	needed []string                     // the columns that must stand in the header
}

// The columns that are no field, or that more is known of.
const (
	nameColumn  = "name"
	levelColumn = "level"
)

var (
	ofMoves = &shape{"moves", Columns(), func(name string) []string {
		if c := columnNamed(name); c != nil && c.field != nil {
			return c.field.Also
		}
		return fighterWords
	}, []string{nameColumn}}
	ofRoutes = &shape{"routes", RouteColumns(), func(name string) []string {
		switch c := routeColumnNamed(name); {
		case c != nil && c.field != nil:
			return c.field.Also
		case name == stepsColumn:
			return stepsWords
		}
		return fighterWords
	}, []string{nameColumn, stepsColumn}}
)

// OfRoutes reports whether headings are those of a table of routes: they have
// its steps, and nothing that moves alone have. mapped is that of Options.
func OfRoutes(headings []string, mapped map[string]string) bool {
	renamed, err := foldMap(mapped)
	if err != nil {
		return false
	}
	steps := false
	for _, h := range headings {
		name, _, _ := ofRoutes.column(h, renamed)
		steps = steps || name == stepsColumn
		if name, known, _ := ofMoves.column(h, renamed); known && name != "" && !slices.Contains(ofRoutes.names, name) {
			return false
		}
	}
	return steps
}

// routeColumnNamed is the column of that name, nil where there is none.
func routeColumnNamed(name string) *routeColumn {
	i := slices.IndexFunc(routeColumns, func(c routeColumn) bool { return c.name == name })
	if i < 0 {
		return nil
	}
	return &routeColumns[i]
}

// missing lists the needed columns that the header hasn't.
func (sh *shape) missing(has func(string) bool) (out []string) {
	for _, name := range sh.needed {
		if !has(name) {
			out = append(out, name)
		}
	}
	return out
}

// traitsOf is what is to be known of a field to read a cell of it. One that
// others leave out has v to read into.
func traitsOf[T any](f *timeline.Field[T]) *traits {
	return &traits{f.Column, f.Kind(), f.Unit, f.Care, f.Words, f.Knocks, func(text string) string {
		var v T
		return f.SetText(&v, strings.TrimSpace(text))
	}}
}
