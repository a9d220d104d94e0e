package storage

import (
	"bytes"
	"database/sql"
	"database/sql/driver"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"net/url"
	"os"
	"path/filepath"

	"github.com/gofrs/flock"
	sqlite3 "github.com/mattn/go-sqlite3"

	"wakeline/timeline"
)

// Ext is the extension of a project file.
const Ext = ".wakeline"

// The ways in which a file can't be opened. The error that Open returns wraps
// one of them, or the system's own.
var (
	ErrForeign = errors.New("not a Wakeline project file")
	ErrNewer   = errors.New("made by a newer Wakeline")
	ErrDamaged = errors.New("damaged")
)

// driverName is SQLite with what a file from a stranger needs: see guard.
const driverName = "wakeline-sqlite3"

func init() { sql.Register(driverName, &sqlite3.SQLiteDriver{ConnectHook: guard}) }

// Limits on what a file may make SQLite take in; its own are far larger.
const (
	limitLength    = 64 << 20 // bytes of a text or a row
	limitSQLLength = 1 << 20
)

// guard follows SQLite's advice for files from others
// (sqlite.org/security.html, 1.2): no trust in the schema, cell sizes checked,
// no memory mapping, limits on lengths, and an authorizer that lets no SQL
// reach a function, pragma or statement that this package doesn't use. The
// driver has no call for SQLite's "defensive" switch; what that switch forbids
// (writable_schema, shadow tables, turning the journal off) the authorizer
// refuses.
func guard(c *sqlite3.SQLiteConn) error {
	for _, pragma := range []string{
		"trusted_schema = OFF", "cell_size_check = ON", "mmap_size = 0", "foreign_keys = ON",
		"synchronous = FULL", "secure_delete = OFF", "busy_timeout = 3000",
	} {
		if _, err := c.Exec("PRAGMA "+pragma, nil); err != nil {
			return err
		}
	}
	c.SetLimit(sqlite3.SQLITE_LIMIT_LENGTH, limitLength)
	c.SetLimit(sqlite3.SQLITE_LIMIT_SQL_LENGTH, limitSQLLength)
	c.SetLimit(sqlite3.SQLITE_LIMIT_TRIGGER_DEPTH, 1)
	c.RegisterAuthorizer(authorize)
	return nil
}

// authorize refuses the SQL that this package never speaks.
func authorize(op int, arg1, arg2, _ string) int {
	switch op {
	case sqlite3.SQLITE_CREATE_TRIGGER, sqlite3.SQLITE_CREATE_TEMP_TRIGGER, sqlite3.SQLITE_CREATE_VIEW,
		sqlite3.SQLITE_CREATE_TEMP_VIEW, sqlite3.SQLITE_CREATE_VTABLE, sqlite3.SQLITE_DROP_TABLE:
		return sqlite3.SQLITE_DENY
	case sqlite3.SQLITE_FUNCTION:
		if arg2 == "load_extension" {
			return sqlite3.SQLITE_DENY
		}
	case sqlite3.SQLITE_PRAGMA:
		switch arg1 {
		case "writable_schema", "journal_mode", "trusted_schema", "ignore_check_constraints", "schema_version":
			return sqlite3.SQLITE_DENY
		}
	}
	return sqlite3.SQLITE_OK
}

// File is an open project file. Its methods may be called from several
// goroutines; edits come one after another.
type File struct {
	state // guarded by state.mu
	path  string
	lock  *flock.Flock
}

// header is what a SQLite file says of itself before any SQL is run
// (sqlite.org/fileformat.html, 1.3).
type header struct{ application, version uint32 }

func readHeader(path string) (header, error) {
	f, err := os.Open(path)
	if err != nil {
		return header{}, err
	}
	defer f.Close()
	if info, err := f.Stat(); err != nil {
		return header{}, err
	} else if !info.Mode().IsRegular() {
		return header{}, fmt.Errorf("%w: it is no regular file", ErrForeign)
	}
	var b [100]byte
	if _, err := io.ReadFull(f, b[:]); err != nil {
		return header{}, fmt.Errorf("%w: it is shorter than a header", ErrForeign)
	}
	if !bytes.HasPrefix(b[:], []byte("SQLite format 3\x00")) {
		return header{}, fmt.Errorf("%w: it is no SQLite file", ErrForeign)
	}
	h := header{binary.BigEndian.Uint32(b[68:]), binary.BigEndian.Uint32(b[60:])}
	if h.application != applicationID {
		return h, fmt.Errorf("%w: its application_id is %#x, not %#x", ErrForeign, h.application, applicationID)
	}
	if int64(h.version) > int64(len(migrations)) {
		return h, fmt.Errorf("%w: its schema is version %d, and this program knows versions up to %d", ErrNewer, h.version, len(migrations))
	}
	return h, nil
}

// uri is the name of a file for SQLite, with its mode: "ro", "rw" or "rwc".
func uri(path, mode string) (string, error) {
	whole, err := filepath.Abs(path)
	if err != nil {
		return "", err
	}
	u := url.URL{Scheme: "file", Path: filepath.ToSlash(whole), RawQuery: "mode=" + mode + "&_txlock=immediate"}
	return u.String(), nil
}

// Open opens the project file at path. Nothing is written to a file that is
// not ours, of a newer version or damaged. Where the file can't be written, or
// another window has it, it is opened read-only, and ReadOnly says why.
func Open(path string) (f *File, err error) {
	defer func() {
		if err != nil {
			err = fmt.Errorf("open %s: %w", path, describe(err))
		}
	}()
	h, err := readHeader(path)
	if err != nil {
		return nil, err
	}
	f = &File{path: path}
	f.takeLock()
	if f.readOnly == "" {
		if probe, err := os.OpenFile(path, os.O_RDWR, 0); err != nil {
			f.readOnly = "the file can't be written"
		} else {
			probe.Close()
		}
	}
	if err := f.connect(h); err != nil {
		f.Close()
		return nil, err
	}
	return f, nil
}

// connect opens the database and reads what every window needs.
func (f *File) connect(h header) error {
	mode := "rw"
	if f.readOnly != "" {
		mode = "ro"
	}
	name, err := uri(f.path, mode)
	if err != nil {
		return err
	}
	if f.db, err = sql.Open(driverName, name); err != nil {
		return err
	}
	f.db.SetMaxOpenConns(1)
	if err := f.checkSchema(int(h.version)); err != nil {
		return err
	}
	if err := f.quickCheck(); err != nil {
		return err
	}
	if int(h.version) < len(migrations) {
		if f.readOnly != "" {
			return fmt.Errorf("schema version %d must be brought to %d, but %s", h.version, len(migrations), f.readOnly)
		}
		if err := migrate(f.db, int(h.version)); err != nil {
			return err
		}
	}
	return f.load()
}

// takeLock makes this the window that edits the file, or says who is.
func (f *File) takeLock() {
	f.lock = flock.New(lockPath(f.path))
	switch got, err := f.lock.TryLock(); {
	case err != nil:
		f.readOnly = "no lock can be placed beside the file"
	case !got:
		f.readOnly = "another window has it open"
	}
}

// lockPath is a hidden file beside the project; the system frees the lock
// when the window ends, however it ends.
func lockPath(path string) string {
	return filepath.Join(filepath.Dir(path), "."+filepath.Base(path)+".lock")
}

// Create makes an empty project file at path; a file that is there already is
// an error. What it is to hold from the start, fill puts in.
func Create(path string, p *timeline.Project) (*File, error) {
	made, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o644)
	if err != nil {
		return nil, fmt.Errorf("create: %w", err)
	}
	made.Close()
	if err := build(path, p); err != nil {
		os.Remove(path)
		return nil, fmt.Errorf("create %s: %w", path, describe(err))
	}
	return Open(path)
}

// build turns the empty file at path into a project file that holds p, or
// nothing where p is nil.
func build(path string, p *timeline.Project) error {
	name, err := uri(path, "rw")
	if err != nil {
		return err
	}
	db, err := sql.Open(driverName, name)
	if err != nil {
		return err
	}
	defer db.Close()
	db.SetMaxOpenConns(1)
	if _, err := db.Exec(fmt.Sprintf("PRAGMA application_id = %d", applicationID)); err != nil {
		return err
	}
	if err := migrate(db, 0); err != nil {
		return err
	}
	f := &File{path: path}
	f.db = db
	if err := f.begin(); err != nil {
		return err
	}
	if p == nil {
		return nil
	}
	return f.fill(p)
}

// describe turns SQLite's errors into the words of this package.
func describe(err error) error {
	var e sqlite3.Error
	if !errors.As(err, &e) {
		if errors.Is(err, driver.ErrBadConn) {
			return fmt.Errorf("%w: the connection broke", ErrDamaged)
		}
		return err
	}
	switch e.Code {
	case sqlite3.ErrCorrupt, sqlite3.ErrNotADB, sqlite3.ErrFormat:
		return fmt.Errorf("%w: %w", ErrDamaged, err)
	case sqlite3.ErrFull:
		return fmt.Errorf("the disk is full: %w", err)
	case sqlite3.ErrReadonly:
		return fmt.Errorf("the file can't be written: %w", err)
	case sqlite3.ErrBusy, sqlite3.ErrLocked:
		return fmt.Errorf("another program holds the file: %w", err)
	case sqlite3.ErrIoErr:
		return fmt.Errorf("the disk can't be read or written: %w", err)
	}
	return err
}
