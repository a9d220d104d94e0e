package storage

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// sqliteTool runs SQLite's own command-line tool on the file at path.
func sqliteTool(t *testing.T, path string, commands ...string) string {
	t.Helper()
	tool, err := exec.LookPath("sqlite3")
	if err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal(err)
		}
		t.Skip(err)
	}
	out, err := exec.Command(tool, append([]string{"-batch", path}, commands...)...).CombinedOutput()
	if err != nil {
		t.Fatalf("sqlite3 %v: %v: %s", commands, err, out)
	}
	return strings.TrimSpace(string(out))
}

func TestSQLitesOwnToolReadsTheFile(t *testing.T) {
	path, p := worn(t)
	f, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := f.AddAnswer(Answer{Date: "2026-03-05T10:00:00Z", Setup: p.Setups[0].Name, Kind: "verdict", Right: true, Tries: 1, Points: 10}); err != nil {
		t.Fatal(err)
	}
	f.Close()
	if got := sqliteTool(t, path, "PRAGMA integrity_check", "PRAGMA foreign_key_check"); got != "ok" {
		t.Errorf("integrity_check and foreign_key_check: %s, want ok and nothing", got)
	}
	tables := strings.Fields(sqliteTool(t, path, "SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name"))
	if want := strings.Fields("answer claimed_rise edit edit_row fighter filler follow jump list move press proof punish reply revision rise route route_step ruleset setup standing_reply tag"); strings.Join(tables, " ") != strings.Join(want, " ") {
		t.Errorf("tables = %v, want %v", tables, want)
	}
	for _, table := range tables {
		if got := sqliteTool(t, path, "SELECT count(*) > 0 FROM "+table, "SELECT * FROM "+table+" LIMIT 3"); !strings.HasPrefix(got, "1") {
			t.Errorf("table %s = %s, want rows", table, got)
		}
	}
	if got := sqliteTool(t, path, "SELECT name FROM setup ORDER BY place"); strings.Split(got, "\n")[0] != p.Setups[0].Name {
		t.Errorf("setups = %s, want %q first", got, p.Setups[0].Name)
	}
	if got := sqliteTool(t, path, "PRAGMA application_id", "PRAGMA user_version"); got != fmt.Sprintf("1466002277\n%d", len(migrations)) {
		t.Errorf("application_id and user_version = %q", got)
	}
	// What the tool writes by our rules, we take; ANALYZE leaves its tables.
	sqliteTool(t, path, "UPDATE setup SET note = 'from outside' WHERE place = 1; ANALYZE")
	if q, err := readWhole(path); err != nil || q.Setups[0].Note != "from outside" {
		t.Errorf("after an edit from outside: %v", err)
	}
}

func TestAnotherProgramWritesMeanwhile(t *testing.T) {
	f := made(t, sample(t))
	plainly(t, f.Path(), "UPDATE move SET name = 'From outside' WHERE id = 1")
	if got := f.Data().Fighters[0].Moves[0].Name; got != "From outside" {
		t.Errorf("the move's name = %q, want the new one", got)
	}
	plainly(t, f.Path(), "UPDATE move SET name = 'Again' WHERE id = 1")
	if err := f.Edit("rename", func(s *Step) error {
		m := f.data.Fighters[0].Moves[0]
		m.Name = "Ours"
		return s.PutMove(f.data.Fighters[0].Name, "Again", &m)
	}); err != nil {
		t.Error(err)
	}
	if found, err := Check(context.Background(), f.Path()); err != nil || len(found) > 0 {
		t.Errorf("check = %v, %v", found, err)
	}
}

// FuzzOpen opens, reads, checks and salvages mutations of a small file.
func FuzzOpen(f *testing.F) {
	path := filepath.Join(tempDir(f), "p"+Ext)
	g := newDice(3)
	p := g.project()
	p.Fighters, p.Setups = p.Fighters[:1], nil
	made, err := Create(path, p)
	if err != nil {
		f.Fatal(err)
	}
	if err := made.Edit("a body", func(s *Step) error {
		b := p.Fighters[0]
		b.Body = g.perhaps(1, 9)
		return s.PutFighter(b.Name, &b)
	}); err != nil {
		f.Fatal(err)
	}
	made.Close()
	whole, err := os.ReadFile(path)
	if err != nil {
		f.Fatal(err)
	}
	// The fuzzer gives changes, not files: a whole file is past what it can
	// mutate well.
	f.Add(uint32(100), []byte{0, 1, 2}, uint32(len(whole)))
	f.Add(uint32(4096), []byte{13, 0, 0}, uint32(len(whole)))
	f.Add(uint32(4102), []byte("\r\x00\xbf\xfc\x17\x1c\xab\x00"), uint32(143360)) // single numbers of a table can be asked for, the rest not
	f.Add(uint32(0), []byte("SQLite"), uint32(5000))
	f.Fuzz(func(t *testing.T, at uint32, change []byte, size uint32) {
		b := append([]byte(nil), whole...)
		copy(b[int(at)%len(b):], change)
		b = b[:min(len(b), int(size)%(len(b)+1))]
		dir := tempDir(t)
		path := filepath.Join(dir, "p"+Ext)
		if err := os.WriteFile(path, b, 0o644); err != nil {
			t.Fatal(err)
		}
		if f, err := Open(path); err == nil {
			if p, err := f.Project(); err == nil && p.Check() != nil {
				t.Error("a project that breaks a rule")
			}
			f.Undo()
			f.History(9)
			f.Copy(context.Background(), filepath.Join(dir, "copy"+Ext), nil)
			f.Close()
		}
		Check(context.Background(), path)
		if _, err := Salvage(context.Background(), path, filepath.Join(dir, "saved"+Ext)); err == nil {
			if found, err := Check(context.Background(), filepath.Join(dir, "saved"+Ext)); err != nil || len(found) > 0 {
				t.Errorf("what was saved: %v, %v", found, err)
			}
		}
	})
}
