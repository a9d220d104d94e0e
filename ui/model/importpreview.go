package model

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"wakeline/storage/importer"
	"wakeline/storage/table"
	"wakeline/timeline"
)

// Preview is what a reading of the table came to.
type Preview struct {
	Columns   []string // of ours that the table has
	Rows      []PreviewRow
	Good, Bad int // rows
	Unread    []Finding
	Notes     []Finding
	Err       error // why nothing of it can be read
}

// PreviewRow is one row: of a bad one the cells are as the file has them.
type PreviewRow struct {
	Line  int
	Bad   bool
	Cells []string
	At    int // the column of the first bad cell, -1 where it is no cell
	Why   string
	Noted []bool // by columns: a note is about it
	Wrong []bool // it is not understood
}

// Finding is a cell, heading or row that was not understood, or was taken for
// something else than its letters say.
type Finding struct {
	Line    string
	Heading string // its column, empty for a whole row
	Says    string
	Means   string // what was expected, or what was taken
	Why     string
	Row     int // of the preview, -1 where that doesn't show it
	Col     int
}

// How many rows a preview keeps: the first, and bad ones after them; and how many
// findings of each sort.
const (
	previewFirst    = 100
	previewBad      = 200
	previewFindings = 2000
)

// Copy is an import that another goroutine may read.
func (in *Import) Copy() *Import {
	out := *in
	out.Mapping = maps.Clone(in.Mapping)
	return &out
}

// seen is a row of either sort of table.
type seen struct {
	at      table.Place
	columns []string
	record  []string
	cell    func(column string) string // of what the row came to
	bad     []table.RowError
	notes   []table.Note
}

// previewing is a preview while it is made.
type previewing struct {
	Preview
	all   []string // every column of such a table
	seen  []seen
	extra int // bad rows past the first
}

// Preview reads the table for its preview, as a part of a project with those data.
func (in *Import) Preview(ctx context.Context, data *timeline.Project) Preview {
	p := &previewing{all: in.Columns()}
	var err error
	var bad []table.RowError
	var notes []table.Note
	if in.Routes {
		t, failed := in.tables.ReadRoutes(in.Path, table.RouteOptions{Fighter: in.Fighter, Map: in.mapping(), SkipBad: true, Rules: data.Ruleset,
			Of: (&importer.Import{}).Fighters(data), Each: func(s table.RouteSeen) error {
				route, owner := s.Value, s.Owner
				p.add(seen{s.At, s.Columns, slices.Clone(s.Record), func(column string) string {
					if column == FighterColumn {
						return owner
					}
					return table.RouteCell(&route, column)
				}, s.Bad, s.Notes})
				return ctx.Err()
			}})
		if err = failed; t != nil {
			bad, notes = t.Bad, t.Notes
		}
	} else {
		t, failed := in.tables.Read(in.Path, table.Options{Fighter: in.Fighter, Map: in.mapping(), SkipBad: true, Rules: data.Ruleset, Each: func(s table.Seen) error {
			move, owner := s.Value, s.Owner
			p.add(seen{s.At, s.Columns, slices.Clone(s.Record), func(column string) string {
				if k := slices.Index(table.MoveColumns(), column); k >= 0 {
					return table.Cell(&move, k)
				}
				return owner
			}, s.Bad, s.Notes})
			return ctx.Err()
		}})
		if err = failed; t != nil {
			bad, notes = t.Bad, t.Notes
		}
	}
	if err != nil && !errors.Is(err, context.Canceled) {
		p.Preview, p.seen = Preview{Err: errors.New(Headings.Replace(err.Error()))}, nil
	}
	p.lay(in)
	p.find(bad, notes)
	return p.Preview
}

// add keeps a row that the preview shows.
func (p *previewing) add(s seen) {
	n := p.Good + p.Bad
	if len(s.bad) == 0 {
		p.Good++
	} else {
		p.Bad++
	}
	switch {
	case n < previewFirst:
	case len(s.bad) > 0 && p.extra < previewBad:
		p.extra++
	default:
		return
	}
	p.seen = append(p.seen, s)
}

// lay makes the preview's rows of those that were kept: the name and the fighter
// first, then the columns that the table has, or that its cells say something of.
func (p *previewing) lay(in *Import) {
	if p.Err != nil {
		return
	}
	p.Columns = []string{nameColumn, FighterColumn}
	for _, name := range p.all {
		has := in.taken(name) || slices.ContainsFunc(p.seen, func(s seen) bool { return len(s.bad) == 0 && s.cell(name) != "" })
		if !slices.Contains(p.Columns, name) && has {
			p.Columns = append(p.Columns, name)
		}
	}
	for _, s := range p.seen {
		row := PreviewRow{Line: s.at.Line, Bad: len(s.bad) > 0, At: -1, Cells: make([]string, len(p.Columns)), Noted: make([]bool, len(p.Columns)), Wrong: make([]bool, len(p.Columns))}
		for i, name := range p.Columns {
			if len(s.bad) == 0 {
				row.Cells[i] = s.cell(name)
			} else if k := slices.Index(s.columns, name); k >= 0 && k < len(s.record) {
				row.Cells[i] = s.record[k]
			}
		}
		for i := range s.bad {
			if at := slices.Index(p.Columns, s.bad[i].Field); at >= 0 {
				row.Wrong[at] = true
			}
		}
		for i := range s.notes {
			if at := slices.Index(p.Columns, s.notes[i].Field); at >= 0 {
				row.Noted[at] = true
			}
		}
		if len(s.bad) > 0 {
			row.At = slices.Index(p.Columns, s.bad[0].Field)
			row.Why = Headings.Replace(s.bad[0].Error())
		} else if len(s.notes) > 0 {
			row.Why = Headings.Replace(s.notes[0].String())
		}
		p.Rows = append(p.Rows, row)
	}
}

const nameColumn = "name"

// find lists what was not understood, and what was taken for something else.
func (p *previewing) find(bad []table.RowError, notes []table.Note) {
	for i := range bad[:min(len(bad), previewFindings)] {
		b := &bad[i]
		p.Unread = append(p.Unread, p.finding(b.Place, b.Got, "expected "+b.Want, ""))
	}
	for i := range notes[:min(len(notes), previewFindings)] {
		n := &notes[i]
		took := n.Took
		if took == "" {
			took = "left out"
		}
		p.Notes = append(p.Notes, p.finding(n.Place, n.Wrote, took, n.Why))
	}
}

func (p *previewing) finding(at table.Place, says, means, why string) Finding {
	out := Finding{Line: fmt.Sprint(at.Line), Heading: at.Heading, Says: says, Means: Headings.Replace(means), Why: Headings.Replace(why), Row: -1, Col: slices.Index(p.Columns, at.Field)}
	if at.Heading == at.Field {
		out.Heading = Heading(at.Field)
	}
	if at.Sheet != "" {
		out.Line = at.Sheet + " " + out.Line
	}
	out.Says = strings.ReplaceAll(out.Says, "\n", " ")
	out.Row = slices.IndexFunc(p.seen, func(s seen) bool { return s.at.Sheet == at.Sheet && s.at.Line == at.Line })
	return out
}
