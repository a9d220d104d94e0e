package model

import (
	"context"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"wakeline/storage"
	"wakeline/storage/importer"
	"wakeline/storage/table"
	"wakeline/timeline"
)

// Import is one file that is taken into a project file, and how.
type Import struct {
	Path     string
	Revision string // that begins with it; empty: none
	Routes   bool   // it is a table of routes, whose headings are our own

	// Of a move table.
	Headings []string
	Size     int64             // of the file, in bytes
	Mapping  map[string]string // of headings, in small letters, to columns of ours
	Fighter  string            // whose moves they are where the table doesn't say
	SkipBad  bool              // leave bad rows out
}

// LeftOut is the mapping of a heading that is not taken.
const LeftOut = ""

// NewImport looks at the file as far as its headings. known are headings that
// were mapped before.
func NewImport(path string, known map[string]string) (*Import, error) {
	in := &Import{Path: path, Mapping: map[string]string{}}
	if !importer.IsTable(path) {
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
	if in.Routes = table.OfRoutes(in.Headings, nil); in.Routes {
		return in, nil
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

// Imported is what was read of the file.
type Imported struct {
	importer.Import
}

// Read reads the file whole; nothing is taken yet. tell is told how much of a
// table was read, in bytes.
func (in *Import) Read(ctx context.Context, data *timeline.Project, tell func(done, of int)) (*Imported, error) {
	out := &Imported{importer.Import{Fighter: in.Fighter, Map: in.mapping(), SkipBad: in.SkipBad,
		Tell: func(done, of int64) { tell(int(done), int(of)) }}}
	if err := out.Import.Read(ctx, data, in.Path); err != nil {
		return nil, err
	}
	return out, nil
}

// mapping is what the headings stand for that are no column of ours.
func (in *Import) mapping() map[string]string {
	out := map[string]string{}
	if in.Routes {
		return out
	}
	for _, h := range in.Strange() {
		out[h] = in.Mapping[strings.ToLower(h)] // what is mapped to nothing is left out
	}
	return out
}

// Store takes what was read into f, as one step. tell is told how many moves
// of a table are stored.
func (in *Import) Store(ctx context.Context, f *storage.File, t *Imported, tell func(done, of int)) error {
	if in.Revision != "" {
		if err := FreshRevision(f, in.Revision); err != nil {
			return err
		}
	}
	return t.Import.Store(ctx, f, "import "+filepath.Base(in.Path), in.Revision, tell)
}

// Summary says what was read, in a line.
func (t *Imported) Summary() string {
	f := &t.Files[0]
	if !importer.IsTable(f.Path) {
		return fmt.Sprintf("%s with %s, %s", CountOf(f.Fighters, "fighter"), CountOf(f.Moves, "move"), CountOf(f.Setups, "setup"))
	}
	out := CountOf(f.Moves, "move")
	if f.Routes > 0 {
		out = CountOf(f.Routes, "route")
	}
	if f.SkippedRows > 0 {
		out += ", " + CountOf(f.SkippedRows, "bad row") + " skipped"
	}
	return out
}

// FreshRevision asks that no revision of f has the name yet.
func FreshRevision(f *storage.File, name string) error {
	free, _, err := f.FreeRevision(name)
	if err == nil && !free {
		err = fmt.Errorf("a revision is called %s already: expected another name", name)
	}
	return err
}
