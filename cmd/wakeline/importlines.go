package main

import (
	"errors"
	"fmt"
	"io"
	"reflect"
	"strings"

	"wakeline/storage/importer"
	"wakeline/timeline"
	"wakeline/timeline/words"
)

// addMap takes one --map. Their heading may hold "=", no column of ours does.
func addMap(maps map[string]string, s string) error {
	i := strings.LastIndex(s, "=")
	if i < 1 {
		return fmt.Errorf("expected a heading, \"=\" and a column, got %q", s)
	}
	theirs, ours := s[:i], s[i+1:]
	if was, ok := maps[theirs]; ok && was != ours {
		return fmt.Errorf("expected one column for %q, got %q and %q", theirs, was, ours)
	}
	maps[theirs] = ours
	return nil
}

// importLine says what a file held.
func importLine(f *importer.File) string {
	if importer.IsText(f.Path) {
		return fmt.Sprintf("%s: %s with %s, %s", f.Path, words.Count(f.Fighters, "fighter"), words.Count(f.Moves, "move"), words.Count(f.Setups, "setup"))
	}
	held := words.Count(f.Moves, "move")
	if f.Routes > 0 {
		held = words.Count(f.Routes, "route")
	}
	line := fmt.Sprintf("%s: %s", f.Path, held)
	const most = 6
	if len(f.Owners) > most {
		line += fmt.Sprintf(" of %d fighters", len(f.Owners))
	} else if len(f.Owners) == 1 {
		line += " of " + ownerWords(f.Owners[0])
	} else {
		for i, o := range f.Owners {
			line += fmt.Sprintf("%s %d of %s", []string{":", ","}[min(i, 1)], o.Rows, ownerWords(o))
		}
	}
	if f.SkippedRows > 0 {
		line += fmt.Sprintf("; %s skipped", words.Count(f.SkippedRows, "row"))
	}
	if len(f.Notes) > 0 {
		line += "; " + words.Count(len(f.Notes), "note")
	}
	return line
}

// importNotes lists what a file's table was taken for where it is not what its
// letters say, and the cells of rows that are left out.
func importNotes(w io.Writer, f *importer.File) {
	const most = 1000
	for i := range f.Notes {
		if i == most {
			fmt.Fprintf(w, "%s: and %s more\n", f.Path, words.Count(len(f.Notes)-most, "note"))
			break
		}
		fmt.Fprintf(w, "%s: %s\n", f.Path, &f.Notes[i])
	}
	for k := range f.Skipped {
		fmt.Fprintf(w, "%s: %v; skipped\n", f.Path, &f.Skipped[k])
	}
}

func ownerWords(o importer.Owner) string {
	if o.New {
		return o.Name + " (new)"
	}
	return o.Name
}

// tableError says what is wrong with a table: its bad headings or cells, the
// first of them, each on a line of its own.
func tableError(err error) error {
	bad := new(importer.BadRows)
	if !errors.As(err, &bad) {
		return err
	}
	const most = 200
	var all []error
	for i := range bad.Rows {
		if i == most {
			all = append(all, fmt.Errorf("%s: and %d more", bad.Path, len(bad.Rows)-most))
			break
		}
		all = append(all, fmt.Errorf("%s: %w", bad.Path, &bad.Rows[i]))
	}
	return fmt.Errorf("%w\nnothing was imported", errors.Join(all...))
}

// changesLine says how many moves, and routes where any did, are new, changed
// and gone.
func changesLine(before, after *timeline.Project, revision string) string {
	var moves, routes changes
	for i := range after.Fighters {
		f := &after.Fighters[i]
		old := before.Fighter(f.Name)
		if old == nil {
			old = &timeline.Fighter{}
		}
		countChanges(&moves, old.Moves, f.Moves, func(m *timeline.Move) string { return m.Name })
		countChanges(&routes, old.Routes, f.Routes, func(r *timeline.Route) string { return r.Name })
	}
	line := "moves: " + moves.String()
	if routes != (changes{}) {
		line += "; routes: " + routes.String()
	}
	if revision != "" {
		line += fmt.Sprintf("; revision %q", revision)
	}
	return line
}

// changes counts what became of things.
type changes struct{ added, changed, gone int }

func (c changes) String() string {
	return fmt.Sprintf("%d new, %d changed, %d gone", c.added, c.changed, c.gone)
}

// countChanges counts what became of the things of a list, by their names.
func countChanges[T any](c *changes, before, after []T, name func(*T) string) {
	was := map[string]*T{}
	for i := range before {
		was[name(&before[i])] = &before[i]
	}
	for i := range after {
		v := was[name(&after[i])]
		delete(was, name(&after[i]))
		if v == nil {
			c.added++
		} else if !reflect.DeepEqual(v, &after[i]) {
			c.changed++
		}
	}
	c.gone += len(was)
}
