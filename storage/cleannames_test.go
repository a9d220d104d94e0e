package storage

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"

	"wakeline/timeline"
)

// Files of before the rule of names may hold names with control characters, or
// of more than 200 letters.
func TestMigrationCleansNames(t *testing.T) {
	path, _ := old(t, 5)
	long := strings.Repeat("x", 300)
	everywhere := func(table string, id int, name string) []string { // the row, and what the history has of it
		set := fmt.Sprintf("UPDATE edit_row SET %%[1]s = json_set(%%[1]s, '$.row.name', %s) WHERE in_table = '%s' AND in_row = %d AND %%[1]s IS NOT NULL", name, table, id)
		return []string{fmt.Sprintf("UPDATE %s SET name = %s WHERE id = %d", table, name, id), fmt.Sprintf(set, "before"), fmt.Sprintf(set, "after")}
	}
	var commands []string
	for _, c := range []struct {
		table string
		id    int
		name  string
	}{
		{"fighter", 1, "'Bre' || char(10) || 'nno'"},
		{"move", 1, "'" + long + "1'"}, {"move", 2, "'" + long + "2'"}, {"move", 3, "'guard' || char(7)"}, {"move", 4, "char(1)"},
		{"move", 5, "'one' || char(0x85) || 'name'"}, {"jump", 1, "'one' || char(0x2028) || 'name'"},
		{"setup", 1, "'a' || char(27) || 'b'"}, {"setup", 2, "'a b'"},
		{"revision", 1, "'first' || char(9) || 'one'"},
	} {
		commands = append(commands, everywhere(c.table, c.id, c.name)...)
	}
	commands = append(commands,
		"UPDATE tag SET name = 'wo' || char(8) || 'rn' WHERE name = 'worn'",
		"UPDATE edit_row SET after = replace(after, '\"worn\"', '\"wo\\brn\"') WHERE in_table = 'setup' AND after IS NOT NULL",
		"UPDATE revision SET data = replace(data, '\"Brenno\"', '\"Bre\\nnno\"') WHERE data IS NOT NULL")
	sqliteTool(t, path, commands...)
	f, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	p, err := f.Project()
	if err != nil {
		t.Fatal(err)
	}
	one := p.Fighter("Bre nno")
	if one == nil {
		t.Fatalf("the first fighter is called %q", p.Fighters[0].Name)
	}
	cut := strings.Repeat("x", 197) + "..."
	numbered := strings.Repeat("x", 189) + "... 2"
	for i, want := range []string{cut, numbered, "guard 2", "move 4", "one name"} {
		if got := one.Moves[i].Name; got != want {
			t.Errorf("move %d is called %q, want %q", i+1, got, want)
		}
	}
	if got := one.Jumps[0].Name; got != "one name 2" {
		t.Errorf("the jump is called %q, want another name than the move's", got)
	}
	if got := []string{p.Setups[0].Name, p.Setups[1].Name}; got[0] != "a b 2" || got[1] != "a b" {
		t.Errorf("the setups are called %q", got)
	}
	if tags, err := f.Tags(); err != nil || !strings.Contains(strings.Join(tags, ","), "wo rn") {
		t.Errorf("tags %q, %v", tags, err)
	}
	list, err := f.Revisions()
	if err != nil || list[0].Name != "first one" {
		t.Errorf("revisions %v, %v", list, err)
	}
	if p, err := f.DataOf(list[0].Name); err != nil || p.Fighter("Bre nno") == nil {
		t.Errorf("the data of an earlier revision: %v", err)
	}
	n := 0
	for {
		if _, err := f.Undo(); errors.Is(err, ErrNoStep) {
			break
		} else if err != nil {
			t.Fatalf("undo of step %d from the last: %v", n, err)
		}
		n++
	}
	for range n {
		if _, err := f.Redo(); err != nil {
			t.Fatal(err)
		}
	}
	if again, err := f.Project(); err != nil || string(timeline.WriteText(again)) != string(timeline.WriteText(p)) {
		t.Errorf("undone and done again: the project differs, %v", err)
	}
	f.Close()
	if found, err := Check(context.Background(), path); err != nil || len(found) > 0 {
		t.Errorf("check = %v, %v", found, err)
	}
}
