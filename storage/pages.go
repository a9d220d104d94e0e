package storage

import (
	"cmp"
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync/atomic"

	"wakeline/storage/guard"
	"wakeline/timeline/words"
)

// smallFile is the size up to which Open checks the pages before it returns; a
// test makes it less.
var smallFile int64 = 32 << 20

// pages is the check of a large file's pages, which goes on after Open.
type pages struct {
	stop    context.CancelFunc
	wait    func() error // for what it finds
	running atomic.Int32 // parts of it that have not ended
}

// checkPages has SQLite check every page and reference: at once, or in the
// background where the file is large and later is fine.
func (s *state) checkPages(later bool) error {
	if s.skipPages && later {
		return nil
	}
	if s.is == nil || s.is.info.Size() <= smallFile || !later {
		return integrity(context.Background(), s.db)
	}
	ctx, stop := context.WithCancel(context.Background())
	real, p := s.real, &pages{stop: stop}
	start := func(find func(ctx context.Context, q querier, most int) ([]string, error)) (wait func() error) {
		p.running.Add(1)
		return guard.Start("The check of the file", func() error {
			defer p.running.Add(-1)
			db, err := openDB(real, "ro")
			if err != nil {
				return err
			}
			defer db.Close()
			return describe(foundDamage(find(ctx, db, fewFound)))
		})
	}
	broken, lost := start(brokenPages), start(lostReferences) // side by side: each reads the file whole
	p.wait = func() error { return cmp.Or(broken(), lost()) }
	s.pages = p
	return nil
}

// sound waits for the check of the pages and returns what it found.
func (s *state) sound() error {
	if s.pages == nil {
		return nil
	}
	err := s.pages.wait()
	if err != nil && s.readOnly == "" {
		s.readOnly = "the file is damaged"
	}
	return err
}

// Sound waits for the check of all pages, which Open leaves to the background
// where the file is large, and returns what it found. A list and single setups
// of a file that is edited can be read before; what reads everything, what
// edits, and what reads a file that is only looked at, waits too.
func (f *File) Sound() error {
	f.awaitCheck()
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.sound()
}

// Checking reports whether the check of all pages still runs: until it ends an
// edit waits.
func (f *File) Checking() bool {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.pages != nil && f.pages.running.Load() > 0
}

// awaitCheck waits for the check of all pages, where one runs.
func (f *File) awaitCheck() {
	f.mu.Lock()
	p := f.pages
	f.mu.Unlock()
	if p != nil {
		p.wait()
	}
}

// integrity runs SQLite's own check of the pages, with the indexes (it takes
// hardly longer than its quick one, and sees bytes changed in names), and its
// check of references.
func integrity(ctx context.Context, q querier) error {
	if err := foundDamage(brokenPages(ctx, q, fewFound)); err != nil {
		return err
	}
	return foundDamage(lostReferences(ctx, q, fewFound))
}

// fewFound is how much of what is wrong an error tells.
const fewFound = 5

// foundDamage is the error of what a check found.
func foundDamage(found []string, err error) error {
	if err == nil && len(found) > 0 {
		err = fmt.Errorf("%w: %s", ErrDamaged, strings.Join(found, "; "))
	}
	return err
}

// brokenPages returns what SQLite finds wrong with the pages, a line each.
func brokenPages(ctx context.Context, q querier, most int) ([]string, error) {
	return integrityRows(ctx, q, fmt.Sprintf("integrity_check(%d)", most))
}

// integrityRows returns what SQLite's check finds wrong, a line each.
func integrityRows(ctx context.Context, q querier, pragma string) (found []string, err error) {
	rows, err := pragmaRows(ctx, q, pragma)
	for _, row := range rows {
		for line := range strings.Lines(row) {
			if line = strings.TrimSpace(line); line != "ok" && line != "*** in database main ***" {
				found = append(found, line)
			}
		}
	}
	return found, err
}

// lostReferences says how many rows of which table refer to a row that isn't
// there, a line a table, and of at most that many rows.
func lostReferences(ctx context.Context, q querier, most int) (found []string, err error) {
	rows, err := q.QueryContext(ctx, `SELECT "table", parent, count(*) FROM (SELECT * FROM pragma_foreign_key_check LIMIT ?) GROUP BY 1, 2`, most)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	for rows.Next() {
		var table, parent string
		var n int
		if err := rows.Scan(&table, &parent, &n); err != nil {
			return nil, err
		}
		found = append(found, fmt.Sprintf("table %s: %s to a row of %s that isn't there", table, words.Count(n, "reference"), parent))
	}
	return found, rows.Err()
}

// checkRows asks for the rows that every file has, and that rows are numbered
// from 1: to this package 0 is no row, and less than 0 a jump.
func checkRows(q querier) error {
	for _, one := range [...]struct{ what, rows string }{{"ruleset", "ruleset"}, {"latest revision", "revision WHERE data IS NULL"}} {
		if n, err := numbers(q, "SELECT count(*) FROM "+one.rows); err != nil {
			return err
		} else if n[0] != 1 {
			return fmt.Errorf("%w: expected one %s, got %d", ErrDamaged, one.what, n[0])
		}
	}
	for _, table := range append(slices.Sorted(maps.Keys(columns)), "edit") {
		low, err := numbers(q, "SELECT id FROM "+table+" WHERE id < 1 LIMIT 1")
		if err != nil {
			return err
		}
		if len(low) > 0 {
			return fmt.Errorf("%w: table %s: expected rows numbered from 1, got %d", ErrDamaged, table, low[0])
		}
	}
	return nil
}

// pragmaRows returns the columns of each row that a pragma answers, as a line.
func pragmaRows(ctx context.Context, q querier, pragma string) ([]string, error) {
	rows, err := q.QueryContext(ctx, "PRAGMA "+pragma)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	cols, err := rows.Columns()
	if err != nil {
		return nil, err
	}
	var out []string
	for rows.Next() {
		r, err := scanRow(rows, cols)
		if err != nil {
			return nil, err
		}
		var parts []string
		for _, v := range r.values(cols) {
			parts = append(parts, fmt.Sprint(v))
		}
		out = append(out, strings.Join(parts, " "))
	}
	return out, rows.Err()
}
