package storage

import (
	"fmt"
	"slices"
	"strings"

	"wakeline/timeline"
)

// setups saves the setups that still make sense: one without a fighter, an
// ender, a filler, a jump or an action that it names would be another setup,
// and is left out; a reply, a rise or a tag less is told.
func (v *salvage) setups() error {
	var left []int64
	v.collect("setup", func(id int64, r row) {
		name := r.text("name")
		if gone := v.missing(r); gone != "" {
			v.lose("setup %q: its %s is gone", name, gone)
			return
		}
		im := &image{Row: r, Kids: map[string][]row{}}
		for _, kid := range kidTables {
			rows, err := v.from.kids(kid, id)
			if err != nil {
				if kid == "filler" {
					v.lose("setup %q: its fillers can't be read", name)
					return
				}
				v.lose("setup %q: its %s can't be read", name, plural[kid])
				continue
			}
			var gone []string
			if im.Kids[kid], gone = v.present(kid, rows); len(gone) == 0 {
				continue
			}
			if kid == "filler" {
				v.lose("setup %q: its filler %q is gone", name, gone[0])
				return
			}
			if len(gone) == 1 {
				v.lose("setup %q: its %s %q is gone", name, strings.ReplaceAll(kid, "_", " "), gone[0])
			} else {
				v.lose("setup %q: its %s are gone%s", name, plural[kid], list(gone))
			}
		}
		if err := v.put("setup", id, im); err != nil {
			v.lose("setup %q: %v", name, reason(err))
			v.drop(id)
			return
		}
		left = append(left, id)
	})
	if err := v.s.err; err != nil {
		return err
	}
	return v.judge(left)
}

// plural names what hangs on a setup.
var plural = map[string]string{"filler": "fillers", "claimed_rise": "claimed rises", "reply": "replies", "tag": "tags"}

// drop takes a setup out of the new file again.
func (v *salvage) drop(id int64) {
	now, err := v.s.read(place{"setup", id})
	if err == nil && now == nil {
		now = &image{Kids: map[string][]row{}}
	}
	if err == nil {
		for _, kid := range kidTables { // of a row that was refused too
			now.Kids = map[string][]row{kid: {nil}}
			if err = v.s.lay(place{"setup", id}, now, nil); err != nil {
				break
			}
		}
	}
	if err != nil {
		v.s.err = err
	}
	delete(v.kept["setup"], id)
}

// missing is the first thing that a setup can't do without and that is gone.
func (v *salvage) missing(r row) string {
	for _, c := range []struct{ column, table, word string }{
		{"attacker", "fighter", "attacker"}, {"rival", "fighter", "rival"}, {"ender", "move", "ender"},
		{"jump", "jump", "jump"}, {"attack", "move", "attack"}, {"landing_move", "move", "landing action"},
	} {
		if r[c.column] == nil {
			continue
		}
		id, _ := r[c.column].(int64)
		if _, ok := v.kept[c.table][id]; !ok {
			return fmt.Sprintf("%s %q", c.word, v.nameOf(c.table, id))
		}
	}
	return ""
}

// present leaves those of a setup's rows whose moves, jumps or rises are there.
func (v *salvage) present(kid string, rows []row) (there []row, gone []string) {
	for _, r := range rows {
		lost := ""
		for _, table := range []string{"move", "jump", "rise"} {
			id, ok := r[table].(int64)
			if !ok {
				continue
			}
			if _, ok := v.kept[table][id]; !ok {
				lost = v.nameOf(table, id)
			}
		}
		if lost != "" {
			gone = append(gone, lost)
		} else {
			there = append(there, r)
		}
	}
	return there, gone
}

// judge drops the setups that break a rule, such as one whose attack was
// changed by the damage to a move done on the ground.
func (v *salvage) judge(ids []int64) error {
	for some := range slices.Chunk(ids, batch) {
		for _, b := range v.broken(some) {
			v.lose("setup %q: %s", v.kept["setup"][b.id], reason(b.err))
			if v.drop(b.id); v.s.err != nil {
				return v.s.err
			}
		}
	}
	return nil
}

// brokenSetup is a setup that breaks a rule.
type brokenSetup struct {
	id  int64
	err error
}

func (v *salvage) broken(ids []int64) (out []brokenSetup) {
	err := v.s.f.eachSetup(v.s.tx, "WHERE s.id"+in(ids), func(id int64, _ int, setup *timeline.Setup) error {
		if err := v.s.f.data.CheckSetup("$", setup); err != nil {
			out = append(out, brokenSetup{id, err})
		}
		return nil
	})
	switch {
	case err == nil:
	case len(ids) == 1:
		out = []brokenSetup{{ids[0], err}}
	default: // one of them can't be read: look at each alone
		out = nil
		for _, id := range ids {
			out = append(out, v.broken([]int64{id})...)
		}
	}
	return out
}

// revisions saves the revisions whose move data are whole. The tables are the
// latest one; where none is known to be, a new one is.
func (v *salvage) revisions() error {
	if err := v.s.exec("DELETE FROM revision"); err != nil {
		return err
	}
	latest, most := int64(0), int64(0)
	v.collect("revision", func(id int64, r row) {
		name := r.text("name")
		most = max(most, id)
		if r["data"] == nil {
			if latest != 0 {
				v.lose("revision %q: its move data", name)
				return
			}
			latest = id
		} else if _, err := timeline.ReadText([]byte(r.text("data"))); err != nil {
			v.lose("revision %q: its move data can't be read", name)
			return
		}
		if err := v.put("revision", id, &image{Row: r}); err != nil {
			v.lose("revision %q: %v", name, reason(err))
			if latest == id {
				latest = 0
			}
		}
	})
	if latest != 0 {
		return nil
	}
	name := FirstRevision
	for n := 2; v.has("revision", name); n++ {
		name = fmt.Sprintf("%s %d", FirstRevision, n)
	}
	v.lose("the name of the latest revision: it is called %q", name)
	return v.s.revision(0, name, "", nil)
}

func (v *salvage) has(table, name string) bool {
	for _, n := range v.kept[table] {
		if n == name {
			return true
		}
	}
	return false
}

// proofs saves the proofs whose setup and revision are there.
func (v *salvage) proofs() {
	gone := 0
	bad := v.from.rows("proof", 0, func(id int64, r row) {
		setup, _ := r["setup"].(int64)
		revision, _ := r["revision"].(int64)
		_, ok := v.kept["setup"][setup]
		_, ok2 := v.kept["revision"][revision]
		if len(r.text("uid")) != 36 {
			r["uid"] = newUID()
		}
		if !ok || !ok2 || v.s.lay(place{"proof", id}, nil, &image{Row: r}) != nil {
			gone++
		}
	})
	if gone > 0 {
		v.lose("%s", count(gone, "proof"))
	}
	if len(bad) > 0 {
		v.lose("proofs that can't be read")
	}
}

// presses saves the record of drills.
func (v *salvage) presses() {
	gone := 0
	bad := v.from.rows("press", 0, func(id int64, r row) {
		if len(r.text("uid")) != 36 {
			r["uid"] = newUID()
		}
		if v.s.lay(place{"press", id}, nil, &image{Row: r}) != nil {
			gone++
		}
	})
	if gone > 0 {
		v.lose("%s", countPresses(gone))
	}
	if len(bad) > 0 {
		v.lose("presses of drills that can't be read")
	}
}

func countPresses(n int) string {
	if n == 1 {
		return "1 press of a drill"
	}
	return fmt.Sprintf("%d presses of drills", n)
}

// history saves the steps of undo where all is there that they change: a step
// over a gap would lead to another project than the one that was.
func (v *salvage) history() error {
	steps, err := numbers(v.from.db, "SELECT id FROM edit ORDER BY id")
	if err == nil {
		err = checkHistory(v.from.ctx, v.from.db)
	}
	if err == nil && len(v.lost) == 0 {
		if err = v.copyHistory(); err == nil {
			return nil
		}
		for _, table := range []string{"edit_row", "edit"} {
			if err := v.s.exec("DELETE FROM " + table); err != nil {
				return err
			}
		}
	}
	switch {
	case err != nil:
		v.lose("the history: it can't be read through")
	case len(steps) > 0:
		v.lose("the history, %s: undoing would lead over what is lost", count(len(steps), "step"))
	}
	return nil
}

func (v *salvage) copyHistory() error {
	if err := v.copyRows("edit", words("id date what undone")); err != nil {
		return err
	}
	return v.copyRows("edit_row", words("edit place in_table in_row before after"))
}

// copyRows copies a table that can be read whole.
func (v *salvage) copyRows(table string, cols []string) error {
	names := strings.Join(cols, ", ")
	rows, err := v.from.db.Query("SELECT " + names + " FROM " + table)
	if err != nil {
		return err
	}
	defer rows.Close()
	put := "INSERT INTO " + table + " (" + names + ") VALUES (?" + strings.Repeat(", ?", len(cols)-1) + ")"
	into := make([]any, len(cols))
	for rows.Next() {
		r, err := scanRow(rows, cols)
		if err != nil {
			return err
		}
		copy(into, r.values(cols))
		if err := v.s.exec(put, into...); err != nil {
			return err
		}
	}
	return rows.Err()
}
