package main

import (
	"errors"
	"fmt"
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
	line := fmt.Sprintf("%s: %s", f.Path, words.Count(f.Moves, "move"))
	const most = 6
	if len(f.Owners) > most {
		line += fmt.Sprintf(" of %d fighters", len(f.Owners))
	} else if len(f.Owners) == 1 {
		line += " of " + ownerWords(f.Owners[0])
	} else {
		for i, o := range f.Owners {
			line += fmt.Sprintf("%s %d of %s", []string{":", ","}[min(i, 1)], o.Moves, ownerWords(o))
		}
	}
	if len(f.Skipped) > 0 {
		line += fmt.Sprintf("; %s skipped", words.Count(len(f.Skipped), "row"))
	}
	return line
}

func ownerWords(o importer.Owner) string {
	if o.New {
		return o.Name + " (new)"
	}
	return o.Name
}

// tableError says what is wrong with a table: its bad rows, the first of
// them, each on a line of its own.
func tableError(err error) error {
	bad := new(importer.BadRows)
	if !errors.As(err, &bad) {
		return err
	}
	const most = 20
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

// changesLine says how many moves are new, changed and gone.
func changesLine(before, after *timeline.Project, revision string) string {
	added, changed, gone := 0, 0, 0
	for i := range after.Fighters {
		f := &after.Fighters[i]
		was := map[string]*timeline.Move{}
		if old := before.Fighter(f.Name); old != nil {
			for k := range old.Moves {
				was[old.Moves[k].Name] = &old.Moves[k]
			}
		}
		for k := range f.Moves {
			m := was[f.Moves[k].Name]
			delete(was, f.Moves[k].Name)
			if m == nil {
				added++
			} else if !reflect.DeepEqual(m, &f.Moves[k]) {
				changed++
			}
		}
		gone += len(was)
	}
	line := fmt.Sprintf("moves: %d new, %d changed, %d gone", added, changed, gone)
	if revision != "" {
		line += fmt.Sprintf("; revision %q", revision)
	}
	return line
}
