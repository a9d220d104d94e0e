package storage

import (
	"bytes"
	"context"
	"errors"
	flags "flag"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"wakeline/timeline"
)

var update = flags.Bool("update", false, "write the file of the newest version into testdata, where it is missing")

// old is the file of a version in testdata, copied, and the project in it.
func old(t *testing.T, version int) (path, text string) {
	t.Helper()
	kept := filepath.Join("testdata", fmt.Sprintf("v%d", version))
	if _, err := os.Stat(kept + Ext); err != nil && *update && version == len(migrations) {
		keep(t, kept)
	}
	whole, err := os.ReadFile(kept + Ext)
	if err != nil {
		t.Fatalf("%v: each schema version keeps a file here; go test -update makes the newest one's", err)
	}
	want, err := os.ReadFile(kept + ".json")
	if err != nil {
		t.Fatal(err)
	}
	path = filepath.Join(tempDir(t), "old"+Ext)
	if err := os.WriteFile(path, whole, 0o644); err != nil {
		t.Fatal(err)
	}
	p, err := timeline.ReadText(want)
	if err != nil {
		t.Fatal(err)
	}
	return path, string(timeline.WriteText(p)) // as today's fields stand in it
}

// keep writes a file with some of everything into testdata.
func keep(t *testing.T, kept string) {
	t.Helper()
	path, p := worn(t)
	f, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := f.Compact(context.Background()); err != nil {
		t.Fatal(err)
	}
	if err := f.Copy(t.Context(), kept+Ext, nil); err != nil {
		t.Fatal(err)
	}
	if err := WriteText(kept+".json", p); err != nil {
		t.Fatal(err)
	}
}

func TestEveryOldVersionOpens(t *testing.T) {
	for version := 1; version <= len(migrations); version++ {
		path, want := old(t, version)
		f, err := Open(path)
		if err != nil {
			t.Fatalf("version %d: %v", version, err)
		}
		got, err := f.Project()
		if err != nil || string(timeline.WriteText(got)) != want {
			t.Errorf("version %d: the project differs, %v", version, err)
		}
		if list, err := f.Revisions(); err != nil || len(list) != 2 {
			t.Errorf("version %d: revisions = %v, %v, want two", version, list, err)
		}
		if proofs, err := f.Proofs(got.Setups[0].Name); err != nil || len(proofs) != 1 {
			t.Errorf("version %d: proofs = %v, %v, want one", version, proofs, err)
		}
		if got, err := f.Drills(); err != nil || version >= 2 && !reflect.DeepEqual(got, drills) || version < 2 && len(got) > 0 {
			t.Errorf("version %d: drills = %v, %v", version, got, err)
		}
		if got, err := f.Lists(); err != nil || version >= 8 && !reflect.DeepEqual(got, lists) || version < 8 && len(got) > 0 {
			t.Errorf("version %d: lists = %v, %v", version, got, err)
		}
		undone := 0
		for {
			if _, err := f.Undo(); errors.Is(err, ErrNoStep) {
				break
			} else if err != nil {
				t.Fatalf("version %d: undo: %v", version, err)
			}
			undone++
		}
		if p, err := f.Project(); err != nil || undone < 3 || len(p.Fighters) != 0 {
			t.Errorf("version %d: undone %d steps to %d fighters, %v, want none left", version, undone, len(p.Fighters), err)
		}
		f.Close()
		if found, err := Check(context.Background(), path); err != nil || len(found) > 0 {
			t.Errorf("version %d: check = %v, %v", version, found, err)
		}
	}
}

// TestMigrationNamesTheParry: what was called a catch is a parry, in the rows
// and in the history, and a move of the user's own that has that name is given
// another.
func TestMigrationNamesTheParry(t *testing.T) {
	path, _ := old(t, 2)
	was := "UPDATE %s SET name = 'parry' WHERE id = (SELECT min(id) FROM %[1]s WHERE fighter = (SELECT min(id) FROM fighter))"
	sqliteTool(t, path, fmt.Sprintf(was, "move"),
		"UPDATE move SET name = 'parry 2' WHERE id = (SELECT id FROM move WHERE fighter = (SELECT min(id) FROM fighter) ORDER BY id LIMIT 1 OFFSET 1)",
		"UPDATE edit_row SET after = json_set(after, '$.row.name', 'parry') WHERE in_table = 'move' AND in_row = (SELECT min(id) FROM move) AND after IS NOT NULL")
	f, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	p, err := f.Project()
	if err != nil {
		t.Fatal(err)
	}
	if got := []string{p.Fighters[0].Moves[0].Name, p.Fighters[0].Moves[1].Name}; got[0] != "parry 3" || got[1] != "parry 2" {
		t.Errorf("the moves are called %q, want parry 3 and parry 2", got)
	}
	kinds, landings := 0, 0
	for _, fighter := range p.Fighters {
		for _, m := range fighter.Moves {
			if m.Kind == timeline.Parry && len(m.Parry) > 0 {
				kinds++
			}
		}
	}
	for _, s := range p.Setups {
		if s.Landing == timeline.DoParry {
			landings++
		}
	}
	if kinds == 0 || landings == 0 {
		t.Errorf("%d parries, %d landings with the parry, want some of each", kinds, landings)
	}
	if err := p.Check(); err != nil {
		t.Error(err)
	}
	if got := sqliteTool(t, path, "SELECT count(*) FROM edit_row WHERE before ->> '$.row.kind' = 'catch' OR after ->> '$.row.kind' = 'catch' OR after ->> '$.row.landing' = 'catch' OR before LIKE '%\"catch\":%' OR after LIKE '%\"catch\":%' OR after ->> '$.row.name' = 'parry'"); got != "0" {
		t.Errorf("%s rows of the history have an earlier name", got)
	}
}

// TestUnusedNumbersOfAMoveAreNoDamage: earlier versions kept the startup and
// recovery of a strike that was made a dash.
func TestUnusedNumbersOfAMoveAreNoDamage(t *testing.T) {
	path, want := old(t, len(migrations))
	sqliteTool(t, path, "UPDATE move SET startup = 4, active = '3', recovery = 9 WHERE kind IN ('dash', 'evade', 'parry')",
		"UPDATE move SET total = 44 WHERE kind IN ('strike', 'throw')")
	f, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if p, err := f.Project(); err != nil || string(timeline.WriteText(p)) != want {
		t.Errorf("the project differs, %v", err)
	}
}

func TestAFailingMigrationLeavesTheFile(t *testing.T) {
	path, want := old(t, len(migrations))
	if _, err := schemaOf(len(migrations)); err != nil { // of the versions there are
		t.Fatal(err)
	}
	before, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	was := migrations
	defer func() { migrations = was }()
	migrations = append(was[:len(was):len(was)], "ALTER TABLE setup ADD COLUMN more TEXT; UPDATE setup SET more = 'x'; INSERT INTO nowhere VALUES (1)")
	f, err := Open(path)
	if err == nil {
		f.Close()
		t.Fatal("opened, want an error of the migration")
	}
	if says := fmt.Sprintf("migrate: step %d", len(migrations)); !contains(err.Error(), says) {
		t.Errorf("error = %v, want one that says %q", err, says)
	}
	migrations = was
	if after, err := os.ReadFile(path); err != nil || !bytes.Equal(before, after) {
		t.Errorf("the file changed, %v", err)
	}
	if p, err := readWhole(path); err != nil || string(timeline.WriteText(p)) != want {
		t.Errorf("the project differs, %v", err)
	}
	if left, _ := os.ReadDir(filepath.Dir(path)); len(left) != 1 {
		t.Errorf("left behind: %v", left)
	}
}
