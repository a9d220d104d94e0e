package storage

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"wakeline/timeline"
)

// sample is the demo project.
func sample(t testing.TB) *timeline.Project {
	t.Helper()
	p, err := ReadText("../samples/sample.json")
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// made creates a file that holds p, closed when the test ends.
func made(t testing.TB, p *timeline.Project) *File {
	t.Helper()
	f, err := Create(filepath.Join(tempDir(t), "p"+Ext), p)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return f
}

// holds asks that the file, opened anew, holds p.
func holds(t *testing.T, f *File, p *timeline.Project, when string) {
	t.Helper()
	got, err := f.Project()
	if err != nil {
		t.Fatalf("%s: %v", when, err)
	}
	if !reflect.DeepEqual(got, p) {
		t.Fatalf("%s: the project differs:\n%s\nwant\n%s", when, timeline.WriteText(got), timeline.WriteText(p))
	}
}

func TestCreateHoldsTheSample(t *testing.T) {
	p := sample(t)
	f := made(t, p)
	holds(t, f, p, "made")
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	again, err := Open(f.Path())
	if err != nil {
		t.Fatal(err)
	}
	defer again.Close()
	if why := again.ReadOnly(); why != "" {
		t.Errorf("read-only: %q, want editable", why)
	}
	holds(t, again, p, "opened again")
	if found, err := Check(context.Background(), f.Path()); err != nil || len(found) != 0 {
		t.Errorf("check = %v, %v, want nothing", found, err)
	}
	if _, err := Create(f.Path(), nil); !errors.Is(err, os.ErrExist) {
		t.Errorf("create over a file: %v, want that it exists", err)
	}
}

func TestImportIntoAnEmptyProjectGivesAnEqualOne(t *testing.T) {
	p := sample(t)
	f := made(t, nil)
	if err := f.Import(context.Background(), p, "import sample.json", ""); err != nil {
		t.Fatal(err)
	}
	holds(t, f, p, "imported")
	if what, err := f.Undo(); err != nil || what != "import sample.json" {
		t.Fatalf("undo = %q, %v", what, err)
	}
	holds(t, f, &timeline.Project{Ruleset: timeline.DefaultRuleset()}, "undone")
	if _, err := f.Undo(); !errors.Is(err, ErrNoStep) {
		t.Errorf("undo at the beginning: %v, want %v", err, ErrNoStep)
	}
	if _, err := f.Redo(); err != nil {
		t.Fatal(err)
	}
	holds(t, f, p, "done again")
	// Taken in again, nothing changes, and no step is made.
	if err := f.Import(context.Background(), p, "the same", ""); err != nil {
		t.Fatal(err)
	}
	holds(t, f, p, "imported twice")
	if h, err := f.History(9); err != nil || len(h) != 1 {
		t.Errorf("history = %v, %v, want the one import", h, err)
	}
}

func TestEditsAreStepsOnDisk(t *testing.T) {
	p := sample(t)
	f := made(t, p)
	states := []*timeline.Project{clone(t, p)}
	edit := func(what string, change func(p *timeline.Project), do func(s *Step) error) {
		t.Helper()
		if err := f.Edit(what, do); err != nil {
			t.Fatalf("%s: %v", what, err)
		}
		next := clone(t, states[len(states)-1])
		change(next)
		states = append(states, next)
		holds(t, f, next, what)
	}
	setup := p.Setups[0]
	edit("delay 1", func(p *timeline.Project) { p.Setups[0].Delay = 1 }, func(s *Step) error {
		setup.Delay = 1
		return s.PutSetup(setup.Name, &setup)
	})
	edit("rename the setup", func(p *timeline.Project) { p.Setups[0].Name = "Ω new" }, func(s *Step) error {
		before := setup.Name
		setup.Name = "Ω new"
		return s.PutSetup(before, &setup)
	})
	fighter := p.Fighters[0].Name
	move := p.Fighters[0].Moves[0]
	was := move.Name
	edit("rename a move", func(p *timeline.Project) { renameMove(p, fighter, was, "Renamed") }, func(s *Step) error {
		move.Name = "Renamed"
		return s.PutMove(fighter, was, &move)
	})
	edit("a new move", func(p *timeline.Project) {
		p.Fighters[1].Moves = append(p.Fighters[1].Moves, timeline.Move{Name: "Fresh", Kind: timeline.Dash, Length: 12})
	}, func(s *Step) error {
		return s.PutMove(p.Fighters[1].Name, "", &timeline.Move{Name: "Fresh", Kind: timeline.Dash, Length: 12})
	})
	edit("rename a fighter", func(p *timeline.Project) {
		for i := range p.Setups {
			if p.Setups[i].Attacker == fighter {
				p.Setups[i].Attacker = "F"
			}
			if p.Setups[i].Rival == fighter {
				p.Setups[i].Rival = "F"
			}
		}
		p.Fighters[0].Name = "F"
	}, func(s *Step) error {
		return s.PutFighter(fighter, &timeline.Fighter{Name: "F", Body: p.Fighters[0].Body})
	})
	edit("remove a setup", func(p *timeline.Project) { p.Setups = append(p.Setups[:2:2], p.Setups[3:]...) },
		func(s *Step) error { return s.RemoveSetup(p.Setups[2].Name) })
	edit("health", func(p *timeline.Project) { p.Ruleset.Health = 9000 }, func(s *Step) error {
		r := p.Ruleset
		r.Health = 9000
		return s.SetRuleset(r)
	})
	// All the way back, closed and opened between, and forth again.
	for i := len(states) - 2; i >= 0; i-- {
		if i%2 == 0 {
			f.Close()
			var err error
			if f, err = Open(f.Path()); err != nil {
				t.Fatal(err)
			}
			defer f.Close()
		}
		if what, err := f.Undo(); err != nil {
			t.Fatalf("undo %q: %v", what, err)
		}
		holds(t, f, states[i], "undone")
	}
	for i := 1; i < len(states); i++ {
		if what, err := f.Redo(); err != nil {
			t.Fatalf("redo %q: %v", what, err)
		}
		holds(t, f, states[i], "done again")
	}
	// A new edit ends what was undone.
	if _, err := f.Undo(); err != nil {
		t.Fatal(err)
	}
	if err := f.Edit("note", func(s *Step) error { setup.Note = "n"; return s.PutSetup(setup.Name, &setup) }); err == nil {
		t.Error("a setup whose attacker was renamed was taken, want an error")
	}
	last := states[len(states)-2].Setups[1]
	last.Note = "n"
	if err := f.Edit("note", func(s *Step) error { return s.PutSetup(last.Name, &last) }); err != nil {
		t.Fatal(err)
	}
	if _, err := f.Redo(); !errors.Is(err, ErrNoStep) {
		t.Errorf("redo after an edit: %v, want %v", err, ErrNoStep)
	}
	if found, err := Check(context.Background(), f.Path()); err != nil || len(found) != 0 {
		t.Errorf("check = %v, %v, want nothing", found, err)
	}
}

func clone(t *testing.T, p *timeline.Project) *timeline.Project {
	t.Helper()
	out, err := timeline.ReadText(timeline.WriteText(p))
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// renameMove renames a fighter's move wherever setups name it.
func renameMove(p *timeline.Project, fighter, was, name string) {
	p.Fighter(fighter).Move(was).Name = name
	swap := func(s *string) {
		if *s == was {
			*s = name
		}
	}
	owner := p.Fighter(fighter)
	for i := range owner.Routes {
		for k := range owner.Routes[i].Steps {
			swap(&owner.Routes[i].Steps[k].Move)
		}
	}
	for i := range owner.Replies {
		swap(&owner.Replies[i].Move)
	}
	for i := range p.Setups {
		s := &p.Setups[i]
		if s.Attacker == fighter {
			for k := range s.Follow {
				swap(&s.Follow[k].Move)
			}
			swap(&s.Ender)
			swap(&s.Attack)
			swap(&s.Landing)
			for k := range s.Fillers {
				swap(&s.Fillers[k])
			}
		}
		if s.Rival == fighter {
			for k := range s.Replies {
				swap(&s.Replies[k].Move)
			}
		}
	}
}

func TestABrokenEditChangesNothing(t *testing.T) {
	p := sample(t)
	f := made(t, p)
	bad := p.Setups[0]
	bad.Delay = -1
	worse := p.Fighters[0].Moves[0]
	worse.Recovery = -1
	for name, do := range map[string]func(s *Step) error{
		"a delay below 0": func(s *Step) error { return s.PutSetup(bad.Name, &bad) },
		"a bad move":      func(s *Step) error { return s.PutMove(p.Fighters[0].Name, worse.Name, &worse) },
		"a used jump removed": func(s *Step) error {
			return s.PutJump(p.Setups[0].Attacker, p.Setups[0].Jump, nil)
		},
		"half, then an error": func(s *Step) error {
			if err := s.RemoveSetup(p.Setups[0].Name); err != nil {
				return err
			}
			return errors.New("broken off")
		},
		"an error that the caller drops": func(s *Step) error {
			s.RemoveSetup(p.Setups[0].Name)
			s.PutMove("nobody", "", &worse)
			return nil
		},
	} {
		if err := f.Edit(name, do); err == nil || !strings.HasPrefix(err.Error(), name) {
			t.Errorf("%s: error = %v, want one that names the step", name, err)
		}
		holds(t, f, p, name)
	}
	if h, err := f.History(9); err != nil || len(h) != 0 {
		t.Errorf("history = %v, %v, want none", h, err)
	}
}

func TestRevisions(t *testing.T) {
	p := sample(t)
	f := made(t, nil)
	if err := f.Import(context.Background(), p, "import", "1.0"); err != nil {
		t.Fatal(err)
	}
	patched := clone(t, p)
	patched.Fighters[0].Moves[0].Recovery++
	if err := f.Import(context.Background(), patched, "patch", "1.1"); err != nil {
		t.Fatal(err)
	}
	list, err := f.Revisions()
	if err != nil || len(list) != 2 || list[0].Name != "1.0" || list[1].Name != "1.1" || list[0].Latest || !list[1].Latest {
		t.Fatalf("revisions = %+v, %v", list, err)
	}
	for name, want := range map[string]*timeline.Project{"1.0": p, "1.1": patched} {
		got, err := f.DataOf(name)
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(got.Fighters, want.Fighters) {
			t.Errorf("data of %s differ", name)
		}
	}
	if _, err := f.DataOf("2.0"); err == nil || !strings.Contains(err.Error(), `"1.0", "1.1"`) {
		t.Errorf("an unknown revision: %v, want the names there are", err)
	}
	if err := f.Import(context.Background(), p, "again", "1.1"); err == nil {
		t.Error("the same revision's name again, want an error")
	}
	proof := Proof{Setup: p.Setups[0].Name, Revision: "1.1", Date: "2026-01-02", Result: "worked", Note: "n"}
	if err := f.Edit("proof", func(s *Step) error { return s.AddProof(proof) }); err != nil {
		t.Fatal(err)
	}
	if got, err := f.Proofs(p.Setups[0].Name); err != nil || !reflect.DeepEqual(got, []Proof{proof}) {
		t.Errorf("proofs = %v, %v, want %v", got, err, proof)
	}
	if err := f.Edit("remove", func(s *Step) error { return s.RemoveSetup(p.Setups[0].Name) }); err != nil {
		t.Error(err)
	}
	for range 3 {
		if _, err := f.Undo(); err != nil {
			t.Fatal(err)
		}
	}
	holds(t, f, p, "back at 1.0")
	if list, _ := f.Revisions(); len(list) != 1 || !list[0].Latest {
		t.Errorf("revisions after undo = %+v, want 1.0 alone", list)
	}
}

func TestASecondWindowReads(t *testing.T) {
	f := made(t, sample(t))
	second, err := Open(f.Path())
	if err != nil {
		t.Fatal(err)
	}
	defer second.Close()
	if second.ReadOnly() == "" {
		t.Fatal("the second window may edit, want read-only")
	}
	if err := second.Edit("x", func(*Step) error { return nil }); err == nil {
		t.Error("an edit in the second window, want an error")
	}
	if err := second.TakeOver(); err == nil {
		t.Error("taken over while the first runs, want an error")
	}
	p := sample(t)
	p.Setups[0].Delay = 1
	if err := f.Edit("delay", func(s *Step) error { return s.PutSetup(p.Setups[0].Name, &p.Setups[0]) }); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	if err := second.TakeOver(); err != nil {
		t.Fatal(err)
	}
	holds(t, second, p, "taken over")
	if err := second.Edit("remove", func(s *Step) error { return s.RemoveSetup(p.Setups[0].Name) }); err != nil {
		t.Error(err)
	}
}

func TestCopyAndCompact(t *testing.T) {
	p := sample(t)
	f := made(t, p)
	path := filepath.Join(tempDir(t), "copy"+Ext)
	last := 0
	if err := f.Copy(context.Background(), path, func(done, of int) { last = of - done }); err != nil {
		t.Fatal(err)
	}
	if last != 0 {
		t.Errorf("progress ended %d pages short", last)
	}
	c, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	holds(t, c, p, "the copy")
	if err := c.Compact(context.Background()); err != nil {
		t.Fatal(err)
	}
	holds(t, c, p, "compacted")
	if err := f.Copy(context.Background(), path, nil); err == nil {
		t.Error("copied over a file that is open, want an error")
	}
	if err := f.Copy(context.Background(), f.Path(), nil); err == nil {
		t.Error("copied onto itself, want an error")
	}
	c.Close()
	stopped, cancel := context.WithCancel(context.Background())
	cancel()
	if err := f.Copy(stopped, path, nil); !errors.Is(err, context.Canceled) {
		t.Errorf("a stopped copy: %v, want %v", err, context.Canceled)
	}
	if left, _ := os.ReadDir(filepath.Dir(path)); len(left) > 2 {
		t.Errorf("left behind: %v", left)
	}
}

// contains reports whether an error or a list says part.
func contains(s, part string) bool { return strings.Contains(s, part) }

// Import takes a project text in, as one step; with a revision's name the move
// data become a new revision.
func (f *File) Import(ctx context.Context, p *timeline.Project, what, revision string) error {
	return f.EditContext(ctx, what, func(s *Step) error {
		if revision != "" {
			if err := s.BeginRevision(revision, what); err != nil {
				return err
			}
		}
		return s.Take(p)
	})
}
