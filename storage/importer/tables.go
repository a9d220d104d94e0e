package importer

import (
	"bytes"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"wakeline/storage"
	"wakeline/storage/table"
)

// TableNames are the endings of tables' names.
var TableNames = []string{".csv", ".tsv", ".tab", ".txt", ".xlsx", ".ods"}

// IsText and IsTable report whether path is named as a project text, or as a
// table.
func IsText(path string) bool { return strings.EqualFold(filepath.Ext(path), ".json") }
func IsTable(path string) bool {
	return slices.Contains(TableNames, strings.ToLower(filepath.Ext(path)))
}

// Tables opens tables by their names: what was pasted, by the name that stands
// for it, and else a file.
type Tables map[string][]byte

// Has reports whether the name is that of a table.
func (t Tables) Has(name string) bool { return t[name] != nil || IsTable(name) }

func (t Tables) open(name string) (io.ReadCloser, error) {
	if text, ok := t[name]; ok {
		return io.NopCloser(bytes.NewReader(text)), nil
	}
	f, err := storage.OpenRegular(name)
	if err != nil {
		return nil, fmt.Errorf("expected a table: %w", err)
	}
	return f, nil
}

// named puts the table's name before an error of the table itself, and not of
// its rows.
func named(name string, err error) error { return fmt.Errorf("%s: %w", name, err) }

// Look finds the headings of a table.
func (t Tables) Look(name string, mapped map[string]string) (*table.Looked, error) {
	f, err := t.open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	looked, err := table.Look(f, mapped)
	if err != nil {
		return nil, named(name, err)
	}
	return looked, nil
}

// Read reads a table of moves. An error of the table itself, and not of its
// rows, begins with the name.
func (t Tables) Read(name string, o table.Options) (*table.Table, error) {
	return read(t, name, o, table.Read)
}

// ReadRoutes reads a table of routes, likewise.
func (t Tables) ReadRoutes(name string, o table.RouteOptions) (*table.Routes, error) {
	return read(t, name, o, table.ReadRoutes)
}

func read[T, O any](t Tables, name string, o O, with func(io.Reader, O) (*table.TableOf[T], error)) (*table.TableOf[T], error) {
	f, err := t.open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	got, err := with(f, o)
	if got == nil {
		return nil, named(name, err)
	}
	return got, err
}
