package storage

import (
	"errors"
	"fmt"

	sqlite3 "github.com/mattn/go-sqlite3"
)

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
