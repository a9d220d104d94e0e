package ui

import (
	"context"
	"errors"
	"slices"
	"wakeline/storage/table"
	"wakeline/timeline"
)

// previewOf is what a reading of the table came to.
type previewOf struct {
	columns   []string // of ours that the table has
	rows      []previewRow
	good, bad int
	err       error // why nothing of it can be read
}

// previewRow is one row: of a bad one the cells are as the file has them.
type previewRow struct {
	line  int
	cells []string
	at    int // the column of the bad cell, -1 where it is no cell
	why   string
}

// How many rows a preview keeps: the first, and bad ones after them.
const (
	previewFirst = 100
	previewBad   = 200
)

// copy is an intake that another goroutine may read.
func (in *intake) copy() *intake {
	out := *in
	out.mapping = map[string]string{}
	for k, v := range in.mapping {
		out.mapping[k] = v
	}
	return &out
}

// ours are the columns that the table's headings stand for, in its order;
// empty for one that is left out.
func (in *intake) ours() []string {
	out := make([]string, len(in.headings))
	for i, h := range in.headings {
		out[i] = in.columnOf(h)
	}
	return out
}

// preview reads the table for its preview.
func (in *intake) preview(ctx context.Context, rules timeline.Ruleset) previewOf {
	in.skipBad = true
	ours := in.ours()
	columns := []string{table.MoveColumns()[0], fighterColumn}
	for _, name := range table.Columns() {
		if !slices.Contains(columns, name) && slices.Contains(ours, name) {
			columns = append(columns, name)
		}
	}
	out := previewOf{columns: columns}
	kept := 0 // bad rows past the first
	_, err := in.readTable(rules, func(s table.Seen) error {
		n := out.good + out.bad
		if s.Bad == nil {
			out.good++
		} else {
			out.bad++
		}
		switch {
		case n < previewFirst:
		case s.Bad != nil && kept < previewBad:
			kept++
		default:
			return ctx.Err()
		}
		row := previewRow{line: s.Line, cells: make([]string, len(columns)), at: -1}
		if s.Bad == nil {
			for i, name := range columns {
				row.cells[i] = s.Owner
				if k := slices.Index(table.MoveColumns(), name); k >= 0 {
					row.cells[i] = table.Cell(&s.Move, k)
				}
			}
		} else {
			for i, name := range columns {
				if k := slices.Index(ours, name); k >= 0 && k < len(s.Record) {
					row.cells[i] = s.Record[k]
				}
			}
			if k := s.Bad.Column - 1; k >= 0 && k < len(ours) {
				row.at = slices.Index(columns, ours[k])
			} else {
				row.at = slices.Index(columns, s.Bad.Heading)
			}
			row.why = headings.Replace(s.Bad.Error())
		}
		out.rows = append(out.rows, row)
		return ctx.Err()
	})
	if err != nil && !errors.Is(err, context.Canceled) {
		out = previewOf{err: errors.New(headings.Replace(err.Error()))}
	}
	return out
}
