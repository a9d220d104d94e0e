package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"wakeline/storage"
)

// damagedFile is a sample file with zeroes over the page that holds the first
// setups.
func damagedFile(t *testing.T) string {
	t.Helper()
	whole, err := os.ReadFile(patchedSample(t))
	if err != nil {
		t.Fatal(err)
	}
	const page = 4096
	at := bytes.Index(whole, []byte("The first one to learn")) / page * page
	if at <= 0 {
		t.Fatal("the first setup's note is on no page")
	}
	clear(whole[at : at+page])
	path := filepath.Join(t.TempDir(), "b.wakeline")
	if err := os.WriteFile(path, whole, 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestCheck(t *testing.T) {
	path := patchedSample(t)
	if code, out, progress := runIt(t, "check", path); code != 0 || out != "OK\n" || progress != "" {
		t.Errorf("check = %d, %q, %q, want OK", code, out, progress)
	}
	damaged := damagedFile(t)
	code, out, progress := runIt(t, "check", damaged)
	if code != 1 || out == "" || !strings.HasPrefix(out, "damaged\n") || !strings.Contains(progress, "--salvage NEW") {
		t.Errorf("check of a damaged file = %d, %q, %q, want 1 and what is wrong", code, out, progress)
	}
	for _, args := range [][]string{{"judge", damaged}, {"compare", damaged, "first", "1.1"}, {"import", damaged, write(t, little)}} {
		if code, out, progress := runIt(t, args...); code != 2 || out != "" || !strings.Contains(progress, damaged) {
			t.Errorf("%v of a damaged file = %d, %q, %q, want 2 and which file", args, code, out, progress)
		}
	}
	for _, c := range []struct {
		args []string
		say  string
	}{
		{[]string{named(t, "x.wakeline", strings.Repeat("no project", 20))}, "not a Wakeline project file"},
		{[]string{path + ".wakeline"}, "no such file"},
		{[]string{path + ".wakeline", "--salvage", "new.wakeline"}, "no such file"},
		{[]string{write(t, little)}, "named .wakeline"},
		{[]string{damaged, "--salvage", "new.json"}, "--salvage: expected a name ending in .wakeline"},
		{[]string{damaged, "--salvage", path}, "exist"},
	} {
		if code, out, progress := runIt(t, append([]string{"check"}, c.args...)...); code != 2 || out != "" || !strings.Contains(progress, c.say) {
			t.Errorf("check %v = %d, %q, %q; want 2 and %q", c.args, code, out, progress, c.say)
		}
	}
}

func TestCheckSalvages(t *testing.T) {
	damaged := damagedFile(t)
	before, err := os.ReadFile(damaged)
	if err != nil {
		t.Fatal(err)
	}
	saved := filepath.Join(t.TempDir(), "new.wakeline")
	code, out, progress := runIt(t, "check", damaged, "--salvage", saved)
	if code != 1 || !strings.Contains(out, "wrote "+saved+"\n") || !strings.Contains(out, "lost: ") || progress != "" {
		t.Fatalf("check --salvage = %d, %q, %q", code, out, progress)
	}
	if code, out, _ := runIt(t, "check", saved); code != 0 || out != "OK\n" {
		t.Errorf("check of what was saved = %d, %q", code, out)
	}
	inFile(t, saved, func(f *storage.File) {
		if n := len(f.Data().Fighters); n != 3 {
			t.Errorf("fighters saved = %d, want 3", n)
		}
	})
	if after, err := os.ReadFile(damaged); err != nil || string(after) != string(before) {
		t.Errorf("the damaged file changed: %v", err)
	}
	whole := patchedSample(t)
	unmade := filepath.Join(t.TempDir(), "unmade.wakeline")
	if code, out, _ := runIt(t, "check", whole, "--salvage", unmade); code != 0 || out != "OK\n" {
		t.Errorf("check --salvage of a whole file = %d, %q", code, out)
	}
	if _, err := os.Stat(unmade); !os.IsNotExist(err) {
		t.Errorf("a whole file was copied: %v", err)
	}
}
