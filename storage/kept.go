package storage

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"

	sqlite3 "github.com/mattn/go-sqlite3"

	"wakeline/storage/guard"
)

// Kept is a copy of a project file that passed every check when it was made.
// It is a project file like any other.
type Kept struct {
	Path string
	Of   time.Time // when the project had been written last
}

// How many copies of a project are kept: the newest, and others as long as all
// of them together are small enough.
const (
	mostKept      = 4
	mostKeptBytes = 512 << 20
)

// keptName is how the name of a copy tells what it is of.
const keptName = "20060102T150405.000000000Z" + Ext

// keeping is the copies in the making.
var keeping struct {
	one     sync.Mutex // one copy is made at a time
	running sync.WaitGroup
	mu      sync.Mutex
	stop    []context.CancelFunc
	errs    []error
}

// Copies lists the copies that are kept of the project file at path, the newest
// first. The file itself may be damaged or gone.
func Copies(path string) (out []Kept) {
	folder := keptFolder(path)
	entries, err := os.ReadDir(folder)
	if err != nil {
		return nil
	}
	for _, e := range entries {
		if of, err := time.Parse(keptName, e.Name()); err == nil && e.Type().IsRegular() {
			out = append(out, Kept{filepath.Join(folder, e.Name()), of})
		}
	}
	slices.SortFunc(out, func(a, b Kept) int { return b.Of.Compare(a.Of) })
	return out
}

// keptFolder is where copies of the project file at path lie; empty where none
// are kept.
func keptFolder(path string) string {
	whole, err := filepath.Abs(path)
	if err != nil {
		return ""
	}
	if folder, err := filepath.EvalSymlinks(filepath.Dir(whole)); err == nil {
		whole = filepath.Join(folder, filepath.Base(whole))
	}
	if real, err := filepath.EvalSymlinks(whole); err == nil {
		whole = real
	}
	sum := sha256.Sum256([]byte(whole))
	name := strings.Map(func(r rune) rune {
		if 'a' <= r && r <= 'z' || 'A' <= r && r <= 'Z' || '0' <= r && r <= '9' || r == '-' {
			return r
		}
		return '_'
	}, strings.TrimSuffix(filepath.Base(whole), Ext))
	return inState("copies", name[:min(len(name), 40)]+"-"+hex.EncodeToString(sum[:6]))
}

// keepCopy makes a copy of the file behind everything else, once its pages are
// checked; where it isn't damaged.
func (s *state) keepCopy() {
	if s.inMemory || inState() == "" {
		return
	}
	ctx, stop := context.WithCancel(context.Background())
	keeping.mu.Lock()
	keeping.stop = append(keeping.stop, stop)
	keeping.mu.Unlock()
	pages, real := s.pages, s.real
	keeping.running.Add(1)
	guard.Go("Keeping a copy", func() {
		defer keeping.running.Done()
		if pages != nil && pages.wait() != nil {
			return // which is told where the file is open
		}
		keeping.one.Lock()
		defer keeping.one.Unlock()
		err := makeCopy(ctx, real)
		if errors.Is(err, context.Canceled) {
			err = errors.New("the program ended before it was made")
		}
		if _, gone := os.Stat(real); err != nil && !errors.Is(gone, fs.ErrNotExist) {
			keeping.mu.Lock()
			keeping.errs = append(keeping.errs, fmt.Errorf("no copy of %s was kept: %w", real, describe(err)))
			keeping.mu.Unlock()
		}
	})
}

// End waits until the copies in the making are kept, at most that long, and
// removes what is in the making still. The errors say which copies could not
// be kept and why.
func End(most time.Duration) error {
	late := guard.After(most, "The end", func() {
		keeping.mu.Lock()
		defer keeping.mu.Unlock()
		for _, stop := range keeping.stop {
			stop()
		}
	})
	keeping.running.Wait()
	late.Stop()
	endTemps()
	keeping.mu.Lock()
	defer keeping.mu.Unlock()
	err := errors.Join(keeping.errs...)
	keeping.errs, keeping.stop = nil, nil
	return err
}

// makeCopy makes a copy of the file at path as it stands, unless there is one.
func makeCopy(ctx context.Context, path string) error {
	info, err := os.Stat(path)
	if err != nil {
		return err
	}
	of := info.ModTime().UTC() // of the copy's content, or earlier
	folder := keptFolder(path)
	to := filepath.Join(folder, of.Format(keptName))
	if _, err := os.Lstat(to); err == nil {
		return nil
	}
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return err
	}
	beside, err := tempFile(folder)
	if err != nil {
		return withoutPath(err)
	}
	defer dropTemp(beside) // gone already where it was renamed
	if err := backupFrom(ctx, path, beside); err != nil {
		return err
	}
	found, err := Check(ctx, beside)
	if err != nil {
		return err
	}
	if len(found) > 0 {
		return fmt.Errorf("it failed its check: %s", found[0])
	}
	if err := os.Chtimes(beside, time.Time{}, of); err != nil {
		return err
	}
	if err := os.Rename(beside, to); err != nil {
		return err
	}
	return dropOldCopies(path)
}

// dropOldCopies removes copies that are too many, or too large together.
func dropOldCopies(path string) error {
	var bytes int64
	for i, c := range Copies(path) {
		info, err := os.Stat(c.Path)
		if err != nil {
			return err
		}
		bytes += info.Size()
		if i == 0 || i < mostKept && bytes <= mostKeptBytes {
			continue
		}
		if err := os.Remove(c.Path); err != nil {
			return err
		}
	}
	return nil
}

// backupFrom copies the database at path over the empty file at to, a few
// pages at a time, so that who edits it never waits for long. Where it is
// edited meanwhile SQLite begins anew.
func backupFrom(ctx context.Context, path, to string) error {
	from, err := openDB(path, "ro")
	if err != nil {
		return err
	}
	defer from.Close()
	into, err := openDB(to, "rw")
	if err != nil {
		return err
	}
	defer into.Close()
	return withDriver(ctx, into, func(to *sqlite3.SQLiteConn) error {
		return withDriver(ctx, from, func(from *sqlite3.SQLiteConn) error {
			return backupSteps(ctx, to, from, func(done, of int) { time.Sleep(time.Millisecond) })
		})
	})
}

// Restore writes a kept copy into a new file at path, which holds what the
// project did then. A file that is there already is an error.
func Restore(ctx context.Context, kept Kept, path string) error {
	fail := func(err error) error { return fmt.Errorf("restore to %s: %w", path, describe(err)) }
	found, err := Check(ctx, kept.Path)
	if err != nil {
		return fail(err)
	}
	if len(found) > 0 {
		return fail(fmt.Errorf("%w: the copy of %s: %s", ErrDamaged, kept.Of.Local().Format(time.DateTime), found[0]))
	}
	if err := create(path, func(beside string) error {
		if err := os.Remove(beside); err != nil {
			return err
		}
		return copyFile(ctx, kept.Path, beside)
	}); err != nil {
		return fail(err)
	}
	return nil
}
