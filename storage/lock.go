package storage

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"

	"github.com/gofrs/flock"
)

// errLocked is a lock that another process, or another window of this one, has.
var errLocked = errors.New("locked")

// lockFile locks the file at path, which it makes where there is none. The
// system frees the lock when the process ends, however it ends.
func lockFile(path string) (*flock.Flock, error) {
	for range 8 {
		if info, err := os.Lstat(path); err == nil {
			if err := checkRegular(info); err != nil { // to open a pipe would wait
				return nil, err
			}
		}
		lock := flock.New(path)
		got, err := lock.TryLock()
		if err != nil {
			return nil, err
		}
		if !got {
			break
		}
		// Who had it may have removed the file between our opening it and
		// locking it: then we hold a lock that nobody else sees.
		mine, err := lock.Stat()
		if there, err2 := os.Lstat(path); err == nil && err2 == nil && os.SameFile(mine, there) {
			return lock, nil
		}
		lock.Unlock()
	}
	return nil, errLocked
}

// takeLock makes this the window that edits the file, or says who is.
func (s *state) takeLock() {
	lock, err := lockFile(lockPath(s.real))
	switch {
	case err == errLocked:
		s.readOnly = anotherWindow
	case err != nil:
		s.readOnly = fmt.Sprintf("no lock can be placed beside the file, named %s: %v", filepath.Base(lockPath(s.real)), withoutPath(err))
	default:
		s.lock = lock
		s.probeFolder()
	}
}

// probeFolder makes the file read-only where no journal could be placed beside
// it; a lock may have been left there from before.
func (s *state) probeFolder() {
	name, err := tempFile(filepath.Dir(s.real))
	if err != nil {
		s.readOnly = "its folder can't be written"
		s.dropLock()
		return
	}
	dropTemp(name)
}

// anotherWindow is why a file is read-only that another window edits.
const anotherWindow = "another window has it open"

// dropLock lets another window edit the file.
func (s *state) dropLock() error {
	if s.lock == nil {
		return nil
	}
	err := unlock(s.lock)
	s.lock = nil
	return err
}

// unlock frees a lock and removes its file.
func unlock(lock *flock.Flock) error {
	if runtime.GOOS == "windows" { // which removes no file that anybody has open: neither ours before, nor another's after
		err := lock.Unlock()
		os.Remove(lock.Path())
		return err
	}
	os.Remove(lock.Path()) // while it is held, so that nobody else's is removed
	return lock.Unlock()
}

// lockPath is a hidden file beside the project.
func lockPath(path string) string {
	return filepath.Join(filepath.Dir(path), "."+filepath.Base(path)+".lock")
}
