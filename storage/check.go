package storage

import (
	"fmt"
	"slices"
	"strings"

	"wakeline/timeline"
)

// decides are the columns of move data that a setup's soundness hangs on. What
// else changes of a row, no setup of it can break.
var decides = map[string][]string{
	"move": deciding(moveFields),
	"jump": deciding(jumpFields),
	"rise": deciding(riseFields), "route": strings.Fields("fighter"), "fighter": nil,
}

func deciding[T any](of []*timeline.Field[T]) []string {
	out := strings.Fields("fighter")
	for _, f := range of {
		if f.Decides {
			out = append(out, f.Stored)
		}
	}
	return out
}

// noteForCheck notes what must be checked before the step ends.
func (s *Step) noteForCheck(at place, before, after *image) {
	switch at.table {
	case "setup":
		s.setups[at.id] = after != nil
		return
	case "revision", "proof", "press", "answer":
		return
	case "list":
		s.lists = true
		return
	}
	s.data = true
	cols, ok := decides[at.table]
	if !ok || before == nil {
		return
	}
	changed := after == nil
	for _, c := range cols {
		changed = changed || before.Row[c] != after.Row[c]
	}
	if changed {
		s.touched[at.table] = append(s.touched[at.table], at.id)
	}
	if after == nil {
		s.removed = append(s.removed, note{at, before, nil})
	}
}

// check holds what the step touched against the rules: the move data whole,
// the setups that were touched, and those that the move data may have broken.
func (s *Step) check() error {
	if s.data {
		if err := s.checkOwners(); err != nil {
			return err
		}
		if err := s.f.load(s.tx); err != nil {
			return err
		}
		if err := s.checkRemoved(); err != nil {
			return err
		}
	}
	if s.lists {
		lists, err := readLists(s.tx)
		if err == nil {
			_, err = timeline.CheckLists(lists)
		}
		if err != nil {
			return err
		}
	}
	one := func(_ int64, _ int, setup *timeline.Setup) error {
		if err := s.ctx.Err(); err != nil {
			return err
		}
		return s.f.index.CheckSetup(timeline.SetupPath(setup.Name), setup)
	}
	n := 0
	for _, ids := range s.touched {
		n += len(ids)
	}
	if n > manyTouched {
		return s.f.eachSetup(s.tx, "", one)
	}
	if n > 0 {
		if err := s.f.eachSetup(s.tx, "WHERE "+strings.Join(s.users(s.touched), " OR "), one); err != nil {
			return err
		}
	}
	var ids []int64
	for id, there := range s.setups {
		if there {
			ids = append(ids, id)
		}
	}
	slices.Sort(ids)
	for some := range slices.Chunk(ids, batch) {
		if err := s.f.eachSetup(s.tx, "WHERE s.id"+in(some), one); err != nil {
			return err
		}
	}
	return nil
}

// manyTouched is how many rows of move data a step may change before all
// setups are looked at instead of those that use them.
const manyTouched = 1000

// in is an SQL condition: one of those numbers.
func in(ids []int64) string {
	return " IN (" + strings.Trim(strings.ReplaceAll(fmt.Sprint(ids), " ", ","), "[]") + ")"
}

// checkRemoved asks that no setup uses what was removed.
func (s *Step) checkRemoved() error {
	for _, n := range s.removed {
		if now, err := s.read(n.place); err != nil {
			return err
		} else if now != nil {
			continue
		}
		for _, where := range s.users(map[string][]int64{n.table: {n.id}}) {
			var name string
			if err := s.tx.QueryRow("SELECT name FROM setup s WHERE " + where + " LIMIT 1").Scan(&name); err == nil {
				return fmt.Errorf("setup %q uses the %s %q", name, n.table, n.before.Row.text("name"))
			}
		}
	}
	return nil
}

// users are conditions under which a setup uses one of those rows.
func (s *Step) users(of map[string][]int64) (where []string) {
	for _, table := range [...]string{"fighter", "move", "jump", "rise", "route"} {
		if len(of[table]) == 0 {
			continue
		}
		for _, u := range usedBy[table] {
			where = append(where, fmt.Sprintf(u, in(of[table])))
		}
	}
	return where
}

// usedBy is where setups name the rows of a table.
var usedBy = map[string][]string{
	"fighter": {"s.attacker%s", "s.rival%s"},
	"move": {"s.ender%s", "s.attack%s", "s.landing_move%s",
		"s.id IN (SELECT setup FROM filler WHERE move%s)", "s.id IN (SELECT setup FROM reply WHERE move%s)",
		"s.id IN (SELECT setup FROM follow WHERE move%s)"},
	"jump":  {"s.jump%s", "s.id IN (SELECT setup FROM filler WHERE jump%s)", "s.id IN (SELECT setup FROM reply WHERE jump%s)"},
	"rise":  {"s.id IN (SELECT setup FROM claimed_rise WHERE rise%s)"},
	"route": {"s.on_hit%s", "s.id IN (SELECT setup FROM punish WHERE route%s)"},
}
