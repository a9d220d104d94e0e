package ui

import (
	"context"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"wakeline/storage"
	"wakeline/storage/table"
	"wakeline/timeline"
)

// intake is one file that is taken into a project file, and how.
type intake struct {
	path     string
	revision string // that begins with it; empty: none

	// Of a move table.
	headings []string
	size     int64             // of the file, in bytes
	mapping  map[string]string // of headings, in small letters, to columns of ours
	fighter  string            // whose moves they are where the table doesn't say
	skipBad  bool              // leave bad rows out
}

// leftOut is the mapping of a heading that is not taken.
const leftOut = ""

func isTable(path string) bool { return strings.EqualFold(filepath.Ext(path), ".csv") }

// newIntake looks at the file as far as its headings. known are headings that
// were mapped before.
func newIntake(path string, known map[string]string) (*intake, error) {
	in := &intake{path: path, mapping: map[string]string{}}
	if !isTable(path) {
		return in, nil
	}
	f, err := storage.OpenRegular(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil {
		in.size = info.Size()
	}
	if in.headings, err = table.Headings(f); err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	for _, h := range in.strange() {
		key := strings.ToLower(h)
		if ours, ok := known[key]; ok {
			in.mapping[key] = ours
		} else if ours := table.Guess(key); ours != leftOut {
			in.mapping[key] = ours
		}
	}
	return in, nil
}

// strange are the headings that are no column of ours.
func (in *intake) strange() (out []string) {
	for _, h := range in.headings {
		if !slices.Contains(table.Columns(), strings.ToLower(h)) {
			out = append(out, h)
		}
	}
	return out
}

// fighterColumn is the column that says whose a move is.
const fighterColumn = "fighter"

// columnOf is the column of ours that a heading stands for.
func (in *intake) columnOf(heading string) string {
	key := strings.ToLower(heading)
	if ours, mapped := in.mapping[key]; mapped || !slices.Contains(table.Columns(), key) {
		return ours
	}
	return key
}

// saysWhose reports whether the table has a column for the fighter.
func (in *intake) saysWhose() bool {
	return slices.ContainsFunc(in.headings, func(h string) bool { return in.columnOf(h) == fighterColumn })
}

// taken is what an intake has read.
type taken struct {
	text    *timeline.Project // of a project text, else nil
	rows    []table.Row       // of a move table
	skipped []string          // its bad rows
}

// badRows is the error of a table with bad rows, a line each.
type badRows []string

// Error implements error.
func (e badRows) Error() string { return strings.Join(e, "\n") }

// read reads the file whole; nothing is taken yet. tell is told how much of a
// table was read, in bytes.
func (in *intake) read(ctx context.Context, rules timeline.Ruleset, tell func(done, of int)) (*taken, error) {
	if !isTable(in.path) {
		p, err := storage.ReadText(in.path)
		return &taken{text: p}, err
	}
	t, err := in.readTable(rules, func(s table.Seen) error {
		tell(int(s.Done), int(s.Of))
		return ctx.Err()
	})
	if t == nil {
		return nil, err
	}
	out := &taken{rows: t.Rows}
	for i := range t.Bad {
		out.skipped = append(out.skipped, t.Bad[i].Error())
	}
	if err != nil {
		return nil, badRows(out.skipped)
	}
	return out, nil
}

// readTable reads the move table as its headings are mapped.
func (in *intake) readTable(rules timeline.Ruleset, each func(table.Seen) error) (*table.Table, error) {
	f, err := storage.OpenRegular(in.path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	mapping := map[string]string{}
	for _, h := range in.strange() {
		mapping[h] = in.mapping[strings.ToLower(h)] // what is mapped to nothing is left out
	}
	t, err := table.Read(f, table.Options{Fighter: in.fighter, Map: mapping, SkipBad: in.skipBad, Rules: rules, Each: each})
	if t == nil {
		return nil, fmt.Errorf("%s: %w", in.path, err)
	}
	return t, err
}

// mostStored is how many moves are stored at a time, between two words of
// progress.
const mostStored = 500

// store takes what was read into f, as one step. tell is told how many moves
// of a table are stored.
func (in *intake) store(ctx context.Context, f *storage.File, t *taken, tell func(done, of int)) error {
	what := "import " + filepath.Base(in.path)
	if in.revision != "" {
		if err := freshRevision(f, in.revision); err != nil {
			return err
		}
	}
	return f.EditContext(ctx, what, func(s *storage.Step) error {
		if in.revision != "" {
			if err := s.BeginRevision(in.revision, what); err != nil {
				return err
			}
		}
		if t.text != nil {
			if err := s.Take(t.text); err != nil {
				return err
			}
		}
		for rest := t.rows; len(rest) > 0; {
			fighter := rest[0].Fighter
			n := slices.IndexFunc(rest, func(r table.Row) bool { return r.Fighter != fighter })
			if n < 0 {
				n = len(rest)
			}
			moves := make([]timeline.Move, min(n, mostStored))
			for i := range moves {
				moves[i] = rest[i].Move
			}
			if err := s.TakeMoves(fighter, moves); err != nil {
				return err
			}
			rest = rest[len(moves):]
			tell(len(t.rows)-len(rest), len(t.rows))
		}
		return nil
	})
}

// summary says what was read, in a line.
func (t *taken) summary() string {
	if t.text != nil {
		n := 0
		for i := range t.text.Fighters {
			n += len(t.text.Fighters[i].Moves)
		}
		return fmt.Sprintf("%s with %s, %s", countOf(len(t.text.Fighters), "fighter"), countOf(n, "move"), countOf(len(t.text.Setups), "setup"))
	}
	out := countOf(len(t.rows), "move")
	if len(t.skipped) > 0 {
		out += ", " + countOf(len(t.skipped), "bad row") + " skipped"
	}
	return out
}

// freshRevision asks that no revision of f has the name yet.
func freshRevision(f *storage.File, name string) error {
	list, err := f.Revisions()
	if err != nil {
		return err
	}
	for _, r := range list {
		if r.Name == name && (!r.Latest || len(f.Data().Fighters) > 0) {
			return fmt.Errorf("a revision is called %s already: expected another name", name)
		}
	}
	return nil
}
