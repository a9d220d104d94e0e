package storage

import (
	"reflect"
	"strings"
	"testing"

	"wakeline/timeline"
)

func TestListsAreEditedAsSteps(t *testing.T) {
	f := made(t, sample(t))
	edit := func(want string, do func(s *Step) error) {
		t.Helper()
		if err := f.Edit("list", do); (err == nil) != (want == "") || err != nil && !strings.Contains(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
	holds := func(want ...timeline.SavedList) {
		t.Helper()
		if got, err := f.Lists(); err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("lists = %v, %v, want %v", got, err, want)
		}
	}
	corner, open := timeline.SavedList{Name: "Corner", Search: "tag:corner"}, timeline.SavedList{Name: "Open", Search: "not list:corner"}
	edit("", func(s *Step) error { return s.PutList("", corner) })
	edit("", func(s *Step) error { return s.PutList("", open) })
	holds(corner, open)
	edit("unique", func(s *Step) error { return s.PutList("", timeline.SavedList{Name: "corner", Search: "x"}) })
	edit("UNIQUE", func(s *Step) error { return s.PutList("", timeline.SavedList{Name: "Corner", Search: "x"}) })
	edit("doesn't name itself", func(s *Step) error {
		return s.PutList("Corner", timeline.SavedList{Name: "Corner", Search: "list:open"})
	})
	edit("a saved list", func(s *Step) error { return s.PutList("", timeline.SavedList{Name: "New", Search: "list:none"}) })
	edit(`the list "Open" uses the list "Corner"`, func(s *Step) error { return s.RemoveList("Corner") })
	edit(`"Shut"`, func(s *Step) error { return s.RemoveList("Shut") })
	holds(corner, open)

	wall := timeline.SavedList{Name: "At the wall", Search: "position:wall"}
	edit("", func(s *Step) error { return s.PutList("Corner", wall) })
	holds(wall, timeline.SavedList{Name: "Open", Search: `not list:"At the wall"`})
	edit("", func(s *Step) error {
		if err := s.RemoveList("Open"); err != nil {
			return err
		}
		return s.RemoveList("At the wall")
	})
	holds()
	for _, want := range [][]timeline.SavedList{{wall, {Name: "Open", Search: `not list:"At the wall"`}}, {corner, open}, {corner}} {
		if _, err := f.Undo(); err != nil {
			t.Fatal(err)
		}
		holds(want...)
	}
	if _, err := f.Redo(); err != nil {
		t.Fatal(err)
	}
	holds(corner, open)
	if steps, err := f.Steps(1); err != nil || steps[0].Setup != 0 {
		t.Errorf("%v, %v, want a step of no setup", steps, err)
	}
}
