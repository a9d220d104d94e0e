package model

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

// Import is one file that is taken into a project file, and how.
type Import struct {
	Path     string
	Revision string // that begins with it; empty: none

	// Of a move table.
	Headings []string
	Size     int64             // of the file, in bytes
	Mapping  map[string]string // of headings, in small letters, to columns of ours
	Fighter  string            // whose moves they are where the table doesn't say
	SkipBad  bool              // leave bad rows out
}

// LeftOut is the mapping of a heading that is not taken.
const LeftOut = ""

func IsTable(path string) bool { return strings.EqualFold(filepath.Ext(path), ".csv") }

// NewImport looks at the file as far as its headings. known are headings that
// were mapped before.
func NewImport(path string, known map[string]string) (*Import, error) {
	in := &Import{Path: path, Mapping: map[string]string{}}
	if !IsTable(path) {
		return in, nil
	}
	f, err := storage.OpenRegular(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil {
		in.Size = info.Size()
	}
	if in.Headings, err = table.Headings(f); err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	for _, h := range in.Strange() {
		key := strings.ToLower(h)
		if ours, ok := known[key]; ok {
			in.Mapping[key] = ours
		} else if ours := table.Guess(key); ours != LeftOut {
			in.Mapping[key] = ours
		}
	}
	return in, nil
}

// Strange are the headings that are no column of ours.
func (in *Import) Strange() (out []string) {
	for _, h := range in.Headings {
		if !slices.Contains(table.Columns(), strings.ToLower(h)) {
			out = append(out, h)
		}
	}
	return out
}

// FighterColumn is the column that says whose a move is.
const FighterColumn = "fighter"

// columnOf is the column of ours that a heading stands for.
func (in *Import) columnOf(heading string) string {
	key := strings.ToLower(heading)
	if ours, mapped := in.Mapping[key]; mapped || !slices.Contains(table.Columns(), key) {
		return ours
	}
	return key
}

// SaysWhose reports whether the table has a column for the fighter.
func (in *Import) SaysWhose() bool {
	return slices.ContainsFunc(in.Headings, func(h string) bool { return in.columnOf(h) == FighterColumn })
}

// Imported is what an intake has read.
type Imported struct {
	text    *timeline.Project // of a project text, else nil
	Rows    []table.Row       // of a move table
	skipped []string          // its bad rows
}

// badRows is the error of a table with bad rows, a line each.
type badRows []string

// Error implements error.
func (e badRows) Error() string { return strings.Join(e, "\n") }

// Read reads the file whole; nothing is taken yet. tell is told how much of a
// table was read, in bytes.
func (in *Import) Read(ctx context.Context, rules timeline.Ruleset, tell func(done, of int)) (*Imported, error) {
	if !IsTable(in.Path) {
		p, err := storage.ReadText(in.Path)
		return &Imported{text: p}, err
	}
	t, err := in.readTable(rules, func(s table.Seen) error {
		tell(int(s.Done), int(s.Of))
		return ctx.Err()
	})
	if t == nil {
		return nil, err
	}
	out := &Imported{Rows: t.Rows}
	for i := range t.Bad {
		out.skipped = append(out.skipped, t.Bad[i].Error())
	}
	if err != nil {
		return nil, badRows(out.skipped)
	}
	return out, nil
}

// readTable reads the move table as its headings are mapped.
func (in *Import) readTable(rules timeline.Ruleset, each func(table.Seen) error) (*table.Table, error) {
	f, err := storage.OpenRegular(in.Path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	mapping := map[string]string{}
	for _, h := range in.Strange() {
		mapping[h] = in.Mapping[strings.ToLower(h)] // what is mapped to nothing is left out
	}
	t, err := table.Read(f, table.Options{Fighter: in.Fighter, Map: mapping, SkipBad: in.SkipBad, Rules: rules, Each: each})
	if t == nil {
		return nil, fmt.Errorf("%s: %w", in.Path, err)
	}
	return t, err
}

// MostStored is how many moves are stored at a time, between two words of
// progress.
const MostStored = 500

// Store takes what was read into f, as one step. tell is told how many moves
// of a table are stored.
func (in *Import) Store(ctx context.Context, f *storage.File, t *Imported, tell func(done, of int)) error {
	what := "import " + filepath.Base(in.Path)
	if in.Revision != "" {
		if err := FreshRevision(f, in.Revision); err != nil {
			return err
		}
	}
	return f.EditContext(ctx, what, func(s *storage.Step) error {
		if in.Revision != "" {
			if err := s.BeginRevision(in.Revision, what); err != nil {
				return err
			}
		}
		if t.text != nil {
			if err := s.Take(t.text); err != nil {
				return err
			}
		}
		for rest := t.Rows; len(rest) > 0; {
			fighter := rest[0].Fighter
			n := slices.IndexFunc(rest, func(r table.Row) bool { return r.Fighter != fighter })
			if n < 0 {
				n = len(rest)
			}
			moves := make([]timeline.Move, min(n, MostStored))
			for i := range moves {
				moves[i] = rest[i].Move
			}
			if err := s.TakeMoves(fighter, moves); err != nil {
				return err
			}
			rest = rest[len(moves):]
			tell(len(t.Rows)-len(rest), len(t.Rows))
		}
		return nil
	})
}

// Summary says what was read, in a line.
func (t *Imported) Summary() string {
	if t.text != nil {
		n := 0
		for i := range t.text.Fighters {
			n += len(t.text.Fighters[i].Moves)
		}
		return fmt.Sprintf("%s with %s, %s", CountOf(len(t.text.Fighters), "fighter"), CountOf(n, "move"), CountOf(len(t.text.Setups), "setup"))
	}
	out := CountOf(len(t.Rows), "move")
	if len(t.skipped) > 0 {
		out += ", " + CountOf(len(t.skipped), "bad row") + " skipped"
	}
	return out
}

// FreshRevision asks that no revision of f has the name yet.
func FreshRevision(f *storage.File, name string) error {
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
