package storage

import (
	"bytes"
	"context"
	"errors"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"runtime"
	"strings"
	"sync"
	"testing"

	sqlite3 "github.com/mattn/go-sqlite3"

	"wakeline/timeline"
)

// lists are those of a worn file.
var lists = []timeline.SavedList{{Name: "Worn ones", Search: "tag:=worn not verdict:unsafe"}, {Name: "Others", Search: `not list:"worn ones"`}}

// worn is a file with some of everything in it: revisions, proofs, a history.
func worn(t testing.TB) (path string, p *timeline.Project) {
	t.Helper()
	f := made(t, nil)
	p = valued(t)
	if err := f.Import(context.Background(), p, "import", "1.0"); err != nil {
		t.Fatal(err)
	}
	p = valued(t)
	p.Fighters[0].Moves[0].Recovery++
	if err := f.Import(context.Background(), p, "patch", "1.1"); err != nil {
		t.Fatal(err)
	}
	for i := range p.Setups {
		s := &p.Setups[i]
		s.Tags = append(s.Tags, "worn")
		if err := f.Edit("tag and proof", func(st *Step) error {
			if err := st.PutSetup(s.Name, s); err != nil {
				return err
			}
			return st.AddProof(Proof{Setup: s.Name, Revision: "1.1", Date: "2026-03-04", Result: "worked"})
		}); err != nil {
			t.Fatal(err)
		}
	}
	if err := f.Edit("one more", func(st *Step) error { return st.RemoveSetup(p.Setups[0].Name) }); err != nil {
		t.Fatal(err)
	}
	if _, err := f.Undo(); err != nil {
		t.Fatal(err)
	}
	if err := f.Edit("list", func(st *Step) error {
		for _, l := range lists {
			if err := st.PutList("", l); err != nil {
				return err
			}
		}
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	drilled(t, f)
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	return f.Path(), p
}

// hurt flips or cuts bytes of a file.
func hurt(g *rand.Rand, whole []byte) []byte {
	b := bytes.Clone(whole)
	page := 4096 * g.IntN(len(b)/4096)
	switch g.IntN(6) {
	case 0: // cut off
		return b[:g.IntN(len(b))]
	case 1: // one bit anywhere
		b[g.IntN(len(b))] ^= 1 << g.IntN(8)
	case 2: // a few bytes anywhere
		for range 1 + g.IntN(8) {
			b[g.IntN(len(b))] = byte(g.IntN(256))
		}
	case 3: // a sector zeroed
		clear(b[page+512*g.IntN(8):][:512])
	case 4: // a page of noise
		for i := range 4096 {
			b[page+i] = byte(g.IntN(256))
		}
	case 5: // the head of a page
		for range 1 + g.IntN(4) {
			b[page+g.IntN(40)] = byte(g.IntN(256))
		}
	}
	return b
}

// readWhole is what a program would make of the file at path.
func readWhole(path string) (*timeline.Project, error) {
	f, err := Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return f.Project()
}

func TestDamage(t *testing.T) {
	n := 1000
	if testing.Short() {
		n = 100
	}
	path, want := worn(t)
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	counts := map[string]int{}
	var mu sync.Mutex
	tally := func(what string) {
		mu.Lock()
		defer mu.Unlock()
		counts[what]++
	}
	var group sync.WaitGroup
	seeds := make(chan uint64)
	for range runtime.GOMAXPROCS(0) {
		group.Go(func() {
			dir := tempDir(t)
			for seed := range seeds {
				damage(t, dir, seed, hurt(rand.New(rand.NewPCG(seed, 9)), whole), want, tally)
			}
		})
	}
	for seed := range uint64(n) {
		seeds <- seed
	}
	close(seeds)
	group.Wait()
	t.Logf("%d files of %d bytes: %v", n, len(whole), counts)
}

// A file that is shorter than it says is told apart from a disk that fails.
func TestAShortFileIsDamaged(t *testing.T) {
	short := sqlite3.Error{Code: sqlite3.ErrIoErr, ExtendedCode: sqlite3.ErrIoErrShortRead}
	if err := describe(short); !errors.Is(err, ErrDamaged) {
		t.Errorf("a read past the end: %v", err)
	}
	if err := describe(sqlite3.Error{Code: sqlite3.ErrIoErr, ExtendedCode: sqlite3.ErrIoErrRead}); errors.Is(err, ErrDamaged) {
		t.Errorf("a disk that can't be read: %v", err)
	}
}

// damage opens, checks and salvages one damaged file.
func damage(t *testing.T, dir string, seed uint64, b []byte, want *timeline.Project, tally func(string)) {
	in, out := filepath.Join(dir, "hurt"+Ext), filepath.Join(dir, "saved"+Ext)
	if err := os.WriteFile(in, b, 0o644); err != nil {
		t.Error(err)
		return
	}
	got, err := readWhole(in)
	found, checkErr := Check(context.Background(), in)
	switch {
	case err != nil && !errors.Is(err, ErrDamaged) && !errors.Is(err, ErrForeign) && !errors.Is(err, ErrNewer):
		t.Errorf("seed %d: error = %v, want one that is told apart", seed, err)
	case err != nil:
		tally("refused")
		if checkErr == nil && len(found) == 0 {
			t.Errorf("seed %d: check finds nothing, and it can't be opened: %v", seed, err)
		}
	case reflect.DeepEqual(got, want):
		tally("equal")
	case len(found) > 0 && contains(strings.Join(found, "\n"), "_check: "):
		t.Errorf("seed %d: another project, and check finds: %v", seed, found)
	default:
		tally("content changed, which no check of pages can see")
	}
	if now, err := os.ReadFile(in); err != nil || !bytes.Equal(now, b) {
		t.Errorf("seed %d: the file was written to", seed)
	}
	saves, saveErr := Salvage(context.Background(), in, out)
	if left, _ := os.ReadDir(dir); len(left) > 2 {
		t.Errorf("seed %d: left behind: %v", seed, left)
	}
	if saveErr != nil {
		if err == nil {
			t.Errorf("seed %d: opened, but not salvaged: %v", seed, saveErr)
		}
		tally("not salvaged: " + kindOf(saveErr))
		return
	}
	defer os.Remove(out)
	tally("salvaged")
	lost := append(saves.Lost, saves.Failed...)
	saved, err2 := readWhole(out)
	if err2 != nil {
		t.Errorf("seed %d: what was saved: %v", seed, err2)
		return
	}
	switch {
	case len(lost) == 0 && err == nil && !reflect.DeepEqual(saved, got):
		t.Errorf("seed %d: nothing was lost, and what was saved differs", seed)
	case len(lost) == 0 && err == nil:
		tally("saved whole")
	case reflect.DeepEqual(saved, want):
		tally("saved the whole project")
	case len(lost) == 0:
		tally("saved with changed content, nothing told") // the damaged bytes were content
	default:
		tally("saved with losses told")
	}
	for _, l := range lost {
		if strings.TrimSpace(l) == "" || strings.Contains(l, "\n") {
			t.Errorf("seed %d: lost = %q, want a line", seed, l)
		}
	}
}

func kindOf(err error) string {
	for _, k := range []error{ErrForeign, ErrNewer, ErrDamaged} {
		if errors.Is(err, k) {
			return k.Error()
		}
	}
	return err.Error()
}

// valued is the sample with something of all that tells what an exchange is
// worth.
func valued(t testing.TB) *timeline.Project {
	p := sample(t)
	s := &p.Setups[0]
	a, r := p.Fighter(s.Attacker), p.Fighter(s.Rival)
	var grounded []string
	for i := range a.Moves {
		if !a.Moves[i].Air {
			grounded = append(grounded, a.Moves[i].Name)
		}
	}
	p.Ruleset.Scaling, p.Ruleset.Carry = []int{100, 90}, timeline.Ratio{Num: 1, Den: 2}
	a.Routes = append(a.Routes, []timeline.Route{
		{Name: "ladder", Steps: []timeline.RouteStep{{Move: grounded[0], By: timeline.Link}, {Move: grounded[1], By: timeline.Cancel}}},
		{Name: "measured", Damage: timeline.Some(300), Confirmed: true, Steps: []timeline.RouteStep{{Move: grounded[1], By: timeline.Link}}},
	}...)
	r.Replies = []timeline.Reply{{Move: s.Replies[0].Move, Demand: timeline.Survive, Costs: timeline.Some(99)}}
	s.OnHit, s.Punish, s.Pressure = "ladder", []string{"measured"}, 40
	s.Follow = []timeline.FollowStep{{Move: grounded[0], Wait: 2, By: timeline.Link}}
	s.Replies[0].Costs = timeline.Some(120)
	return p
}
