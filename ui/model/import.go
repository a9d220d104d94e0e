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

// Import is one file, or a pasted table, that is taken into a project file, and
// how.
type Import struct {
	Path     string // of a paste, a name that stands for it
	Revision string // that begins with it; empty: none

	// Of a table.
	Table    bool
	Routes   bool // it is one of routes
	Headings []string
	Owners   bool              // its rows or sheets name fighters
	Size     int64             // in bytes
	Mapping  map[string]string // of headings, in small letters, to columns of ours
	Fighter  string            // whose rows they are where the table doesn't say
	SkipBad  bool              // leave bad rows out

	tables importer.Tables
}

// LeftOut is the mapping of a heading that is not taken.
const LeftOut = ""

// Pasted is the name that stands for a table that was copied.
const Pasted = "the copied table"

// Known says how the headings of a table were mapped before, nil where they
// never were.
type Known func(headings []string) map[string]string

// NewImport looks at the file as far as its headings.
func NewImport(path string, known Known) (*Import, error) {
	in := &Import{Path: path, Table: importer.IsTable(path)}
	if in.Table {
		f, err := storage.OpenRegular(path)
		if err != nil {
			return nil, err
		}
		if info, err := f.Stat(); err == nil {
			in.Size = info.Size()
		}
		f.Close()
	}
	return in, in.look(known)
}

// NewPaste looks at a table that was pasted, likewise.
func NewPaste(text string, known Known) (*Import, error) {
	if strings.TrimSpace(text) == "" {
		return nil, fmt.Errorf("expected a copied table, got no text")
	}
	in := &Import{Path: Pasted, Table: true, Size: int64(len(text)), tables: importer.Tables{Pasted: []byte(text)}}
	return in, in.look(known)
}

// look finds the headings of a table, and what they stand for.
func (in *Import) look(known Known) error {
	in.Mapping = map[string]string{}
	if !in.Table {
		return nil
	}
	looked, err := in.tables.Look(in.Path, nil)
	if err != nil {
		return err
	}
	in.Headings, in.Routes, in.Owners = looked.Headings, looked.Routes, looked.Owners
	var before map[string]string
	if known != nil {
		before = known(in.Headings)
	}
	if !in.Routes && table.OfRoutes(in.Headings, before) {
		in.Routes = true
	}
	for _, h := range in.Strange() {
		key := strings.ToLower(h)
		if ours, ok := before[key]; ok && (ours == LeftOut || slices.Contains(in.Columns(), ours)) {
			in.Mapping[key] = ours
		} else if ours := in.guess(key); ours != LeftOut && !in.taken(ours) {
			in.Mapping[key] = ours
		}
	}
	return nil
}

// Columns are the columns of ours that a heading may stand for.
func (in *Import) Columns() []string {
	if in.Routes {
		return table.RouteColumns()
	}
	return table.Columns()
}

func (in *Import) guess(heading string) string {
	if in.Routes {
		return table.GuessRoute(heading)
	}
	return table.Guess(heading)
}

// taken reports whether a heading stands for the column already.
func (in *Import) taken(column string) bool {
	return slices.ContainsFunc(in.Headings, func(h string) bool { return in.columnOf(h) == column })
}

// Strange are the headings that are no column of ours.
func (in *Import) Strange() (out []string) {
	for _, h := range in.Headings {
		if !slices.Contains(in.Columns(), strings.ToLower(h)) {
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
	if ours, mapped := in.Mapping[key]; mapped || !slices.Contains(in.Columns(), key) {
		return ours
	}
	return key
}

// SaysWhose reports whether the table has a column for the fighter.
func (in *Import) SaysWhose() bool { return in.taken(FighterColumn) }

// Title names what is imported.
func (in *Import) Title() string { return filepath.Base(in.Path) }

// Imported is what was read of the file.
type Imported struct {
	importer.Import
}

// Read reads the file whole; nothing is taken yet. tell is told how much of a
// table was read, in bytes.
func (in *Import) Read(ctx context.Context, data *timeline.Project, tell func(done, of int)) (*Imported, error) {
	out := &Imported{importer.Import{Fighter: in.Fighter, Map: in.mapping(), SkipBad: in.SkipBad, Tables: in.tables,
		Tell: func(done, of int64) { tell(int(done), int(of)) }}}
	if err := out.Import.Read(ctx, data, in.Path); err != nil {
		return nil, err
	}
	return out, nil
}

// mapping is what the headings stand for that are no column of ours.
func (in *Import) mapping() map[string]string {
	out := map[string]string{}
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
	return t.Import.Store(ctx, f, "import "+in.Title(), in.Revision, tell)
}

// Summary says what was read, in a line.
func (t *Imported) Summary() string {
	f := &t.Files[0]
	if importer.IsText(f.Path) {
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
