package storage

import (
	"context"
	"path/filepath"
	"reflect"
	"testing"

	"wakeline/timeline"
)

func TestRandomProjectsComeBackEqual(t *testing.T) {
	n := uint64(25)
	if testing.Short() {
		n = 5
	}
	for seed := range n {
		g := newDice(seed)
		p := g.project()
		if err := p.Check(); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		p = clone(t, p) // a text is where projects come from
		f := made(t, p)
		holds(t, f, p, "made")
		// Out as a text, and into another file.
		path := filepath.Join(tempDir(t), "p.json")
		if err := WriteText(path, p); err != nil {
			t.Fatal(err)
		}
		read, err := ReadText(path)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		other := made(t, nil)
		if err := other.Import(context.Background(), read, "import", "1.0"); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		holds(t, other, p, "imported")
		// Another project over it: what both name is the second's.
		q := clone(t, newDice(seed+1000).project())
		want := merged(p, q)
		if want.Check() != nil {
			continue // a setup of the first would lose what it uses
		}
		if err := other.Import(context.Background(), q, "over it", "1.1"); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		holds(t, other, want, "imported over")
		for range 2 {
			if _, err := other.Undo(); err != nil {
				t.Fatalf("seed %d: %v", seed, err)
			}
		}
		for range 2 {
			if _, err := other.Redo(); err != nil {
				t.Fatalf("seed %d: %v", seed, err)
			}
		}
		holds(t, other, want, "there and back")
		if found, err := Check(context.Background(), other.Path()); err != nil || len(found) > 0 {
			t.Errorf("seed %d: check = %v, %v", seed, found, err)
		}
		f.Close()
		other.Close()
	}
}

// merged is p with q imported over it.
func merged(p, q *timeline.Project) *timeline.Project {
	out := &timeline.Project{Ruleset: q.Ruleset}
	put := func(of []timeline.Setup) {
	next:
		for _, s := range of {
			for i := range out.Setups {
				if out.Setups[i].Name == s.Name {
					out.Setups[i] = s
					continue next
				}
			}
			out.Setups = append(out.Setups, s)
		}
	}
	for _, f := range p.Fighters {
		if n := q.Fighter(f.Name); n != nil {
			f = *n
		}
		out.Fighters = append(out.Fighters, f)
	}
	for _, f := range q.Fighters {
		if p.Fighter(f.Name) == nil {
			out.Fighters = append(out.Fighters, f)
		}
	}
	put(p.Setups)
	put(q.Setups)
	return out
}

func TestNamesPassedRoundAreUndone(t *testing.T) {
	p := sample(t)
	f := made(t, p)
	a, b := p.Setups[0], p.Setups[1]
	first, second := a.Name, b.Name
	if err := f.Edit("swap", func(s *Step) error {
		a.Name = "between"
		if err := s.PutSetup(first, &a); err != nil {
			return err
		}
		b.Name = first
		if err := s.PutSetup(second, &b); err != nil {
			return err
		}
		a.Name = second
		return s.PutSetup("between", &a)
	}); err != nil {
		t.Fatal(err)
	}
	swapped, err := f.Project()
	if err != nil || swapped.Setups[0].Name != second || swapped.Setups[1].Name != first {
		t.Fatalf("swapped: %v", err)
	}
	for _, c := range []struct {
		undoRedo func() (string, error)
		want     *timeline.Project
	}{{f.Undo, p}, {f.Redo, swapped}, {f.Undo, p}} {
		if _, err := c.undoRedo(); err != nil {
			t.Fatal(err)
		}
		holds(t, f, c.want, "passed round")
	}
}

func TestOneStepMayBuildOnItself(t *testing.T) {
	p := sample(t)
	f := made(t, p)
	fresh := []timeline.Move{{Name: "One", Kind: timeline.Dash, Length: 9}}
	if err := f.Edit("twice", func(s *Step) error {
		for _, fighter := range []string{"New", "New", p.Fighters[0].Name} {
			if err := s.TakeMoves(fighter, fresh); err != nil {
				return err
			}
		}
		m := p.Fighters[0].Moves[0]
		m.Recovery++
		if err := s.PutMove(p.Fighters[0].Name, m.Name, &m); err != nil {
			return err
		}
		return s.TakeMoves(p.Fighters[0].Name, p.Fighters[0].Moves[:1]) // as it was
	}); err != nil {
		t.Fatal(err)
	}
	got := f.Data()
	if n := got.Fighter("New"); n == nil || len(n.Moves) != 1 {
		t.Errorf("the new fighter = %+v, want one with one move", n)
	}
	if now := got.Fighters[0].Moves[0]; !reflect.DeepEqual(now, p.Fighters[0].Moves[0]) {
		t.Errorf("the move = %+v, want it as it was", now)
	}
}

func TestAPanicInAnEditLeavesNothing(t *testing.T) {
	p := sample(t)
	f := made(t, p)
	func() {
		defer func() { recover() }()
		f.Edit("panic", func(s *Step) error {
			s.RemoveSetup(p.Setups[0].Name)
			s.PutMove(p.Fighters[0].Name, "", &timeline.Move{Name: "Half", Kind: timeline.Dash, Length: 9})
			panic("half way")
		})
	}()
	holds(t, f, p, "after a panic")
	if err := f.Edit("next", func(s *Step) error { return s.RemoveSetup(p.Setups[0].Name) }); err != nil {
		t.Error(err)
	}
}

func TestWhatIsInUseIsNotRemoved(t *testing.T) {
	p := sample(t)
	for i := range p.Fighters { // so that setups alone use moves
		p.Fighters[i].Routes, p.Fighters[i].Replies = nil, nil
	}
	for i := range p.Setups {
		p.Setups[i].OnHit, p.Setups[i].Punish = "", nil
	}
	f := made(t, p)
	s := p.Setups[0]
	for what, do := range map[string]func(st *Step) error{
		`uses the move "` + s.Ender + `"`: func(st *Step) error { return st.PutMove(s.Attacker, s.Ender, nil) },
		`uses the jump "` + s.Jump + `"`:  func(st *Step) error { return st.PutJump(s.Attacker, s.Jump, nil) },
		`uses the `:                       func(st *Step) error { return st.RemoveFighter(s.Attacker) },
		"$.attack: expected an air move": func(st *Step) error {
			m := *p.Fighter(s.Attacker).Move(s.Attack)
			m.Air = false
			return st.PutMove(s.Attacker, s.Attack, &m)
		},
	} {
		err := f.Edit("remove", do)
		if err == nil || !contains(err.Error(), what) || !contains(err.Error(), "setup \"") {
			t.Errorf("error = %v, want one that says: %s", err, what)
		}
		holds(t, f, p, what)
	}
}

func TestTheSecondWindowSeesTheFirstOnesEdits(t *testing.T) {
	p := sample(t)
	f := made(t, p)
	second, err := Open(f.Path())
	if err != nil {
		t.Fatal(err)
	}
	defer second.Close()
	s := p.Setups[0]
	if err := f.Edit("a new move, used", func(st *Step) error {
		if err := st.PutMove(s.Attacker, "", &timeline.Move{Name: "Fresh", Kind: timeline.Dash, Length: 3}); err != nil {
			return err
		}
		s.Fillers = append(s.Fillers, "Fresh")
		return st.PutSetup(s.Name, &s)
	}); err != nil {
		t.Fatal(err)
	}
	want, err := f.Project()
	if err != nil {
		t.Fatal(err)
	}
	if second.Data().Fighter(s.Attacker).Move("Fresh") == nil {
		t.Error("the second window's data lack the new move")
	}
	holds(t, second, want, "in the second window")
}
