package storage

import (
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"sync"

	sqlite3 "github.com/mattn/go-sqlite3"

	"wakeline/timeline"
)

// Ext is the extension of a project file.
const Ext = ".wakeline"

// File is an open project file. Its methods may be called from several
// goroutines; edits come one after another.
type File struct {
	mu    sync.Mutex
	state // guarded by mu
	path  string

	answersOnly bool // see TakeAnswersOnly; guarded by mu
}

// uri is the name of a file for SQLite, with its mode: "ro" or "rw".
func uri(path, mode string) (string, error) {
	whole, err := filepath.Abs(path)
	if err != nil {
		return "", err
	}
	lock := "immediate" // what begins to edit will write
	if mode == "ro" {
		lock = "deferred"
	}
	if whole = filepath.ToSlash(whole); whole[0] != '/' {
		whole = "/" + whole // C:/..., which would be taken for the name of a computer
	}
	u := url.URL{Scheme: "file", Path: whole, RawQuery: "mode=" + mode + "&_txlock=" + lock}
	return u.String(), nil
}

// openDB opens a database over one connection.
func openDB(path, mode string) (*sql.DB, error) {
	name, err := uri(path, mode)
	if err != nil {
		return nil, err
	}
	db, err := sql.Open(driverName, name)
	if err == nil {
		db.SetMaxOpenConns(1)
	}
	return db, err
}

// Open opens the project file at path. Nothing is written to a file that is
// not ours, of a newer version or damaged. Where the file can't be written, or
// another window has it, it is opened read-only, and ReadOnly says why.
func Open(path string) (f *File, err error) {
	f = &File{path: path}
	if err := f.open(true); err != nil {
		return nil, fmt.Errorf("open %s: %w", path, describe(err))
	}
	f.keepCopy()
	return f, nil
}

// open fills f's state. Where edit is false the file is only looked at: no
// lock is placed beside it.
func (f *File) open(edit bool) (err error) {
	defer func() {
		if err != nil {
			f.close()
		}
	}()
	if f.real, err = filepath.EvalSymlinks(f.path); err != nil {
		return err
	}
	if f.is, err = register(f.real); err != nil {
		if errors.Is(err, ErrForeign) && len(Copies(f.real)) > 0 { // it was one of ours
			return fmt.Errorf("%w: %w", ErrDamaged, err)
		}
		return err
	}
	switch {
	case !edit:
		f.readOnly, f.fixedData = onlyRead, true
	case !f.is.header.writable:
		f.readOnly = "the file can't be written"
	default:
		f.takeLock()
	}
	return f.connect()
}

// connect opens the database and reads what every window needs.
func (s *state) connect() (err error) {
	mode := "rw"
	if s.readOnly != "" {
		mode = "ro"
	}
	if s.db, err = openDB(s.real, mode); err != nil {
		return err
	}
	var version int // as it is after an edit that was broken off is taken back
	if err := s.db.QueryRow("PRAGMA user_version").Scan(&version); err != nil {
		return err
	}
	if version > len(migrations) {
		return fmt.Errorf("%w: its schema is version %d", ErrNewer, version)
	}
	if err := checkSchema(s.db, version); err != nil {
		return err
	}
	s.schema = version
	old := version < len(migrations)
	if err := s.checkPages(!old); err != nil {
		return err
	}
	if old {
		if s.readOnly != "" {
			return fmt.Errorf("%w: version %d must be brought to %d, but %s", errOld, version, len(migrations), s.readOnly)
		}
		if err := migrate(s.db, version); err != nil {
			return err
		}
	}
	return s.snapshot(func(q querier) (err error) {
		if s.version, err = dataVersion(q); err != nil {
			return err
		}
		if err := checkRows(q); err != nil {
			return err
		}
		return s.load(q)
	})
}

// standingSchema is the first version of the schema that has standing replies.
const standingSchema = 7

// BeforeStanding reports whether the file, when it was opened, was of a version
// without standing replies: each of its setups has replies of its own.
func (f *File) BeforeStanding() bool { return f.schema > 0 && f.schema < standingSchema }

// Create makes a project file at path that holds p, or nothing where p is
// nil. It comes into being whole; a file that is there already is an error.
func Create(path string, p *timeline.Project) (*File, error) {
	if err := create(path, func(beside string) error {
		return build(beside, func(f *File) error { return f.fill(p) })
	}); err != nil {
		return nil, fmt.Errorf("create %s: %w", path, describe(err))
	}
	return Open(path)
}

// create has fill make a file of the empty one that it names, and puts that at
// path, unless something is there.
func create(path string, fill func(beside string) error) error {
	if _, err := os.Lstat(path); err == nil {
		return fs.ErrExist
	}
	beside, err := tempFile(filepath.Dir(path))
	if err != nil {
		return withoutPath(err)
	}
	defer dropTemp(beside) // gone already where it was renamed
	if err := fill(beside); err != nil {
		return err
	}
	if err := syncFile(beside); err != nil {
		return err
	}
	if err := os.Link(beside, path); errors.Is(err, fs.ErrExist) {
		return fs.ErrExist
	} else if err != nil { // a file system without links
		made, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o644)
		if err != nil {
			return err
		}
		made.Close()
		if err := os.Rename(beside, path); err != nil {
			os.Remove(path)
			return err
		}
	}
	return syncFolder(path)
}

// build makes the empty file at path a project file and has fill work on it.
func build(path string, fill func(f *File) error) error {
	db, err := openDB(path, "rw")
	if err != nil {
		return err
	}
	defer db.Close()
	if _, err := db.Exec("PRAGMA synchronous = OFF"); err != nil { // nobody has the file yet; create syncs it
		return err
	}
	f := &File{path: path}
	f.db = db
	if err := f.begin(); err != nil {
		return err
	}
	if err := fill(f); err != nil {
		return err
	}
	return db.Close()
}

// syncFile puts a file on disk that nothing has open, for all to read.
func syncFile(path string) error {
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	defer f.Close()
	if err := f.Chmod(0o644); err != nil {
		return err
	}
	return f.Sync()
}

// syncFolder puts the names in path's folder on disk, where the system can.
func syncFolder(path string) error {
	d, err := os.Open(filepath.Dir(path))
	if err != nil {
		return nil // not every system opens folders; the file itself is on disk
	}
	defer d.Close()
	_ = d.Sync() // likewise
	return nil
}

// onlyRead is why a file is read-only that OpenToRead opened.
const onlyRead = "it is only looked at"

// OpenToRead opens the project file at path to read it. No lock is taken: a window
// may edit the file before, meanwhile and after. What the file knows of
// setups follows those edits, but the move data stay as they were: once they
// are others, reading ends with ErrChanged.
//
// Where something must be written before the file can be read, as it is of an
// older schema or an edit of it was broken off, Open does so first.
func OpenToRead(path string) (*File, error) {
	f, err := openToRead(path, false)
	if err != nil {
		return nil, fmt.Errorf("open %s: %w", path, describe(err))
	}
	return f, nil
}

// openToRead opens a file to read it. Where pages is true, the caller checks its
// pages.
func openToRead(path string, pages bool) (*File, error) {
	f := &File{path: path}
	f.skipPages = pages
	err := f.open(false)
	if broken := (sqlite3.Error{}); !errors.Is(err, errOld) && !(errors.As(err, &broken) && broken.ExtendedCode == sqlite3.ErrReadonlyRollback) {
		return f, err
	}
	mend := &File{path: path}
	if err := mend.open(true); err != nil {
		return nil, err
	}
	if err := mend.close(); err != nil {
		return nil, err
	}
	f = &File{path: path}
	f.skipPages = pages
	return f, f.open(false)
}

// errOld is a file that can't be brought to the newest schema.
var errOld = errors.New("its schema is an older one")
