package storage

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// lostFighters makes a fighter anew whose row can't be read and to whom moves
// or jumps belong, with what is known of it.
func (v *salvage) lostFighters() error {
	owners, err := numbers(v.tx, "SELECT fighter FROM move WHERE fighter > 0 UNION SELECT fighter FROM jump WHERE fighter > 0 EXCEPT SELECT id FROM fighter")
	if err != nil {
		return err
	}
	for _, id := range owners {
		name := v.nameOf("fighter", id)
		if timeline.CheckName(nil, name) != nil {
			name = fmt.Sprintf("fighter %d", id)
		}
		put := func(name string) error {
			_, err := v.tx.Exec("INSERT INTO fighter (id, uid, place, name) VALUES (?, ?, ?, ?)", id, newUID(), id, name)
			return err
		}
		if put(name) != nil { // another has the name
			name = timeline.CutName(name, 24) + fmt.Sprintf(" (%d)", id)
			if err := put(name); err != nil {
				return err
			}
		}
		v.lose("fighter %q: its row can't be read, so its body is not known; its moves, jumps and rises are there", name)
	}
	return nil
}

// gaps notes the setups that lack a row between others, in the tables that
// failed their check.
func (v *salvage) gaps() error {
	for _, table := range v.kids {
		if !v.failed[table] {
			continue
		}
		setups, err := numbers(v.tx, "SELECT setup FROM "+table+" GROUP BY setup HAVING min(place) <> 0 OR max(place) <> count(*) - 1")
		if err != nil {
			return err
		}
		for _, id := range setups {
			v.doubt(id, table)
		}
	}
	return nil
}

// references takes out what refers to rows that are lost. A setup without a
// fighter, an ender, a filler, a jump or an action that it names would be
// another setup, and is left out; a reply, a rise or a tag less is told.
func (v *salvage) references() error {
	for _, id := range slices.Sorted(maps.Keys(v.suspect)) {
		if v.suspect[id]["filler"] {
			if err := v.drop(id, "not all of its fillers can be read"); err != nil {
				return err
			}
		}
	}
	all, err := v.tables()
	if err != nil {
		return err
	}
	for _, table := range []string{"move", "jump", "rise", "route"} {
		if !slices.Contains(all, table) { // an earlier version
			continue
		}
		if err := v.orphans(table); err != nil {
			return err
		}
	}
	if slices.Contains(all, "route") {
		if err := v.lostRoutes(); err != nil {
			return err
		}
	}
	if err := v.brokenSetups(); err != nil {
		return err
	}
	for _, table := range v.kids {
		if err := v.brokenKids(table); err != nil {
			return err
		}
	}
	gone, err := v.remove("proof", "setup NOT IN (SELECT id FROM setup) OR revision NOT IN (SELECT id FROM revision)")
	if err != nil {
		return err
	}
	if gone > 0 {
		v.lose("%s of a setup or a revision that is lost", countOf(gone, "proof"))
	}
	return v.otherLinks()
}

// lostRoutes leaves out the routes that name a move that is lost, and what
// setups say of a route that is.
func (v *salvage) lostRoutes() error {
	torn, err := numbers(v.tx, "SELECT DISTINCT route FROM route_step WHERE move NOT IN (SELECT id FROM move) AND route IN (SELECT id FROM route)")
	if err != nil {
		return err
	}
	for _, id := range torn {
		if err := v.dropRoute(id, "a move of it is lost"); err != nil {
			return err
		}
	}
	const lost = "on_hit IS NOT NULL AND on_hit NOT IN (SELECT id FROM route)"
	setups, err := numbers(v.tx, "SELECT id FROM setup WHERE "+lost)
	if err != nil {
		return err
	}
	for _, id := range setups {
		v.lose("setup %q: its route after a hit is lost", v.nameOf("setup", id))
	}
	_, err = v.tx.Exec("UPDATE setup SET on_hit = NULL WHERE " + lost)
	return err
}

// remove takes rows out of the new file and says how many.
func (v *salvage) remove(table, where string, args ...any) (int, error) {
	done, err := v.tx.Exec("DELETE FROM "+table+" WHERE "+where, args...)
	if err != nil {
		return 0, err
	}
	n, err := done.RowsAffected()
	return int(n), err
}

// drop leaves a setup out, with all that hangs on it.
func (v *salvage) drop(id int64, format string, args ...any) error {
	there, err := numbers(v.tx, "SELECT count(*) FROM setup WHERE id = ?", id)
	if err != nil || there[0] == 0 {
		return err
	}
	v.lose("setup %q is left out: %s", v.nameOf("setup", id), fmt.Sprintf(format, args...))
	for _, table := range v.kids {
		if _, err := v.remove(table, "setup = ?", id); err != nil {
			return err
		}
	}
	gone, err := v.remove("proof", "setup = ?", id)
	if err == nil && gone > 0 {
		v.lose("%s of setup %q", countOf(gone, "proof"), v.nameOf("setup", id))
	}
	if err == nil {
		_, err = v.remove("setup", "id = ?", id)
	}
	return err
}

// orphans takes out what belongs to a fighter that is lost.
func (v *salvage) orphans(table string) error {
	const lost = "fighter NOT IN (SELECT id FROM fighter)"
	ids, err := numbers(v.tx, "SELECT id FROM "+table+" WHERE "+lost)
	if err != nil {
		return err
	}
	for _, id := range ids {
		v.lose("%s %q is left out: its fighter is lost", table, v.nameOf(table, id))
	}
	_, err = v.remove(table, lost)
	return err
}

// link is a column that refers to a row of another table.
type link struct{ column, table string }

// links are the columns of a table that refer to rows.
func (v *salvage) links(table string) (out []link, err error) {
	rows, err := v.tx.Query(`SELECT "from", "table" FROM pragma_foreign_key_list(?) ORDER BY id DESC`, table)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	for rows.Next() {
		var l link
		if err := rows.Scan(&l.column, &l.table); err != nil {
			return nil, err
		}
		out = append(out, l)
	}
	return out, rows.Err()
}

// pair is a setup and the number of a row that it names.
type pair struct{ setup, row int64 }

// missing lists the setups whose rows in a table name, by that column, a row
// that is lost.
func (v *salvage) missing(setup, table string, l link) (out []pair, err error) {
	rows, err := v.tx.Query("SELECT " + setup + ", " + l.column + " FROM " + table + " WHERE " + l.lost())
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	for rows.Next() {
		var p pair
		if err := rows.Scan(&p.setup, &p.row); err != nil {
			return nil, err
		}
		out = append(out, p)
	}
	return out, rows.Err()
}

func (l link) lost() string {
	return l.column + " IS NOT NULL AND " + l.column + " NOT IN (SELECT id FROM " + l.table + ")"
}

// brokenSetups leaves out the setups that name a row that is lost.
func (v *salvage) brokenSetups() error {
	links, err := v.links("setup")
	if err != nil {
		return err
	}
	for _, l := range links {
		found, err := v.missing("id", "setup", l)
		if err != nil {
			return err
		}
		for _, p := range found {
			word := strings.ReplaceAll(l.column, "_", " ")
			if err := v.drop(p.setup, "its %s, %q, is lost", word, v.nameOf(l.table, p.row)); err != nil {
				return err
			}
		}
	}
	return nil
}

// brokenKids takes out the rows of a table, of those that hang on setups, whose
// setup is lost or that name a row that is.
func (v *salvage) brokenKids(table string) error {
	links, err := v.links(table)
	if err != nil {
		return err
	}
	for _, l := range links {
		if l.column == "setup" {
			if gone, err := v.remove(table, l.lost()); err != nil {
				return err
			} else if gone > 0 {
				v.lose("%s of a setup that is lost", countOf(gone, table))
			}
		}
	}
	for _, l := range links {
		if l.column == "setup" {
			continue
		}
		found, err := v.missing("setup", table, l)
		if err != nil {
			return err
		}
		for _, p := range found {
			if table == "filler" {
				err = v.drop(p.setup, "its filler, %q, is lost", v.nameOf(l.table, p.row))
			} else {
				v.lose("setup %q: its %s %q is lost", v.nameOf("setup", p.setup), oneOf(table), v.nameOf(l.table, p.row))
			}
			if err != nil {
				return err
			}
		}
		if _, err := v.remove(table, l.lost()); err != nil {
			return err
		}
	}
	return nil
}

// otherLinks takes out the rows of other tables that name a row that is lost.
func (v *salvage) otherLinks() error {
	tables, err := v.tables()
	if err != nil {
		return err
	}
	for _, table := range tables {
		links, err := v.links(table)
		if err != nil {
			return err
		}
		for _, l := range links {
			if gone, err := v.remove(table, l.lost()); err != nil {
				return err
			} else if gone > 0 {
				v.lose("%s that belonged to something lost", countOf(gone, table))
			}
		}
	}
	return nil
}

// history keeps the steps of undo only where nothing else is lost: a step over
// a gap would lead to another project than the one that was.
func (v *salvage) history() error {
	steps, err := numbers(v.tx, "SELECT count(*) FROM edit")
	if err != nil {
		return err
	}
	torn, err := numbers(v.tx, "SELECT count(*) FROM edit_row WHERE NOT json_valid(coalesce(before, '{}')) OR NOT json_valid(coalesce(after, '{}'))")
	if err != nil {
		return err
	}
	if len(v.out.Lost)+len(v.out.Failed)+len(v.suspect)+len(v.letters) == 0 && torn[0] == 0 {
		return nil
	}
	return v.dropHistory(int(steps[0]))
}

func (v *salvage) dropHistory(steps int) error {
	if steps > 0 {
		v.lose("the history, %s: undoing would lead over what is lost", words.Count(steps, "step"))
	}
	for _, table := range []string{"edit_row", "edit"} {
		if _, err := v.remove(table, "1"); err != nil {
			return err
		}
	}
	return nil
}
