package storage

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"wakeline/timeline"
)

// TestSalvageTellsWhatIsLost breaks one thing each in a sound file, and asks
// for what is saved and what is told.
func TestSalvageTellsWhatIsLost(t *testing.T) {
	path, p := worn(t)
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	const unlock, loose = "PRAGMA ignore_check_constraints = ON", "PRAGMA foreign_keys = OFF"
	s := p.Setups[0]
	reply := fmt.Sprintf("setup %q: its reply %q is lost", s.Name, s.Replies[0].Move)
	number := func(table, fighter, name string) string {
		return fmt.Sprintf("(SELECT t.id FROM %s t JOIN fighter f ON f.id = t.fighter WHERE f.name = '%s' AND t.name = '%s')", table, fighter, name)
	}
	for name, c := range map[string]struct {
		change []string
		want   func(p *timeline.Project)
		says   []string
	}{
		"nothing": {nil, func(*timeline.Project) {}, nil},
		"the ruleset": {[]string{"DELETE FROM ruleset"}, func(p *timeline.Project) { p.Ruleset = timeline.DefaultRuleset() },
			[]string{"the ruleset: the default stands in its place", "the history, "}},
		"a setup's delay": {[]string{unlock, "UPDATE setup SET delay = 9999 WHERE place = 1"}, func(p *timeline.Project) { p.Setups = p.Setups[1:] },
			[]string{fmt.Sprintf("setup %q: CHECK constraint failed", s.Name), "1 in-game test"}},
		"a reply's move": {[]string{loose, "UPDATE reply SET move = 9999 WHERE setup = (SELECT id FROM setup WHERE place = 1) AND place = 0"},
			func(p *timeline.Project) { p.Setups[0].Replies = p.Setups[0].Replies[1:] },
			[]string{fmt.Sprintf("setup %q: its reply %q is lost", s.Name, "move 9999")}},
		"a move that a reply names": {[]string{loose, unlock, "UPDATE move SET recovery = 999 WHERE id = " + number("move", s.Rival, s.Replies[0].Move)}, nil,
			[]string{fmt.Sprintf("move %q: CHECK constraint failed", s.Replies[0].Move), reply}},
		"a jump": {[]string{loose, unlock, "UPDATE jump SET airborne = 0 WHERE id = " + number("jump", s.Attacker, s.Jump)}, nil,
			[]string{fmt.Sprintf("jump %q: CHECK constraint failed", s.Jump), fmt.Sprintf("setup %q is left out: its jump, %q, is lost", s.Name, s.Jump)}},
		"a fighter's row": {[]string{loose, "DELETE FROM fighter WHERE id = 1"}, nil, []string{"fighter \"fighter 1\": its row can't be read"}},
		"the rises":       {[]string{loose, "DELETE FROM claimed_rise", "DELETE FROM rise WHERE fighter = 1"}, nil, []string{"all rises of"}},
		"a revision's data": {[]string{"UPDATE revision SET data = 'x' WHERE data IS NOT NULL"}, func(*timeline.Project) {},
			[]string{`revision "1.0": its move data can't be read`}},
		"the latest revision":       {[]string{loose, "DELETE FROM revision WHERE data IS NULL"}, func(*timeline.Project) {}, []string{`the name of the latest revision: it is called "first"`, "in-game tests"}},
		"the history":               {[]string{"UPDATE edit_row SET before = 'x', after = '{' WHERE edit = 1"}, func(*timeline.Project) {}, []string{"the history, "}},
		"the definition of a table": {[]string{"PRAGMA writable_schema = ON", "UPDATE sqlite_schema SET sql = replace(sql, '512', '513') WHERE name = 'reply'"}, func(*timeline.Project) {}, []string{"the history, "}},
		"the name of a column":      {[]string{"ALTER TABLE rise RENAME COLUMN extra TO extrb"}, nil, []string{"rises: none could be read", "all rises of"}},
		"a trigger":                 {[]string{"CREATE TRIGGER x AFTER UPDATE ON setup BEGIN DELETE FROM fighter; END"}, func(*timeline.Project) {}, nil},
		"a view for a table": {[]string{"PRAGMA legacy_alter_table = ON", "ALTER TABLE tag RENAME TO hidden", "CREATE VIEW tag AS SELECT setup, place, name FROM hidden"},
			func(p *timeline.Project) {
				for i := range p.Setups {
					p.Setups[i].Tags = nil
				}
			}, []string{"tags: none could be read"}},
		"a name with an escape": {[]string{"UPDATE setup SET name = 'a' || char(27) || 'b' WHERE place = 1"}, func(p *timeline.Project) { p.Setups[0].Name = "a b" },
			[]string{`the name of setup "a\x1bb": it is called "a b" now`}},
		"a long name that another has": {[]string{"UPDATE move SET name = printf('%.300c', 'x') || id WHERE id IN (3, 4)"}, nil, []string{`: it is called "xxx`}},
		"a note that is no UTF-8": {[]string{"UPDATE setup SET note = CAST(X'61FF' AS TEXT) WHERE place = 1"}, func(p *timeline.Project) { p.Setups[0].Note = "a\uFFFD" },
			[]string{fmt.Sprintf("letters of a text of setup %q", s.Name)}},
		"a negative number": {[]string{loose, "UPDATE reply SET setup = -setup WHERE setup = 1", "UPDATE filler SET setup = -setup WHERE setup = 1", "UPDATE tag SET setup = -setup WHERE setup = 1",
			"UPDATE claimed_rise SET setup = -setup WHERE setup = 1", "UPDATE proof SET setup = -setup WHERE setup = 1", "UPDATE setup SET id = -id WHERE id = 1"},
			func(p *timeline.Project) { p.Setups = p.Setups[1:] }, []string{fmt.Sprintf("setup %q is left out: its number is -1", s.Name)}},
		"the search of a list": {[]string{"UPDATE list SET search = '(x' WHERE place = 1"}, func(*timeline.Project) {},
			[]string{`list "Worn ones" is left out: list "Worn ones": letter 1: expected a list that can be read`, `list "Others" is left out: list "Others"`}},
		"the name of a list": {[]string{"UPDATE list SET name = 'others' WHERE place = 1"}, func(*timeline.Project) {}, []string{`list "Others" is left out`}},
		"a list's row":       {[]string{unlock, "UPDATE list SET name = ' ' WHERE place = 2"}, func(*timeline.Project) {}, []string{`list " ": CHECK constraint failed`}},
		"a uid":              {[]string{unlock, "UPDATE move SET uid = 'x' WHERE id = 1"}, func(*timeline.Project) {}, []string{"the history, "}},
	} {
		t.Run(name, func(t *testing.T) {
			dir := tempDir(t)
			in, out := filepath.Join(dir, "hurt"+Ext), filepath.Join(dir, "saved"+Ext)
			write(t, in, string(whole))
			plainly(t, in, c.change...)
			saves, err := Salvage(context.Background(), in, out)
			if err != nil {
				t.Fatal(err)
			}
			lost := saves.Lost
			all := strings.Join(lost, "\n")
			for _, says := range c.says {
				if !contains(all, says) {
					t.Errorf("lost:\n%s\nwant: %s", all, says)
				}
			}
			if len(c.says) == 0 && len(lost) > 0 {
				t.Errorf("lost:\n%s\nwant nothing", all)
			}
			saved, err := readWhole(out)
			if err != nil {
				t.Fatal(err)
			}
			if c.want != nil {
				want := clone(t, p)
				c.want(want)
				if !reflect.DeepEqual(saved, want) {
					t.Errorf("saved:\n%s\nwant:\n%s", timeline.WriteText(saved), timeline.WriteText(want))
				}
			} else if len(saved.Fighters) != len(p.Fighters) {
				t.Errorf("saved %d fighters, want %d", len(saved.Fighters), len(p.Fighters))
			}
			if _, err := Salvage(context.Background(), in, out); !errors.Is(err, fs.ErrExist) {
				t.Errorf("salvaged over a file: %v, want that it exists", err)
			}
			if left, _ := os.ReadDir(dir); len(left) != 2 {
				t.Errorf("left behind: %v", left)
			}
			if name == "nothing" {
				again, err := Open(out)
				if err != nil {
					t.Fatal(err)
				}
				defer again.Close()
				if _, err := again.Undo(); err != nil {
					t.Errorf("undo in what was saved: %v", err)
				}
			}
		})
	}
}

func TestSalvageWritesNoMoreThanItsBound(t *testing.T) {
	p := sample(t)
	for i := range p.Setups {
		p.Setups[i].Note = strings.Repeat("long ", 10_000)
	}
	f := made(t, p)
	f.Close()
	was := leastBound
	defer func() { leastBound = was }()
	leastBound = -4 * int64(len(read(t, f.Path()))) / pageSize * 9 / 10 // the file takes more
	dir := tempDir(t)
	to := filepath.Join(dir, "saved"+Ext)
	if _, err := Salvage(context.Background(), f.Path(), to); err == nil || !contains(err.Error(), "used many times") {
		t.Errorf("salvage = %v, want that it would write too much", err)
	}
	if left, _ := os.ReadDir(dir); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

// read reads the file at path.
func read(t *testing.T, path string) []byte {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// TestSalvageWalksRoundABrokenPage spoils each page of a table in turn.
func TestSalvageWalksRoundABrokenPage(t *testing.T) {
	g := newDice(8)
	p := &timeline.Project{Ruleset: timeline.DefaultRuleset(), Fighters: []timeline.Fighter{{Name: "Ada", Rises: []timeline.Rise{{Name: "normal"}}}}}
	for k := range 300 {
		m := g.move(k+1, p.Ruleset)
		m.Name = fmt.Sprintf("move %d", k)
		p.Fighters[0].Moves = append(p.Fighters[0].Moves, m)
	}
	f := made(t, p)
	var pages []int64
	// The table's pages are those whose first byte is a leaf's and that hold
	// many names of moves; none of the index pages does by that byte.
	f.Close()
	whole, err := os.ReadFile(f.Path())
	if err != nil {
		t.Fatal(err)
	}
	for at := int64(4096); at < int64(len(whole)); at += 4096 {
		page := string(whole[at : at+4096])
		if page[0] == 13 && strings.Count(page, "move ") > 5 && !contains(page, "CREATE") {
			pages = append(pages, at)
		}
	}
	if len(pages) < 5 {
		t.Fatalf("%d pages of moves, want some", len(pages))
	}
	for _, at := range pages {
		in, out := filepath.Join(tempDir(t), "hurt"+Ext), filepath.Join(tempDir(t), "saved"+Ext)
		write(t, in, string(whole))
		poke(t, in, at, make([]byte, 4096))
		if _, err := Open(in); !errors.Is(err, ErrDamaged) {
			t.Errorf("opened: %v, want %v", err, ErrDamaged)
		}
		saves, err := Salvage(context.Background(), in, out)
		if err != nil {
			t.Fatal(err)
		}
		saved, err := readWhole(out)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range p.Fighters[0].Moves {
			if saved.Fighters[0].Move(m.Name) == nil && !slices.Contains(saves.Lost, fmt.Sprintf("move %q of \"Ada\": its row can't be read", m.Name)) {
				t.Errorf("page at %d: %q is gone, and nothing tells of it", at, m.Name)
			}
		}
		if gone := len(p.Fighters[0].Moves) - len(saved.Fighters[0].Moves); gone < 3 || gone > 60 || len(saves.Lost) != gone || len(saves.Failed) != 1 {
			t.Errorf("page at %d: %d moves are gone; told: %q", at, gone, saves.Lines())
		}
		for _, m := range saved.Fighters[0].Moves {
			if !reflect.DeepEqual(&m, p.Fighters[0].Move(m.Name)) {
				t.Errorf("%q is another move", m.Name)
			}
		}
	}
}

// TestSalvageOfEachSchema salvages a file of each version, whole and with one
// page spoilt.
func TestSalvageOfEachSchema(t *testing.T) {
	for version := 1; version <= len(migrations); version++ {
		path, want := old(t, version)
		to := filepath.Join(tempDir(t), "saved"+Ext)
		saves, err := Salvage(context.Background(), path, to)
		if err != nil || len(saves.Lost)+len(saves.Failed) > 0 {
			t.Fatalf("version %d: %+v, %v", version, saves, err)
		}
		if got, err := readWhole(to); err != nil || string(timeline.WriteText(got)) != want {
			t.Errorf("version %d: what was saved differs, %v", version, err)
		}
		db, err := openDB(path, "ro")
		if err != nil {
			t.Fatal(err)
		}
		root, err := numbers(db, "SELECT rootpage FROM sqlite_schema WHERE name = 'tag'")
		db.Close()
		if err != nil || len(root) != 1 {
			t.Fatal(root, err)
		}
		poke(t, path, (root[0]-1)*pageSize, make([]byte, pageSize))
		os.Remove(to)
		if saves, err = Salvage(context.Background(), path, to); err != nil || len(saves.Failed) != 1 || len(saves.Lost) == 0 {
			t.Errorf("version %d without its tags: %+v, %v", version, saves, err)
		}
	}
}
