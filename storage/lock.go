package storage

import (
	"os"
	"path/filepath"

	"github.com/gofrs/flock"
)

// takeLock makes this the window that edits the file, or says who is.
func (s *state) takeLock() {
	for range 8 {
		lock := flock.New(lockPath(s.real))
		got, err := lock.TryLock()
		if err != nil {
			s.readOnly = "no lock can be placed beside the file"
			return
		}
		if !got {
			break
		}
		// The window that had it may have removed the file between our opening
		// it and locking it: then we hold a lock that nobody else sees.
		mine, err := lock.Stat()
		if there, err2 := os.Lstat(lock.Path()); err == nil && err2 == nil && os.SameFile(mine, there) {
			s.lock = lock
			s.probeFolder()
			return
		}
		lock.Unlock()
	}
	s.readOnly = anotherWindow
}

// probeFolder makes the file read-only where no journal could be placed beside
// it; a lock may have been left there from before.
func (s *state) probeFolder() {
	name, err := tempBeside(s.real)
	if err != nil {
		s.readOnly = "its folder can't be written"
		s.dropLock()
		return
	}
	os.Remove(name)
}

// anotherWindow is why a file is read-only that another window edits.
const anotherWindow = "another window has it open"

// dropLock lets another window edit the file.
func (s *state) dropLock() error {
	if s.lock == nil {
		return nil
	}
	os.Remove(s.lock.Path()) // while it is held, so that nobody else's is removed
	err := s.lock.Unlock()
	s.lock = nil
	return err
}

// lockPath is a hidden file beside the project; the system frees the lock
// when the window ends, however it ends.
func lockPath(path string) string {
	return filepath.Join(filepath.Dir(path), "."+filepath.Base(path)+".lock")
}
