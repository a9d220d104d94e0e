package storage

import (
	"bufio"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// beginAndWait has a file and a folder in the making, until it is killed. state
// is the folder that is begun with, and the one that they are made in.
func beginAndWait(state string) error {
	dir := filepath.Join(state, "out")
	Begin(state)
	file, err := tempFile(dir)
	if err != nil {
		return err
	}
	folder, err := tempFolder(dir)
	if err != nil {
		return err
	}
	if err := os.WriteFile(filepath.Join(folder, "inside"), nil, 0o600); err != nil {
		return err
	}
	if err := os.WriteFile(file+"-journal", nil, 0o600); err != nil {
		return err
	}
	fmt.Println("made")
	time.Sleep(time.Hour)
	return nil
}

func TestLeftoversOfADeadProcessGoAtTheNextStart(t *testing.T) {
	state := tempDir(t)
	dir := filepath.Join(state, "out")
	if err := os.Mkdir(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	write(t, filepath.Join(dir, tempPrefix+"of-the-user"), "kept")
	cmd, out := child(t, "begin", state)
	if line, _ := bufio.NewReader(out).ReadString('\n'); line != "made\n" {
		t.Fatalf("the child says %q", line)
	}
	defer Begin("")
	there := func() int {
		entries, err := os.ReadDir(dir)
		if err != nil {
			t.Fatal(err)
		}
		return len(entries)
	}
	Begin(state)
	if n := there(); n != 4 {
		t.Errorf("%d entries while the child lives, want its three and one more", n)
	}
	cmd.Process.Kill()
	cmd.Wait()
	Begin(state)
	if n := there(); n != 1 {
		t.Errorf("%d entries after it was killed, want the user's alone", n)
	}
	if left, _ := os.ReadDir(filepath.Join(state, "unfinished")); len(left) > 0 {
		t.Errorf("notes are left: %v", left)
	}
}

// TestWhatEndsInTheMiddleLeavesNothing ends a process that has something in the
// making.
func TestWhatEndsInTheMiddleLeavesNothing(t *testing.T) {
	keepCopies(t)
	dir := tempDir(t)
	if _, err := tempFile(dir); err != nil {
		t.Fatal(err)
	}
	list := temps.list
	if text := string(read(t, list)); !strings.HasPrefix(text, filepath.Join(dir, tempPrefix)) {
		t.Errorf("the list says %q", text)
	}
	if err := End(time.Minute); err != nil {
		t.Fatal(err)
	}
	if left, _ := os.ReadDir(dir); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
	if _, err := os.Stat(list); err == nil {
		t.Error("the list is left behind")
	}
}
