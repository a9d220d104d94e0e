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
	return f.close()
}

func (s *state) close() (err error) {
	if s.edited {
		s.edited = false
		defer s.keepCopy()
	}
	if s.pages != nil {
		s.pages.stop()
		s.pages.wait()
		s.pages = nil
	}
	if s.db != nil {
		err = s.db.Close()
	}
	err = errors.Join(err, s.dropLock())
	if s.is != nil {
		s.is.release()
		s.is = nil
	}
	s.readOnly = "it is closed"
	return err
}

// TakeOver makes a file editable that was read-only, such as one that another
// window had which has ended since, or one that was gone and is there again.
// The error says why it can't be; then the file stays as it was.
func (f *File) TakeOver() error {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.readOnly == "" {
		return nil
	}
	if err := f.dropLock(); err != nil { // ours, of a file that is gone or can't be read any more
		return err
	}
	fresh, err := Open(f.path)
	if err != nil {
		return err
	}
	if fresh.readOnly != "" {
		defer fresh.Close()
		return fmt.Errorf("read-only: %s", fresh.readOnly)
	}
	old := f.state
	f.state = fresh.state
	return old.close()
}

// Copy writes the whole file to path as it stands, with SQLite's own backup,
// and tells progress how many of how many pages are done; progress must call
// nothing of f. An existing file is replaced when the copy is whole, unless it
// is this one or another window has it open.
func (f *File) Copy(ctx context.Context, path string, progress func(done, of int)) error {
	if err := f.copy(ctx, path, progress); err != nil {
		return fmt.Errorf("copy to %s: %w", path, describe(err))
	}
	return nil
}

func (f *File) copy(ctx context.Context, path string, progress func(done, of int)) error {
	to := state{real: path}
	if real, err := filepath.EvalSymlinks(path); err == nil {
		to.real = real
	}
	if info, err := os.Stat(to.real); err == nil {
		f.mu.Lock()
		same := f.is != nil && os.SameFile(f.is.info, info)
		f.mu.Unlock()
		if same {
			return errors.New("it is the file itself")
		}
		if err := checkRegular(info); err != nil {
			return err
		}
	}
	if to.takeLock(); to.readOnly != "" {
		return errors.New(to.readOnly)
	}
	defer to.dropLock()
	beside, err := tempFile(filepath.Dir(to.real))
	if err != nil {
		return withoutPath(err)
	}
	defer dropTemp(beside) // gone already when it was renamed
	if err := f.backup(ctx, beside, progress); err != nil {
		return err
	}
	if err := os.Chmod(beside, 0o644); err != nil {
		return err
	}
	for _, log := range []string{"-journal", "-wal", "-shm"} { // of the file that goes; beside the copy they would be put into it
		if err := os.Remove(to.real + log); err != nil && !errors.Is(err, os.ErrNotExist) {
			return err
		}
	}
	if err := os.Rename(beside, to.real); err != nil {
		return err
	}
	return syncFolder(to.real)
}

// pagesAStep is how many pages a backup copies before it looks up.
const pagesAStep = 256

func (f *File) backup(ctx context.Context, path string, progress func(done, of int)) error {
	db, err := openDB(path, "rw")
	if err != nil {
		return err
	}
	defer db.Close()
	f.mu.Lock()
	defer f.mu.Unlock()
	return withDriver(ctx, db, func(to *sqlite3.SQLiteConn) error {
		return withDriver(ctx, f.db, func(from *sqlite3.SQLiteConn) error {
			return backupSteps(ctx, to, from, progress)
		})
	})
}

// backupSteps copies a whole database, and tells after each step how many of
// how many pages are done.
func backupSteps(ctx context.Context, to, from *sqlite3.SQLiteConn, progress func(done, of int)) error {
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
}

// withDriver lends the driver's own connection to do.
func withDriver(ctx context.Context, db *sql.DB, do func(c *sqlite3.SQLiteConn) error) error {
	conn, err := db.Conn(ctx)
	if err != nil {
		return err
	}
	defer conn.Close()
	return conn.Raw(func(c any) error { return do(c.(*sqlite3.SQLiteConn)) })
}

// Compact gives the room of what was removed back to the disk. Where ctx ends
// before, the file stays as it was.
func (f *File) Compact(ctx context.Context) error {
	if err := f.lockToEdit(); err != nil {
		return err
	}
	defer f.mu.Unlock()
	if _, err := f.db.ExecContext(ctx, "VACUUM"); err != nil {
		return fmt.Errorf("compact: %w", describe(err))
	}
	return nil
}
