package storage

import (
	"bytes"
	"errors"
	"os"
	"testing"
)

// pageSize is that of every project file.
const pageSize = 4096

func TestALargeFileIsCheckedInTheBackground(t *testing.T) {
	was := smallFile
	defer func() { smallFile = was }()
	smallFile = 0
	path, p := worn(t)
	f, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := f.Sound(); err != nil || f.Checking() {
		t.Error(err)
	}
	holds(t, f, p, "sound")
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	// An entry of an index is changed: only the check of all pages sees it.
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	db, err := openDB(path, "ro")
	if err != nil {
		t.Fatal(err)
	}
	root, err := numbers(db, "SELECT rootpage FROM sqlite_schema WHERE name = 'tag_name'")
	db.Close()
	if err != nil || len(root) != 1 {
		t.Fatal(root, err)
	}
	start := (int(root[0]) - 1) * pageSize
	at := bytes.LastIndex(whole[start:start+pageSize], []byte("worn"))
	poke(t, path, int64(start+at), []byte("torn"))
	before, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if f, err = Open(path); err != nil {
		t.Fatal(err)
	}
	if heads, err := f.Heads(); err != nil || len(heads) != len(p.Setups) {
		t.Errorf("the list: %d, %v, want %d", len(heads), err, len(p.Setups))
	}
	if err := f.Edit("remove", func(s *Step) error { return s.RemoveSetup(p.Setups[0].Name) }); !errors.Is(err, ErrDamaged) {
		t.Errorf("an edit: %v, want %v", err, ErrDamaged)
	}
	if _, err := f.Project(); !errors.Is(err, ErrDamaged) {
		t.Errorf("the project: %v, want %v", err, ErrDamaged)
	}
	if err := f.Sound(); !errors.Is(err, ErrDamaged) || f.ReadOnly() == "" {
		t.Errorf("sound: %v, read-only: %q, want %v and why", err, f.ReadOnly(), ErrDamaged)
	}
	f.Close()
	looks, err := OpenToRead(path)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := looks.Setup(1); !errors.Is(err, ErrDamaged) {
		t.Errorf("a setup of a file that is looked at: %v, want %v", err, ErrDamaged)
	}
	looks.Close()
	if after, err := os.ReadFile(path); err != nil || !bytes.Equal(before, after) {
		t.Errorf("the file was written to, %v", err)
	}
	// Closed while the check runs, it ends.
	if f, err = Open(path); err != nil {
		t.Fatal(err)
	}
	f.Close()
}
