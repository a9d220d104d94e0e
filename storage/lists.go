package storage

import (
	"fmt"
	"slices"

	"wakeline/timeline"
)

// Lists are the saved lists, in their order.
func (f *File) Lists() (out []timeline.SavedList, err error) {
	err = f.view(func(q querier) error {
		out, err = readLists(q)
		return err
	})
	return out, err
}

// readLists reads the saved lists in their order.
func readLists(q querier) (out []timeline.SavedList, err error) {
	err = each(q, "list", "place, id", func(_ int64, r row) error {
		out = append(out, timeline.SavedList{Name: r.text("name"), Search: r.text("search")})
		return nil
	})
	return out, err
}

// PutList replaces the list called before, or adds one at the end where before
// is empty. Lists that name it keep on finding it.
func (s *Step) PutList(before string, l timeline.SavedList) error {
	id := int64(0)
	if before != "" {
		var err error
		if id, err = s.rowID("list", before); err != nil {
			return err
		}
	}
	if _, err := s.put("list", id, &image{Row: row{"name": l.Name, "search": l.Search}}); err != nil || before == "" || before == l.Name {
		return err
	}
	return s.eachNaming(before, func(other timeline.SavedList) error {
		other.Search = timeline.RenameList(other.Search, before, l.Name)
		return s.PutList(other.Name, other)
	})
}

// RemoveList takes a list away. Another that names it makes the step fail.
func (s *Step) RemoveList(name string) error {
	id, err := s.rowID("list", name)
	if err != nil {
		return err
	}
	if err := s.remove("list", id); err != nil {
		return err
	}
	return s.eachNaming(name, func(other timeline.SavedList) error {
		return s.fail("the list %q uses the list %q", other.Name, name)
	})
}

// eachNaming calls do with each list whose search names that list.
func (s *Step) eachNaming(name string, do func(l timeline.SavedList) error) error {
	lists, err := readLists(s.tx)
	for _, l := range lists {
		if err == nil && timeline.NamesList(l.Search, name) {
			err = do(l)
		}
	}
	return err
}

// lists leaves out those whose name or search can't be read.
func (v *salvage) lists() error {
	rows, ids, err := v.rows("list")
	if err != nil {
		return err
	}
	drop := func(i int, why error) error {
		v.lose("list %q is left out: %v", rows[ids[i]].text("name"), reason(why))
		_, err := v.remove("list", "id = ?", ids[i])
		ids = slices.Delete(ids, i, i+1)
		return err
	}
	for i := len(ids) - 1; i >= 0; i-- {
		if ids[i] < 1 {
			if err := drop(i, fmt.Errorf("its number is %d", ids[i])); err != nil {
				return err
			}
		}
	}
	for { // one that is gone may leave another without what it names
		var lists []timeline.SavedList
		for _, id := range ids {
			lists = append(lists, timeline.SavedList{Name: rows[id].text("name"), Search: rows[id].text("search")})
		}
		broken, why := timeline.CheckLists(lists)
		if why == nil {
			return nil
		}
		if err := drop(broken, why); err != nil {
			return err
		}
	}
}
