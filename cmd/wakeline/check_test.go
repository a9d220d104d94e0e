package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"wakeline/storage"
)

// brokenFile is a sample file with zeroes over the page that holds the first
// setups.
func brokenFile(t *testing.T) string {
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
	if code, out, progress := runIt(t, "check", path); code != 0 || out != "sound\n" || progress != "" {
		t.Errorf("check = %d, %q, %q, want sound", code, out, progress)
	}
	broken := brokenFile(t)
	code, out, progress := runIt(t, "check", broken)
	if code != 1 || out == "" || strings.Contains(out, "sound") || !strings.Contains(progress, "--salvage NEW") {
		t.Errorf("check of a broken file = %d, %q, %q, want 1 and what is wrong", code, out, progress)
	}
	for _, args := range [][]string{{"judge", broken}, {"compare", broken, "first", "1.1"}, {"import", broken, write(t, little)}} {
		if code, out, progress := runIt(t, args...); code != 2 || out != "" || !strings.Contains(progress, broken) {
			t.Errorf("%v of a broken file = %d, %q, %q, want 2 and which file", args, code, out, progress)
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
		{[]string{broken, "--salvage", "new.json"}, "--salvage: expected a name ending in .wakeline"},
		{[]string{broken, "--salvage", path}, "exist"},
	} {
		if code, out, progress := runIt(t, append([]string{"check"}, c.args...)...); code != 2 || out != "" || !strings.Contains(progress, c.say) {
			t.Errorf("check %v = %d, %q, %q; want 2 and %q", c.args, code, out, progress, c.say)
		}
	}
}

func TestCheckSalvages(t *testing.T) {
	broken := brokenFile(t)
	before, err := os.ReadFile(broken)
	if err != nil {
		t.Fatal(err)
	}
	saved := filepath.Join(t.TempDir(), "new.wakeline")
	code, out, progress := runIt(t, "check", broken, "--salvage", saved)
	if code != 1 || !strings.Contains(out, "wrote "+saved+"\n") || !strings.Contains(out, "lost: ") || progress != "" {
		t.Fatalf("check --salvage = %d, %q, %q", code, out, progress)
	}
	if code, out, _ := runIt(t, "check", saved); code != 0 || out != "sound\n" {
		t.Errorf("check of what was saved = %d, %q", code, out)
	}
	inFile(t, saved, func(f *storage.File) {
		if n := len(f.Data().Fighters); n != 3 {
			t.Errorf("fighters saved = %d, want 3", n)
		}
	})
	if after, err := os.ReadFile(broken); err != nil || string(after) != string(before) {
		t.Errorf("the broken file changed: %v", err)
	}
	sound := patchedSample(t)
	unmade := filepath.Join(t.TempDir(), "unmade.wakeline")
	if code, out, _ := runIt(t, "check", sound, "--salvage", unmade); code != 0 || out != "sound\n" {
		t.Errorf("check --salvage of a sound file = %d, %q", code, out)
	}
	if _, err := os.Stat(unmade); !os.IsNotExist(err) {
		t.Errorf("a sound file was copied: %v", err)
	}
}
