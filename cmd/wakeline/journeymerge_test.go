package main

import (
	"path/filepath"
	"slices"
	"strings"

	"wakeline/storage"
	"wakeline/timeline"
)

// mergeJourney saves a filter as a list, merges a changed copy of the project
// into it, and takes that back.
func mergeJourney(s *screen) {
	p, err := timeline.ReadText([]byte(windowProject))
	if err != nil {
		s.t.Fatal(err)
	}
	path := filepath.Join(s.dir, "tides"+storage.Ext)
	f, err := storage.Create(path, p)
	if err != nil {
		s.t.Fatal(err)
	}
	f.Close()
	next := p.Setups[0]
	next.Name, next.Tags = "a second heel", []string{"theirs"}
	p.Setups = append(p.Setups, next)
	p.Setups[0].Delay, p.Setups[0].Tags = 7, []string{"theirs"}
	if err := storage.WriteText(filepath.Join(s.dir, "theirs.json"), p); err != nil {
		s.t.Fatal(err)
	}
	ended := s.start(path)
	at := s.wait("the first sheet", func(l seen) bool { return l.DelayAt != nil })
	s.id = s.window()
	s.settled()
	s.keys("ctrl+f")
	s.write("tag:theirs")
	s.settled()
	s.click("menu Setup")
	s.click("Saved lists…")
	s.click("Save filter as list…")
	s.wait("the question of a name", func(l seen) bool { return l.Focus == "Name of the list" })
	s.write("Theirs")
	s.keys("Return")
	s.wait("the list", func(l seen) bool { return l.Undo == "list Theirs" })
	s.settled()
	s.click("menu File")
	s.click("Merge project…")
	s.settled()
	s.write("theirs.json")
	s.keys("Return")
	s.wait("both projects", func(l seen) bool { return l.Page == "mergePage" && l.Focus == "Grid" })
	s.settled()
	s.keys("ctrl+a")
	s.click("Take other")
	s.settled()
	s.shoot("journey-merge.png")
	s.click("Merge…")
	s.settled()
	s.keys("Return")
	merged := s.wait("the merged project", func(l seen) bool { return l.Page == "" && l.Undo == "merge theirs.json" })
	if merged.Setups != 2 || merged.Delay != 7 || merged.Verdict == at.Verdict {
		s.t.Errorf("after the merge: %d setups, the first at delay %d, %s", merged.Setups, merged.Delay, merged.Verdict)
	}
	s.settled()
	s.click("menu Setup")
	s.click("Saved lists…")
	s.wait("the list to have found them", func(l seen) bool { return l.Places["Theirs (2)"] != [4]int{} })
	s.shoot("journey-merged.png")
	s.keys("Escape")
	s.settled()
	s.keys("ctrl+z")
	s.wait("all of it taken back", func(l seen) bool { return l.Setups == 1 && l.Delay == at.Delay && l.Undo == "list Theirs" })
	s.keys("ctrl+shift+z")
	s.wait("all of it again", func(l seen) bool { return l.Setups == 2 && l.Undo == "merge theirs.json" })
	s.keys("ctrl+q")
	ended()
	inFile(s.t, path, func(f *storage.File) {
		got, err := f.Project()
		lists, failed := f.Lists()
		if err != nil || failed != nil || len(got.Setups) != 2 || got.Setups[0].Delay != 7 ||
			!slices.ContainsFunc(lists, func(l timeline.SavedList) bool { return strings.Contains(l.Search, "tag:theirs") }) {
			s.t.Errorf("the file holds %v, %v, %v, %v", got, err, lists, failed)
		}
	})
}
