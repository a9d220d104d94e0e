package storage

import (
	"encoding/json"
	"slices"
	"strings"
	"unicode"

	"wakeline/timeline"
)

// holdsSQL asks of a setup whether it holds a text. ?1 is a LIKE pattern; ?2,
// ?3 and ?4 are the numbers of the fighters, the moves and the jumps whose
// names hold the text, as JSON. What is quickly known stands first.
const (
	holdsSQL = `(attacker IN (SELECT value FROM json_each(?2)) OR rival IN (SELECT value FROM json_each(?2))
		OR ender IN (SELECT value FROM json_each(?3)) OR attack IN (SELECT value FROM json_each(?3)) OR landing_move IN (SELECT value FROM json_each(?3))
		OR jump IN (SELECT value FROM json_each(?4))
		OR name LIKE ?1 ESCAPE '~' OR position LIKE ?1 ESCAPE '~' OR note LIKE ?1 ESCAPE '~'
		OR id IN (SELECT setup FROM tag WHERE name LIKE ?1 ESCAPE '~')`

	// The rows of these are many: they are asked only where a name holds the
	// text, and of replies only where the rival has such a name.
	fillsSQL   = ` OR EXISTS (SELECT 1 FROM filler f WHERE f.setup = setup.id AND (f.move IN (SELECT value FROM json_each(?3)) OR f.jump IN (SELECT value FROM json_each(?4))))`
	repliesSQL = ` OR rival IN (SELECT fighter FROM move WHERE id IN (SELECT value FROM json_each(?3)) UNION SELECT fighter FROM jump WHERE id IN (SELECT value FROM json_each(?4)))
		AND EXISTS (SELECT 1 FROM reply r WHERE r.setup = setup.id AND (r.move IN (SELECT value FROM json_each(?3)) OR r.jump IN (SELECT value FROM json_each(?4))))`
)

// Search returns the row numbers, in no order, of the setups that hold text
// in their name, their note, their position, a tag, or the name of a fighter
// or of a move or jump of theirs: ender, filler, jump, attack, landing move or
// reply; and that bear tag where it isn't empty. Small letters count as large
// ones.
func (f *File) Search(text, tag string) (ids []int64, err error) {
	err = f.view(func(q querier) error {
		where, args := []string{"1"}, []any{nil, nil, nil, nil}
		if text != "" {
			like := "%" + strings.Map(anyBeyondASCII, strings.NewReplacer("~", "~~", "%", "~%", "_", "~_").Replace(text)) + "%"
			fighters, moves, jumps := f.named(text)
			holds := holdsSQL
			if len(moves)+len(jumps) > 0 {
				holds += fillsSQL + repliesSQL
			}
			where, args = append(where, holds+")"), []any{like, asJSON(fighters), asJSON(moves), asJSON(jumps)}
		}
		if tag != "" {
			where, args = append(where, "id IN (SELECT setup FROM tag WHERE name = ?5)"), append(args, tag)
		}
		var found []byte // one row is quicker than many
		if err := q.QueryRow("SELECT json_group_array(id) FROM setup WHERE "+strings.Join(where, " AND "), args...).Scan(&found); err != nil {
			return err
		}
		if err := json.Unmarshal(found, &ids); err != nil || strings.IndexFunc(text, beyondASCII) < 0 {
			return err
		}
		ids, err = f.holding(q, ids, text)
		return err
	})
	return ids, err
}

// SQLite folds the letters of ASCII alone. In a pattern any character stands
// for another letter, and the setups found are then asked one by one.
func beyondASCII(r rune) bool { return r > unicode.MaxASCII }

func anyBeyondASCII(r rune) rune {
	if beyondASCII(r) {
		return '_'
	}
	return r
}

// holding are those of the setups that hold text.
func (s *state) holding(q querier, ids []int64, text string) (out []int64, err error) {
	for some := range slices.Chunk(ids, batch) {
		if err := s.eachSetup(q, "WHERE s.id"+in(some), func(id int64, _ int, setup *timeline.Setup) error {
			if setup.Holds(text) {
				out = append(out, id)
			}
			return nil
		}); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// named lists the row numbers of the fighters, moves and jumps whose names
// hold text.
func (s *state) named(text string) (fighters, moves, jumps []int64) {
	text = strings.ToLower(text)
	holds := func(name string) bool { return strings.Contains(strings.ToLower(name), text) }
	for i := range s.data.Fighters {
		one := &s.data.Fighters[i]
		of := s.ids.fighter[one.Name]
		if holds(one.Name) {
			fighters = append(fighters, of.id)
		}
		for k := range one.Moves {
			if holds(one.Moves[k].Name) {
				moves = append(moves, of.move[one.Moves[k].Name])
			}
		}
		for k := range one.Jumps {
			if holds(one.Jumps[k].Name) {
				jumps = append(jumps, of.jump[one.Jumps[k].Name])
			}
		}
	}
	return fighters, moves, jumps
}

// asJSON is a JSON list.
func asJSON(ids []int64) string {
	text, _ := json.Marshal(ids) // numbers always marshal
	return string(text)
}
