package storage

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"github.com/gofrs/flock"

	"wakeline/timeline"
)

// state is what an open file keeps in memory: the move data, and the names of
// things by their row numbers. Setups stay on disk until they are asked for.
type state struct {
	real      string // the path without symbolic links
	is        *knownFile
	lock      *flock.Flock // nil: the file is read-only
	pages     *pages       // nil: checked when it was opened
	db        *sql.DB
	readOnly  string // why nothing can be edited; empty where it can
	fixedData bool   // the move data must stay as they are
	inMemory  bool   // it lies in memory alone: real, is and lock are empty
	steps     int    // done since a file in memory was made, and not undone
	saved     int    // what steps was when the project text was saved last; notSaved: it can't be that again
	skipPages bool   // the pages are checked by who opened the file
	edited    bool   // while it was open here
	schema    int    // the version of its schema when it was opened; 0: a new one
	gone      bool
	version   int64 // SQLite's count of what others have written
	edition   int   // counts how often the move data have changed
	data      timeline.Project
	index     *timeline.Index // of data
	ids       ids
}

// ids ties names to row numbers, both ways.
type ids struct {
	fighter  map[string]*fighterIDs
	fighters map[int64]string
	move     map[int64]string // a move's name by its row number
	jump     map[int64]string
	rise     map[int64]string
	route    map[int64]string
}

// fighterIDs are the row numbers of one fighter's things, by name.
type fighterIDs struct {
	id                      int64
	move, jump, rise, route map[string]int64
}

func newFighterIDs(id int64) *fighterIDs {
	return &fighterIDs{id, map[string]int64{}, map[string]int64{}, map[string]int64{}, map[string]int64{}}
}

// querier is a database or a transaction.
type querier interface {
	Query(query string, args ...any) (*sql.Rows, error)
	QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error)
	QueryRow(query string, args ...any) *sql.Row
}

// each calls do with the row number and the columns of every row of a table.
func each(q querier, table, order string, do func(id int64, r row) error) error {
	cols := append([]string{"id"}, columns[table]...)
	rows, err := q.Query("SELECT " + strings.Join(cols, ", ") + " FROM " + table + " ORDER BY " + order)
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		r, err := scanRow(rows, cols)
		if err != nil {
			return err
		}
		id := r["id"].(int64)
		delete(r, "id")
		if err := do(id, r); err != nil {
			return err
		}
	}
	return rows.Err()
}

// dataVersion is a number that changes when another than us has written.
func dataVersion(q querier) (n int64, err error) {
	err = q.QueryRow("PRAGMA data_version").Scan(&n)
	return n, err
}

// refresh reads the move data again where another program or window has
// written to the file. Of a file that is looked at they must be as they were.
func (s *state) refresh(q querier) error {
	now, err := dataVersion(q)
	if err != nil || now == s.version {
		return err
	}
	var fresh state
	if err := fresh.load(q); err != nil {
		return err
	}
	if !reflect.DeepEqual(fresh.data, s.data) {
		if s.fixedData {
			return ErrChanged
		}
		s.edition++
	}
	s.data, s.index, s.ids, s.version = fresh.data, fresh.index, fresh.ids, now
	return nil
}

// view runs do, which reads the file. One that another window may edit
// meanwhile is read in one transaction.
func (f *File) view(do func(q querier) error) error {
	f.mu.Lock()
	defer f.mu.Unlock()
	return describe(f.fresh(do))
}

func (s *state) fresh(do func(q querier) error) error {
	return s.snapshot(func(q querier) error {
		if err := s.refresh(q); err != nil {
			return err
		}
		return do(q)
	})
}

// snapshot runs do with the file as it stands at one moment, whatever others
// write meanwhile.
func (s *state) snapshot(do func(q querier) error) error {
	if s.lock != nil || s.inMemory { // nobody else writes
		return do(s.db)
	}
	tx, err := s.db.Begin()
	if err != nil {
		return err
	}
	defer tx.Rollback()
	return do(tx)
}

// load reads the move data, and holds it against the rules.
func (s *state) load(q querier) error {
	data := timeline.Project{Ruleset: timeline.DefaultRuleset()}
	at := ids{map[string]*fighterIDs{}, map[int64]string{}, map[int64]string{}, map[int64]string{}, map[int64]string{}, map[int64]string{}}
	place := map[int64]int{} // a fighter's place in data, by its row number
	if err := each(q, "ruleset", "id", func(_ int64, r row) error {
		var err error
		data.Ruleset, err = valueOf(rulesetFields, r)
		return err
	}); err != nil {
		return err
	}
	if err := each(q, "fighter", "place, id", func(id int64, r row) error {
		place[id] = len(data.Fighters)
		f, err := valueOf(fighterFields, r)
		if err != nil {
			return err
		}
		data.Fighters = append(data.Fighters, f)
		at.fighters[id] = r.text("name")
		at.fighter[r.text("name")] = newFighterIDs(id)
		return nil
	}); err != nil {
		return err
	}
	// owned reads a table of things that fighters own.
	owned := func(table string, add func(f *timeline.Fighter, of *fighterIDs, id int64, r row) error) error {
		return each(q, table, "fighter, place, id", func(id int64, r row) error {
			owner, _ := r["fighter"].(int64)
			i, ok := place[owner]
			if !ok {
				return fmt.Errorf("%w: %s %q belongs to no fighter", ErrDamaged, table, r.text("name"))
			}
			return add(&data.Fighters[i], at.fighter[at.fighters[owner]], id, r)
		})
	}
	if err := owned("move", func(f *timeline.Fighter, of *fighterIDs, id int64, r row) error {
		m, err := moveOf(r)
		if err != nil {
			return fmt.Errorf("%w: fighter %q: %w", ErrDamaged, f.Name, err)
		}
		f.Moves = append(f.Moves, m)
		of.move[m.Name], at.move[id] = id, m.Name
		return nil
	}); err != nil {
		return err
	}
	if err := owned("jump", func(f *timeline.Fighter, of *fighterIDs, id int64, r row) error {
		j, err := valueOf(jumpFields, r)
		f.Jumps = append(f.Jumps, j)
		of.jump[j.Name], at.jump[id] = id, j.Name
		return err
	}); err != nil {
		return err
	}
	if err := owned("rise", func(f *timeline.Fighter, of *fighterIDs, id int64, r row) error {
		one, err := valueOf(riseFields, r)
		f.Rises = append(f.Rises, one)
		of.rise[one.Name], at.rise[id] = id, one.Name
		return err
	}); err != nil {
		return err
	}
	if err := owned("route", func(f *timeline.Fighter, of *fighterIDs, id int64, r row) error {
		one, err := valueOf(routeFields, r)
		f.Routes = append(f.Routes, one)
		of.route[one.Name], at.route[id] = id, one.Name
		return err
	}); err != nil {
		return err
	}
	if err := at.loadSteps(q, &data); err != nil {
		return err
	}
	if err := at.loadStanding(q, &data); err != nil {
		return err
	}
	if err := data.CheckData(); err != nil {
		return fmt.Errorf("%w: %w", ErrDamaged, err)
	}
	s.data, s.ids = data, at
	s.index = timeline.NewIndex(&s.data)
	return nil
}

// eachSetup reads setups in their order; at counts them from 0.
func (s *state) eachSetup(q querier, where string, do func(id int64, at int, setup *timeline.Setup) error) error {
	rows, err := q.Query(setupSQL + where + " ORDER BY s.place, s.id")
	if err != nil {
		return err
	}
	defer rows.Close()
	for at := 0; rows.Next(); at++ {
		id, setup, err := s.ids.scanSetup(rows)
		if err != nil {
			return err
		}
		if err := do(id, at, &setup); err != nil {
			return err
		}
	}
	return rows.Err()
}

// setupSQL reads setups whole, a row each; what hangs on one comes as a text
// of row numbers, negative for jumps; replies as three lists, which is quicker
// than joining the columns of each.
const setupSQL = `SELECT s.id, s.name, s.attacker, s.rival, s.ender, s.position, s.advantage, s.distance, s.room, s.delay, s.jump, s.attack, s.press,
	s.landing, s.landing_move, s.note, s.own_replies, s.on_hit, s.pressure,
	(SELECT group_concat(coalesce(move, -jump), ' ' ORDER BY place) FROM filler WHERE setup = s.id),
	(SELECT group_concat(rise, ' ' ORDER BY place) FROM claimed_rise WHERE setup = s.id),
	(SELECT group_concat(coalesce(move, -jump), ' ') || ',' || group_concat(demand, ' ') || ',' || group_concat(late, ' ')
		|| ',' || group_concat(coalesce(costs, '-'), ' ') FROM (SELECT move, jump, demand, late, costs FROM reply WHERE setup = s.id ORDER BY place)),
	(SELECT group_concat(route, ' ' ORDER BY place) FROM punish WHERE setup = s.id),
	(SELECT group_concat(move || ' ' || wait || ' ' || how, ' ' ORDER BY place) FROM follow WHERE setup = s.id),
	(SELECT json_group_array(name ORDER BY place) FROM tag WHERE setup = s.id)
	FROM setup s `

// scanSetup reads the current row of setupSQL.
func (at *ids) scanSetup(rows *sql.Rows) (id int64, s timeline.Setup, err error) {
	var attacker, rival int64
	var ender, advantage, distance, room, jump, attack, press, landingMove, onHit sql.NullInt64
	var own bool
	var landing, position string
	var fillers, rises, replies, punish, follow sql.NullString
	var tags string
	if err := rows.Scan(&id, &s.Name, &attacker, &rival, &ender, &position, &advantage, &distance, &room, &s.Delay, &jump, &attack, &press,
		&landing, &landingMove, &s.Note, &own, &onHit, &s.Pressure, &fillers, &rises, &replies, &punish, &follow, &tags); err != nil {
		return 0, s, err
	}
	n := namer{at: at}
	s.Attacker, s.Rival = n.of(at.fighters, attacker), n.of(at.fighters, rival)
	s.Ender, s.Attack, s.Jump = n.maybe(at.move, ender), n.maybe(at.move, attack), n.maybe(at.jump, jump)
	s.Position = timeline.Position(position)
	s.Advantage = timeline.Maybe{N: int(advantage.Int64), Given: advantage.Valid}
	s.Distance = timeline.Maybe{N: int(distance.Int64), Given: distance.Valid}
	s.Room = timeline.Maybe{N: int(room.Int64), Given: room.Valid}
	s.Press = timeline.Maybe{N: int(press.Int64), Given: press.Valid}
	if s.Landing = landing; landing == "move" {
		s.Landing = n.of(at.move, landingMove.Int64)
	}
	for word := range strings.FieldsSeq(fillers.String) {
		s.Fillers = append(s.Fillers, n.moveOrJump(word))
	}
	for word := range strings.FieldsSeq(rises.String) {
		s.Rises = append(s.Rises, n.of(at.rise, n.number(word)))
	}
	s.OnHit = n.maybe(at.route, onHit)
	for word := range strings.FieldsSeq(punish.String) {
		s.Punish = append(s.Punish, n.of(at.route, n.number(word)))
	}
	for words := strings.Fields(follow.String); len(words) > 2; words = words[3:] {
		s.Follow = append(s.Follow, timeline.FollowStep{Move: n.of(at.move, n.number(words[0])), Wait: int(n.number(words[1])), By: timeline.By(words[2])})
	}
	if own {
		s.Replies = []timeline.Reply{}
	}
	if own != replies.Valid && replies.Valid {
		n.lost = "it has replies and asks those of its rival"
	}
	if replies.Valid {
		moves, rest, _ := strings.Cut(replies.String, ",")
		demands, rest, _ := strings.Cut(rest, ",")
		lates, costs, _ := strings.Cut(rest, ",")
		s.Replies = make([]timeline.Reply, 1+strings.Count(moves, " "))
		for i := range s.Replies {
			var move, demand, late, cost string
			move, moves, _ = strings.Cut(moves, " ")
			demand, demands, _ = strings.Cut(demands, " ")
			late, lates, _ = strings.Cut(lates, " ")
			cost, costs, _ = strings.Cut(costs, " ")
			s.Replies[i] = timeline.Reply{Move: n.moveOrJump(move), Demand: timeline.Demand(demand), Late: int(n.number(late)), Costs: n.cost(cost)}
		}
	}
	if err := plainTexts("the tags of a setup", tags); err != nil {
		return id, s, err
	}
	if tags != "[]" {
		if err := json.Unmarshal([]byte(tags), &s.Tags); err != nil {
			n.lost = err.Error()
		}
	}
	if n.lost != "" {
		return id, s, fmt.Errorf("%w: setup %q: %s", ErrDamaged, s.Name, n.lost)
	}
	return id, s, nil
}

// namer finds names by row number and keeps the first that is not there.
type namer struct {
	at   *ids
	lost string
}

func (n *namer) of(names map[int64]string, id int64) string {
	name, ok := names[id]
	if !ok {
		n.lost = fmt.Sprintf("nothing has the row number %d that it names", id)
	}
	return name
}

func (n *namer) maybe(names map[int64]string, id sql.NullInt64) string {
	if !id.Valid {
		return ""
	}
	return n.of(names, id.Int64)
}

func (n *namer) number(word string) int64 {
	id, err := strconv.ParseInt(word, 10, 64)
	if err != nil {
		n.lost = fmt.Sprintf("%q is no row number", word)
	}
	return id
}

// cost is a number, absent where it is a dash.
func (n *namer) cost(word string) timeline.Maybe {
	if word == "-" {
		return timeline.Maybe{}
	}
	return timeline.Some(int(n.number(word)))
}

// moveOrJump is a move, or a jump where the number is negative.
func (n *namer) moveOrJump(word string) string {
	if id := n.number(word); id < 0 {
		return n.of(n.at.jump, -id)
	} else {
		return n.of(n.at.move, id)
	}
}

// setupImage is setup s as rows, without uid and place. Names that nothing
// has are errors.
func (at *ids) setupImage(s *timeline.Setup) (*image, error) {
	attacker, rival := at.fighter[s.Attacker], at.fighter[s.Rival]
	if attacker == nil || rival == nil {
		return nil, fmt.Errorf("setup %q: expected two fighters, got %q and %q", s.Name, s.Attacker, s.Rival)
	}
	var lost string
	find := func(of map[string]int64, name string) any {
		if name == "" {
			return nil
		}
		id, ok := of[name]
		if !ok {
			lost = name
		}
		return id
	}
	doing := func(f *fighterIDs, name string) (move, jump any) {
		if id, ok := f.jump[name]; ok {
			return nil, id
		}
		return find(f.move, name), nil
	}
	im := &image{Kids: map[string][]row{}, Row: row{
		"name": s.Name, "attacker": attacker.id, "rival": rival.id, "ender": find(attacker.move, s.Ender),
		"position": string(s.Position), "advantage": maybe(s.Advantage), "distance": maybe(s.Distance), "room": maybe(s.Room), "delay": int64(s.Delay),
		"jump": find(attacker.jump, s.Jump), "attack": find(attacker.move, s.Attack), "press": maybe(s.Press),
		"landing": s.Landing, "landing_move": nil, "note": s.Note,
		"own_replies": int64(0), "on_hit": find(attacker.route, s.OnHit), "pressure": int64(s.Pressure),
	}}
	if s.Replies != nil {
		im.Row["own_replies"] = int64(1)
	}
	if s.Landing != timeline.DoGuard && s.Landing != timeline.DoParry {
		im.Row["landing"], im.Row["landing_move"] = "move", find(attacker.move, s.Landing)
	}
	for _, name := range s.Fillers {
		move, jump := doing(attacker, name)
		im.Kids["filler"] = append(im.Kids["filler"], row{"move": move, "jump": jump})
	}
	for _, name := range s.Rises {
		im.Kids["claimed_rise"] = append(im.Kids["claimed_rise"], row{"rise": find(rival.rise, name)})
	}
	for _, r := range s.Replies {
		move, jump := doing(rival, r.Move)
		im.Kids["reply"] = append(im.Kids["reply"], replyRow(move, jump, r))
	}
	for _, name := range s.Punish {
		im.Kids["punish"] = append(im.Kids["punish"], row{"route": find(attacker.route, name)})
	}
	for _, step := range s.Follow {
		im.Kids["follow"] = append(im.Kids["follow"], row{"move": find(attacker.move, step.Move), "wait": int64(step.Wait), "how": string(step.By)})
	}
	for _, name := range s.Tags {
		im.Kids["tag"] = append(im.Kids["tag"], row{"name": name})
	}
	if len(im.Kids) == 0 {
		im.Kids = nil // as it is read
	}
	if lost != "" {
		return nil, fmt.Errorf("setup %q: nothing has the name %q", s.Name, lost)
	}
	return im, nil
}
