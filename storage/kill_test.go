package storage

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"wakeline/timeline"
)

// asChild is the environment variable by which a test runs its own binary as
// a child process that works on a file.
const asChild = "WAKELINE_TEST_CHILD"

func TestMain(m *testing.M) {
	if what, path, ok := strings.Cut(os.Getenv(asChild), " "); ok {
		if err := children[what](path); err != nil {
			fmt.Println("error", err)
			os.Exit(1)
		}
		os.Exit(0)
	}
	code := m.Run()
	if big.dir != "" {
		os.RemoveAll(big.dir)
	}
	os.Exit(code)
}

// children are what a child process may be asked to do with a file.
var children = map[string]func(path string) error{"edit": editFast, "hold": holdOpen, "begin": beginAndWait}

// child starts this binary again.
func child(t *testing.T, what, path string) (*exec.Cmd, io.ReadCloser) {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(self)
	cmd.Env = append(os.Environ(), asChild+"="+what+" "+path)
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	return cmd, out
}

// editFast edits until it is killed, and tells each edit that is done: the
// setups' delays and the first move's damage after it.
func editFast(path string) error {
	f, err := Open(path)
	if err != nil {
		return err
	}
	if why := f.ReadOnly(); why != "" {
		return fmt.Errorf("read-only: %s", why)
	}
	p, err := f.Project()
	if err != nil {
		return err
	}
	g := rand.New(rand.NewPCG(uint64(os.Getpid()), 3))
	out := bufio.NewWriter(os.Stdout)
	for n := 1; ; n++ {
		switch g.IntN(8) {
		case 0:
			if _, err := f.Undo(); err != nil && err != ErrNoStep {
				return err
			}
			if p, err = f.Project(); err != nil {
				return err
			}
		case 1:
			m := &p.Fighters[0].Moves[0]
			m.Damage = g.IntN(1e6)
			if err := f.Edit("damage", func(s *Step) error { return s.PutMove(p.Fighters[0].Name, m.Name, m) }); err != nil {
				return err
			}
		default:
			// As many setups as it takes for some edits to be long.
			some := 1 + g.IntN(len(p.Setups))
			if err := f.Edit("delays", func(s *Step) error {
				for i := range p.Setups[:some] {
					p.Setups[i].Delay = g.IntN(100)
					p.Setups[i].Note = strings.Repeat("x", g.IntN(3000))
					if err := s.PutSetup(p.Setups[i].Name, &p.Setups[i]); err != nil {
						return err
					}
				}
				return nil
			}); err != nil {
				return err
			}
		}
		if err := json.NewEncoder(out).Encode(stateOf(p)); err != nil {
			return err
		}
		if err := out.Flush(); err != nil {
			return err
		}
	}
}

// stateOf is all that editFast changes.
func stateOf(p *timeline.Project) []int {
	out := []int{p.Fighters[0].Moves[0].Damage}
	for _, s := range p.Setups {
		out = append(out, s.Delay, len(s.Note))
	}
	return out
}

func TestKilledAtAnyInstantEveryToldEditIsThere(t *testing.T) {
	kill(t, 200, func(string, *rand.Rand) {})
}

// kill lets a child edit and kills it, again and again, a tenth as often where
// the test is to be short: every third time a moment after it began, so that it
// may still be opening the file, else a moment after its first edit. Each time cut may do to the file and its journal
// what else befalls them; then the file must open, be sound, and hold every
// edit that the child told.
func kill(t *testing.T, kills int, cut func(path string, g *rand.Rand)) {
	t.Helper()
	if testing.Short() {
		kills /= 10
	}
	first := made(t, sample(t))
	path := first.Path()
	first.Close()
	g := rand.New(rand.NewPCG(1, 2))
	told, torn, more := 0, 0, 0
	for n := range kills {
		cmd, out := child(t, "edit", path)
		timer := time.AfterFunc(time.Hour, func() { cmd.Process.Kill() })
		moment := time.Duration(10+g.IntN(60)) * time.Millisecond
		if n%3 == 0 {
			timer.Reset(moment)
		}
		var last []int
		lines := 0
		in := bufio.NewScanner(out)
		for in.Scan() {
			var s []int
			if err := json.Unmarshal(in.Bytes(), &s); err != nil {
				if strings.HasPrefix(in.Text(), "error") {
					t.Fatalf("kill %d: the child: %s", n, in.Text())
				}
				break // torn by the kill
			}
			last = s
			if lines++; lines == 1 && n%3 != 0 {
				timer.Reset(moment)
			}
		}
		timer.Stop()
		cmd.Process.Kill()
		cmd.Wait()
		told += lines
		if _, err := os.Stat(path + "-journal"); err == nil {
			torn++
		}
		cut(path, g)
		f, err := Open(path)
		if err != nil {
			t.Fatalf("kill %d: %v", n, err)
		}
		if why := f.ReadOnly(); why != "" {
			t.Fatalf("kill %d: read-only: %s", n, why)
		}
		if found, err := pragmaRows(t.Context(), f.db, "integrity_check"); err != nil || len(found) != 1 || found[0] != "ok" {
			t.Fatalf("kill %d: integrity_check = %v, %v", n, found, err)
		}
		p, err := f.Project()
		if err != nil {
			t.Fatalf("kill %d: %v", n, err)
		}
		if last != nil && !reflect.DeepEqual(stateOf(p), last) {
			// One edit may have ended that could not be told: then undoing
			// it, or redoing what was undone, gives what was told.
			more++
			is := func() bool {
				q, err := f.Project()
				return err == nil && reflect.DeepEqual(stateOf(q), last)
			}
			_, err := f.Undo()
			found := err == nil && is()
			for range 2 { // back to where it was, and one further
				if !found {
					f.Redo()
					found = is()
				}
			}
			if !found {
				t.Fatalf("kill %d: after %d edits: %v, want %v or one edit more", n, lines, stateOf(p), last)
			}
		}
		f.Close()
	}
	t.Logf("%d kills, %d edits told, %d kills in the midst of an edit, %d with an edit more", kills, told, torn, more)
	if found, err := Check(context.Background(), path); err != nil || len(found) > 0 {
		t.Errorf("check = %v, %v", found, err)
	}
}

// holdOpen keeps a file open until it is killed.
func holdOpen(path string) error {
	f, err := Open(path)
	if err != nil {
		return err
	}
	fmt.Printf("open %q\n", f.ReadOnly())
	time.Sleep(time.Minute)
	return nil
}

func TestASecondProcessReadsAndTakesOver(t *testing.T) {
	p := sample(t)
	f := made(t, p)
	path := f.Path()
	f.Close()
	cmd, out := child(t, "hold", path)
	defer func() { cmd.Process.Kill(); cmd.Wait() }()
	if line, err := bufio.NewReader(out).ReadString('\n'); err != nil || line != "open \"\"\n" {
		t.Fatalf("the first process: %q, %v, want it to edit", line, err)
	}
	second, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer second.Close()
	if why := second.ReadOnly(); why != anotherWindow {
		t.Errorf("read-only: %q, want %q", why, anotherWindow)
	}
	holds(t, second, p, "read-only")
	if err := second.TakeOver(); err == nil || !contains(err.Error(), anotherWindow) {
		t.Errorf("taken over from a living process: %v", err)
	}
	third, out3 := child(t, "hold", path)
	defer func() { third.Process.Kill(); third.Wait() }()
	if line, err := bufio.NewReader(out3).ReadString('\n'); err != nil || !contains(line, anotherWindow) {
		t.Errorf("a third process: %q, %v, want it read-only", line, err)
	}
	cmd.Process.Kill()
	cmd.Wait()
	if err := second.TakeOver(); err != nil {
		t.Fatal(err)
	}
	if err := second.Edit("now", func(s *Step) error { return s.RemoveSetup(p.Setups[0].Name) }); err != nil {
		t.Error(err)
	}
	second.Close()
	if left, _ := filepath.Glob(filepath.Join(filepath.Dir(path), ".*")); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

// TestLocksAreNotLostWithTheirFile has windows of this process open and close
// the same file at once: never may two of them edit it.
func TestLocksAreNotLostWithTheirFile(t *testing.T) {
	f := made(t, sample(t))
	path := f.Path()
	f.Close()
	editors := make(chan struct{}, 1)
	done := make(chan error, 4)
	for range 4 {
		go func() {
			for range 40 {
				f, err := Open(path)
				if err != nil {
					done <- err
					return
				}
				if f.ReadOnly() == "" {
					select {
					case editors <- struct{}{}:
					default:
						done <- fmt.Errorf("two windows may edit")
						return
					}
					<-editors
				}
				f.Close()
			}
			done <- nil
		}()
	}
	for range 4 {
		if err := <-done; err != nil {
			t.Error(err)
		}
	}
}
