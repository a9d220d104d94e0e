package storage

import (
	"context"
	"fmt"
	"maps"

	"wakeline/timeline"
)

// begin makes the empty database of a new file a project file's, with its
// ruleset and its first revision. It is no step of undo: there is no file
// without them.
func (f *File) begin() error {
	if _, err := f.db.Exec(fmt.Sprintf("PRAGMA application_id = %d", applicationID)); err != nil {
		return err
	}
	if err := migrate(f.db, 0); err != nil {
		return err
	}
	f.ids.fighter = map[string]*fighterIDs{}
	f.data.Ruleset = timeline.DefaultRuleset()
	if err := f.inStep(context.Background(), func(s *Step) error {
		if err := s.SetRuleset(f.data.Ruleset); err != nil {
			return err
		}
		return s.revision(0, FirstRevision, "", nil)
	}); err != nil {
		return err
	}
	return f.load(f.db)
}

// fill puts a whole project into a new file, as part of its making; nothing,
// where p is nil.
func (f *File) fill(p *timeline.Project) error {
	if p == nil {
		return nil
	}
	return f.inStep(context.Background(), func(s *Step) error {
		if err := s.Take(p); err != nil {
			return err
		}
		return s.check()
	})
}

// Take writes everything of p, replacing what has the same names.
func (s *Step) Take(p *timeline.Project) error {
	if !s.f.data.Ruleset.Equal(p.Ruleset) {
		if err := s.SetRuleset(p.Ruleset); err != nil {
			return err
		}
	}
	for i := range p.Fighters {
		if err := s.takeFighter(&p.Fighters[i]); err != nil {
			return err
		}
	}
	known, err := s.setupNames()
	if err != nil {
		return err
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

func (s *Step) setupNames() (map[string]bool, error) {
	rows, err := s.tx.Query("SELECT name FROM setup")
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	known := map[string]bool{}
	for rows.Next() {
		var name string
		if err := rows.Scan(&name); err != nil {
			return nil, err
		}
		known[name] = true
	}
	return known, rows.Err()
}

// takeFighter replaces a fighter by one of the same name, thing by thing, or
// adds it. What the new one lacks goes.
func (s *Step) takeFighter(f *timeline.Fighter) error {
	of := s.ids.fighter[f.Name]
	if of == nil {
		return s.PutFighter("", f)
	}
	if err := s.putAll(f); err != nil {
		return err
	}
	own := f.Own()
	if err := s.PutFighter(f.Name, &own); err != nil {
		return err
	}
	for _, kind := range ownedBy(f) { // routes first: they name moves
		kept := map[string]bool{}
		for _, name := range kind.names {
			kept[name] = true
		}
		for _, name := range of.names(kind.table) {
			if kept[name] {
				continue
			}
			if err := s.removeOwned(kind.table, f.Name, name); err != nil {
				return fmt.Errorf("%s of %s, which the import lacks: %w", name, f.Name, err)
			}
		}
	}
	return s.order(f)
}

// TakeMoves adds or replaces moves of one fighter, and leaves its others; a
// fighter that the project lacks is added, with the default rise.
func (s *Step) TakeMoves(fighter string, moves []timeline.Move) error {
	of := s.ids.fighter[fighter]
	if of == nil {
		return s.PutFighter("", &timeline.Fighter{Name: fighter, Moves: moves, Rises: timeline.DefaultRises()})
	}
	for i := range moves {
		if err := s.PutMove(fighter, of.ifThere("move", moves[i].Name), &moves[i]); err != nil {
			return err
		}
	}
	return nil
}

// TakeRoute puts a route of a fighter who is there in place of the one of its
// name, or adds it.
func (s *Step) TakeRoute(fighter string, r *timeline.Route) error {
	of := s.ids.fighter[fighter]
	if of == nil {
		return s.fail("expected a fighter, got %q", fighter)
	}
	return s.PutRoute(fighter, of.ifThere("route", r.Name), r)
}

// ownedKind is what a fighter has of a kind: its table, and the names in order.
type ownedKind struct {
	table string
	names []string
}

// ownedBy are the names of all that f has in tables of their own.
func ownedBy(f *timeline.Fighter) []ownedKind {
	return []ownedKind{namesOf(f.Routes), namesOf(f.Moves), namesOf(f.Jumps), namesOf(f.Rises)}
}

func namesOf[T any, P timeline.Owned[T]](list []T) ownedKind {
	of := ownedKind{table: tableOf[T, P]()}
	for i := range list {
		of.names = append(of.names, P(&list[i]).Title())
	}
	return of
}

// order puts the fighter's things in the order of f, where they stand in
// another.
func (s *Step) order(f *timeline.Fighter) error {
	of := s.ids.fighter[f.Name]
	for _, kind := range ownedBy(f) {
		last := int64(-1 << 62)
		sorted := true
		var images []*image
		for _, name := range kind.names {
			im, err := s.read(place{kind.table, of.table(kind.table)[name]})
			if err != nil {
				return err
			}
			if im == nil {
				return fmt.Errorf("%s %q is not there", kind.table, name)
			}
			at, _ := im.Row["place"].(int64)
			sorted = sorted && at > last
			last = at
			images = append(images, im)
		}
		if sorted {
			continue
		}
		for i, im := range images {
			moved := &image{Row: maps.Clone(im.Row), Kids: im.Kids}
			moved.Row["place"] = int64(i + 1)
			if err := s.write(place{kind.table, of.table(kind.table)[kind.names[i]]}, im, moved); err != nil {
				return err
			}
		}
	}
	return nil
}
