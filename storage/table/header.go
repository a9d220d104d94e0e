package table

import (
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"wakeline/timeline"
)

// header is the first record of a table.
type header struct {
	line     int
	headings []string        // as the table has them, bare of the spaces around them
	columns  []*column       // one a field, nil for a field that is left out
	fields   map[string]int  // by column of ours
	given    map[string]bool // of the row that is read
}

// Headings returns the headings of the table, bare of the spaces around them,
// for a dialogue that maps them.
func Headings(r io.Reader) ([]string, error) {
	s, err := open(r)
	if err != nil {
		return nil, err
	}
	return s.headings()
}

func (s *source) headings() ([]string, error) {
	record, err := s.next()
	if err == io.EOF {
		return nil, &SyntaxError{Line: 1, Character: 1, Want: "a header row", Got: "an empty file"}
	}
	if err != nil {
		return nil, err
	}
	out := make([]string, len(record))
	for i, h := range record {
		out[i] = strings.Clone(strings.TrimSpace(h))
	}
	return out, nil
}

// readHeader reads the first record. bad lists what is wrong with it.
func readHeader(s *source, o Options) (h *header, bad []RowError, err error) {
	renamed, err := foldMap(o.Map)
	if err != nil {
		return nil, nil, err
	}
	h = &header{fields: map[string]int{}, given: map[string]bool{}}
	if h.headings, err = s.headings(); err != nil {
		return nil, nil, err
	}
	h.line = s.at(0)
	h.columns = make([]*column, len(h.headings))
	for i, heading := range h.headings {
		fail := func(want, got string) {
			bad = append(bad, RowError{Line: s.at(i), Column: i + 1, Heading: cut(heading), Want: want, Got: got})
		}
		name, mapped := renamed[strings.ToLower(heading)]
		if !mapped {
			name = timeline.ColumnOf(strings.ToLower(heading))
		}
		first, again := h.fields[name]
		c := columnNamed(name)
		switch {
		case mapped && name == "":
		case c == nil && len(h.headings) == 1 && strings.ContainsAny(heading, ";\t"):
			fail("fields separated with commas", quote(heading))
		case c == nil:
			fail("a heading that is the name of a column, or mapped to one", quote(heading))
		case again:
			fail("each column once", fmt.Sprintf("%s again, as in column %d", name, first+1))
		default:
			h.columns[i], h.fields[name] = c, i
		}
	}
	if len(bad) > 0 {
		return h, bad, nil
	}
	for _, c := range columns {
		if _, ok := h.fields[c.name]; !ok && c.field != nil && c.field.Needed(&timeline.Move{}) {
			bad = append(bad, RowError{Line: h.line, Heading: c.name, Want: "a column of that name", Got: "none"})
		}
	}
	if _, ok := h.fields[fighterColumn]; !ok && strings.TrimSpace(o.Fighter) == "" {
		bad = append(bad, RowError{Line: h.line, Heading: fighterColumn, Want: "a column of that name, or a fighter to give the moves to", Got: "neither"})
	}
	return h, bad, nil
}

// foldMap makes the map's headings fit for comparing, and asks that it leads
// to columns.
func foldMap(m map[string]string) (map[string]string, error) {
	out := make(map[string]string, len(m))
	for _, theirs := range slices.Sorted(maps.Keys(m)) {
		key, ours := strings.ToLower(strings.TrimSpace(theirs)), strings.ToLower(strings.TrimSpace(m[theirs]))
		if before, ok := out[key]; ok && before != ours {
			return nil, fmt.Errorf("mapping of %q: expected one column, got %q and %q", theirs, before, ours)
		}
		if ours != "" && columnNamed(ours) == nil && !slices.Contains(RouteColumns(), ours) {
			return nil, fmt.Errorf("mapping of %q: expected one of %s, got %q", theirs, strings.Join(allColumns(), ", "), ours)
		}
		out[key] = ours
	}
	return out, nil
}

// allColumns names the columns of tables of moves, and then those that only
// tables of routes have.
func allColumns() []string {
	out := Columns()
	for _, name := range RouteColumns() {
		if !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	return out
}

// cut shortens a heading that is too long to name a place with.
func cut(heading string) string {
	const most = 40
	if r := []rune(heading); len(r) > most {
		return string(r[:most]) + "..."
	}
	return heading
}
