package table

import (
	"errors"
	"io"
	"strings"

	"wakeline/timeline"
)

// routeColumn is one column of a table of routes: a field of a route, its steps,
// or the fighter whose it is.
type routeColumn struct {
	name  string
	field *timeline.Field[timeline.Route] // nil: the fighter, or the steps
	*traits
}

const stepsColumn = "steps"

// routeColumns is every column of a table of routes, in the order of a written
// one: the fighter, the name, the steps, and the rest.
var routeColumns = func() []routeColumn {
	out := []routeColumn{{fighterColumn, nil, nil}}
	for i, f := range timeline.Columns(timeline.RouteFields) {
		out = append(out, routeColumn{f.Column, f, traitsOf(f)})
		if i == 0 {
			out = append(out, routeColumn{stepsColumn, nil, nil})
		}
	}
	return out
}()

// RouteColumns returns the names of every column of a table of routes, in the
// order of a written one.
func RouteColumns() []string {
	out := make([]string, len(routeColumns))
	for i, c := range routeColumns {
		out[i] = c.name
	}
	return out
}

// RouteOptions say how a table of routes is read.
type RouteOptions struct {
	Fighter string                              // whose routes they are where the row doesn't say
	Map     map[string]string                   // as that of Options
	SkipBad bool                                // leave bad rows out
	Of      func(name string) *timeline.Fighter // the fighter of that name, whose moves the steps are; nil: there is none
	Rules   timeline.Ruleset                    // what percents are parts of; the zero value: timeline.DefaultRuleset
	Each    func(RouteSeen) error               // told of each row as it is read; nil: nobody. Its error ends ReadRoutes
}

// What a table of routes is read into.
type (
	RouteSeen = SeenOf[timeline.Route]
	RouteRow  = RowOf[timeline.Route]
	Routes    = TableOf[timeline.Route]
)

// ReadRoutes reads a table of routes, as Read does one of moves: the columns in
// any order, of which name and steps must stand in the header; steps are written
// as timeline.StepsText does. What is wrong is told as Read tells it.
func ReadRoutes(r io.Reader, o RouteOptions) (*Routes, error) {
	if o.Rules.Equal(timeline.Ruleset{}) {
		o.Rules = timeline.DefaultRuleset()
	}
	x := &reading{sh: ofRoutes, o: common{o.Fighter, o.Map, o.SkipBad}}
	seen := map[[2]string]int{} // the line of a fighter's route
	return readInto(x, r, func(r *record) timeline.Route {
		now := routeRecord{record: r, rules: o.Rules}
		now.read(o.Of, seen)
		return now.route
	}, o.Each)
}

// routeRecord is a row of a table of routes while it is read.
type routeRecord struct {
	*record
	route timeline.Route
	rules timeline.Ruleset
}

// read reads the row's cells, of a fighter that there must be.
func (r *routeRecord) read(of func(name string) *timeline.Fighter, seen map[[2]string]int) {
	f := of(r.owner)
	switch {
	case strings.TrimSpace(r.owner) == "":
		r.fail(fighterColumn, "the name of a fighter", "nothing")
		return
	case f == nil:
		r.fail(fighterColumn, "a fighter that there is, or that is imported too", quote(r.owner))
		return
	}
	for i := range routeColumns {
		r.readCell(i, &routeColumns[i], f)
	}
	if len(r.bad) > 0 {
		return
	}
	broken := (*timeline.FieldError)(nil)
	if errors.As(timeline.CheckRoute(nil, f, &r.route), &broken) {
		r.fail(timeline.ColumnAt(timeline.RouteFields, broken.Path), broken.Want, broken.Got)
		return
	}
	r.unique(seen, r.route.Name)
}

func (r *routeRecord) readCell(i int, c *routeColumn, f *timeline.Fighter) {
	cell, _ := r.cell(i)
	cell = strings.Clone(cell)
	if c.field == nil || c.field.Kind() != timeline.TextField {
		cell = strings.TrimSpace(cell)
	}
	want, got := "", quote(cell)
	switch {
	case c.name == stepsColumn:
		r.route.Steps, want, got = timeline.ReadSteps(f, cell)
	case c.field == nil:
	case cell == "" && c.field.Needed(&r.route):
		want = c.field.Need(&r.route)
	case cell != "":
		if want = c.field.SetText(&r.route, cell); want == "" {
			break
		}
		c.field.Reset(&r.route)
		if text, ok := r.foreign(c.traits, cell, r.rules, 0, nil); ok {
			if want = ""; text != "" {
				want = c.field.SetText(&r.route, text)
			}
		} else {
			want = wanted(want, cell)
		}
	}
	if want != "" {
		r.fail(c.name, want, got)
	}
}

// WriteRoutes writes the routes of one fighter as a table that ReadRoutes takes
// back to equal routes, in the manner of Write.
func WriteRoutes(w io.Writer, fighter string, routes []timeline.Route) error {
	return write(w, "routes", fighter, RouteColumns(), len(routes), func(i, k int) string {
		if routeColumns[k].name == fighterColumn {
			return fighter
		}
		return RouteCell(&routes[i], routeColumns[k].name)
	})
}

// RouteCell writes one cell of a route, by the name of its column; empty for the
// fighter's.
func RouteCell(r *timeline.Route, column string) string {
	switch c := routeColumnNamed(column); {
	case c != nil && c.field != nil:
		return c.field.Cell(r)
	case column == stepsColumn:
		return timeline.StepsText(r.Steps)
	}
	return ""
}
