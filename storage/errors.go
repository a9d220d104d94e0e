package storage

import (
	"database/sql/driver"
	"errors"
	"fmt"
	"syscall"

	sqlite3 "github.com/mattn/go-sqlite3"
)

// The ways in which a file can't be opened or edited. The errors of this
// package wrap one of them, or the system's own.
var (
	ErrForeign = errors.New("not a Wakeline project file")
	ErrNewer   = errors.New("made by a newer Wakeline")
	ErrDamaged = errors.New("damaged")
	ErrGone    = errors.New("the file is gone")                // removed, moved or replaced while it was open
	ErrChanged = errors.New("the move data changed meanwhile") // while setups were read one after another
)

// describe turns SQLite's errors into the words of this package.
func describe(err error) error {
	var e sqlite3.Error
	if !errors.As(err, &e) {
		if errors.Is(err, driver.ErrBadConn) {
			return fmt.Errorf("%w: the connection broke", ErrDamaged)
		}
		return err
	}
	if errors.Is(err, ErrDamaged) || errors.Is(err, ErrGone) {
		return err
	}
	switch e.ExtendedCode {
	case sqlite3.ErrReadonlyDbMoved:
		return fmt.Errorf("%w: %w", ErrGone, err)
	case sqlite3.ErrIoErrShortRead:
		return fmt.Errorf("%w: it ends before it should: %w", ErrDamaged, err)
	case sqlite3.ErrReadonlyRollback:
		return fmt.Errorf("an edit of it was interrupted, and the file can't be written to undo that edit: %w", err)
	}
	switch e.Code {
	case sqlite3.ErrCorrupt, sqlite3.ErrNotADB, sqlite3.ErrFormat:
		return fmt.Errorf("%w: %w", ErrDamaged, err)
	case sqlite3.ErrFull:
		return fmt.Errorf("the disk is full: %w", err)
	case sqlite3.ErrReadonly, sqlite3.ErrPerm:
		return fmt.Errorf("the file can't be written: %w", err)
	case sqlite3.ErrCantOpen:
		return fmt.Errorf("the file, or its journal beside it, can't be opened: %w", err)
	case sqlite3.ErrBusy, sqlite3.ErrLocked:
		return fmt.Errorf("another program holds the file: %w", err)
	case sqlite3.ErrIoErr:
		switch e.SystemErrno {
		case syscall.EFBIG, syscall.EDQUOT, syscall.ENOSPC:
			return fmt.Errorf("the disk is full: the file may grow no further: %w", err)
		case syscall.EPERM, syscall.EACCES, syscall.EROFS:
			return fmt.Errorf("the file can't be written: %w", err)
		}
		return fmt.Errorf("the disk can't be read or written: %w", err)
	}
	return err
}
