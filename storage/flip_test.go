package storage

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"wakeline/timeline"
)

// TestAFlippedBitIsNeverCalledNothing flips bits in each page of a file of
// which a copy is kept, and salvages what came of it.
func TestAFlippedBitIsNeverCalledNothing(t *testing.T) {
	keepCopies(t)
	counts := map[string]int{}
	f := made(t, sample(t))
	f.Close()
	flipPages(t, f.Path(), sample(t), 8, counts)
	path, want := worn(t)
	flipPages(t, path, want, 1, counts)
	t.Log(counts)
	for _, what := range []string{"not salvaged", "differs", "the same, with damage told", "nothing was lost"} {
		if counts[what] == 0 {
			t.Errorf("%v, want some of each", counts)
		}
	}
}

// flipPages flips that many bits in each page of the file at path, one a copy.
func flipPages(t *testing.T, path string, want *timeline.Project, flips int, counts map[string]int) {
	t.Helper()
	if testing.Short() {
		flips = (flips + 3) / 4
	}
	if err := End(time.Minute); err != nil {
		t.Fatal(err)
	}
	if len(Copies(path)) == 0 {
		t.Fatal("no copy is kept")
	}
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	saved := filepath.Join(tempDir(t), "saved"+Ext)
	g := rand.New(rand.NewPCG(3, 14))
	for page := range len(whole) / pageSize {
		for range flips {
			at, bit := page*pageSize+g.IntN(pageSize), byte(1)<<g.IntN(8)
			switch g.IntN(3) {
			case 0: // the head of the page; of the first, the file's
				at = page*pageSize + g.IntN(100)
			case 1: // where something stands
				for range 100 {
					if whole[at] != 0 {
						break
					}
					at = page*pageSize + g.IntN(pageSize)
				}
			}
			b := bytes.Clone(whole)
			b[at] ^= bit
			if err := os.WriteFile(path, b, 0o644); err != nil {
				t.Fatal(err)
			}
			counts[flipped(t, fmt.Sprintf("byte %d, bit %d", at, bit), path, saved, want)]++
			os.Remove(saved)
		}
	}
}

// flipped salvages a file in which a bit was flipped and says what came of it.
func flipped(t *testing.T, what, path, saved string, want *timeline.Project) string {
	t.Helper()
	saves, err := Salvage(context.Background(), path, saved)
	if err != nil {
		if !errors.Is(err, ErrDamaged) && !errors.Is(err, ErrNewer) {
			t.Errorf("%s: %v, want that it is damaged", what, err)
		}
		if len(Copies(path)) == 0 {
			t.Errorf("%s: %v, and no copy is offered", what, err)
		}
		return "not salvaged"
	}
	got, err := readWhole(saved)
	if err != nil {
		t.Errorf("%s: what was saved: %v", what, err)
		return "broken"
	}
	if saves.Copy == nil {
		t.Errorf("%s: it wasn't compared with the copy", what)
	}
	lines := saves.Lines()
	alone := *saves
	alone.Copy, alone.Differs = nil, nil
	if contains(strings.ToLower(alone.Lines()[0]), "nothing") {
		t.Errorf("%s: without a copy it says:\n%s", what, strings.Join(alone.Lines(), "\n"))
	}
	for _, name := range shorterSetups(want, got) {
		if told := strings.Join(alone.Lines(), "\n"); !contains(told, fmt.Sprintf("setup %q", name)) && !contains(told, "any setup") && !contains(told, "none could be read") {
			t.Errorf("%s: rows of setup %q are lost, and without a copy it says:\n%s", what, name, told)
		}
	}
	nothing := strings.HasPrefix(lines[0], "Nothing was lost")
	all := strings.Join(lines, "\n")
	for _, name := range changedSetups(want, got) {
		if nothing || !contains(all, fmt.Sprintf("setup %q", name)) {
			t.Errorf("%s: setup %q differs or is lost, and it says:\n%s", what, name, all)
		}
	}
	if !reflect.DeepEqual(got.Fighters, want.Fighters) && (nothing || len(saves.Differs)+len(saves.Lost) == 0) {
		t.Errorf("%s: the move data differ, and it says:\n%s", what, all)
	}
	if nothing && (len(saves.Failed) > 0 || !reflect.DeepEqual(got, want)) {
		t.Errorf("%s: it differs or failed its check, and it says:\n%s", what, all)
	}
	switch {
	case nothing:
		return "nothing was lost"
	case reflect.DeepEqual(got, want):
		return "the same, with damage told"
	}
	return "differs"
}

// changedSetups are the names of the setups that are gone or others.
func changedSetups(want, got *timeline.Project) (out []string) {
	for i := range want.Setups {
		s := &want.Setups[i]
		at := slices.IndexFunc(got.Setups, func(o timeline.Setup) bool { return o.Name == s.Name })
		if at < 0 || !reflect.DeepEqual(*s, got.Setups[at]) {
			out = append(out, s.Name)
		}
	}
	return out
}

// shorterSetups are the names of the setups that are gone or have fewer rows
// than they had.
func shorterSetups(want, got *timeline.Project) (out []string) {
	rows := func(s *timeline.Setup) int { return len(s.Fillers) + len(s.Rises) + len(s.Replies) + len(s.Tags) }
	left := map[string]int{}
	for i := range got.Setups {
		left[got.Setups[i].Name] = 1 + rows(&got.Setups[i])
	}
	if len(got.Setups) == len(want.Setups) { // a name that was changed is a setup all the same
		for i := range got.Setups {
			left[want.Setups[i].Name] = 1 + rows(&got.Setups[i])
		}
	}
	for i := range want.Setups {
		if left[want.Setups[i].Name] < 1+rows(&want.Setups[i]) {
			out = append(out, want.Setups[i].Name)
		}
	}
	return out
}

// Damage that puts moves, routes or setups in another order changes no value of
// theirs; it is told all the same.
func TestAnotherOrderIsNeverCalledNothing(t *testing.T) {
	for _, table := range []string{"move", "route", "setup", "fighter"} {
		keepCopies(t)
		f := made(t, sample(t))
		f.Close()
		if err := End(time.Minute); err != nil {
			t.Fatal(err)
		}
		plainly(t, f.Path(), fmt.Sprintf("UPDATE %[1]s SET place = 1 + (SELECT max(place) FROM %[1]s) WHERE id = 1", table))
		saved := filepath.Join(tempDir(t), "saved"+Ext)
		saves, err := Salvage(context.Background(), f.Path(), saved)
		if err != nil {
			t.Fatal(err)
		}
		if saves.Copy == nil {
			t.Fatalf("%s: it wasn't compared with the copy", table)
		}
		if all := strings.Join(saves.Lines(), "\n"); strings.HasPrefix(all, "Nothing was lost") || !contains(all, "the order") {
			t.Errorf("%s: the order is another, and it says:\n%s", table, all)
		}
	}
}
