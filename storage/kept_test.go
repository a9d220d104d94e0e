package storage

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"runtime"
	"testing"
	"time"

	"wakeline/timeline"
)

// keepCopies has this process keep copies in a folder of its own until the test
// ends.
func keepCopies(t *testing.T) (folder string) {
	t.Helper()
	folder = tempDir(t)
	Begin(folder)
	t.Cleanup(func() {
		if err := End(time.Minute); err != nil {
			t.Error(err)
		}
		Begin("")
	})
	return folder
}

// kept waits for the copies in the making and lists those of the file at path.
func kept(t *testing.T, path string) []Kept {
	t.Helper()
	if err := End(time.Minute); err != nil {
		t.Error(err)
	}
	return Copies(path)
}

func TestACopyIsKeptOnOpeningAndAfterEdits(t *testing.T) {
	folder := keepCopies(t)
	p := sample(t)
	f := made(t, p)
	opened := kept(t, f.Path())
	if len(opened) != 1 {
		t.Fatalf("%d copies after opening, want one", len(opened))
	}
	if got, err := readWhole(opened[0].Path); err != nil || !reflect.DeepEqual(got, p) {
		t.Errorf("the copy holds another project, %v", err)
	}
	if err := noteEdit(f, p.Setups[0], "edited"); err != nil {
		t.Fatal(err)
	}
	p.Setups[0].Note = "edited"
	f.Close()
	closed := kept(t, f.Path())
	if len(closed) != 2 || !closed[0].Of.After(closed[1].Of) || closed[1] != opened[0] {
		t.Fatalf("%v after edits, want one more, and the newest first", closed)
	}
	if got, err := readWhole(closed[0].Path); err != nil || !reflect.DeepEqual(got, p) {
		t.Errorf("the copy lacks the edit, %v", err)
	}
	for range 2 { // nothing is new
		again, err := Open(f.Path())
		if err != nil {
			t.Fatal(err)
		}
		again.Close()
	}
	looked(t, f.Path()).Close()
	if now := kept(t, f.Path()); !reflect.DeepEqual(now, closed) {
		t.Errorf("%v after opening it again, want %v", now, closed)
	}
	if runtime.GOOS == "windows" {
		return
	}
	if err := filepath.WalkDir(folder, func(path string, _ fs.DirEntry, failed error) error {
		info, err := os.Stat(path)
		if err = errors.Join(failed, err); err == nil && path != folder && info.Mode().Perm()&0o077 != 0 {
			t.Errorf("%s may be read by others: %v", path, info.Mode())
		}
		return err
	}); err != nil {
		t.Error(err)
	}
	if left, _ := filepath.Glob(filepath.Join(folder, "*", "*", tempPrefix+"*")); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

func TestAFewCopiesAreKept(t *testing.T) {
	keepCopies(t)
	p := sample(t)
	f := made(t, p)
	var all []Kept
	for n := range mostKept + 3 {
		if err := noteEdit(f, p.Setups[0], string(rune('a'+n))); err != nil {
			t.Fatal(err)
		}
		f.Close()
		all = append(kept(t, f.Path())[:1:1], all...)
		var err error
		if f, err = Open(f.Path()); err != nil {
			t.Fatal(err)
		}
	}
	f.Close()
	if got := kept(t, f.Path()); !reflect.DeepEqual(got, all[:mostKept]) {
		t.Errorf("kept %v, want the newest %d of %v", got, mostKept, all)
	}
	other := made(t, p)
	other.Close()
	if got := kept(t, other.Path()); len(got) != 1 {
		t.Errorf("another project has %d copies, want one", len(got))
	}
}

// TestADamagedFileIsNotKept damages a file in a way that opening it doesn't
// find: its history can't be read.
func TestADamagedFileIsNotKept(t *testing.T) {
	keepCopies(t)
	path, _ := worn(t)
	before := kept(t, path)
	plainly(t, path, "UPDATE edit_row SET before = 'x' WHERE edit = 1")
	f, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	f.Close()
	if err := End(time.Minute); err == nil || !contains(err.Error(), "failed its check") || !contains(err.Error(), path) {
		t.Errorf("end = %v, want that no copy of %s was kept", err, path)
	}
	if now := Copies(path); !reflect.DeepEqual(now, before) {
		t.Errorf("kept %v, want %v", now, before)
	}
}

func TestDamagedFirstBytesAreAnsweredWithTheCopy(t *testing.T) {
	keepCopies(t)
	p := sample(t)
	f := made(t, p)
	f.Close()
	copies := kept(t, f.Path())
	whole := read(t, f.Path())
	for name, b := range map[string][]byte{
		"nothing":        {},
		"half a header":  whole[:50],
		"zeroes":         make([]byte, len(whole)),
		"another's file": []byte("a text that somebody wrote over it, longer than the header of a file, so that all of the header is there"),
	} {
		write(t, f.Path(), string(b))
		_, err := Open(f.Path())
		if !errors.Is(err, ErrDamaged) {
			t.Errorf("%s: %v, want %v", name, err, ErrDamaged)
		}
		if found, err := Check(context.Background(), f.Path()); err != nil || len(found) != 1 {
			t.Errorf("%s: check = %v, %v, want what is wrong", name, found, err)
		}
		if got := Copies(f.Path()); !reflect.DeepEqual(got, copies) {
			t.Errorf("%s: copies %v, want %v", name, got, copies)
		}
	}
	os.Remove(f.Path())
	if got := Copies(f.Path()); !reflect.DeepEqual(got, copies) {
		t.Errorf("removed: copies %v, want %v", got, copies)
	}
	to := filepath.Join(tempDir(t), "restored"+Ext)
	if err := Restore(context.Background(), copies[0], to); err != nil {
		t.Fatal(err)
	}
	if got, err := readWhole(to); err != nil || !reflect.DeepEqual(got, p) {
		t.Errorf("restored: another project, %v", err)
	}
	if err := Restore(context.Background(), copies[0], to); !errors.Is(err, fs.ErrExist) {
		t.Errorf("restored over a file: %v, want that it exists", err)
	}
	poke(t, copies[0].Path, 8192, make([]byte, 16384))
	if err := Restore(context.Background(), copies[0], to+"2"+Ext); !errors.Is(err, ErrDamaged) {
		t.Errorf("a damaged copy is restored: %v", err)
	}
}

// TestACopyIsMadeWhileTheFileIsEdited has a file edited without a pause while
// copies of it are made.
func TestACopyIsMadeWhileTheFileIsEdited(t *testing.T) {
	keepCopies(t)
	p := sample(t)
	f := made(t, p)
	done := make(chan error)
	go func() {
		var err error
		for n := 0; n < 60 && err == nil; n++ {
			err = noteEdit(f, p.Setups[0], string(rune('a'+n%26)))
			if n%10 == 0 {
				f.mu.Lock()
				f.keepCopy()
				f.mu.Unlock()
			}
		}
		done <- err
	}()
	if err := <-done; err != nil {
		t.Fatal(err)
	}
	f.Close()
	copies := kept(t, f.Path())
	if len(copies) < 2 {
		t.Fatalf("%d copies, want some", len(copies))
	}
	for _, c := range copies {
		if found, err := Check(context.Background(), c.Path); err != nil || len(found) > 0 {
			t.Errorf("%s: %v, %v", c.Path, found, err)
		}
	}
}

// noteEdit edits the note of a setup.
func noteEdit(f *File, s timeline.Setup, text string) error {
	s.Note = text
	return f.Edit("note", func(st *Step) error { return st.PutSetup(s.Name, &s) })
}
