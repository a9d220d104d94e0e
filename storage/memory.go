package storage

import (
	"database/sql"
	"fmt"

	"wakeline/timeline"
)

// InMemory returns a project file that holds p, or nothing where p is nil, and
// lies in memory alone, as a project text does while it is open. Its schema,
// steps and history are those of any project file. It takes no lock, no copy of
// it is kept, and Close discards it. path is that of the project text, empty
// where there is none yet.
func InMemory(path string, p *timeline.Project) (*File, error) {
	f := &File{path: path}
	f.inMemory = true
	if err := f.fillMemory(p); err != nil {
		f.close()
		return nil, fmt.Errorf("open %s in memory: %w", path, describe(err))
	}
	return f, nil
}

// OpenText reads the project text at path into a project file in memory.
func OpenText(path string) (*File, error) {
	p, err := ReadText(path)
	if err != nil {
		return nil, err
	}
	return InMemory(path, p)
}

// ExportText writes everything of the file into a project text at path.
func (f *File) ExportText(path string) error {
	p, err := f.Project()
	if err != nil {
		return err
	}
	return WriteText(path, p)
}

func (f *File) fillMemory(p *timeline.Project) (err error) {
	if f.db, err = sql.Open(driverName, ":memory:"); err != nil {
		return err
	}
	f.db.SetMaxOpenConns(1) // each connection would have a database of its own
	if _, err := f.db.Exec("PRAGMA temp_store = MEMORY"); err != nil {
		return err
	}
	if err := f.begin(); err != nil {
		return err
	}
	return f.fill(p)
}

// InMemory reports whether the file lies in memory alone.
func (f *File) InMemory() bool { return f.inMemory }

// Unsaved reports whether a file in memory has edits that are in no project
// text. Every edit of a file on disk is saved.
func (f *File) Unsaved() bool {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.inMemory && f.steps != f.saved
}

// Saved notes that what the file in memory holds is in the project text at
// path.
func (f *File) Saved(path string) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.path, f.saved = path, f.steps
}

// notSaved is where no step leads to what was saved.
const notSaved = -1

// newStep counts a step that was recorded.
func (s *state) newStep() {
	if s.saved > s.steps {
		s.saved = notSaved // it was among the undone steps, which are gone now
	}
	s.steps++
}
