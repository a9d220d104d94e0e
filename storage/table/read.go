package table

import (
	"cmp"
	"errors"
	"io"
	"slices"
	"strings"

	"wakeline/timeline"
)

// Options say how a table is read. The zero value takes a fighter from each row,
// and the default ruleset.
type Options struct {
	Fighter string            // whose moves they are where the row doesn't say
	Map     map[string]string // their heading -> our column, "" to leave the field out; capitals are one with small letters
	SkipBad bool              // leave bad rows out
	Rules   timeline.Ruleset  // what the moves are checked by; the zero value: timeline.DefaultRuleset
	Each    func(Seen) error  // told of each row as it is read; nil: nobody. Its error ends Read with that error and no table
}

// SeenOf is a row while its table is read.
type SeenOf[T any] struct {
	At      Place      // where the row begins
	Columns []string   // of ours, by the cells of Record; empty: left out
	Record  []string   // as the file has it; good until Each returns
	Value   T          // where nothing is bad
	Owner   string     // whose it is
	Bad     []RowError // a cell each
	Notes   []Note
	Done    int64 // bytes of the table that were read
	Of      int64 // bytes of the whole table
}

// RowOf is one move or route of a table.
type RowOf[T any] struct {
	Line    int // of the file, from 1, where the row begins
	Fighter string
	Value   T
}

// TableOf is what was read of a file.
type TableOf[T any] struct {
	Rows    []RowOf[T] // in the file's order
	Bad     []RowError // a heading or cell each, in the file's order
	BadRows int        // how many rows have them
	Notes   []Note     // what was taken for something else than its letters say
}

// What a table of moves is read into.
type (
	Seen  = SeenOf[timeline.Move]
	Row   = RowOf[timeline.Move]
	Table = TableOf[timeline.Move]
)

// Read reads a table. With a bad row it takes nothing: the error is the first
// *RowError, and the table lists all of them and no rows. With SkipBad it
// returns the good rows, lists the bad ones, and there is no error. Bad
// headings are listed likewise, but never skipped. What is no table, or past a
// limit, is a *SyntaxError or another error and no table. Rows with nothing
// in any field are passed over; a header alone is a table without rows.
//
// Read checks each move by itself, and that no fighter has two moves of one
// name here; what else a project holds is left to its own check.
func Read(r io.Reader, o Options) (*Table, error) {
	if o.Rules.Equal(timeline.Ruleset{}) {
		o.Rules = timeline.DefaultRuleset()
	}
	x := &reading{sh: ofMoves, o: common{o.Fighter, o.Map, o.SkipBad}}
	seen := map[[2]string]int{} // the line of a fighter's move
	given := map[string]bool{}
	guessed := assumed{}
	t, err := readInto(x, r, func(r *record) timeline.Move {
		clear(given)
		now := moveRecord{record: r, draft: &draft{given: given}, rules: o.Rules, assumed: guessed}
		if now.read(seen); len(r.bad) > 0 {
			return timeline.Move{}
		}
		return now.Move
	}, o.Each)
	if t != nil {
		t.Notes = append(guessed.notes(), t.Notes...)
	}
	return t, err
}

// readInto reads all rows of a file, each as a value.
func readInto[T any](x *reading, r io.Reader, read func(*record) T, each func(SeenOf[T]) error) (*TableOf[T], error) {
	t := &TableOf[T]{}
	err := x.readBook(r, func(r *record, fits bool) error {
		var v T
		if fits {
			v = read(r)
		}
		if len(r.bad) == 0 {
			t.Rows = append(t.Rows, RowOf[T]{r.line.at.Line, r.owner, v})
		}
		if each == nil {
			return nil
		}
		return each(SeenOf[T]{r.line.at, r.block.columns, r.line.cells, v, r.owner, r.bad, r.notes, r.line.end, x.size})
	})
	if err != nil {
		return nil, err
	}
	t.Bad, t.BadRows, t.Notes = x.bad, x.rows, x.notes
	if len(t.Bad) > 0 && (!x.o.SkipBad || t.BadRows == 0) {
		t.Rows = nil
		return t, &t.Bad[0]
	}
	return t, nil
}

// assumed are what a table was given that doesn't say the kind or the level of
// its moves: a note each, by column.
type assumed map[string]Note

// note keeps the first of a column.
func (a assumed) note(k *block, column, took, why string) {
	if _, ok := a[column]; !ok {
		a[column] = Note{Place{k.at.Sheet, k.at.Line, 0, column, column}, "", took, why}
	}
}

// notes are those there are, in a fixed order.
func (a assumed) notes() (out []Note) {
	for _, column := range []string{timeline.MoveKind, levelColumn} {
		if n, ok := a[column]; ok {
			out = append(out, n)
		}
	}
	return out
}

// moveRecord is a row of a table of moves while it is read.
type moveRecord struct {
	*record
	*draft
	rules   timeline.Ruleset
	assumed assumed
	aside   []aside
}

// aside is what a cell says for another column.
type aside struct {
	taken
	from, cell string
}

// read reads the row's cells, and what they say for other columns.
func (r *moveRecord) read(seen map[[2]string]int) {
	for i := range columns {
		if c := &columns[i]; c.field != nil {
			r.readCell(i, c)
		}
	}
	for _, a := range r.aside {
		r.putAside(a)
	}
	r.fillIn()
	if len(r.bad) > 0 {
		return
	}
	if f := r.finish(r.rules); f != nil {
		r.fail(f.Column, f.Want, f.Got)
		return
	}
	if strings.TrimSpace(r.owner) == "" {
		r.fail(fighterColumn, "the name of a fighter", "nothing")
		return
	}
	if broken := (*timeline.FieldError)(nil); errors.As(timeline.CheckName(nil, r.owner), &broken) {
		r.fail(fighterColumn, broken.Want, broken.Got)
		return
	}
	r.unique(seen, r.Name)
}

// readCell reads the cell of a column, as its field writes it or as others do.
func (r *moveRecord) readCell(i int, c *column) {
	cell, there := r.cell(i)
	if !there {
		return
	}
	if trimmed := strings.TrimSpace(cell); trimmed != "" && !c.isText() && r.block.headings[r.block.order[i]].percent && strings.Trim(trimmed, "0123456789.,") == "" {
		cell = trimmed + " %"
	}
	trimmed := strings.TrimSpace(cell)
	var broken *CellError
	if c.field.IsPart() && trimmed != "" { // half of a pair makes the other half, so it is tried first
		if want := c.try(trimmed); want != "" {
			broken = &CellError{c.name, want, quote(trimmed)}
		}
	}
	if broken == nil {
		if broken = c.take(r.draft, cell); broken == nil {
			return
		}
		c.field.Reset(&r.Move)
	}
	delete(r.given, c.name)
	text, ok := r.foreign(c.traits, trimmed, r.rules, r.first(), func(t taken) { r.aside = append(r.aside, aside{t, c.name, trimmed}) })
	if !ok {
		r.fail(c.name, wanted(broken.Want, trimmed), broken.Got)
		return
	}
	if again := c.take(r.draft, text); again != nil {
		r.fail(c.name, again.Want, quote(trimmed))
	}
}

// first is the move's first active frame as far as it is read, counted from 1;
// 0 where it isn't known.
func (r *moveRecord) first() int {
	if r.Startup == 0 {
		return 0
	}
	return r.FirstActive(r.rules) + 1
}

// putAside puts in what a cell says for another column; where that has a cell
// of its own, both must say the same.
func (r *moveRecord) putAside(a aside) {
	c := columnNamed(a.to)
	if !r.given[c.name] {
		if broken := c.take(r.draft, a.text); broken != nil {
			r.fail(a.from, broken.Want, quote(a.cell))
		}
		return
	}
	if now := c.field.Text(&r.Move); now != a.text {
		r.fail(a.from, "what "+c.name+" says too, "+cmp.Or(now, "nothing"), quote(a.cell))
	}
}

// fillIn gives the kind and the level to a move of a table that says neither.
func (r *moveRecord) fillIn() {
	has := func(name string) bool { return slices.Contains(r.block.columns, name) }
	if !has(timeline.MoveKind) && r.Kind == "" {
		const why = "no column says it: what has active frames is a strike, or a throw by its level"
		switch {
		case r.Level == timeline.LevelThrow || r.Level == timeline.LevelAirThr:
			r.Kind = timeline.Throw
		case r.Startup > 0 || len(r.Active) > 0:
			r.Kind = timeline.Strike
		}
		if r.given[timeline.MoveKind] = r.Kind != ""; r.Kind != "" {
			r.assumed.note(r.block, timeline.MoveKind, "strike or throw", why)
		}
	}
	if !has(levelColumn) && r.Level == "" && r.Kind == timeline.Strike {
		r.Level = timeline.Mid
		r.given[levelColumn] = true
		r.assumed.note(r.block, levelColumn, "mid", "no column says it: either guard stops a mid")
	}
}
