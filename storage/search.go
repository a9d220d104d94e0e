package storage

import (
	"encoding/json"
	"fmt"
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

// partSQL asks of a setup whether one part of it holds a text, with the values
// of holdsSQL; ?5 are the numbers of the routes whose names hold the text.
var partSQL = map[timeline.SearchPart]string{
	timeline.NamePart:     "name LIKE ?1 ESCAPE '~'",
	timeline.NotePart:     "note <> '' AND note LIKE ?1 ESCAPE '~'",
	timeline.PositionPart: "position LIKE ?1 ESCAPE '~'",
	timeline.TagPart:      "id IN (SELECT setup FROM tag WHERE name LIKE ?1 ESCAPE '~')",
	timeline.AttackerPart: "attacker IN (SELECT value FROM json_each(?2))",
	timeline.RivalPart:    "rival IN (SELECT value FROM json_each(?2))",
	timeline.EnderPart:    "ender IN (SELECT value FROM json_each(?3))",
	timeline.AttackPart:   "attack IN (SELECT value FROM json_each(?3))",
	timeline.JumpPart:     "jump IN (SELECT value FROM json_each(?4))",
	timeline.LandingPart:  "landing_move IN (SELECT value FROM json_each(?3)) OR landing <> 'move' AND landing LIKE ?1 ESCAPE '~'",
	timeline.FillerPart:   "EXISTS (SELECT 1 FROM filler f WHERE f.setup = setup.id AND (f.move IN (SELECT value FROM json_each(?3)) OR f.jump IN (SELECT value FROM json_each(?4))))",
	timeline.ReplyPart: `own_replies = 1 AND EXISTS (SELECT 1 FROM reply r WHERE r.setup = setup.id AND (r.move IN (SELECT value FROM json_each(?3)) OR r.jump IN (SELECT value FROM json_each(?4))))
		OR own_replies = 0 AND rival IN (SELECT fighter FROM standing_reply r WHERE r.move IN (SELECT value FROM json_each(?3)) OR r.jump IN (SELECT value FROM json_each(?4)))`,
	timeline.RoutePart: "on_hit IN (SELECT value FROM json_each(?5)) OR id IN (SELECT setup FROM punish WHERE route IN (SELECT value FROM json_each(?5)))",
}

// Search returns the row numbers, in no order, of the setups that have a term,
// as timeline.Index.Has says, but for verdicts, which no file holds: of a
// verdict alone it finds none.
func (f *File) Search(t timeline.Term) (ids []int64, err error) { return f.search(t, nil) }

// SearchAmong is Search among the setups of those row numbers.
func (f *File) SearchAmong(among []int64, t timeline.Term) (ids []int64, err error) {
	if len(among) == 0 {
		return nil, nil
	}
	return f.search(t, among)
}

// search searches among some setups; nil are all.
func (f *File) search(t timeline.Term, among []int64) (ids []int64, err error) {
	where, known := partSQL[t.Part]
	switch {
	case t.Part == timeline.AnyPart && t.Text == "":
		where = "1"
	case t.Part == timeline.AnyPart:
		where = "" // by what has the text
	case !known && t.Part != timeline.TestPart:
		return nil, nil
	}
	if t.Part == timeline.TestPart {
		return f.tested(t.Text, among)
	}
	err = f.view(func(q querier) error {
		like := strings.Map(anyBeyondASCII, strings.NewReplacer("~", "~~", "%", "~%", "_", "~_").Replace(t.Text))
		if !t.Whole {
			like = "%" + like + "%"
		}
		named := f.named(t)
		holds := where
		if holds == "" {
			if holds = holdsSQL; len(named.moves)+len(named.jumps) > 0 {
				holds += fillsSQL + repliesSQL
			}
			holds += ")"
		}
		if ids, err = idsWhere(q, among, holds, like, asJSON(named.fighters), asJSON(named.moves), asJSON(named.jumps), asJSON(named.routes)); err != nil || strings.IndexFunc(t.Text, beyondASCII) < 0 {
			return err
		}
		ids, err = f.having(q, ids, t)
		return err
	})
	return ids, err
}

// tested are the setups, among those, whose newest in-game test had that result; of "none",
// those without a test since the last revision.
func (f *File) tested(result string, among []int64) (ids []int64, err error) {
	where, args := "id IN (SELECT setup FROM proof WHERE id IN (SELECT max(id) FROM proof GROUP BY setup) AND result = ?1)", []any{result}
	if result == "none" {
		where, args = "id NOT IN (SELECT setup FROM proof WHERE revision = (SELECT max(id) FROM revision))", nil
	}
	err = f.view(func(q querier) error {
		ids, err = idsWhere(q, among, where, args...)
		return err
	})
	return ids, err
}

// Tagged returns the row numbers, in no order, of the setups that bear a tag.
func (f *File) Tagged(tag string) (ids []int64, err error) {
	err = f.view(func(q querier) error {
		ids, err = idsWhere(q, nil, "id IN (SELECT setup FROM tag WHERE name = ?1)", tag)
		return err
	})
	return ids, err
}

// idsWhere are the numbers of the setups of which the SQL says yes, among those
// or, for nil, among all.
func idsWhere(q querier, among []int64, where string, args ...any) (ids []int64, err error) {
	var found []byte // one row is quicker than many
	if among != nil {
		args = append(args, asJSON(among))
		where = fmt.Sprintf("id IN (SELECT value FROM json_each(?%d)) AND (%s)", len(args), where)
	}
	if err := q.QueryRow("SELECT json_group_array(id) FROM setup WHERE "+where, args...).Scan(&found); err != nil {
		return nil, err
	}
	err = json.Unmarshal(found, &ids)
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

// having are those of the setups that have a term.
func (s *state) having(q querier, ids []int64, t timeline.Term) (out []int64, err error) {
	for some := range slices.Chunk(ids, batch) {
		if err := s.eachSetup(q, "WHERE s.id"+in(some), func(id int64, _ int, setup *timeline.Setup) error {
			if s.index.Has(setup, t) {
				out = append(out, id)
			}
			return nil
		}); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// namedRows are row numbers by what they are of.
type namedRows struct{ fighters, moves, jumps, routes []int64 }

// named lists the row numbers of the fighters, moves, jumps and routes whose
// names have the text of t.
func (s *state) named(t timeline.Term) (out namedRows) {
	text := strings.ToLower(t.Text)
	holds := func(name string) bool { return strings.Contains(strings.ToLower(name), text) }
	if t.Whole {
		holds = func(name string) bool { return strings.ToLower(name) == text }
	}
	for i := range s.data.Fighters {
		one := &s.data.Fighters[i]
		of := s.ids.fighter[one.Name]
		if holds(one.Name) {
			out.fighters = append(out.fighters, of.id)
		}
		for k := range one.Moves {
			if holds(one.Moves[k].Name) {
				out.moves = append(out.moves, of.move[one.Moves[k].Name])
			}
		}
		for k := range one.Jumps {
			if holds(one.Jumps[k].Name) {
				out.jumps = append(out.jumps, of.jump[one.Jumps[k].Name])
			}
		}
		for k := range one.Routes {
			if holds(one.Routes[k].Name) {
				out.routes = append(out.routes, of.route[one.Routes[k].Name])
			}
		}
	}
	return out
}

// asJSON is a JSON list.
func asJSON(ids []int64) string {
	text, _ := json.Marshal(ids) // numbers always marshal
	return string(text)
}
