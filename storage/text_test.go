package storage

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"wakeline/timeline"
)

func TestReplaceIsAllOrNothing(t *testing.T) {
	dir := tempDir(t)
	path := filepath.Join(dir, "a.json")
	write := func(text string, fail error) error {
		return Replace(path, func(w io.Writer) error {
			if _, err := io.WriteString(w, text); err != nil {
				return err
			}
			return fail
		})
	}
	if err := write("one", nil); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(path, 0o600); err != nil {
		t.Fatal(err)
	}
	broken := errors.New("broken off")
	if err := write("half of tw", broken); !errors.Is(err, broken) || !strings.Contains(err.Error(), path) {
		t.Errorf("error = %v, want %v with the path", err, broken)
	}
	if got, _ := os.ReadFile(path); string(got) != "one" {
		t.Errorf("after a failed write = %q, want %q", got, "one")
	}
	if err := write("two", nil); err != nil {
		t.Fatal(err)
	}
	if got, _ := os.ReadFile(path); string(got) != "two" {
		t.Errorf("after a write = %q, want %q", got, "two")
	}
	if info, _ := os.Stat(path); info.Mode().Perm() != 0o600 && runtime.GOOS != "windows" { // which has no such modes
		t.Errorf("mode = %v, want the old file's 0600", info.Mode())
	}
	if left, _ := os.ReadDir(dir); len(left) != 1 {
		t.Errorf("files in the folder = %v, want one", left)
	}
	if err := Replace(dir, func(io.Writer) error { return nil }); err == nil {
		t.Error("a folder was replaced, want an error")
	}
	if runtime.GOOS == "windows" {
		return // where few may make a link
	}
	link := filepath.Join(dir, "link.json")
	if err := os.Symlink(path, link); err != nil {
		t.Fatal(err)
	}
	if err := Replace(link, func(w io.Writer) error { _, err := io.WriteString(w, "three"); return err }); err != nil {
		t.Fatal(err)
	}
	if got, _ := os.ReadFile(path); string(got) != "three" {
		t.Errorf("through a link = %q, want %q", got, "three")
	}
}

func TestTextFile(t *testing.T) {
	path := filepath.Join(tempDir(t), "p.json")
	if _, err := ReadText(path); err == nil || !strings.Contains(err.Error(), path) {
		t.Errorf("no file: error = %v, want one with the path", err)
	}
	p := &timeline.Project{Ruleset: timeline.DefaultRuleset()}
	if err := WriteText(path, p); err != nil {
		t.Fatal(err)
	}
	if _, err := ReadText(path); err != nil {
		t.Error(err)
	}
	if err := os.WriteFile(path, []byte(`{"wakeline": 1, "fighters": [{}]}`), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := ReadText(path); err == nil || !strings.Contains(err.Error(), path+": $.fighters[0].name") {
		t.Errorf("bad text: error = %v, want the path and the place", err)
	}
	if err := os.Truncate(path, 50<<20); err != nil {
		t.Fatal(err)
	}
	if _, err := ReadText(path); err == nil || !strings.Contains(err.Error(), "at most") {
		t.Errorf("50 MiB: error = %v, want one that says the most", err)
	}
}
