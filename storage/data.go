package storage

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"wakeline/timeline"
)

// SetRuleset replaces the ruleset.
func (s *Step) SetRuleset(r timeline.Ruleset) error {
	_, err := s.put("ruleset", 1, &image{Row: rowOf(rulesetFields, &r)})
	return err
}

// PutFighter replaces the name, body and replies of the fighter called before,
// or adds one with all it has where before is empty.
func (s *Step) PutFighter(before string, f *timeline.Fighter) error {
	id, err := s.fighterID(before)
	if err != nil {
		return err
	}
	if id != 0 {
		of := s.ids.fighter[before]
		delete(s.ids.fighter, before)
		s.ids.fighter[f.Name] = of
		return s.putReplies(f)
	}
	made, err := s.put("fighter", id, &image{Row: rowOf(fighterFields, f)})
	if err != nil {
		return err
	}
	s.ids.fighter[f.Name] = newFighterIDs(made)
	if err := s.putAll(f); err != nil {
		return err
	}
	if len(f.Replies) == 0 {
		return nil
	}
	return s.putReplies(f)
}

// putAll writes all moves, jumps, rises and routes of f, in place of those of
// their names that the fighter has already.
func (s *Step) putAll(f *timeline.Fighter) error {
	return cmp.Or(putEach(s, f, f.Moves, s.PutMove), putEach(s, f, f.Jumps, s.PutJump),
		putEach(s, f, f.Rises, s.PutRise), putEach(s, f, f.Routes, s.PutRoute))
}

func putEach[T any, P timeline.Owned[T]](s *Step, f *timeline.Fighter, list []T, put func(fighter, before string, v *T) error) error {
	for i := range list {
		if err := put(f.Name, s.ids.fighter[f.Name].ifThere(tableOf[T, P](), P(&list[i]).Title()), &list[i]); err != nil {
			return err
		}
	}
	return nil
}

// tableOf is the table of what fighters have of a kind.
func tableOf[T any, P timeline.Owned[T]]() string { return string(P(nil).List()) }

// PutMove replaces the fighter's move called before; adds m at the end where
// before is empty; takes the move away where m is nil. A setup that uses it
// makes the step fail then.
func (s *Step) PutMove(fighter, before string, m *timeline.Move) error {
	return putOwned(s, moveFields, fighter, before, m)
}

// PutJump is PutMove for a jump.
func (s *Step) PutJump(fighter, before string, j *timeline.Jump) error {
	return putOwned(s, jumpFields, fighter, before, j)
}

// PutRise is PutMove for a rise.
func (s *Step) PutRise(fighter, before string, r *timeline.Rise) error {
	return putOwned(s, riseFields, fighter, before, r)
}

// RemoveFighter takes a fighter away with all it owns.
func (s *Step) RemoveFighter(name string) error {
	of := s.ids.fighter[name]
	if of == nil {
		return s.fail("expected a fighter, got %q", name)
	}
	for _, table := range []string{"route", "move", "jump", "rise"} {
		for _, owned := range of.names(table) {
			if err := s.removeOwned(table, name, owned); err != nil {
				return err
			}
		}
	}
	delete(s.ids.fighter, name)
	return s.remove("fighter", of.id)
}

// PutSetup replaces the setup called before, or adds one at the end where
// before is empty.
func (s *Step) PutSetup(before string, setup *timeline.Setup) error {
	var id int64
	if before != "" {
		var err error
		if id, err = s.rowID("setup", before); err != nil {
			return err
		}
	}
	im, err := s.ids.setupImage(setup)
	if err != nil {
		s.err = err
		return err
	}
	_, err = s.put("setup", id, im)
	return err
}

// RemoveSetup takes a setup away, and the proofs of it.
func (s *Step) RemoveSetup(name string) error {
	id, err := s.rowID("setup", name)
	if err != nil {
		return err
	}
	proofs, err := numbers(s.tx, "SELECT id FROM proof WHERE setup = ?", id)
	if err != nil {
		return err
	}
	for _, p := range proofs {
		if err := s.remove("proof", p); err != nil {
			return err
		}
	}
	return s.remove("setup", id)
}

// rowID finds a row by its name.
func (s *Step) rowID(table, name string) (int64, error) {
	found, err := numbers(s.tx, "SELECT id FROM "+table+" WHERE name = ?", name)
	if err != nil {
		return 0, err
	}
	if len(found) == 0 {
		return 0, s.fail("expected the name of a %s, got %q", table, name)
	}
	return found[0], nil
}

func (s *Step) fail(format string, args ...any) error {
	if s.err == nil {
		s.err = fmt.Errorf(format, args...)
	}
	return s.err
}

func (s *Step) fighterID(name string) (int64, error) {
	if name == "" {
		return 0, nil
	}
	of := s.ids.fighter[name]
	if of == nil {
		return 0, s.fail("expected a fighter, got %q", name)
	}
	return of.id, nil
}

// table is the fighter's names of one kind.
func (of *fighterIDs) table(name string) map[string]int64 {
	switch name {
	case "move":
		return of.move
	case "jump":
		return of.jump
	case "route":
		return of.route
	}
	return of.rise
}

// ifThere returns name where the fighter has something of that name in that
// table, and an empty text where not.
func (of *fighterIDs) ifThere(table, name string) string {
	if of.table(table)[name] == 0 {
		return ""
	}
	return name
}

// names are the fighter's names of one kind, sorted.
func (of *fighterIDs) names(table string) []string {
	return slices.Sorted(maps.Keys(of.table(table)))
}

func putOwned[T any, P timeline.Owned[T]](s *Step, fields []*timeline.Field[T], fighter, before string, v *T) error {
	if v == nil {
		return s.removeOwned(tableOf[T, P](), fighter, before)
	}
	return s.putOwnedImage(tableOf[T, P](), fighter, before, P(v).Title(), &image{Row: rowOf(fields, v)})
}

func (s *Step) putOwnedImage(table, fighter, before, name string, im *image) error {
	of := s.ids.fighter[fighter]
	if of == nil {
		return s.fail("expected a fighter, got %q", fighter)
	}
	id := of.table(table)[before]
	if before != "" && id == 0 {
		return s.fail("expected a %s of %s, got %q", table, fighter, before)
	}
	im.Row["fighter"] = of.id
	made, err := s.put(table, id, im)
	if err != nil {
		return err
	}
	delete(of.table(table), before)
	of.table(table)[name] = made
	return nil
}

func (s *Step) removeOwned(table, fighter, name string) error {
	of := s.ids.fighter[fighter]
	if of == nil {
		return s.fail("expected a fighter, got %q", fighter)
	}
	id := of.table(table)[name]
	if id == 0 {
		return s.fail("expected a %s of %s, got %q", table, fighter, name)
	}
	delete(of.table(table), name)
	return s.remove(table, id)
}

// numbers returns the first column of a query's rows.
func numbers(q querier, query string, args ...any) ([]int64, error) {
	rows, err := q.Query(query, args...)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var out []int64
	for rows.Next() {
		var n int64
		if err := rows.Scan(&n); err != nil {
			return nil, err
		}
		out = append(out, n)
	}
	return out, rows.Err()
}
