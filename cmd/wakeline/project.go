package main

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/timeline/words"
)

// open reads the project text at path.
func open(path string) (*timeline.Project, error) {
	if ext := filepath.Ext(path); ext != ".json" {
		return nil, usageError{fmt.Sprintf("expected a project text, named .json, got %q", path)}
	}
	return storage.ReadText(path)
}

// openFile opens the project file at path with storage.Open, to edit it, or
// with storage.OpenToRead.
func openFile(path string, open func(path string) (*storage.File, error)) (*storage.File, error) {
	if filepath.Ext(path) != storage.Ext {
		return nil, usageError{fmt.Sprintf("expected a project file, named %s, got %q", storage.Ext, path)}
	}
	f, err := open(path)
	if errors.Is(err, storage.ErrDamaged) {
		err = fmt.Errorf("%w; wakeline check tells more", err)
	}
	return f, err
}

// source is a project that is only read: a project text, which is in memory
// whole, or a project file, whose setups stay on disk until they are asked
// for.
type source struct {
	path  string
	data  *timeline.Project    // of a file: without setups
	index *timeline.Index      // of data
	file  *storage.File        // nil for a text
	lists []timeline.SavedList // saved ones; a text has none
}

// openSource opens a project text or a project file, by its extension.
func openSource(path string) (*source, error) {
	switch filepath.Ext(path) {
	case ".json":
		p, err := open(path)
		if err != nil {
			return nil, err
		}
		return &source{path: path, data: p, index: timeline.NewIndex(p)}, nil
	case storage.Ext:
		f, err := openFile(path, storage.OpenToRead)
		if err != nil {
			return nil, err
		}
		lists, err := f.Lists()
		if err != nil {
			f.Close()
			return nil, fmt.Errorf("%s: %w", path, err)
		}
		data := f.Data()
		return &source{path, data, timeline.NewIndex(data), f, lists}, nil
	}
	return nil, usageError{fmt.Sprintf("expected a project file, named %s, or a project text, named .json, got %q", storage.Ext, path)}
}

// close ends the use of the source.
func (s *source) close() {
	if s.file != nil {
		s.file.Close()
	}
}

// whole waits for the check of a large file's pages, which goes on after it was
// opened, and returns what it found.
func (s *source) whole() error {
	if s.file == nil {
		return nil
	}
	return s.file.Sound()
}

// names lists the setups.
func (s *source) names() (out []string, err error) {
	if s.file == nil {
		for i := range s.data.Setups {
			out = append(out, s.data.Setups[i].Name)
		}
		return out, nil
	}
	heads, err := s.file.Heads()
	for _, h := range heads {
		out = append(out, h.Name)
	}
	return out, err
}

// each calls do with every setup in its order.
func (s *source) each(ctx context.Context, do func(at int, setup *timeline.Setup) error) error {
	if s.file != nil {
		return s.file.EachSetup(ctx, do)
	}
	for i := range s.data.Setups {
		if err := ctx.Err(); err != nil {
			return err
		}
		if err := do(i, &s.data.Setups[i]); err != nil {
			return err
		}
	}
	return nil
}

// find returns the setup of that name and which one it is. Its error begins
// with where the name stands.
func (s *source) find(where, name string) (at int, setup timeline.Setup, err error) {
	names, err := s.names()
	if err != nil {
		return 0, setup, err
	}
	for i := range names {
		if names[i] != name {
			continue
		}
		if s.file == nil {
			return i, s.data.Setups[i], nil
		}
		heads, err := s.file.Heads()
		if err == nil {
			setup, err = s.file.Setup(heads[i].ID)
		}
		return i, setup, err
	}
	return 0, setup, usageError{fmt.Sprintf("%s: expected the name of a setup of the project, got %q; there are: %s", where, name, some(names))}
}

// some quotes the first names of a list.
func some(names []string) string {
	const most = 12
	var out []string
	for i, name := range names {
		if i == most {
			out = append(out, fmt.Sprintf("and %d more", len(names)-most))
			break
		}
		out = append(out, fmt.Sprintf("%q", name))
	}
	return strings.Join(out, ", ")
}

// plan compiles a setup, at that delay where one is given. Its error
// carries the JSON path of the part that doesn't fit, of a project text.
func (s *source) plan(at int, setup timeline.Setup, delay timeline.Maybe) (*timeline.Plan, error) {
	setup.Delay = delay.Or(setup.Delay)
	made, err := s.index.Compile(setup)
	return made, s.where(at, delay, err)
}

// judge is the whole verdict of a setup, as plan has it.
func (s *source) judge(at int, setup timeline.Setup, delay timeline.Maybe, look func(m *timeline.Meetings)) (words.Verdict, error) {
	setup.Delay = delay.Or(setup.Delay)
	v, err := words.JudgeAnd(s.index, setup, look)
	return v, s.where(at, delay, err)
}

// where adds to a plan's error which setup it was.
func (s *source) where(at int, delay timeline.Maybe, err error) error {
	if wide := (*timeline.PlanError)(nil); errors.As(err, &wide) {
		place := s.path + ": "
		if s.file == nil {
			place += fmt.Sprintf("$.setups[%d].", at)
		}
		if delay.Given && wide.Field == "delay" {
			place = "--"
		}
		return fmt.Errorf("%s%w", place, err)
	}
	return err
}
