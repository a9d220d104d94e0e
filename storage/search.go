package storage

import (
	"encoding/json"
	"strings"
)

// holdsSQL asks of a setup whether it holds a text. ?1 is a LIKE pattern; ?2
// and ?3 are the numbers of the fighters and of the moves whose names hold the
// text, as JSON.
const holdsSQL = `(attacker IN (SELECT value FROM json_each(?2)) OR rival IN (SELECT value FROM json_each(?2))
	OR ender IN (SELECT value FROM json_each(?3))
	OR name LIKE ?1 ESCAPE '~' OR note LIKE ?1 ESCAPE '~'
	OR id IN (SELECT setup FROM tag WHERE name LIKE ?1 ESCAPE '~'))`

// Search returns the row numbers, in no order, of the setups that hold text
// in their name, their note, a tag or the name of a fighter or of the ender;
// and that bear tag where it isn't empty. Small letters count as large ones:
// in names of fighters and enders all, elsewhere those of ASCII.
func (f *File) Search(text, tag string) (ids []int64, err error) {
	err = f.view(func(q querier) error {
		where, args := []string{"1"}, []any{nil, nil, nil}
		if text != "" {
			like := "%" + strings.NewReplacer("~", "~~", "%", "~%", "_", "~_").Replace(text) + "%"
			fighters, moves := f.named(text)
			where, args = append(where, holdsSQL), []any{like, fighters, moves}
		}
		if tag != "" {
			where, args = append(where, "id IN (SELECT setup FROM tag WHERE name = ?4)"), append(args, tag)
		}
		var found []byte // one row is quicker than many
		if err := q.QueryRow("SELECT json_group_array(id) FROM setup WHERE "+strings.Join(where, " AND "), args...).Scan(&found); err != nil {
			return err
		}
		return json.Unmarshal(found, &ids)
	})
	return ids, err
}

// named lists, as JSON, the row numbers of the fighters and of the moves whose
// names hold text.
func (s *state) named(text string) (fighters, moves string) {
	text = strings.ToLower(text)
	holds := func(name string) bool { return strings.Contains(strings.ToLower(name), text) }
	var f, m []int64
	for i := range s.data.Fighters {
		one := &s.data.Fighters[i]
		of := s.ids.fighter[one.Name]
		if holds(one.Name) {
			f = append(f, of.id)
		}
		for k := range one.Moves {
			if holds(one.Moves[k].Name) {
				m = append(m, of.move[one.Moves[k].Name])
			}
		}
	}
	return asJSON(f), asJSON(m)
}

// asJSON is a JSON list.
func asJSON(ids []int64) string {
	text, _ := json.Marshal(ids) // numbers always marshal
	return string(text)
}
