package table

import (
	"slices"
	"strings"

	"wakeline/timeline"
)

// column is one column of a table: a field of a move, or the fighter whose it
// is.
type column struct {
	name  string
	field *timeline.Field[timeline.Move] // nil: the fighter
	*traits
}

const fighterColumn = "fighter"

// columns is every column in the order of a written table. The fighter is
// the caller's to write.
var columns = func() []column {
	out := []column{{fighterColumn, nil, &traits{column: fighterColumn}}}
	for _, f := range timeline.Columns(timeline.MoveFields) {
		out = append(out, column{f.Column, f, traitsOf(f)})
	}
	return out
}()

// Columns returns the names of every column, in the order of a written table.
func Columns() []string {
	out := make([]string, len(columns))
	for i, c := range columns {
		out[i] = c.name
	}
	return out
}

func columnNamed(name string) *column {
	i := slices.IndexFunc(columns, func(c column) bool { return c.name == name })
	if i < 0 {
		return nil
	}
	return &columns[i]
}

// isText reports whether the column is kept to the letter, spaces and all.
func (c *column) isText() bool { return c.field == nil || c.field.Kind() == timeline.TextField }

// take reads a cell as it stands in its field.
func (c *column) take(d *draft, cell string) *CellError {
	if c.isText() {
		cell = strings.Clone(cell) // what it was cut out of goes
	} else {
		cell = strings.TrimSpace(cell)
	}
	if cell == "" {
		return nil
	}
	if c.field == nil {
		d.fighter = cell
		return nil
	}
	d.given[c.name] = true
	if want := c.field.SetText(&d.Move, cell); want != "" {
		return &CellError{c.name, want, quote(cell)}
	}
	return nil
}
