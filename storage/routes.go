package storage

import (
	"fmt"
	"slices"

	"wakeline/timeline"
)

// What a fighter has and that names its moves: routes, and the replies that
// every setup against it is asked.

// loadSteps reads the steps of all routes.
func (at *ids) loadSteps(q querier, data *timeline.Project) error {
	owner := map[string]int{}
	for i := range data.Fighters {
		owner[data.Fighters[i].Name] = i
	}
	whose := map[int64]*timeline.Route{}
	for name, of := range at.fighter {
		for route, id := range of.route {
			whose[id] = data.Fighters[owner[name]].Route(route)
		}
	}
	rows, err := q.Query("SELECT route, move, how FROM route_step ORDER BY route, place")
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		var route, move int64
		var how string
		if err := rows.Scan(&route, &move, &how); err != nil {
			return err
		}
		r, name := whose[route], at.move[move]
		if r == nil || name == "" {
			return fmt.Errorf("%w: a step of route %q names a move or a route that is not there", ErrDamaged, at.route[route])
		}
		r.Steps = append(r.Steps, timeline.RouteStep{Move: name, By: timeline.By(how)})
	}
	return rows.Err()
}

// loadStanding reads the replies that every setup against a fighter is asked.
func (at *ids) loadStanding(q querier, data *timeline.Project) error {
	rows, err := q.Query("SELECT fighter, coalesce(move, -jump), demand, late, coalesce(costs, -1) FROM standing_reply ORDER BY fighter, place")
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		var fighter, doing, costs int64
		var r timeline.Reply
		if err := rows.Scan(&fighter, &doing, &r.Demand, &r.Late, &costs); err != nil {
			return err
		}
		if r.Move = at.move[doing]; doing < 0 {
			r.Move = at.jump[-doing]
		}
		f := data.Fighter(at.fighters[fighter])
		if f == nil || r.Move == "" {
			return fmt.Errorf("%w: a reply of fighter %q names a move or a fighter that is not there", ErrDamaged, at.fighters[fighter])
		}
		if costs >= 0 {
			r.Costs = timeline.Some(int(costs))
		}
		f.Replies = append(f.Replies, r)
	}
	return rows.Err()
}

// replyRow is a reply as a row, where its move or jump has that number.
func replyRow(move, jump any, r timeline.Reply) row {
	return row{"move": move, "jump": jump, "demand": string(r.Demand), "late": int64(r.Late), "costs": maybe(r.Costs)}
}

// putReplies writes the replies that every setup against f is asked; the
// fighter, its moves and its jumps are there.
func (s *Step) putReplies(f *timeline.Fighter) error {
	of := s.ids.fighter[f.Name]
	im := &image{Row: rowOf(fighterFields, f)}
	for _, r := range f.Replies {
		next, ok := of.standingRow(r)
		if !ok {
			return s.fail("fighter %q: expected a move or jump of its own, got %q", f.Name, r.Move)
		}
		if im.Kids == nil {
			im.Kids = map[string][]row{}
		}
		im.Kids["standing_reply"] = append(im.Kids["standing_reply"], next)
	}
	_, err := s.put("fighter", of.id, im)
	return err
}

// standingRow is a reply that every setup against a fighter is asked as a row.
func (of *fighterIDs) standingRow(r timeline.Reply) (row, bool) {
	if id, ok := of.jump[r.Move]; ok {
		return replyRow(nil, id, r), true
	}
	id, ok := of.move[r.Move]
	return replyRow(id, nil, r), ok
}

// standingTitle is the title of the reply in such a row.
func (at *ids) standingTitle(r row) string {
	out := timeline.Reply{Move: at.move[r.int64("move")], Late: int(r.int64("late"))}
	if r["jump"] != nil {
		out.Move = at.jump[r.int64("jump")]
	}
	return out.Title()
}

// PutReply replaces the reply called before among those that every setup
// against a fighter is asked, adds r last where before is empty, or takes it
// away where r is nil. A reply is called by its title.
func (s *Step) PutReply(fighter, before string, r *timeline.Reply) error {
	of := s.ids.fighter[fighter]
	if of == nil {
		return s.fail("expected a fighter, got %q", fighter)
	}
	if s.err != nil {
		return s.err
	}
	im, err := s.read(place{"fighter", of.id})
	if err != nil {
		return s.fail("%w", err)
	}
	list := slices.Clone(im.Kids["standing_reply"])
	at := len(list)
	if before != "" {
		at = slices.IndexFunc(list, func(there row) bool { return s.ids.standingTitle(there) == before })
	}
	if at < 0 {
		return s.fail("expected a reply of %s, got %q", fighter, before)
	}
	if r == nil {
		list = slices.Delete(list, at, at+1)
	} else {
		next, ok := of.standingRow(*r)
		if !ok {
			return s.fail("fighter %q: expected a move or jump of its own, got %q", fighter, r.Move)
		}
		list = slices.Replace(list, at, min(at+1, len(list)), next)
	}
	next := &image{Row: im.Row}
	if len(list) > 0 {
		next.Kids = map[string][]row{"standing_reply": list}
	}
	_, err = s.put("fighter", of.id, next)
	return err
}

// PutRoute is PutMove for a route.
func (s *Step) PutRoute(fighter, before string, r *timeline.Route) error {
	if r == nil {
		return s.removeOwned("route", fighter, before)
	}
	of := s.ids.fighter[fighter]
	if of == nil {
		return s.fail("expected a fighter, got %q", fighter)
	}
	im := &image{Row: rowOf(routeFields, r)}
	for _, step := range r.Steps {
		id, ok := of.move[step.Move]
		if !ok {
			return s.fail("route %q: expected a move of %s, got %q", r.Name, fighter, step.Move)
		}
		if im.Kids == nil {
			im.Kids = map[string][]row{}
		}
		im.Kids["route_step"] = append(im.Kids["route_step"], row{"move": id, "how": string(step.By)})
	}
	return s.putOwnedImage("route", fighter, before, r.Name, im)
}

// checkOwners asks that no route and no reply of a fighter names a move or jump
// that the step removes.
func (s *Step) checkOwners() error {
	for _, n := range s.removed {
		var in string
		switch n.table {
		case "move":
			in = "SELECT f.name FROM route_step t JOIN route r ON r.id = t.route JOIN fighter f ON f.id = r.fighter WHERE t.move = ?1 " +
				"UNION ALL SELECT f.name FROM standing_reply t JOIN fighter f ON f.id = t.fighter WHERE t.move = ?1"
		case "jump":
			in = "SELECT f.name FROM standing_reply t JOIN fighter f ON f.id = t.fighter WHERE t.jump = ?1"
		default:
			continue
		}
		if now, err := s.read(n.place); err != nil {
			return err
		} else if now != nil {
			continue
		}
		var name string
		if err := s.tx.QueryRow(in+" LIMIT 1", n.id).Scan(&name); err == nil {
			return fmt.Errorf("a route or a reply of %s uses the %s %q", name, n.table, n.before.Row.text("name"))
		}
	}
	return nil
}
