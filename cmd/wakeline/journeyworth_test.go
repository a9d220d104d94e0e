package main

import (
	"slices"

	"wakeline/storage"
	"wakeline/timeline"
)

// worthJourney goes to the cast of the sample's first fighter, saves a setup
// against another rival, looks at the mix of its ender and at its finish, and
// comes back to the sheet from each.
func worthJourney(s *screen) {
	p, path := s.sampleFile()
	ended := s.start(path)
	first := s.wait("the first sheet", func(l seen) bool { return l.DelayAt != nil })
	s.id = s.window()
	s.settled()

	s.keys("ctrl+9")
	s.wait("the cast", func(l seen) bool { return l.Page == "castPage" && l.Focus == "Grid" })
	s.settled()
	s.keys("Left")
	s.settled()
	s.shoot("journey-cast.png")
	s.keys("Return")
	at := s.wait("a setup against another rival", func(l seen) bool {
		return l.Page == "" && l.Setups == first.Setups+1 && l.Undo == "setup against another rival"
	})
	saved := at.Setup
	s.keys("ctrl+z")
	s.wait("it taken back", func(l seen) bool { return l.Setups == first.Setups })
	s.keys("ctrl+y")
	s.wait("it done again", func(l seen) bool { return l.Setups == first.Setups+1 })

	s.keys("ctrl+7")
	s.wait("the mix", func(l seen) bool { return l.Page == "mixPage" })
	s.settled()
	s.shoot("journey-mix.png")
	s.keys("Escape")
	s.wait("the sheet again", func(l seen) bool { return l.Page == "" })
	s.keys("ctrl+8")
	s.wait("the finish", func(l seen) bool { return l.Page == "finishPage" })
	s.settled()
	s.shoot("journey-finish.png")
	s.keys("Escape")
	s.wait("the sheet once more", func(l seen) bool { return l.Page == "" })
	s.keys("ctrl+q")
	ended()
	inFile(s.t, path, func(f *storage.File) {
		q, err := f.Project()
		if err != nil {
			s.t.Fatal(err)
		}
		i := slices.IndexFunc(q.Setups, func(x timeline.Setup) bool { return x.Name == saved })
		if i < 0 || len(q.Setups) != len(p.Setups)+1 {
			s.t.Fatalf("the file has %d setups, %q at %d", len(q.Setups), saved, i)
		}
	})
}
