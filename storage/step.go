package storage

import (
	"context"
	"database/sql"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"time"

	"github.com/google/uuid"
)

// Step is an edit in the making: one transaction, and one step of undo. It
// writes rows and notes what they were before. Its methods return the first
// error again once one failed; nothing of a failed step is kept.
type Step struct {
	f      *File
	ctx    context.Context // once it ends, so does the step
	tx     *sql.Tx
	ids    *ids
	prep   map[string]*sql.Stmt
	notes  []note
	seen   map[place]int // where notes has the row
	data   bool          // move data were touched
	lists  bool          // saved lists were
	setups map[int64]bool
	last   map[string]struct{ id, at int64 } // of each table
	// touched are the rows, by table, whose change may break a setup; and
	// removed those of them that are gone.
	touched map[string][]int64
	removed []note
	done    bool // it is on disk
	err     error
}

type place struct {
	table string
	id    int64
}

// note is what a step did to one row.
type note struct {
	place
	before, after *image
}

// Edit runs do as one step named what, such as "delay 3": all of it is on
// disk when Edit returns, or none. The project must keep all rules; where it
// would not, the error says where, and nothing has changed.
func (f *File) Edit(what string, do func(s *Step) error) error {
	return f.EditContext(context.Background(), what, do)
}

// EditContext is Edit for what takes long: where ctx ends before the step is
// on disk, nothing has changed, and the error wraps that of ctx.
func (f *File) EditContext(ctx context.Context, what string, do func(s *Step) error) error {
	if err := f.lockToEdit(); err != nil {
		return err
	}
	defer f.mu.Unlock()
	recorded := false
	err := f.inStep(ctx, func(s *Step) error {
		if err := do(s); err != nil {
			return err
		}
		if s.err != nil {
			return s.err
		}
		if len(s.notes) == 0 {
			return nil
		}
		if err := s.check(); err != nil {
			return err
		}
		recorded = true
		return s.record(what)
	})
	if err != nil {
		return fmt.Errorf("%s: %w", what, describe(err))
	}
	if recorded {
		f.newStep()
	}
	return nil
}

// inStep runs do in a transaction of its own and brings the state in memory
// to what is on disk after it.
func (f *File) inStep(ctx context.Context, do func(s *Step) error) error {
	tx, err := f.db.Begin()
	if err != nil {
		return err
	}
	defer tx.Rollback() // after a commit it does nothing
	s := &Step{f: f, ctx: ctx, tx: tx, ids: &f.ids, prep: map[string]*sql.Stmt{}, seen: map[place]int{}, setups: map[int64]bool{},
		touched: map[string][]int64{}, last: map[string]struct{ id, at int64 }{}}
	defer func() { // a panic of do's comes this way too
		if s.done {
			return
		}
		tx.Rollback()
		if s.data || s.err != nil {
			if f.load(f.db) != nil { // the rolled-back state, which was sound
				f.readOnly = "the file can't be read any more"
			}
		}
	}()
	if err := f.refresh(tx); err != nil {
		return err
	}
	if _, err = tx.Exec("PRAGMA defer_foreign_keys = ON"); err == nil {
		err = do(s)
	}
	if err == nil {
		err = ctx.Err()
	}
	if err == nil {
		err = tx.Commit()
	}
	if s.done = err == nil; s.done {
		f.edited = true
		if s.data {
			f.edition++
		}
	}
	return err
}

// lockToEdit locks mu, once all pages are checked. Where nothing can be edited,
// the error says why, and mu is not locked.
func (f *File) lockToEdit() error {
	return f.lockFor(false)
}

// lockFor is lockToEdit; for answers it locks also where nothing else is taken.
func (f *File) lockFor(answers bool) error {
	f.awaitCheck() // others may read meanwhile
	f.mu.Lock()
	err := f.writable()
	if err == nil && f.answersOnly && !answers {
		err = fmt.Errorf("read-only: %s", AnswersOnly)
	}
	if err != nil {
		f.mu.Unlock()
	}
	return err
}

// writable says why nothing can be edited, where so.
func (f *File) writable() error {
	if err := f.sound(); err != nil {
		return err
	}
	if f.readOnly == "" && !f.inMemory && !f.is.isAt(f.real) {
		f.readOnly, f.gone = ErrGone.Error(), true
	}
	switch {
	case f.gone:
		return fmt.Errorf("read-only: %w", ErrGone)
	case f.readOnly != "":
		return fmt.Errorf("read-only: %s", f.readOnly)
	}
	return nil
}

// statement returns the prepared form of an SQL text. All that a step writes,
// and most of what it reads, goes through here: so it ends here too.
func (s *Step) statement(text string) (*sql.Stmt, error) {
	if err := s.ctx.Err(); err != nil {
		return nil, err
	}
	if p := s.prep[text]; p != nil {
		return p, nil
	}
	p, err := s.tx.Prepare(text)
	if err == nil {
		s.prep[text] = p
	}
	return p, err
}

// read returns the row as it stands, nil where there is none.
func (s *Step) read(at place) (*image, error) {
	rows, err := s.rows(at.table, at.id, columns[at.table])
	if err != nil || len(rows) == 0 {
		return nil, err
	}
	im := &image{Row: rows[0]}
	for _, kid := range hanging(at.table) {
		rows, err := s.rows(kid, at.id, kids[kid])
		if err != nil {
			return nil, err
		}
		if len(rows) > 0 {
			if im.Kids == nil {
				im.Kids = map[string][]row{}
			}
			im.Kids[kid] = rows
		}
	}
	return im, nil
}

func (s *Step) rows(table string, id int64, cols []string) ([]row, error) {
	p, err := s.statement(statementsOf[table].sel)
	if err != nil {
		return nil, err
	}
	got, err := p.Query(id)
	if err != nil {
		return nil, err
	}
	defer got.Close()
	var out []row
	for got.Next() {
		r, err := scanRow(got, cols)
		if err != nil {
			return nil, err
		}
		out = append(out, r)
	}
	return out, got.Err()
}

// write puts the row there, or takes it away where im is nil, and notes it.
// before is what stood there.
func (s *Step) write(at place, before, im *image) error {
	if err := s.setRow(at, before, im); err != nil {
		return err
	}
	if i, ok := s.seen[at]; ok {
		s.notes[i].after = im
		return nil
	}
	s.seen[at] = len(s.notes)
	s.notes = append(s.notes, note{at, before, im})
	return nil
}

// rowsAtOnce is how many rows that hang on another one statement adds.
const rowsAtOnce = 64

// setRow puts the row into the tables, or takes it away where im is nil, without
// a note of it for the history.
func (s *Step) setRow(at place, before, im *image) error {
	for _, kid := range hanging(at.table) {
		if before != nil && len(before.Kids[kid]) > 0 {
			if err := s.exec(statementsOf[kid].del, at.id); err != nil {
				return err
			}
		}
	}
	if im == nil {
		s.noteForCheck(at, before, nil)
		return s.exec(statementsOf[at.table].del, at.id)
	}
	if err := s.exec(statementsOf[at.table].put, append([]any{at.id}, im.Row.values(columns[at.table])...)...); err != nil {
		return err
	}
	for _, kid := range hanging(at.table) {
		put, n := statementsOf[kid].put, 0
		for some := range slices.Chunk(im.Kids[kid], rowsAtOnce) {
			var values []any
			for _, r := range some {
				values = append(append(values, at.id, int64(n)), r.values(kids[kid])...)
				n++
			}
			one := "(?, ?" + strings.Repeat(", ?", len(kids[kid])) + ")"
			if err := s.exec(put+one+strings.Repeat(", "+one, len(some)-1), values...); err != nil {
				return err
			}
		}
	}
	s.noteForCheck(at, before, im)
	return nil
}

func (s *Step) exec(text string, args ...any) error {
	p, err := s.statement(text)
	if err != nil {
		return err
	}
	_, err = p.Exec(args...)
	return err
}

// next is the row number and the place of a new last row of a table.
func (s *Step) next(table string) (id, at int64, err error) {
	last, known := s.last[table]
	if !known {
		ask := "SELECT coalesce(max(id), 0), 0 FROM " + table
		if hasPlace(table) {
			ask = "SELECT coalesce(max(id), 0), (SELECT coalesce(max(place), 0) FROM " + table + ") FROM " + table
		}
		if err := s.tx.QueryRow(ask).Scan(&last.id, &last.at); err != nil {
			return 0, 0, err
		}
	}
	last.id++
	last.at++
	s.last[table] = last
	return last.id, last.at, nil
}

// hasPlace reports whether the rows of a table have an order of their own.
func hasPlace(table string) bool { return slices.Contains(columns[table], "place") }

// put writes a row under its number, or as a new one where id is 0: it keeps
// the row's uid, place and owner, which r leaves out.
func (s *Step) put(table string, id int64, im *image) (int64, error) {
	if s.err != nil {
		return 0, s.err
	}
	var before *image
	var err error
	if id == 0 {
		var at int64
		if id, at, err = s.next(table); err == nil {
			im.Row["place"], im.Row["uid"] = at, newUID()
		}
	} else if before, err = s.read(place{table, id}); err == nil && before != nil {
		im.Row["place"], im.Row["uid"] = before.Row["place"], before.Row["uid"]
	}
	if err == nil {
		keepColumns(im.Row, table)
		if reflect.DeepEqual(before, im) {
			return id, nil
		}
		err = s.write(place{table, id}, before, im)
	}
	s.err = err
	return id, err
}

// newUID names a thing for good; uids sort by age.
func newUID() string { return uuid.Must(uuid.NewV7()).String() }

// keepColumns drops what a table has no column for.
func keepColumns(r row, table string) {
	for c := range r {
		if !slices.Contains(columns[table], c) {
			delete(r, c)
		}
	}
}

// remove takes a row away.
func (s *Step) remove(table string, id int64) error {
	if s.err != nil {
		return s.err
	}
	before, err := s.read(place{table, id})
	if err == nil && before != nil {
		err = s.write(place{table, id}, before, nil)
	}
	s.err = err
	return err
}

// record writes the step into the history; what was undone before it is gone.
func (s *Step) record(what string) error {
	if err := s.exec("DELETE FROM edit WHERE undone = 1"); err != nil {
		return err
	}
	p, err := s.statement("INSERT INTO edit (date, what, undone) VALUES (?, ?, 0)")
	if err != nil {
		return err
	}
	made, err := p.Exec(time.Now().UTC().Format(time.RFC3339), what)
	if err != nil {
		return err
	}
	id, err := made.LastInsertId()
	if err != nil {
		return err
	}
	for i, n := range s.notes {
		before, err := n.before.encode()
		if err != nil {
			return err
		}
		after, err := n.after.encode()
		if err != nil {
			return err
		}
		if err := s.exec("INSERT INTO edit_row (edit, place, in_table, in_row, before, after) VALUES (?, ?, ?, ?, ?, ?)",
			id, i, n.table, n.id, before, after); err != nil {
			return err
		}
	}
	return nil
}
