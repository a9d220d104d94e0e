package storage

import (
	"cmp"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"wakeline/timeline"
)

// keepRules takes out of the new file, whose schema is the newest now, what
// breaks a rule of the project, and tells what may be missing of what is left.
func (v *salvage) keepRules() error {
	lost := len(v.out.Lost)
	for _, step := range []func() error{v.ruleset, v.mendNames, v.owned, v.lastRises, v.references, v.routes, v.setups, v.lists, v.revisions} {
		if err := step(); err != nil {
			return err
		}
	}
	broken := checkHistory(v.ctx, v.tx)
	if len(v.out.Lost) > lost || broken != nil {
		steps, err := numbers(v.tx, "SELECT count(*) FROM edit")
		if err != nil {
			return err
		}
		if err := v.dropHistory(int(steps[0])); err != nil {
			return err
		}
	}
	return v.tell()
}

// insert writes a row of the newest schema.
func (v *salvage) insert(table string, id int64, r row) error {
	_, err := v.tx.Exec(statementsOf[table].put, append([]any{id}, r.values(columns[table])...)...)
	return err
}

// rows reads a table before anything is done with its rows.
func (v *salvage) rows(table string) (rows map[int64]row, ids []int64, err error) {
	rows = map[int64]row{}
	err = each(v.tx, table, "id", func(id int64, r row) error {
		rows[id] = r
		ids = append(ids, id)
		return nil
	})
	return rows, ids, err
}

func (v *salvage) ruleset() error {
	rows, _, err := v.rows("ruleset")
	if err != nil {
		return err
	}
	if r := rows[1]; r != nil {
		rules, err := valueOf(rulesetFields, r)
		p := timeline.Project{Ruleset: rules}
		if err == nil && p.CheckData() == nil {
			v.rules = p.Ruleset
			return nil
		}
	}
	v.rules = timeline.DefaultRuleset()
	v.lose("the ruleset: the default stands in its place")
	return v.insert("ruleset", 1, rowOf(rulesetFields, &v.rules))
}

// mendNames gives what has a name that breaks the rule of names one that
// doesn't.
func (v *salvage) mendNames() error {
	done, err := cleanNames(v.tx, "fighter", "move", "jump", "rise", "route")
	for _, r := range done {
		was := timeline.CutName(fmt.Sprintf("%q", r.was), 0)
		if r.table == "tag" {
			v.lose("the tag %s: it is %q now", was, r.now)
		} else {
			v.lose("the name of %s %s: it is called %q now", r.table, was, r.now)
		}
	}
	return err
}

// owned takes out what fighters own and that breaks a rule.
func (v *salvage) owned() error {
	fighters, ids, err := v.rows("fighter")
	if err != nil {
		return err
	}
	for _, id := range ids {
		one, err := valueOf(fighterFields, fighters[id])
		for _, f := range fighterFields {
			broken := cmp.Or(err, v.breaks(one))
			if broken == nil || f.Needed(&one) {
				continue
			}
			f.Reset(&one)
			if _, err := v.tx.Exec("UPDATE fighter SET "+f.Stored+" = ? WHERE id = ?", rowOf(fighterFields, &one)[f.Stored], id); err != nil {
				return err
			}
			v.lose("the %s of fighter %q: %v", f.Label, one.Name, reason(broken))
		}
	}
	moves := map[string]bool{} // moves and jumps share their names
	for _, table := range []string{"move", "jump", "rise", "route"} {
		rows, ids, err := v.rows(table)
		if err != nil {
			return err
		}
		for _, id := range ids {
			r := rows[id]
			f := timeline.Fighter{Name: fighters[r.int64("fighter")].text("name")}
			whose := fmt.Sprint(r["fighter"], " ", r.text("name"))
			var err error
			switch table {
			case "move":
				var m timeline.Move
				m, err = moveOf(r)
				f.Moves = append(f.Moves, m)
			case "jump":
				var j timeline.Jump
				j, err = valueOf(jumpFields, r)
				f.Jumps = append(f.Jumps, j)
				if moves[whose] {
					err = errors.New("a move has its name")
				}
			case "rise":
				var one timeline.Rise
				one, err = valueOf(riseFields, r)
				f.Rises = append(f.Rises, one)
			case "route":
				var one timeline.Route
				one, err = valueOf(routeFields, r)
				step := timeline.Move{Name: "step", Kind: timeline.Dash, Length: 1} // its own steps are looked at after
				one.Steps = []timeline.RouteStep{{Move: step.Name, By: timeline.Link}}
				f.Moves, f.Routes = append(f.Moves, step), append(f.Routes, one)
			}
			if err == nil {
				err = v.breaks(f)
			}
			if err == nil && id < 1 {
				err = fmt.Errorf("its number is %d", id)
			}
			if err == nil {
				moves[whose] = moves[whose] || table == "move"
				continue
			}
			v.lose("%s %q of %q is left out: %v", table, r.text("name"), f.Name, reason(err))
			if _, err := v.remove(table, "id = ?", id); err != nil {
				return err
			}
			v.noteName(table, id, r)
		}
	}
	return nil
}

// noteName keeps the name of a row that is taken out, for those that name it.
func (v *salvage) noteName(table string, id int64, r row) {
	if v.names[table] == nil {
		v.names[table] = map[int64]knownName{}
	}
	v.names[table][id] = knownName{r.int64("fighter"), r.text("name")}
}

// breaks says which rule a fighter breaks.
func (v *salvage) breaks(f timeline.Fighter) error {
	if len(f.Rises) == 0 {
		f.Rises = timeline.DefaultRises()
	}
	p := timeline.Project{Ruleset: v.rules, Fighters: []timeline.Fighter{f}}
	return p.CheckData()
}

// reason is what an error says, without a place in a project that is no more.
func reason(err error) string {
	if f := (*timeline.FieldError)(nil); errors.As(err, &f) {
		return fmt.Sprintf("expected %s, got %s", f.Want, cmp.Or(f.Got, "nothing"))
	}
	return err.Error()
}

// lastRises gives a fighter without a rise the usual one.
func (v *salvage) lastRises() error {
	without, err := numbers(v.tx, "SELECT id FROM fighter WHERE id NOT IN (SELECT fighter FROM rise) ORDER BY id")
	if err != nil {
		return err
	}
	for _, id := range without {
		most, err := numbers(v.tx, "SELECT coalesce(max(id), 0) + 1 FROM rise")
		if err != nil {
			return err
		}
		rise := timeline.DefaultRises()[0]
		r := rowOf(riseFields, &rise)
		r["fighter"], r["place"], r["uid"] = id, int64(1), newUID()
		if err := v.insert("rise", max(1, most[0]), r); err != nil {
			return err
		}
		v.lose("all rises of %q: %q stands in their place", v.nameOf("fighter", id), rise.Name)
	}
	return nil
}

// routes leaves out the routes of which not every step can be done, and the
// replies of a fighter that can't be asked.
func (v *salvage) routes() error {
	broken, err := numbers(v.tx, `SELECT r.id FROM route r LEFT JOIN route_step t ON t.route = r.id LEFT JOIN move m ON m.id = t.move GROUP BY r.id
		HAVING count(t.place) = 0 OR min(t.place) <> 0 OR max(t.place) <> count(*) - 1 OR sum(m.air) > 0 OR sum(m.fighter <> r.fighter) > 0`)
	if err != nil {
		return err
	}
	for _, id := range broken {
		if err := v.dropRoute(id, "not all of its steps can be done"); err != nil {
			return err
		}
	}
	gone, err := v.remove("standing_reply", `move IN (SELECT id FROM move WHERE air = 1 OR fighter <> standing_reply.fighter)
		OR jump IN (SELECT id FROM jump WHERE fighter <> standing_reply.fighter)
		OR EXISTS (SELECT 1 FROM standing_reply o WHERE o.fighter = standing_reply.fighter AND o.place < standing_reply.place
			AND o.move IS standing_reply.move AND o.jump IS standing_reply.jump AND o.late = standing_reply.late)`)
	if err == nil && gone > 0 {
		v.lose("%s that can't be asked", countOf(gone, "standing_reply"))
	}
	return err
}

// dropRoute leaves a route out, and what setups say of it.
func (v *salvage) dropRoute(id int64, why string) error {
	v.lose("route %q is left out: %s", v.nameOf("route", id), why)
	for _, sql := range []string{"DELETE FROM punish WHERE route = ?", "UPDATE setup SET on_hit = NULL WHERE on_hit = ?",
		"DELETE FROM route_step WHERE route = ?", "DELETE FROM route WHERE id = ?"} {
		if _, err := v.tx.Exec(sql, id); err != nil {
			return err
		}
	}
	return nil
}

// setups leaves out those that break a rule, such as one whose attack was
// changed by the damage to a move done on the ground.
func (v *salvage) setups() error {
	var s state
	if err := s.load(v.tx); err != nil {
		return err
	}
	ids, err := numbers(v.tx, "SELECT id FROM setup ORDER BY id")
	if err != nil {
		return err
	}
	for some := range slices.Chunk(ids, batch) {
		for _, b := range brokenSetups(&s, v.tx, some) {
			if err := v.drop(b.id, "%s", reason(b.err)); err != nil {
				return err
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

// brokenSetups looks at setups that are numbered so.
func brokenSetups(s *state, q querier, ids []int64) (out []brokenSetup) {
	err := s.eachSetup(q, "WHERE s.id"+in(ids), func(id int64, _ int, setup *timeline.Setup) error {
		err := s.index.CheckSetup(nil, setup)
		if err == nil && id < 1 {
			err = fmt.Errorf("its number is %d", id)
		}
		if err != nil {
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
			out = append(out, brokenSetups(s, q, []int64{id})...)
		}
	}
	return out
}

// revisions keeps the revisions whose move data are whole. The tables are the
// latest one; where none is known to be, a new one is.
func (v *salvage) revisions() error {
	rows, ids, err := v.rows("revision")
	if err != nil {
		return err
	}
	for _, table := range []string{"proof", "press", "answer"} {
		if gone, err := v.remove(table, "id < 1"); err != nil {
			return err
		} else if gone > 0 {
			v.lose("%s of a number below 1", countOf(gone, table))
		}
	}
	latest := false
	for _, id := range ids {
		r := rows[id]
		switch {
		case id < 1 || r["data"] == nil && latest:
			v.lose("revision %q: its move data", r.text("name"))
		case r["data"] == nil:
			latest = true
			continue
		default:
			if _, err := timeline.ReadText([]byte(r.text("data"))); err == nil {
				continue
			}
			v.lose("revision %q: its move data can't be read", r.text("name"))
		}
		gone, err := v.remove("proof", "revision = ?", id)
		if err == nil && gone > 0 {
			v.lose("%s under revision %q", countOf(gone, "proof"), r.text("name"))
		}
		if err == nil {
			_, err = v.remove("revision", "id = ?", id)
		}
		if err != nil {
			return err
		}
		delete(rows, id)
	}
	if latest {
		return nil
	}
	name := FirstRevision
	for n := 2; slices.ContainsFunc(ids, func(id int64) bool { return rows[id].text("name") == name }); n++ {
		name = fmt.Sprintf("%s %d", FirstRevision, n)
	}
	v.lose("the name of the latest revision: it is called %q", name)
	most, err := numbers(v.tx, "SELECT coalesce(max(id), 0) + 1 FROM revision")
	if err != nil {
		return err
	}
	return v.insert("revision", max(1, most[0]), row{"uid": newUID(), "name": name, "date": today(), "note": "", "data": nil})
}

// tell says which of the setups that are left may have lost something, and
// counts what was saved.
func (v *salvage) tell() error {
	for _, id := range slices.Sorted(maps.Keys(v.suspect)) {
		there, err := numbers(v.tx, "SELECT count(*) FROM setup WHERE id = ?", id)
		if err != nil {
			return err
		}
		if there[0] == 0 {
			continue // left out, and told
		}
		for _, table := range slices.Sorted(maps.Keys(v.suspect[id])) {
			v.lose("setup %q: it may lack some of its %s", v.nameOf("setup", id), inWords(table))
		}
	}
	for _, at := range v.letters {
		v.lose("letters of a text of %s %s", oneOf(at.table), v.called(at))
	}
	for _, table := range append(strings.Fields("fighter move jump rise route setup list"), v.kids...) {
		n, err := numbers(v.tx, "SELECT count(*) FROM "+table)
		if err != nil {
			return err
		}
		v.out.Saved = append(v.out.Saved, countOf(int(n[0]), table))
	}
	return nil
}

// called is a row's name, or its number.
func (v *salvage) called(at place) string {
	if slices.Contains(columns[at.table], "name") {
		return fmt.Sprintf("%q", v.nameOf(at.table, at.id))
	}
	return fmt.Sprint(at.id)
}
