package storage

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
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
	reply := fmt.Sprintf("setup %q: its reply %q is gone", s.Name, s.Replies[0].Move)
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
			[]string{fmt.Sprintf("setup %q: CHECK constraint failed", s.Name), "1 proof"}},
		"a reply's move": {[]string{loose, "UPDATE reply SET move = 9999 WHERE setup = (SELECT id FROM setup WHERE place = 1) AND place = 0"},
			func(p *timeline.Project) { p.Setups[0].Replies = p.Setups[0].Replies[1:] },
			[]string{fmt.Sprintf("setup %q: its reply %q is gone", s.Name, "move 9999")}},
		"a move that a reply names": {[]string{loose, unlock, "UPDATE move SET recovery = 999 WHERE id = " + number("move", s.Rival, s.Replies[0].Move)}, nil,
			[]string{fmt.Sprintf("move %q of %q: expected a whole number from 0 to 512, got 999", s.Replies[0].Move, s.Rival), reply}},
		"a jump": {[]string{loose, unlock, "UPDATE jump SET airborne = 0 WHERE id = " + number("jump", s.Attacker, s.Jump)}, nil,
			[]string{fmt.Sprintf("jump %q of %q: expected", s.Jump, s.Attacker), fmt.Sprintf("setup %q: its jump %q is gone", s.Name, s.Jump)}},
		"a fighter's row": {[]string{loose, "DELETE FROM fighter WHERE id = 1"}, nil, []string{"the body of \"fighter 1\", of which others tell"}},
		"the rises":       {[]string{loose, "DELETE FROM claimed_rise", "DELETE FROM rise WHERE fighter = 1"}, nil, []string{"all rises of"}},
		"a revision's data": {[]string{"UPDATE revision SET data = 'x' WHERE data IS NOT NULL"}, func(*timeline.Project) {},
			[]string{`revision "1.0": its move data can't be read`}},
		"the latest revision": {[]string{loose, "DELETE FROM revision WHERE data IS NULL"}, func(*timeline.Project) {}, []string{`the name of the latest revision: it is called "first"`, "proofs"}},
		"the history":         {[]string{"UPDATE edit_row SET before = 'x', after = '{' WHERE edit = 1"}, func(*timeline.Project) {}, []string{"the history: it can't be read through"}},
		"a uid":               {[]string{unlock, "UPDATE move SET uid = 'x' WHERE id = 1"}, func(*timeline.Project) {}, nil},
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			in, out := filepath.Join(dir, "hurt"+Ext), filepath.Join(dir, "saved"+Ext)
			write(t, in, string(whole))
			plainly(t, in, c.change...)
			lost, err := Salvage(context.Background(), in, out)
			if err != nil {
				t.Fatal(err)
			}
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
		in, out := filepath.Join(t.TempDir(), "hurt"+Ext), filepath.Join(t.TempDir(), "saved"+Ext)
		write(t, in, string(whole))
		poke(t, in, at, make([]byte, 4096))
		if _, err := Open(in); !errors.Is(err, ErrDamaged) {
			t.Errorf("opened: %v, want %v", err, ErrDamaged)
		}
		lost, err := Salvage(context.Background(), in, out)
		if err != nil {
			t.Fatal(err)
		}
		saved, err := readWhole(out)
		if err != nil {
			t.Fatal(err)
		}
		gone := len(p.Fighters[0].Moves) - len(saved.Fighters[0].Moves)
		if says := fmt.Sprintf("%d moves of \"Ada\": \"move ", gone); gone < 3 || gone > 60 || len(lost) != 1 || !strings.HasPrefix(lost[0], says) {
			t.Errorf("page at %d: %d moves are gone; lost = %q, want %q", at, gone, lost, says)
		}
		for _, m := range saved.Fighters[0].Moves {
			if !reflect.DeepEqual(&m, p.Fighters[0].Move(m.Name)) {
				t.Errorf("%q is another move", m.Name)
			}
		}
	}
}

// TestSalvageWithoutATableOfContents spoils the pages that say where all
// others belong.
func TestSalvageWithoutATableOfContents(t *testing.T) {
	path, p := worn(t)
	for _, compacted := range []bool{false, true} {
		if compacted {
			f, err := Open(path)
			if err != nil {
				t.Fatal(err)
			}
			if err := f.Compact(context.Background()); err != nil {
				t.Fatal(err)
			}
			f.Close()
		}
		whole, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		spoilt := 0
		for at := 0; at < len(whole); at += pageSize {
			if !contains(string(whole[at:at+pageSize]), "CREATE TABLE") && at > 0 {
				continue
			}
			spoilt++
			in, out := filepath.Join(t.TempDir(), "hurt"+Ext), filepath.Join(t.TempDir(), "saved"+Ext)
			write(t, in, string(whole))
			poke(t, in, int64(max(at, 100)), make([]byte, pageSize-100))
			lost, err := Salvage(context.Background(), in, out)
			if err != nil || len(lost) > 0 {
				t.Errorf("compacted %t, page at %d: %v, %v, want all saved", compacted, at, lost, err)
				continue
			}
			if saved, err := readWhole(out); err != nil || !reflect.DeepEqual(saved, p) {
				t.Errorf("compacted %t, page at %d: what was saved differs, %v", compacted, at, err)
			}
		}
		if spoilt < 3 {
			t.Errorf("spoilt %d pages, want some", spoilt)
		}
	}
}
