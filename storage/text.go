package storage

import (
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
