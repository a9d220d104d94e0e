package storage

import (
	"bytes"
	"cmp"
	"database/sql"
	"encoding/json"
	"fmt"
	"strings"
	"unicode/utf8"

	"wakeline/timeline"
)

// renamed is a name that broke the rule of names, and the one in its place.
type renamed struct {
	place
	was, now string
}

// cleanNames gives everything whose name breaks the rule of names one that
// doesn't: with spaces for control characters, cut at 200 letters, and with a
// number where another has the name. Tags, which several setups may share, get
// no number; their place has no row number. The tables are those of move data
// that a file of that version has.
func cleanNames(tx *sql.Tx, tables ...string) (out []renamed, err error) {
	for _, table := range append(tables, "setup", "revision") {
		bad, err := badNames(tx, "SELECT id, name FROM "+table+" ORDER BY id")
		if err != nil {
			return nil, err
		}
		for _, b := range bad {
			r := renamed{place{table, b.id}, b.name, ""}
			if r.now, err = freeName(tx, r.place, cmp.Or(cleanName(b.name), fmt.Sprintf("%s %d", table, b.id))); err != nil {
				return nil, err
			}
			if _, err := tx.Exec("UPDATE "+table+" SET name = ? WHERE id = ?", r.now, b.id); err != nil {
				return nil, err
			}
			out = append(out, r)
		}
	}
	bad, err := badNames(tx, "SELECT DISTINCT 0, name FROM tag WHERE name <> ''")
	if err != nil {
		return nil, err
	}
	for _, b := range bad {
		if _, err := tx.Exec("UPDATE tag SET name = ? WHERE name = ?", cleanName(b.name), b.name); err != nil {
			return nil, err
		}
		out = append(out, renamed{place{"tag", 0}, b.name, cleanName(b.name)})
	}
	return out, nil
}

// numbered is a row's number and its name.
type numbered struct {
	id   int64
	name string
}

// badNames are those that break the rule of names. Bytes that are no UTF-8 are
// damage, and are left.
func badNames(q querier, query string) (out []numbered, err error) {
	rows, err := q.Query(query)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	for rows.Next() {
		var n numbered
		if err := rows.Scan(&n.id, &n.name); err != nil {
			return nil, err
		}
		if utf8.ValidString(n.name) && timeline.CheckName(nil, n.name) != nil {
			out = append(out, n)
		}
	}
	return out, rows.Err()
}

// cleanName is a name without what has no place in one.
func cleanName(name string) string {
	clean := strings.Map(func(r rune) rune {
		if timeline.Unprintable(r) {
			return ' '
		}
		return r
	}, name)
	return timeline.CutName(strings.TrimSpace(clean), 0)
}

// freeName is name, or with a number where another row has it that may not, or
// where it is a word that plans use.
func freeName(q querier, at place, name string) (string, error) {
	taken := "SELECT id FROM " + at.table + " WHERE id <> ?1 AND name = ?2"
	plans := at.table == "move" || at.table == "jump"
	switch at.table {
	case "move", "jump": // they share their names
		owner := "(SELECT fighter FROM " + at.table + " WHERE id = ?1)"
		taken = "SELECT id FROM move WHERE fighter = " + owner + " AND name = ?2 UNION ALL SELECT id FROM jump WHERE fighter = " + owner + " AND name = ?2"
	case "rise", "route":
		taken += " AND fighter = (SELECT fighter FROM " + at.table + " WHERE id = ?1)"
	}
	for n := 1; ; n++ {
		try := name
		if n > 1 {
			try = numberedName(name, n)
		}
		others, err := numbers(q, taken, at.id, try)
		if err != nil || len(others) == 0 && !(plans && timeline.Reserved(try)) {
			return try, err
		}
	}
}

// cleanOldNames is the work of a migration: it cleans the names in the tables,
// and in the history and the earlier revisions as well.
func cleanOldNames(tx *sql.Tx) error {
	done, err := cleanNames(tx, "fighter", "move", "jump", "rise")
	if err != nil {
		return err
	}
	for _, side := range []string{"before", "after"} {
		if err := cleanHistory(tx, side, done); err != nil {
			return err
		}
	}
	return cleanRevisions(tx)
}

// badName is a pattern of names with what has no place in one; see
// timeline.Unprintable.
const badName = "*[\x01-\x1f\x7f-\u009f\u2028-\u202e\u2066-\u2069]*"

// cleanHistory cleans the names and the tags in one side of the history, as
// they were cleaned in the tables.
func cleanHistory(tx *sql.Tx, side string, done []renamed) error {
	type found struct {
		edit, at   int64
		row        place
		path, name string
	}
	rows, err := tx.Query(strings.ReplaceAll(`SELECT edit, place, in_table, in_row, '$.row.name', SIDE ->> '$.row.name' AS name FROM edit_row
		WHERE SIDE IS NOT NULL AND (length(name) > ?1 OR name GLOB ?2)
		UNION ALL SELECT r.edit, r.place, 'tag', 0, j.fullkey || '.name', j.value ->> '$.name' AS name FROM edit_row r, json_each(r.SIDE, '$.kids.tag') j
		WHERE r.SIDE IS NOT NULL AND (length(name) > ?1 OR name GLOB ?2)`, "SIDE", side), timeline.MaxName, badName)
	if err != nil {
		return err
	}
	defer rows.Close()
	var all []found
	for rows.Next() {
		var f found
		if err := rows.Scan(&f.edit, &f.at, &f.row.table, &f.row.id, &f.path, &f.name); err != nil {
			return err
		}
		all = append(all, f)
	}
	if err := rows.Err(); err != nil {
		return err
	}
	now := map[renamed]string{}
	for _, r := range done {
		now[renamed{r.place, r.was, ""}] = r.now
	}
	for _, f := range all {
		name, known := now[renamed{f.row, f.name, ""}]
		if name = cmp.Or(name, cleanName(f.name)); !known && f.row.table != "tag" { // no row has it now
			if name, err = freeName(tx, f.row, cmp.Or(name, fmt.Sprintf("%s %d", f.row.table, f.row.id))); err != nil {
				return err
			}
		}
		if _, err := tx.Exec("UPDATE edit_row SET "+side+" = json_set("+side+", ?, ?) WHERE edit = ? AND place = ?", f.path, name, f.edit, f.at); err != nil {
			return err
		}
	}
	return nil
}

// cleanRevisions cleans the names in the move data of earlier revisions. What
// can't be read for another reason is left.
func cleanRevisions(tx *sql.Tx) error {
	rows, err := tx.Query("SELECT id, data FROM revision WHERE data IS NOT NULL")
	if err != nil {
		return err
	}
	defer rows.Close()
	clean := map[int64]string{}
	for rows.Next() {
		var id int64
		var text string
		if err := rows.Scan(&id, &text); err != nil {
			return err
		}
		if _, err := timeline.ReadText([]byte(text)); err == nil {
			continue
		}
		var data any
		dec := json.NewDecoder(strings.NewReader(text))
		dec.UseNumber()
		if dec.Decode(&data) != nil {
			continue
		}
		var out bytes.Buffer
		if err := json.NewEncoder(&out).Encode(cleanJSON(data)); err != nil {
			return err
		}
		if p, err := timeline.ReadText(out.Bytes()); err == nil {
			clean[id] = string(timeline.WriteText(p))
		}
	}
	if err := rows.Err(); err != nil {
		return err
	}
	for id, text := range clean {
		if _, err := tx.Exec("UPDATE revision SET data = ? WHERE id = ?", text, id); err != nil {
			return err
		}
	}
	return nil
}

// cleanJSON cleans every text of a project text's move data, whose texts are
// names and words, and numbers the names that a list has twice then.
func cleanJSON(v any) any {
	switch v := v.(type) {
	case string:
		if timeline.CheckName(nil, v) != nil {
			return cleanName(v)
		}
	case map[string]any:
		for key, value := range v {
			v[key] = cleanJSON(value)
		}
	case []any:
		taken := map[string]bool{}
		for i := range v {
			v[i] = cleanJSON(v[i])
			one, _ := v[i].(map[string]any)
			clean, named := one["name"].(string)
			name := clean
			for n := 2; taken[name]; n++ {
				name = numberedName(clean, n)
			}
			if named {
				one["name"], taken[name] = name, true
			}
		}
	}
	return v
}

// numberedName is a name with a number, in the room that a name has.
func numberedName(name string, n int) string {
	return fmt.Sprintf("%s %d", timeline.CutName(name, 8), n)
}
