package storage

import (
	"context"
	"database/sql"
	"fmt"
	"strings"
)

// smallFile is the size up to which Open checks the pages before it returns; a
// test makes it less.
var smallFile int64 = 32 << 20

// pages is the check of a large file's pages, which goes on after Open.
type pages struct {
	stop context.CancelFunc
	done chan struct{}
	err  error // once done is closed
}

// checkPages has SQLite check every page: at once, or in the background
// where the file is large and later is fine.
func (s *state) checkPages(later bool) error {
	if s.is == nil || s.is.info.Size() <= smallFile || !later {
		return integrity(context.Background(), s.db)
	}
	ctx, stop := context.WithCancel(context.Background())
	p := &pages{stop: stop, done: make(chan struct{})}
	s.pages = p
	real := s.real
	go func() {
		defer close(p.done)
		db, err := openDB(real, "ro")
		if err != nil {
			p.err = err
			return
		}
		defer db.Close()
		p.err = describe(integrity(ctx, db))
	}()
	return nil
}

// sound waits for the check of the pages and returns what it found.
func (s *state) sound() error {
	if s.pages == nil {
		return nil
	}
	<-s.pages.done
	if s.pages.err != nil && s.readOnly == "" {
		s.readOnly = "the file is damaged"
	}
	return s.pages.err
}

// Sound waits for the check of all pages, which Open leaves to the background
// where the file is large, and returns what it found. A list and single setups
// can be read before; what reads everything, and what edits, waits too.
func (f *File) Sound() error {
	f.mu.Lock()
	p := f.pages
	f.mu.Unlock()
	if p == nil {
		return nil
	}
	<-p.done
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.sound()
}

// integrity runs SQLite's own check of the pages, with the indexes: it takes
// hardly longer than its quick one, and sees bytes changed in names.
func integrity(ctx context.Context, db *sql.DB) error {
	found, err := pragmaRows(ctx, db, "integrity_check(5)")
	if err != nil {
		return err
	}
	if len(found) != 1 || found[0] != "ok" {
		return fmt.Errorf("%w: %s", ErrDamaged, strings.Join(found, "; "))
	}
	return nil
}

// pragmaRows returns the columns of each row that a pragma answers, as a line.
func pragmaRows(ctx context.Context, db *sql.DB, pragma string) ([]string, error) {
	rows, err := db.QueryContext(ctx, "PRAGMA "+pragma)
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
