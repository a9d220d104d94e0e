package storage

import (
	"fmt"
	"reflect"

	"wakeline/timeline"
)

// begin gives a new file its ruleset and its first revision, as no step of
// undo: there is no file without them.
func (f *File) begin() error {
	f.ids.fighter = map[string]*fighterIDs{}
	f.data.Ruleset = timeline.DefaultRuleset()
	if err := f.inStep(func(s *Step) error {
		if err := s.SetRuleset(f.data.Ruleset); err != nil {
			return err
		}
		return s.revision(0, FirstRevision, "", nil)
	}); err != nil {
		return err
	}
	return f.load()
}

// fill puts a whole project into a new file, as part of its making.
func (f *File) fill(p *timeline.Project) error {
	return f.inStep(func(s *Step) error {
		if err := s.Take(p); err != nil {
			return err
		}
		return s.check()
	})
}

// Import takes a project text in, as one step: its ruleset, its fighters and
// its setups. A fighter or setup that bears a name the project has replaces
// that one; what the text doesn't name stays. With a revision's name the move
// data become a new revision.
func (f *File) Import(p *timeline.Project, what, revision string) error {
	return f.Edit(what, func(s *Step) error {
		if revision != "" {
			if err := s.BeginRevision(revision, what); err != nil {
				return err
			}
		}
		return s.Take(p)
	})
}

// Take writes everything of p, replacing what bears the same names.
func (s *Step) Take(p *timeline.Project) error {
	if s.f.data.Ruleset != p.Ruleset {
		if err := s.SetRuleset(p.Ruleset); err != nil {
			return err
		}
	}
	for i := range p.Fighters {
		if err := s.takeFighter(&p.Fighters[i]); err != nil {
			return err
		}
	}
	known := map[string]bool{}
	if rows, err := s.tx.Query("SELECT name FROM setup"); err != nil {
		return err
	} else {
		for rows.Next() {
			var name string
			if err := rows.Scan(&name); err != nil {
				rows.Close()
				return err
			}
			known[name] = true
		}
		if err := rows.Err(); err != nil {
			return err
		}
	}
	for i := range p.Setups {
		before := ""
		if known[p.Setups[i].Name] {
			before = p.Setups[i].Name
		}
		if err := s.PutSetup(before, &p.Setups[i]); err != nil {
			return err
		}
	}
	return nil
}

// takeFighter replaces a fighter by one of the same name, thing by thing, or
// adds it. What the new one lacks goes.
func (s *Step) takeFighter(f *timeline.Fighter) error {
	of := s.ids.fighter[f.Name]
	if of == nil {
		return s.PutFighter("", f)
	}
	old := s.f.data.Fighter(f.Name)
	if old.Body != f.Body {
		if err := s.PutFighter(f.Name, &timeline.Fighter{Name: f.Name, Body: f.Body}); err != nil {
			return err
		}
	}
	moves, jumps, rises := map[string]bool{}, map[string]bool{}, map[string]bool{}
	for i := range f.Moves {
		moves[f.Moves[i].Name] = true
		if err := s.takeMove(old, &f.Moves[i]); err != nil {
			return err
		}
	}
	for i := range f.Jumps {
		j := &f.Jumps[i]
		jumps[j.Name] = true
		if was := old.Jump(j.Name); was == nil {
			if err := s.PutJump(f.Name, "", j); err != nil {
				return err
			}
		} else if *was != *j {
			if err := s.PutJump(f.Name, j.Name, j); err != nil {
				return err
			}
		}
	}
	was := map[string]timeline.Rise{}
	for _, r := range old.Rises {
		was[r.Name] = r
	}
	for _, r := range f.Rises {
		rises[r.Name] = true
		before := ""
		if w, ok := was[r.Name]; ok && w == r {
			continue
		} else if ok {
			before = r.Name
		}
		if err := s.PutRise(f.Name, before, r); err != nil {
			return err
		}
	}
	for table, keep := range map[string]map[string]bool{"move": moves, "jump": jumps, "rise": rises} {
		for name := range of.table(table) {
			if !keep[name] {
				if err := s.removeOwned(table, f.Name, name); err != nil {
					return fmt.Errorf("%s of %s, which the import lacks: %w", name, f.Name, err)
				}
			}
		}
	}
	return s.order(f)
}

// takeMove replaces or adds one move, where it differs from what old has.
func (s *Step) takeMove(old *timeline.Fighter, m *timeline.Move) error {
	was := old.Move(m.Name)
	switch {
	case was == nil:
		return s.PutMove(old.Name, "", m)
	case reflect.DeepEqual(was, m):
		return nil
	}
	return s.PutMove(old.Name, m.Name, m)
}

// TakeMoves adds or replaces moves of one fighter, and leaves its others; a
// fighter that the project lacks is added, with one quick rise.
func (s *Step) TakeMoves(fighter string, moves []timeline.Move) error {
	if s.ids.fighter[fighter] == nil {
		return s.PutFighter("", &timeline.Fighter{Name: fighter, Moves: moves, Rises: []timeline.Rise{{Name: "quick"}}})
	}
	old := s.f.data.Fighter(fighter)
	byName := make(map[string]*timeline.Move, len(old.Moves))
	for i := range old.Moves {
		byName[old.Moves[i].Name] = &old.Moves[i]
	}
	for i := range moves {
		m := &moves[i]
		before := m.Name
		switch was := byName[m.Name]; {
		case was == nil:
			before = ""
		case reflect.DeepEqual(was, m):
			continue
		}
		if err := s.PutMove(fighter, before, m); err != nil {
			return err
		}
	}
	return nil
}

// order puts the fighter's things in the order of f, where they stand in
// another.
func (s *Step) order(f *timeline.Fighter) error {
	of := s.ids.fighter[f.Name]
	sort := func(table string, n int, name func(i int) string) error {
		last := int64(-1 << 62)
		sorted := true
		var images []*image
		for i := range n {
			im, err := s.read(place{table, of.table(table)[name(i)]})
			if err != nil {
				return err
			}
			if im == nil {
				return fmt.Errorf("%s %q is not there", table, name(i))
			}
			at, _ := im.Row["place"].(int64)
			sorted = sorted && at > last
			last = at
			images = append(images, im)
		}
		if sorted {
			return nil
		}
		for i, im := range images {
			moved := &image{Row: row{}, Kids: im.Kids}
			for c, v := range im.Row {
				moved.Row[c] = v
			}
			moved.Row["place"] = int64(i + 1)
			if err := s.write(place{table, of.table(table)[name(i)]}, im, moved); err != nil {
				return err
			}
		}
		return nil
	}
	if err := sort("move", len(f.Moves), func(i int) string { return f.Moves[i].Name }); err != nil {
		return err
	}
	if err := sort("jump", len(f.Jumps), func(i int) string { return f.Jumps[i].Name }); err != nil {
		return err
	}
	return sort("rise", len(f.Rises), func(i int) string { return f.Rises[i].Name })
}
