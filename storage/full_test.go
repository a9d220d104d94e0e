//go:build linux

package storage

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

func init() { children["cap"] = editCapped }

// fillUp edits until it fails, each time with a longer note, and returns how
// many edits were made, and the error.
func fillUp(f *File) (made int, err error) {
	p, err := f.Project()
	if err != nil {
		return 0, err
	}
	s := p.Setups[0]
	for made < 10_000 {
		s.Note = fmt.Sprint(made+1, " ", strings.Repeat("n", 20_000))
		if err := f.Edit("note", func(st *Step) error { return st.PutSetup(s.Name, &s) }); err != nil {
			return made, err
		}
		made++
	}
	return made, errors.New("the disk never filled")
}

// editCapped edits a file that may grow by a little only, until that fails,
// and tells how it stands then.
func editCapped(path string) error {
	signal.Ignore(syscall.SIGXFSZ)
	info, err := os.Stat(path)
	if err != nil {
		return err
	}
	size := uint64(info.Size()) + 300_000
	if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: size, Max: size}); err != nil {
		return err
	}
	f, err := Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	n, full := fillUp(f)
	p, err := f.Project()
	if err != nil {
		return err
	}
	fmt.Printf("%d|%s|%s\n", n, strings.Fields(p.Setups[0].Note + " 0")[0], full)
	return nil
}

func TestAFullDisk(t *testing.T) {
	f := made(t, sample(t))
	path := f.Path()
	f.Close()
	cmd, out := child(t, "cap", path)
	line, _ := bufio.NewReader(out).ReadString('\n')
	cmd.Wait()
	part := strings.SplitN(line, "|", 3)
	if len(part) != 3 || part[0] == "0" || part[0] != part[1] || !contains(part[2], "the disk is full") {
		t.Fatalf("the child: %q, want some edits, as many in the file, and an error that the disk is full", line)
	}
	afterFull(t, path, part[0])
}

func TestAFullFileSystem(t *testing.T) {
	dir := tempDir(t)
	if os.Getuid() != 0 {
		t.Skip("only root can mount a small file system")
	}
	if out, err := exec.Command("mount", "-t", "tmpfs", "-o", "size=1m", "tmpfs", dir).CombinedOutput(); err != nil {
		t.Skipf("mount: %v: %s", err, out)
	}
	defer exec.Command("umount", dir).Run()
	f, err := Create(filepath.Join(dir, "p"+Ext), sample(t))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	n, err := fillUp(f)
	if n == 0 || !contains(err.Error(), "the disk is full") {
		t.Errorf("%d edits, then %v, want some, then that the disk is full", n, err)
	}
	// The window goes on: it reads, and a small edit may fit again or fail
	// the same way, with nothing lost.
	p, err := f.Project()
	if err != nil || !strings.HasPrefix(p.Setups[0].Note, fmt.Sprint(n, " ")) {
		t.Fatalf("after it: %v, want note %d", err, n)
	}
	f.Close()
	afterFull(t, f.Path(), fmt.Sprint(n))
}

// afterFull asks that the file holds all edits that were made before.
func afterFull(t *testing.T, path, last string) {
	t.Helper()
	f, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	p, err := f.Project()
	if err != nil || !strings.HasPrefix(p.Setups[0].Note, last+" ") {
		t.Errorf("opened again: %v, want note %s", err, last)
	}
	if h, err := f.History(99999); err != nil || fmt.Sprint(len(h)) != last {
		t.Errorf("history = %d steps, %v, want %s", len(h), err, last)
	}
	if found, err := Check(context.Background(), path); err != nil || len(found) > 0 {
		t.Errorf("check = %v, %v", found, err)
	}
}

func TestMadeReadOnlyMidWay(t *testing.T) {
	for _, what := range []string{"the file", "its folder"} {
		t.Run(what, func(t *testing.T) {
			p := sample(t)
			f := made(t, p)
			s := p.Setups[0]
			if err := noteEdit(f, s, "before"); err != nil {
				t.Fatal(err)
			}
			p.Setups[0].Note = "before"
			target := f.Path()
			if what == "its folder" {
				target = filepath.Dir(target)
			}
			allow := forbid(t, target)
			err := noteEdit(f, s, "after")
			if what == "its folder" && err == nil {
				t.Fatal("an edit in a folder that can't be written, want an error")
			}
			if err != nil {
				if !contains(err.Error(), "can't be written") && !contains(err.Error(), "can't be opened") {
					t.Errorf("error = %v, want one that says it can't be written", err)
				}
				if what == "its folder" {
					holds(t, f, p, "after it")
				} else if q, err := f.Project(); err == nil && q.Setups[0].Note != "before" {
					t.Errorf("note = %q, want the one before", q.Setups[0].Note)
				} else if err != nil && !contains(err.Error(), "can't be written") { // what was broken off can't be taken back yet
					t.Errorf("error = %v, want one that says it can't be written", err)
				}
			} else { // a descriptor that is open already may write all the same
				p.Setups[0].Note = "after"
				holds(t, f, p, "after it")
			}
			f.Close()
			again, err := Open(f.Path())
			if err != nil && what == "the file" && contains(err.Error(), "an edit of it was interrupted") {
				allow()
				if again, err = Open(f.Path()); err == nil {
					holds(t, again, p, "allowed again")
					again.Close()
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			if again.ReadOnly() == "" {
				t.Errorf("%s can't be written, and an edit is allowed", what)
			}
			if err := noteEdit(again, s, "x"); err == nil || !contains(err.Error(), "read-only") {
				t.Errorf("error = %v, want that it is read-only", err)
			}
			holds(t, again, p, "read-only")
			allow()
			if err := again.TakeOver(); err != nil {
				t.Error(err)
			}
			if err := noteEdit(again, s, "again"); err != nil {
				t.Error(err)
			}
			again.Close()
		})
	}
}

// forbid takes the right to write away, from root too.
func forbid(t *testing.T, path string) (allow func()) {
	t.Helper()
	if os.Getuid() != 0 {
		info, err := os.Stat(path)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.Chmod(path, info.Mode()&^0o222); err != nil {
			t.Fatal(err)
		}
		return func() { os.Chmod(path, info.Mode()) }
	}
	if out, err := exec.Command("chattr", "+i", path).CombinedOutput(); err != nil {
		t.Skipf("root may write all the same, and chattr: %v: %s", err, out)
	}
	allow = func() { exec.Command("chattr", "-i", path).Run() }
	t.Cleanup(allow)
	return allow
}

func TestVanished(t *testing.T) {
	for what, vanish := range map[string]func(path string) error{
		"removed": os.Remove,
		"moved":   func(path string) error { return os.Rename(path, path+".moved") },
		"replaced": func(path string) error {
			other, err := Create(path+".new", nil)
			if err != nil {
				return err
			}
			other.Close()
			return os.Rename(path+".new", path)
		},
	} {
		t.Run(what, func(t *testing.T) {
			p := sample(t)
			f := made(t, p)
			if err := vanish(f.Path()); err != nil {
				t.Fatal(err)
			}
			for range 2 {
				if err := noteEdit(f, p.Setups[0], "after"); !errors.Is(err, ErrGone) {
					t.Fatalf("error = %v, want %v", err, ErrGone)
				}
			}
			if f.ReadOnly() == "" {
				t.Error("it may still be edited, want it read-only")
			}
			if _, err := f.Undo(); !errors.Is(err, ErrGone) {
				t.Errorf("undo: %v, want %v", err, ErrGone)
			}
			holds(t, f, p, "gone")
			saved := filepath.Join(tempDir(t), "saved"+Ext)
			if err := f.Copy(t.Context(), saved, nil); err != nil {
				t.Fatal(err)
			}
			c, err := Open(saved)
			if err != nil {
				t.Fatal(err)
			}
			holds(t, c, p, "saved")
			c.Close()
			if what == "removed" {
				if err := f.TakeOver(); err == nil {
					t.Error("taken over though it is gone")
				}
				holds(t, f, p, "still")
				if err := os.Rename(saved, f.Path()); err != nil {
					t.Fatal(err)
				}
				if err := f.TakeOver(); err != nil {
					t.Fatal(err)
				}
				if err := noteEdit(f, p.Setups[0], "back"); err != nil {
					t.Error(err)
				}
			}
		})
	}
}
