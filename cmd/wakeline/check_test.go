package main

import (
	"bytes"
	"database/sql"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	_ "github.com/mattn/go-sqlite3"

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

// TestCheckOffersTheKeptCopy spoils the first bytes of a file that was edited.
func TestCheckOffersTheKeptCopy(t *testing.T) {
	storage.Begin(t.TempDir())
	defer storage.Begin("")
	path := patchedSample(t)
	if err := storage.End(time.Minute); err != nil {
		t.Fatal(err)
	}
	text := textOf(t, path)
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	clear(whole[:100])
	if err := os.WriteFile(path, whole, 0o644); err != nil {
		t.Fatal(err)
	}
	code, out, progress := runIt(t, "check", path)
	if code != 1 || !strings.HasPrefix(out, "damaged\n") || strings.Contains(out, "program") || !strings.Contains(progress, "--restore NEW.wakeline writes the copy of 20") {
		t.Errorf("check = %d, %q, %q", code, out, progress)
	}
	made := filepath.Join(t.TempDir(), "made.wakeline")
	if code, out, progress := runIt(t, "check", path, "--salvage", made); code != 2 || out != "" || !strings.Contains(progress, "--restore NEW.wakeline") {
		t.Errorf("check --salvage = %d, %q, %q, want 2 and the copy", code, out, progress)
	}
	code, out, _ = runIt(t, "check", path, "--copies")
	if lines := strings.Split(strings.TrimSpace(out), "\n"); code != 0 || len(lines) < 2 || !strings.HasSuffix(lines[0], ".wakeline") {
		t.Errorf("check --copies = %d, %q, want at least two", code, out)
	}
	if code, out, progress := runIt(t, "check", path, "--restore", made); code != 0 || !strings.HasPrefix(out, "wrote "+made+": the copy of 20") || progress != "" {
		t.Errorf("check --restore = %d, %q, %q", code, out, progress)
	}
	if got := textOf(t, made); got != text {
		t.Errorf("restored:\n%s\nwant:\n%s", got, text)
	}
	for _, c := range []struct {
		args []string
		say  string
	}{
		{[]string{path, "--restore", made}, "exist"},
		{[]string{path, "--restore", "new.json"}, "--restore: expected a name ending in .wakeline"},
		{[]string{path, "--restore", made, "--salvage", made}, "expected one of"},
		{[]string{path + "x.wakeline", "--restore", made + "2.wakeline"}, "no copies are kept"},
	} {
		if code, out, progress := runIt(t, append([]string{"check"}, c.args...)...); code != 2 || out != "" || !strings.Contains(progress, c.say) {
			t.Errorf("check %v = %d, %q, %q; want 2 and %q", c.args, code, out, progress, c.say)
		}
	}
}

// TestALargeDamagedFileGetsNoAnswer damages an index of a file that is so large
// that its pages are checked behind everything else.
func TestALargeDamagedFileGetsNoAnswer(t *testing.T) {
	path := patchedSample(t)
	db, err := sql.Open("sqlite3", path)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := db.Exec("UPDATE revision SET note = printf('%.34000000c', 'x') WHERE data IS NULL"); err != nil {
		t.Fatal(err)
	}
	db.Close()
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	const name, page, leafOfIndex = "Mitre Gate", 4096, 10
	hurt := 0
	for at := 0; ; at++ {
		next := bytes.Index(whole[at:], []byte(name))
		if next < 0 {
			break
		}
		at += next
		if whole[at/page*page] == leafOfIndex && whole[at-1] != '"' { // where it isn't quoted in the history
			whole[at]++
			hurt++
		}
	}
	if hurt == 0 {
		t.Fatal("the name stands in no index")
	}
	if err := os.WriteFile(path, whole, 0o644); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{
		{"judge", path, "--setup", "Plain crossing"},
		{"judge", path},
		{"find", path, "--setup", "Plain crossing"},
		{"draw", path, "--setup", "Plain crossing", "--out", filepath.Join(t.TempDir(), "x.svg")},
		{"export", path, t.TempDir()},
		{"compare", path, "first", "1.1"},
	} {
		if code, _, progress := runIt(t, args...); code != 2 || !strings.Contains(progress, "damaged") {
			t.Errorf("%s = %d, %q, want 2 and that it is damaged", args[0], code, progress)
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
	if code != 1 || !strings.Contains(out, "wrote "+saved+"\nSome of it is lost or may be.") || !strings.Contains(out, "\nLost: setup \"Plain crossing\"") || progress != "" {
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
