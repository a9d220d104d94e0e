package main

import "wakeline/storage"

// presentJourney presents the setups of a list: the next one, earlier and later,
// why, and back; nothing of the file changes.
func presentJourney(s *screen) {
	p, path := s.sampleFile()
	ended := s.start(path)
	first := s.wait("the first sheet", func(l seen) bool { return l.DelayAt != nil })
	s.id = s.window()
	s.settled()
	s.keys("ctrl+shift+p")
	s.wait("the presentation", func(l seen) bool { return l.Page == "presentPage" && l.Focus == "board" })
	s.settled()
	s.keys("Right", "w")
	s.settled()
	s.shoot("journey-present.png")
	s.keys("space")
	s.wait("the next setup", func(l seen) bool { return l.Setup == p.Setups[1].Name && l.Page == "presentPage" })
	s.keys("Left", "w", "BackSpace")
	s.wait("the first setup again", func(l seen) bool { return l.Setup == first.Setup && l.Page == "presentPage" })
	s.keys("Escape")
	s.wait("the sheet again", func(l seen) bool { return l.Page == "" && l.DelayAt != nil && l.Delay == first.Delay })
	s.keys("ctrl+q")
	ended()
	inFile(s.t, path, func(f *storage.File) {
		if steps, err := f.History(1); err != nil || len(steps) != 0 {
			s.t.Errorf("the file holds the steps %+v, %v", steps, err)
		}
	})
}
