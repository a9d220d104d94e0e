package storage

import (
	"database/sql"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"wakeline/timeline"
)

// ReadText reads the project text at path. Errors begin with the path and
// carry what package timeline says of the place inside the file.
func ReadText(path string) (*timeline.Project, error) {
	f, err := OpenRegular(path)
	if err != nil {
		return nil, fmt.Errorf("expected a project text: %w", err)
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, timeline.MaxText+1)) // one more, so that ReadText sees it is too much
	if err != nil {
		return nil, fmt.Errorf("expected a project text: %w", err)
	}
	p, err := timeline.ReadText(text)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	return p, nil
}

// WriteText writes p to path as a project text, whole or not at all.
func WriteText(path string, p *timeline.Project) error {
	return Replace(path, func(w io.Writer) error {
		_, err := w.Write(timeline.WriteText(p))
		return err
	})
}

// Replace writes a file whole or not at all: fill writes it beside path, it
// is synced, and then takes path's place. On an error path stays as it was.
// Through a symbolic link the file that it points to is replaced.
func Replace(path string, fill func(w io.Writer) error) (err error) {
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real
	}
	mode := os.FileMode(0o644)
	if info, err := os.Stat(path); err == nil {
		if err := checkRegular(info); err != nil {
			return fmt.Errorf("write %s: %w", path, err)
		}
		mode = info.Mode().Perm()
	}
	beside, err := tempFile(filepath.Dir(path))
	if err != nil {
		return fmt.Errorf("write %s: %w", path, withoutPath(err))
	}
	defer dropTemp(beside) // gone already where it was renamed
	defer func() {
		if err != nil {
			err = fmt.Errorf("write %s: %w", path, err)
		}
	}()
	f, err := os.OpenFile(beside, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	defer f.Close() // again, which does nothing, where all went well
	if err := fill(f); err != nil {
		return err
	}
	if err := f.Chmod(mode); err != nil {
		return err
	}
	if err := f.Sync(); err != nil {
		return err
	}
	if err := f.Close(); err != nil {
		return err
	}
	return os.Rename(beside, path)
}

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
