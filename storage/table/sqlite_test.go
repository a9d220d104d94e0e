package table

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// Another program's CSV reader, that of the sqlite3 command line, finds every
// cell of our table as we meant it.
func TestSqliteImportsOurTable(t *testing.T) {
	program, err := exec.LookPath("sqlite3")
	if err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal(err)
		}
		t.Skip(err)
	}
	const fighter = "Marl, \"the\r\nelder\""
	moves := newDice(8).moves(300)
	var file bytes.Buffer
	if err := Write(&file, fighter, moves); err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "moves.csv"), file.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(program, "-batch", ":memory:", ".mode csv", ".import moves.csv moves", ".mode json", "SELECT * FROM moves ORDER BY rowid")
	cmd.Dir = dir
	var complaints bytes.Buffer
	cmd.Stderr = &complaints
	out, err := cmd.Output()
	if err != nil || complaints.Len() > 0 {
		t.Fatalf("sqlite3: %v: %s", err, complaints.String())
	}
	var got []map[string]string
	if err := json.Unmarshal(out, &got); err != nil {
		t.Fatal(err)
	}
	if len(got) != len(moves) {
		t.Fatalf("sqlite3 has %d rows, want %d", len(got), len(moves))
	}
	for i := range moves {
		if len(got[i]) != len(columns) {
			t.Fatalf("row %d: sqlite3 has %d columns, want %d", i, len(got[i]), len(columns))
		}
		for _, c := range columns {
			want := fighter
			if c.field != nil {
				want = c.field.Cell(&moves[i])
			}
			if got[i][c.name] != want {
				t.Errorf("row %d, %s: sqlite3 has %q, want %q", i, c.name, got[i][c.name], want)
			}
		}
	}
}
