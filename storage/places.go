package storage

import (
	"slices"

	"wakeline/timeline"
)

// Shift puts a row of the move data at another place of its list.
func (s *Step) Shift(e timeline.PlaceEdit) error {
	if s.err != nil {
		return s.err
	}
	if e.List == timeline.FighterList {
		return s.shiftRow("fighter", "", s.fighterNumber(e.Name), e)
	}
	of := s.ids.fighter[e.Owner]
	if of == nil {
		return s.fail("expected a fighter, got %q", e.Owner)
	}
	switch e.List {
	case timeline.ReplyList:
		return s.shiftReply(of, e)
	case timeline.MoveList, timeline.JumpList, timeline.RiseList, timeline.RouteList:
		return s.shiftRow(string(e.List), "WHERE fighter = ?", of.table(string(e.List))[e.Name], e, of.id)
	}
	return s.fail("expected a list of the move data, got %q", e.List)
}

// fighterNumber is the row of the fighter of that name, 0 where there is none.
func (s *Step) fighterNumber(name string) int64 {
	if of := s.ids.fighter[name]; of != nil {
		return of.id
	}
	return 0
}

// shiftRow puts a row at another place among those of its table that the
// condition names: the rows between change places with it.
func (s *Step) shiftRow(table, where string, id int64, e timeline.PlaceEdit, args ...any) error {
	ids, err := numbers(s.tx, "SELECT id FROM "+table+" "+where+" ORDER BY place, id", args...)
	if err != nil {
		return s.fail("%w", err)
	}
	at := slices.Index(ids, id)
	if at < 0 {
		return s.fail("expected a %s, got %q", e.List, e.Name)
	}
	places, err := numbers(s.tx, "SELECT place FROM "+table+" "+where+" ORDER BY place, id", args...)
	if err != nil {
		return s.fail("%w", err)
	}
	timeline.Shift(ids, at, e.By)
	for i, id := range ids {
		before, err := s.read(place{table, id})
		if err != nil {
			return s.fail("%w", err)
		}
		if before.Row.int64("place") == places[i] {
			continue
		}
		after := &image{Row: row{}, Kids: before.Kids}
		for column, v := range before.Row {
			after.Row[column] = v
		}
		after.Row["place"] = places[i]
		if err := s.write(place{table, id}, before, after); err != nil {
			return s.fail("%w", err)
		}
	}
	return nil
}

// shiftReply puts a standing reply at another place of its list.
func (s *Step) shiftReply(of *fighterIDs, e timeline.PlaceEdit) error {
	im, err := s.read(place{"fighter", of.id})
	if err != nil {
		return s.fail("%w", err)
	}
	list := slices.Clone(im.Kids["standing_reply"])
	at := slices.IndexFunc(list, func(there row) bool { return s.ids.standingTitle(there) == e.Name })
	if at < 0 {
		return s.fail("expected a reply of %s, got %q", e.Owner, e.Name)
	}
	timeline.Shift(list, at, e.By)
	_, err = s.put("fighter", of.id, &image{Row: im.Row, Kids: map[string][]row{"standing_reply": list}})
	return err
}
