package storage

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	sqlite3 "github.com/mattn/go-sqlite3"
)

// Close ends the file's use. Everything is on disk already.
func (f *File) Close() error {
	f.mu.Lock()
	defer f.mu.Unlock()
	var err error
	if f.db != nil {
		err = f.db.Close()
	}
	if f.lock != nil {
		if f.lock.Locked() {
			os.Remove(f.lock.Path()) // while it is held, so that nobody's is removed
		}
		err = errors.Join(err, f.lock.Unlock())
	}
	return err
}

// TakeOver makes a file editable that another window had, where that one has
// ended since: it answers with an error that says why not, where not.
func (f *File) TakeOver() error {
	f.mu.Lock()
	if f.readOnly == "" {
		f.mu.Unlock()
		return nil
	}
	f.mu.Unlock()
	fresh, err := Open(f.path)
	if err != nil {
		return err
	}
	if fresh.readOnly != "" {
		fresh.Close()
		return fmt.Errorf("read-only: %s", fresh.readOnly)
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	old, oldLock := f.db, f.lock
	f.db, f.lock, f.readOnly, f.data, f.ids = fresh.db, fresh.lock, "", fresh.data, fresh.ids
	return errors.Join(old.Close(), oldLock.Unlock())
}

// Copy writes the whole file to path as it stands, with SQLite's own backup,
// and tells progress how many of how many pages are done. An existing file is
// replaced when the copy is whole.
func (f *File) Copy(ctx context.Context, path string, progress func(done, of int)) error {
	beside, err := os.CreateTemp(filepath.Dir(path), ".wakeline-*")
	if err != nil {
		return fmt.Errorf("copy to %s: %w", path, err)
	}
	beside.Close()
	defer os.Remove(beside.Name()) // gone already when it was renamed
	if err := f.backup(ctx, beside.Name(), progress); err != nil {
		return fmt.Errorf("copy to %s: %w", path, describe(err))
	}
	if err := os.Chmod(beside.Name(), 0o644); err != nil {
		return fmt.Errorf("copy to %s: %w", path, err)
	}
	if err := os.Rename(beside.Name(), path); err != nil {
		return fmt.Errorf("copy to %s: %w", path, err)
	}
	return nil
}

// pagesAStep is how many pages a backup copies before it looks up.
const pagesAStep = 256

func (f *File) backup(ctx context.Context, path string, progress func(done, of int)) error {
	name, err := uri(path, "rw")
	if err != nil {
		return err
	}
	db, err := sql.Open(driverName, name)
	if err != nil {
		return err
	}
	defer db.Close()
	f.mu.Lock()
	defer f.mu.Unlock()
	return raw(ctx, db, func(to *sqlite3.SQLiteConn) error {
		return raw(ctx, f.db, func(from *sqlite3.SQLiteConn) error {
			b, err := to.Backup("main", from, "main")
			if err != nil {
				return err
			}
			defer b.Close()
			for {
				if err := ctx.Err(); err != nil {
					return err
				}
				done, err := b.Step(pagesAStep)
				if err != nil {
					return err
				}
				if progress != nil {
					progress(b.PageCount()-b.Remaining(), b.PageCount())
				}
				if done {
					return b.Finish()
				}
			}
		})
	})
}

// raw lends the driver's own connection to do.
func raw(ctx context.Context, db *sql.DB, do func(c *sqlite3.SQLiteConn) error) error {
	conn, err := db.Conn(ctx)
	if err != nil {
		return err
	}
	defer conn.Close()
	return conn.Raw(func(c any) error { return do(c.(*sqlite3.SQLiteConn)) })
}

// Compact gives the room of what was removed back to the disk.
func (f *File) Compact() error {
	f.mu.Lock()
	defer f.mu.Unlock()
	if err := f.writable(); err != nil {
		return err
	}
	if _, err := f.db.Exec("VACUUM"); err != nil {
		return fmt.Errorf("compact: %w", describe(err))
	}
	return nil
}

// Check looks the whole file at path over and returns what it finds wrong, a
// line each: pages, references, and the rules of the project. The error says
// why it can't be looked at.
func Check(path string) ([]string, error) {
	h, err := readHeader(path)
	if err != nil {
		return nil, fmt.Errorf("check %s: %w", path, err)
	}
	f := &File{path: path}
	f.readOnly = "it is only looked at"
	defer f.Close()
	if err := f.connect(h); err != nil {
		if errors.Is(describe(err), ErrDamaged) {
			return []string{err.Error()}, nil
		}
		return nil, fmt.Errorf("check %s: %w", path, describe(err))
	}
	var found []string
	for _, pragma := range []string{"integrity_check", "foreign_key_check"} {
		lines, err := pragmaRows(f.db, pragma)
		if err != nil {
			return append(found, pragma+": "+describe(err).Error()), nil
		}
		for _, l := range lines {
			if l != "ok" {
				found = append(found, pragma+": "+l)
			}
		}
	}
	if _, err := f.Project(); err != nil {
		found = append(found, err.Error())
	}
	revisions, err := f.Revisions()
	if err != nil {
		return append(found, err.Error()), nil
	}
	for _, r := range revisions {
		if _, err := f.DataOf(r.Name); err != nil {
			found = append(found, err.Error())
		}
	}
	return found, nil
}
