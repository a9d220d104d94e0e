package storage

import (
	"fmt"
	"slices"
	"strings"

	"wakeline/timeline/words"
)

// knownName is what the index of a table's names tells of a row.
type knownName struct {
	owner int64 // the fighter's number; 0: none
	name  string
}

// indexed reads the names of a table's rows from their index, which may be
// whole where the table isn't, and the largest number in it. all is false
// where it can't be read through.
func (v *salvage) indexed(table string) (most int64, names map[int64]knownName, all bool) {
	owner, order := "0", "name"
	switch table {
	case "move", "jump", "rise", "route":
		owner, order = "fighter", "fighter, name"
	case "fighter", "setup", "list", "revision":
	default:
		return 0, nil, false
	}
	names, all = map[int64]knownName{}, true
	for _, down := range []string{"", " DESC"} {
		by := strings.ReplaceAll(order, ",", down+",") + down
		rows, err := v.from.QueryContext(v.ctx, "SELECT id, "+owner+", name FROM "+table+" INDEXED BY sqlite_autoindex_"+table+"_2 ORDER BY "+by)
		if err != nil {
			return most, names, false
		}
		for rows.Next() {
			var id int64
			var k knownName
			if rows.Scan(&id, &k.owner, &k.name) != nil {
				continue
			}
			k.name = strings.ToValidUTF8(k.name, "\uFFFD")
			names[id] = k
			most = max(most, id)
		}
		err = rows.Err()
		rows.Close()
		if err == nil {
			return most, names, all
		}
		all = false // read it from the other end too
	}
	return most, names, all
}

// nameOf is the best name there is for a row.
func (v *salvage) nameOf(table string, id int64) string {
	var name string
	if v.tx.QueryRow("SELECT name FROM "+table+" WHERE id = ?", id).Scan(&name) == nil && name != "" {
		return name
	}
	if v.names[table] == nil {
		_, v.names[table], _ = v.indexed(table)
	}
	if k, ok := v.names[table][id]; ok && k.name != "" {
		return k.name
	}
	return fmt.Sprintf("%s %d", table, id)
}

// doubt notes that a setup may have lost rows of a table.
func (v *salvage) doubt(setup int64, table string) {
	if v.suspect[setup] == nil {
		v.suspect[setup] = map[string]bool{}
	}
	v.suspect[setup][table] = true
}

// damagedText notes that a row held bytes that are no UTF-8.
func (v *salvage) damagedText(table string, id int64) {
	if slices.Contains(v.kids, table) {
		v.doubt(id, table)
		return
	}
	v.letters = append(v.letters, place{table, id})
}

// lastSetup is the largest number of a setup that was saved.
func (v *salvage) lastSetup() int64 {
	n, err := numbers(v.tx, "SELECT coalesce(max(id), 0) FROM setup")
	if err != nil {
		return 0
	}
	return n[0]
}

// The words for what a table holds.
var (
	several = map[string]string{"claimed_rise": "claimed rises", "proof": "in-game tests", "press": "presses of drills", "answer": "answers of exercises",
		"edit": "steps of the history", "edit_row": "changes of the history", "ruleset": "the ruleset",
		"route_step": "steps of routes", "standing_reply": "replies of fighters", "punish": "punishes", "follow": "steps of strings"}
	single = map[string]string{"claimed_rise": "claimed rise", "proof": "in-game test", "press": "press of a drill", "answer": "answer of an exercise",
		"edit": "step of the history", "edit_row": "change of the history",
		"route_step": "step of a route", "standing_reply": "reply of a fighter", "follow": "step of a string"}
)

func inWords(table string) string {
	if w := several[table]; w != "" {
		return w
	}
	return words.Several(table)
}

func oneOf(table string) string {
	if w := single[table]; w != "" {
		return w
	}
	return table
}

// countOf writes a number of a table's rows.
func countOf(n int, table string) string {
	if n == 1 {
		return "1 " + oneOf(table)
	}
	return fmt.Sprintf("%d %s", n, inWords(table))
}
