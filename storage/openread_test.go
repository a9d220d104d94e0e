package storage

import (
	"context"
	"errors"
	"os"
	"sync"
	"testing"

	"wakeline/timeline"
)

// looked opens the file at path to read it, until the test ends.
func looked(t *testing.T, path string) *File {
	t.Helper()
	f, err := OpenToRead(path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return f
}

func TestWhoLooksAndWhoEditsAreNotInEachOthersWay(t *testing.T) {
	p := sample(t)
	f := made(t, p)
	before := looked(t, f.Path()) // while a window has it
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	window, err := Open(f.Path()) // while it is looked at
	if err != nil {
		t.Fatal(err)
	}
	defer window.Close()
	if why := window.ReadOnly(); why != "" {
		t.Fatalf("a window opened meanwhile is read-only: %s", why)
	}
	s := p.Setups[0]
	s.Note = "written while others look"
	if err := window.Edit("note", func(st *Step) error { return st.PutSetup(s.Name, &s) }); err != nil {
		t.Fatal(err)
	}
	p.Setups[0] = s
	for what, f := range map[string]*File{"opened before the window": before, "opened after it": looked(t, f.Path())} {
		holds(t, f, p, what)
		if err := f.Edit("no", func(st *Step) error { return st.RemoveSetup(s.Name) }); err == nil || !contains(err.Error(), onlyRead) {
			t.Errorf("%s: edit = %v, want that it is %s", what, err, onlyRead)
		}
	}
}

func TestLookingEndsWhereTheMoveDataChange(t *testing.T) {
	p := sample(t)
	for len(p.Setups) <= 3*batch {
		s := p.Setups[len(p.Setups)%9]
		s.Name = newUID()
		p.Setups = append(p.Setups, s)
	}
	window := made(t, p)
	f := looked(t, window.Path())
	read := func(meanwhile func(s *Step) error) (n int, err error) {
		err = f.EachSetup(context.Background(), func(int, *timeline.Setup) error {
			if n++; n == 1 {
				return window.Edit("meanwhile", meanwhile)
			}
			return nil
		})
		return n, err
	}
	s := p.Setups[2*batch]
	s.Note = "another"
	if n, err := read(func(st *Step) error { return st.PutSetup(s.Name, &s) }); err != nil || n != len(p.Setups) {
		t.Errorf("a setup edited meanwhile: %d setups, %v, want all %d", n, err, len(p.Setups))
	}
	m := p.Fighters[0].Moves[0]
	m.Name = "Renamed"
	if n, err := read(func(st *Step) error { return st.PutMove(p.Fighters[0].Name, p.Fighters[0].Moves[0].Name, &m) }); !errors.Is(err, ErrChanged) || n != batch {
		t.Errorf("a move renamed meanwhile: %d setups, %v, want %d and %v", n, err, batch, ErrChanged)
	}
	if _, err := f.Heads(); !errors.Is(err, ErrChanged) {
		t.Errorf("then the list: %v, want %v still", err, ErrChanged)
	}
	if got := f.Data().Fighters[0].Moves[0].Name; got != p.Fighters[0].Moves[0].Name {
		t.Errorf("the move's name = %q, want the old one", got)
	}
}

func TestLookBringsAnOlderSchemaUpFirst(t *testing.T) {
	path, _ := old(t, len(migrations))
	was := migrations
	defer func() { migrations, schemasOnce, schemas = was, sync.Once{}, nil }()
	migrations, schemasOnce, schemas = append(was[:len(was):len(was)], "ALTER TABLE setup ADD COLUMN more TEXT"), sync.Once{}, nil
	f, err := OpenToRead(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if version, err := numbers(f.db, "PRAGMA user_version"); err != nil || version[0] != int64(len(migrations)) || f.lock != nil {
		t.Errorf("version %v, %v, lock %v, want %d and no lock", version, err, f.lock, len(migrations))
	}
	if left, _ := os.Stat(lockPath(f.real)); left != nil {
		t.Error("a lock is left behind")
	}
}
