package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"reflect"
	"slices"
	"strings"

	"wakeline/storage"
	"wakeline/storage/table"
	"wakeline/timeline"
)

// intake is what an import reads: the files read and laid over one
// another, the later over the earlier, before anything is stored.
type intake struct {
	fighter string
	maps    map[string]string
	skipBad bool

	text    *timeline.Project // of the project texts; nil where there is none
	rows    []moves           // of fighters that no project text holds
	lines   []string          // of the report, one a file
	skipped []string          // rows that were left out
}

// moves are the moves of one fighter, each name once.
type moves struct {
	fighter string
	list    []timeline.Move
	at      map[string]int // place in list, by name
}

// put adds a move, or replaces the one of its name.
func (m *moves) put(move timeline.Move) {
	if i, ok := m.at[move.Name]; ok {
		m.list[i] = move
		return
	}
	m.at[move.Name] = len(m.list)
	m.list = append(m.list, move)
}

// addMap takes one --map. Their heading may hold "=", no column of ours does.
func (in *intake) addMap(s string) error {
	i := strings.LastIndex(s, "=")
	if i < 1 {
		return fmt.Errorf("expected a heading, \"=\" and a column, got %q", s)
	}
	theirs, ours := s[:i], s[i+1:]
	if was, ok := in.maps[theirs]; ok && was != ours {
		return fmt.Errorf("expected one column for %q, got %q and %q", theirs, was, ours)
	}
	in.maps[theirs] = ours
	return nil
}

// read reads the files: the texts first, whose rules the tables keep, but
// laid over one another in their order.
func (in *intake) read(ctx context.Context, data *timeline.Project, files []string) error {
	texts := make([]*timeline.Project, len(files))
	rules := data.Ruleset
	for i, path := range files {
		if !strings.EqualFold(filepath.Ext(path), ".json") {
			continue
		}
		var err error
		if texts[i], err = storage.ReadText(path); err != nil {
			return err
		}
		rules = texts[i].Ruleset
	}
	for i, path := range files {
		if err := ctx.Err(); err != nil {
			return err
		}
		if texts[i] != nil {
			in.layText(path, texts[i])
		} else if err := in.readTable(path, data, rules); err != nil {
			return err
		}
	}
	if in.text != nil {
		in.rows = slices.DeleteFunc(in.rows, func(m moves) bool {
			f := in.text.Fighter(m.fighter)
			if f != nil {
				f.Moves = lay(f.Moves, m.list, func(m *timeline.Move) string { return m.Name })
			}
			return f != nil
		})
	}
	return nil
}

// layText lays a project text over what was read before: its fighters and
// setups replace those of their names.
func (in *intake) layText(path string, p *timeline.Project) {
	n := 0
	for i := range p.Fighters {
		n += len(p.Fighters[i].Moves)
		in.rows = slices.DeleteFunc(in.rows, func(m moves) bool { return m.fighter == p.Fighters[i].Name })
	}
	in.lines = append(in.lines, fmt.Sprintf("%s: %s with %s, %s", path, count(len(p.Fighters), "fighter"), count(n, "move"), count(len(p.Setups), "setup")))
	if in.text == nil {
		in.text = p
		return
	}
	in.text.Ruleset = p.Ruleset
	in.text.Fighters = lay(in.text.Fighters, p.Fighters, func(f *timeline.Fighter) string { return f.Name })
	in.text.Setups = lay(in.text.Setups, p.Setups, func(s *timeline.Setup) string { return s.Name })
}

// lay puts what is over in the place of what bears the same names under it,
// or at the end.
func lay[T any](under, over []T, name func(*T) string) []T {
	at := make(map[string]int, len(under))
	for i := range under {
		at[name(&under[i])] = i
	}
	for i := range over {
		if k, ok := at[name(&over[i])]; ok {
			under[k] = over[i]
		} else {
			under = append(under, over[i])
		}
	}
	return under
}

// readTable reads a move table and lays it over what was read before.
func (in *intake) readTable(path string, data *timeline.Project, rules timeline.Ruleset) error {
	f, err := storage.OpenRegular(path)
	if err != nil {
		return fmt.Errorf("expected a move table: %w", err)
	}
	defer f.Close()
	t, err := table.Read(f, table.Options{Fighter: in.fighter, Map: in.maps, SkipBad: in.skipBad, Rules: rules})
	if err != nil {
		return tableError(path, t, err)
	}
	for i := range t.Bad {
		in.skipped = append(in.skipped, fmt.Sprintf("%s: %v", path, &t.Bad[i]))
	}
	per := map[string]int{}
	var names []string
	for i := range t.Rows {
		r := &t.Rows[i]
		if per[r.Fighter] == 0 {
			names = append(names, r.Fighter)
		}
		per[r.Fighter]++
		in.put(r)
	}
	line := fmt.Sprintf("%s: %s", path, count(len(t.Rows), "move"))
	const most = 6
	if len(names) > most {
		line += fmt.Sprintf(" of %d fighters", len(names))
		names = nil
	}
	for i, name := range names {
		if per[name] == len(t.Rows) && len(t.Rows) > 0 {
			line += " of " + name
		} else {
			line += fmt.Sprintf("%s %d of %s", []string{":", ","}[min(i, 1)], per[name], name)
		}
		if data.Fighter(name) == nil && (in.text == nil || in.text.Fighter(name) == nil) {
			line += " (new)"
		}
	}
	if len(t.Bad) > 0 {
		line += fmt.Sprintf("; %s skipped", count(len(t.Bad), "row"))
	}
	in.lines = append(in.lines, line)
	return nil
}

// put lays one row over what was read before.
func (in *intake) put(r *table.Row) {
	i := slices.IndexFunc(in.rows, func(m moves) bool { return m.fighter == r.Fighter })
	if i < 0 {
		i = len(in.rows)
		in.rows = append(in.rows, moves{fighter: r.Fighter, at: map[string]int{}})
	}
	in.rows[i].put(r.Move)
}

// tableError says what is wrong with a table: its bad rows, the first of
// them, each on a line of its own.
func tableError(path string, t *table.Table, err error) error {
	if t == nil || len(t.Bad) == 0 {
		return fmt.Errorf("%s: %w", path, err)
	}
	const most = 20
	var all []error
	for i := range t.Bad {
		if i == most {
			all = append(all, fmt.Errorf("%s: and %d more", path, len(t.Bad)-most))
			break
		}
		all = append(all, fmt.Errorf("%s: %w", path, &t.Bad[i]))
	}
	return fmt.Errorf("%w\nnothing was imported", errors.Join(all...))
}

// size is how many moves there are to store.
func (in *intake) size() (n int) {
	for i := range in.rows {
		n += len(in.rows[i].list)
	}
	if in.text != nil {
		for i := range in.text.Fighters {
			n += len(in.text.Fighters[i].Moves)
		}
	}
	return n
}

// store takes everything into the file as one step.
func (in *intake) store(ctx context.Context, f *storage.File, what, revision string) error {
	return f.EditContext(ctx, what, func(s *storage.Step) error {
		if revision != "" {
			if err := s.BeginRevision(revision, what); err != nil {
				return err
			}
		}
		if in.text != nil {
			if err := s.Take(in.text); err != nil {
				return err
			}
		}
		for i := range in.rows {
			if err := s.TakeMoves(in.rows[i].fighter, in.rows[i].list); err != nil {
				return err
			}
		}
		return nil
	})
}

// report says what was imported, and what of it was new.
func (in *intake) report(out io.Writer, before, after *timeline.Project, revision string) error {
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
	last := fmt.Sprintf("moves: %d new, %d changed, %d gone", added, changed, gone)
	if revision != "" {
		last += fmt.Sprintf("; revision %q", revision)
	}
	_, err := fmt.Fprintln(out, strings.Join(append(in.lines, last), "\n"))
	return err
}
