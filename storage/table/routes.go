package table

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"wakeline/timeline"
)

// routeColumn is one column of a table of routes: a field of a route, its steps,
// or the fighter whose it is.
type routeColumn struct {
	name  string
	field *timeline.Field[timeline.Route] // nil: the fighter, or the steps
}

const stepsColumn = "steps"

// routeColumns is every column of a table of routes, in the order of a written
// one: the fighter, the name, the steps, and the rest.
var routeColumns = func() []routeColumn {
	out := []routeColumn{{fighterColumn, nil}}
	for i, f := range timeline.Columns(timeline.RouteFields) {
		out = append(out, routeColumn{f.Column, f})
		if i == 0 {
			out = append(out, routeColumn{stepsColumn, nil})
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

// OfRoutes reports whether headings are those of a table of routes: they have
// its steps, and no kind of a move. mapped is that of Options.
func OfRoutes(headings []string, mapped map[string]string) bool {
	renamed, err := foldMap(mapped)
	if err != nil {
		return false
	}
	has := func(column string) bool {
		return slices.ContainsFunc(headings, func(h string) bool {
			h = strings.ToLower(strings.TrimSpace(h))
			ours, ok := renamed[h]
			return ok && ours == column || !ok && h == column
		})
	}
	return has(stepsColumn) && !has(timeline.MoveKind)
}

// RouteOptions say how a table of routes is read.
type RouteOptions struct {
	Fighter string                              // whose routes they are where the row doesn't say
	Map     map[string]string                   // as that of Options
	SkipBad bool                                // leave bad rows out
	Of      func(name string) *timeline.Fighter // the fighter of that name, whose moves the steps are; nil: there is none
}

// RouteRow is one route of a table.
type RouteRow struct {
	Line    int // of the file, from 1, where the row begins
	Fighter string
	Route   timeline.Route
}

// Routes is what was read of a table of routes.
type Routes struct {
	Rows []RouteRow // in the file's order
	Bad  []RowError // one a bad row, in the file's order
}

// ReadRoutes reads a table of routes, as Read does one of moves: the columns in
// any order, of which name and steps must stand in the header; steps are written
// as timeline.StepsText does. What is wrong is told as Read tells it.
func ReadRoutes(r io.Reader, o RouteOptions) (*Routes, error) {
	s, err := open(r)
	if err != nil {
		return nil, err
	}
	h, bad, err := readRouteHeader(s, o)
	if err != nil {
		return nil, err
	}
	if len(bad) > 0 {
		return &Routes{Bad: bad}, &bad[0]
	}
	t := &Routes{}
	seen := map[[2]string]int{} // the line of a fighter's route
	for n := 0; ; n++ {
		record, err := s.next()
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, err
		}
		if n == MaxRows {
			return nil, &SyntaxError{Line: s.at(0), Character: 1, Want: fmt.Sprintf("at most %d rows", MaxRows), Got: "more"}
		}
		if blank(record) {
			continue
		}
		row, broken := h.row(s, record, o, seen)
		if broken != nil {
			t.Bad = append(t.Bad, *broken)
			continue
		}
		seen[[2]string{row.Fighter, row.Route.Name}] = row.Line
		t.Rows = append(t.Rows, row)
	}
	if len(t.Bad) > 0 && !o.SkipBad {
		t.Rows = nil
		return t, &t.Bad[0]
	}
	return t, nil
}

// routeHeader is the first record of a table of routes.
type routeHeader struct {
	headings []string
	columns  []int // of routeColumns, one a field; -1 for a field that is left out
}

// readRouteHeader reads the first record. bad lists what is wrong with it.
func readRouteHeader(s *source, o RouteOptions) (h *routeHeader, bad []RowError, err error) {
	renamed, err := foldMap(o.Map)
	if err != nil {
		return nil, nil, err
	}
	h = &routeHeader{}
	if h.headings, err = s.headings(); err != nil {
		return nil, nil, err
	}
	for i, heading := range h.headings {
		fail := func(want, got string) {
			bad = append(bad, RowError{Line: s.at(i), Column: i + 1, Heading: cut(heading), Want: want, Got: got})
		}
		name, mapped := renamed[strings.ToLower(heading)]
		if !mapped {
			name = strings.ToLower(heading)
		}
		at := slices.IndexFunc(routeColumns, func(c routeColumn) bool { return c.name == name })
		switch {
		case mapped && name == "":
		case at < 0:
			fail("a heading that is the name of a column of routes, or mapped to one", quote(heading))
		case slices.Contains(h.columns, at):
			fail("each column once", fmt.Sprintf("%s again, as in column %d", name, slices.Index(h.columns, at)+1))
			at = -1
		}
		h.columns = append(h.columns, at)
	}
	for i, c := range routeColumns {
		switch {
		case len(bad) > 0 || slices.Contains(h.columns, i):
		case c.name == stepsColumn, c.field != nil && c.field.Needed(&timeline.Route{}):
			bad = append(bad, RowError{Line: s.at(0), Heading: c.name, Want: "a column of that name", Got: "none"})
		case c.name == fighterColumn && strings.TrimSpace(o.Fighter) == "":
			bad = append(bad, RowError{Line: s.at(0), Heading: c.name, Want: "a column of that name, or a fighter to give the routes to", Got: "neither"})
		}
	}
	return h, bad, nil
}

// row reads one record. seen holds the routes before it.
func (h *routeHeader) row(s *source, record []string, o RouteOptions, seen map[[2]string]int) (RouteRow, *RowError) {
	row := RouteRow{Line: s.at(0), Fighter: o.Fighter}
	if len(record) != len(h.headings) {
		return row, &RowError{Line: row.Line, Column: min(len(record), len(h.headings)) + 1, Want: fmt.Sprintf("%d fields, as in the header", len(h.headings)), Got: fmt.Sprint(len(record))}
	}
	cells := make([]string, len(routeColumns))
	for i, at := range h.columns {
		if len(record[i]) > MaxField {
			return row, h.wrong(s, at, fmt.Sprintf("at most %d KiB in a field", MaxField>>10), fmt.Sprintf("%d bytes", len(record[i])))
		}
		if at >= 0 {
			cells[at] = strings.Clone(record[i])
		}
	}
	if strings.TrimSpace(cells[0]) != "" {
		row.Fighter = cells[0]
	}
	f := o.Of(row.Fighter)
	switch {
	case strings.TrimSpace(row.Fighter) == "":
		return row, h.wrong(s, 0, "the name of a fighter", "nothing")
	case f == nil:
		return row, h.wrong(s, 0, "a fighter that there is, or that is imported too", quote(row.Fighter))
	}
	for at, c := range routeColumns {
		cell := cells[at]
		if c.field == nil || c.field.Kind() != timeline.TextField {
			cell = strings.TrimSpace(cell)
		}
		want, got := "", ""
		switch {
		case c.name == stepsColumn:
			row.Route.Steps, want, got = timeline.ReadSteps(f, cell)
		case c.field == nil:
		case cell == "" && c.field.Needed(&row.Route):
			want, got = c.field.Need(&row.Route), "nothing"
		case cell != "":
			want, got = c.field.SetText(&row.Route, cell), quote(cell)
		}
		if want != "" {
			return row, h.wrong(s, at, want, got)
		}
	}
	broken := (*timeline.FieldError)(nil)
	if errors.As(timeline.CheckRoute(nil, f, &row.Route), &broken) {
		column := timeline.ColumnAt(timeline.RouteFields, broken.Path)
		return row, h.wrong(s, slices.IndexFunc(routeColumns, func(c routeColumn) bool { return c.name == column }), broken.Want, broken.Got)
	}
	if line, ok := seen[[2]string{row.Fighter, row.Route.Name}]; ok {
		return row, h.wrong(s, 1, "a unique name", fmt.Sprintf("%s again, as on line %d", quote(row.Route.Name), line))
	}
	return row, nil
}

// wrong is the error of the record that was read last, in that column of ours.
func (h *routeHeader) wrong(s *source, at int, want, got string) *RowError {
	out := &RowError{Line: s.at(0), Want: want, Got: got}
	if at < 0 {
		return out
	}
	out.Heading = routeColumns[at].name
	if i := slices.Index(h.columns, at); i >= 0 {
		out.Line, out.Column, out.Heading = s.at(i), i+1, cut(h.headings[i])
	}
	return out
}

// WriteRoutes writes the routes of one fighter as a table that ReadRoutes takes
// back to equal routes, in the manner of Write.
func WriteRoutes(w io.Writer, fighter string, routes []timeline.Route) error {
	if len(routes) > MaxRows {
		return fmt.Errorf("expected at most %d routes, got %d", MaxRows, len(routes))
	}
	if strings.TrimSpace(fighter) == "" {
		return fmt.Errorf("expected the name of a fighter, got %s", quote(fighter))
	}
	var out bytes.Buffer
	rows := newRows(&out)
	if err := rows.write(RouteColumns()); err != nil {
		return err
	}
	record := make([]string, len(routeColumns))
	for i := range routes {
		for k, c := range routeColumns {
			switch {
			case c.field != nil:
				record[k] = c.field.Cell(&routes[i])
			case c.name == stepsColumn:
				record[k] = timeline.StepsText(routes[i].Steps)
			default:
				record[k] = fighter
			}
			if err := writable(record[k]); err != nil {
				return fmt.Errorf("routes[%d], %s: %w", i, c.name, err)
			}
		}
		if err := rows.write(record); err != nil {
			return err
		}
		if out.Len() > MaxSize {
			return fmt.Errorf("expected at most %d MiB of table, got more", MaxSize>>20)
		}
	}
	_, err := w.Write(out.Bytes())
	return err
}
