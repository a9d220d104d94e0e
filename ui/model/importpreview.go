package model

import (
	"context"
	"errors"
	"slices"

	"wakeline/storage/importer"
	"wakeline/storage/table"
	"wakeline/timeline"
)

// Preview is what a reading of the table came to.
type Preview struct {
	Columns   []string // of ours that the table has
	Rows      []PreviewRow
	Good, Bad int
	Err       error // why nothing of it can be read
}

// PreviewRow is one row: of a bad one the cells are as the file has them.
type PreviewRow struct {
	Line  int
	Cells []string
	At    int // the column of the bad cell, -1 where it is no cell
	Why   string
}

// How many rows a preview keeps: the first, and bad ones after them.
const (
	previewFirst = 100
	previewBad   = 200
)

// Copy is an intake that another goroutine may read.
func (in *Import) Copy() *Import {
	out := *in
	out.Mapping = map[string]string{}
	for k, v := range in.Mapping {
		out.Mapping[k] = v
	}
	return &out
}

// ours are the columns that the table's headings stand for, in its order;
// empty for one that is left out.
func (in *Import) ours() []string {
	out := make([]string, len(in.Headings))
	for i, h := range in.Headings {
		out[i] = in.columnOf(h)
	}
	return out
}

// Preview reads the table for its preview.
func (in *Import) Preview(ctx context.Context, rules timeline.Ruleset) Preview {
	ours := in.ours()
	columns := []string{table.MoveColumns()[0], FighterColumn}
	for _, name := range table.Columns() {
		if !slices.Contains(columns, name) && slices.Contains(ours, name) {
			columns = append(columns, name)
		}
	}
	out := Preview{Columns: columns}
	kept := 0 // bad rows past the first
	_, err := importer.ReadTable(in.Path, table.Options{Fighter: in.Fighter, Map: in.mapping(), SkipBad: true, Rules: rules, Each: func(s table.Seen) error {
		n := out.Good + out.Bad
		if len(s.Bad) == 0 {
			out.Good++
		} else {
			out.Bad++
		}
		switch {
		case n < previewFirst:
		case len(s.Bad) > 0 && kept < previewBad:
			kept++
		default:
			return ctx.Err()
		}
		row := PreviewRow{Line: s.Line, Cells: make([]string, len(columns)), At: -1}
		if len(s.Bad) == 0 {
			for i, name := range columns {
				row.Cells[i] = s.Owner
				if k := slices.Index(table.MoveColumns(), name); k >= 0 {
					row.Cells[i] = table.Cell(&s.Move, k)
				}
			}
		} else {
			for i, name := range columns {
				if k := slices.Index(ours, name); k >= 0 && k < len(s.Record) {
					row.Cells[i] = s.Record[k]
				}
			}
			if k := s.Bad[0].Column - 1; k >= 0 && k < len(ours) {
				row.At = slices.Index(columns, ours[k])
			} else {
				row.At = slices.Index(columns, s.Bad[0].Heading)
			}
			row.Why = Headings.Replace(s.Bad[0].Error())
		}
		out.Rows = append(out.Rows, row)
		return ctx.Err()
	}})
	if err != nil && !errors.Is(err, context.Canceled) {
		out = Preview{Err: errors.New(Headings.Replace(err.Error()))}
	}
	return out
}
