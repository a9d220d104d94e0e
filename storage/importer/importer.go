// Package importer takes project texts, and tables of moves and of routes, into a
// project file. All
// files are read and laid over one another first, the later over the earlier;
// then everything is stored as one step, or nothing. What a table's headings and
// cells mean is left to package table.
package importer

import (
	"context"
	"slices"
	"strings"

	"wakeline/storage"
	"wakeline/storage/table"
	"wakeline/timeline"
)

// Import is what is read from files, and how move tables among them are read.
// The zero value reads tables with our own headings.
type Import struct {
	Fighter string               // whose moves they are, in a table that doesn't say
	Map     map[string]string    // heading of a table -> column of ours; "" leaves it out
	SkipBad bool                 // leave bad rows of tables out
	Tell    func(done, of int64) // told how many bytes of a table are read; nil: nobody
	Tables  Tables               // opens those that are no files
	Files   []File               // what each file held, once it is read

	text   *timeline.Project // of the project texts; nil where there is none
	rows   []moves           // of fighters that no project text holds
	routes []table.RouteRow  // of tables of routes, each name of a fighter once
}

// File is what one file held.
type File struct {
	Path             string
	Fighters, Setups int // of a project text
	Moves, Routes    int
	Owners           []Owner          // of a table's moves or routes, in the order of their first one
	Skipped          []table.RowError // what is bad in rows of a table that are left out
	SkippedRows      int
	Notes            []table.Note // what a table says in other words

	ofRoutes bool // a table of them
}

// Owner is a fighter of a table.
type Owner struct {
	Name string
	Rows int  // of the table: moves, or routes
	New  bool // neither the project nor a text read before has it
}

// BadRows is the error of a table with bad rows or bad headings.
type BadRows struct {
	Path string
	Rows []table.RowError
}

// Error says what is wrong, a line each.
func (e *BadRows) Error() string {
	lines := make([]string, len(e.Rows))
	for i := range e.Rows {
		lines[i] = e.Rows[i].Error()
	}
	return strings.Join(lines, "\n")
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

// Read reads the files, which are to be imported into a project with that move
// data: the texts first, whose rules the tables keep, but laid over one another
// in their order. A table with bad rows is a *BadRows, unless they are skipped.
func (in *Import) Read(ctx context.Context, data *timeline.Project, files ...string) error {
	texts := make([]*timeline.Project, len(files))
	rules := data.Ruleset
	for i, path := range files {
		if in.Tables.Has(path) {
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
		} else if looked, err := in.Tables.Look(path, in.Map); err != nil {
			return err
		} else if looked.Routes { // read once all moves are
			in.Files = append(in.Files, File{Path: path, ofRoutes: true})
		} else if err := in.readTable(ctx, path, data, rules); err != nil {
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
	return in.readRoutes(ctx, data, rules)
}

// layText lays a project text over what was read before: its fighters and
// setups replace those of their names.
func (in *Import) layText(path string, p *timeline.Project) {
	file := File{Path: path, Fighters: len(p.Fighters), Setups: len(p.Setups)}
	for i := range p.Fighters {
		file.Moves += len(p.Fighters[i].Moves)
		in.rows = slices.DeleteFunc(in.rows, func(m moves) bool { return m.fighter == p.Fighters[i].Name })
	}
	in.Files = append(in.Files, file)
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
func (in *Import) readTable(ctx context.Context, path string, data *timeline.Project, rules timeline.Ruleset) error {
	t, err := in.Tables.Read(path, table.Options{Fighter: in.Fighter, Map: in.Map, SkipBad: in.SkipBad, Rules: rules,
		Each: func(s table.Seen) error {
			if in.Tell != nil {
				in.Tell(s.Done, s.Of)
			}
			return ctx.Err()
		}})
	if t != nil && err != nil {
		return &BadRows{path, t.Bad}
	}
	if err != nil {
		return err
	}
	file := File{Path: path, Moves: len(t.Rows), Skipped: t.Bad, SkippedRows: t.BadRows, Notes: t.Notes}
	for i := range t.Rows {
		r := &t.Rows[i]
		k := slices.IndexFunc(file.Owners, func(o Owner) bool { return o.Name == r.Fighter })
		if k < 0 {
			k = len(file.Owners)
			file.Owners = append(file.Owners, Owner{Name: r.Fighter,
				New: data.Fighter(r.Fighter) == nil && (in.text == nil || in.text.Fighter(r.Fighter) == nil)})
		}
		file.Owners[k].Rows++
		in.put(r)
	}
	in.Files = append(in.Files, file)
	return nil
}

// put lays one row over what was read before.
func (in *Import) put(r *table.Row) {
	i := slices.IndexFunc(in.rows, func(m moves) bool { return m.fighter == r.Fighter })
	if i < 0 {
		i = len(in.rows)
		in.rows = append(in.rows, moves{fighter: r.Fighter, at: map[string]int{}})
	}
	in.rows[i].put(r.Value)
}

// Moves is how many moves there are to store.
func (in *Import) Moves() (n int) {
	n = in.tableMoves()
	if in.text != nil {
		for i := range in.text.Fighters {
			n += len(in.text.Fighters[i].Moves)
		}
	}
	return n
}

// tableMoves is how many of them are of fighters that no project text holds.
func (in *Import) tableMoves() (n int) {
	for i := range in.rows {
		n += len(in.rows[i].list)
	}
	return n
}

// StoredAtOnce is how many moves are stored between two words of progress.
const StoredAtOnce = 500

// Store takes everything into the file, as one step named what; where revision
// isn't empty the move data become a new revision. tell is told how many moves
// of tables are stored; nil: nobody is.
func (in *Import) Store(ctx context.Context, f *storage.File, what, revision string, tell func(done, of int)) error {
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
		done, of := 0, in.tableMoves()
		for i := range in.rows {
			for some := range slices.Chunk(in.rows[i].list, StoredAtOnce) {
				if err := s.TakeMoves(in.rows[i].fighter, some); err != nil {
					return err
				}
				if done += len(some); tell != nil {
					tell(done, of)
				}
			}
		}
		for i := range in.routes {
			if err := s.TakeRoute(in.routes[i].Fighter, &in.routes[i].Value); err != nil {
				return err
			}
		}
		return nil
	})
}
