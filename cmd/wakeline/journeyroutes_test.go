package main

import (
	"strings"

	"wakeline/storage"
	"wakeline/timeline"
)

// routesJourney types a route of the sample's first fighter, opens a setup that
// begins after it, asks it its rival's standing replies, and makes those its own.
func routesJourney(s *screen) {
	_, path := s.sampleFile()
	ended := s.start(path)
	s.wait("the first sheet", func(l seen) bool { return l.DelayAt != nil })
	s.id = s.window()
	s.settled()
	s.keys("ctrl+2")
	s.wait("the move data", func(l seen) bool { return l.Page == "dataPage" && l.Focus == "Grid" })
	s.click("Routes")
	s.settled()
	s.keys("ctrl+End", "Home")
	s.row("Two jabs", "thole, thole > keel scrape")
	s.wait("the route", func(l seen) bool {
		return strings.HasPrefix(l.Undo, "steps of Two jabs") || l.Undo == "new route Two jabs"
	})
	s.wait("the setups after it", func(l seen) bool { return l.Places["Plain crossing"] != [4]int{} })
	s.settled()
	s.shoot("journey-routes.png")
	s.click("Plain crossing")
	s.wait("the setup", func(l seen) bool { return l.Page == "" && l.Setup == "Plain crossing" })
	s.keys("ctrl+r")
	s.wait("the replies", func(l seen) bool { return strings.HasPrefix(l.Focus, "replies") })
	s.keys("o")
	s.wait("the rival's replies", func(l seen) bool { return l.Undo == "standing replies of Ishka" })
	s.settled()
	s.shoot("journey-standing-replies.png")
	s.keys("o")
	s.wait("its own replies", func(l seen) bool { return l.Undo == "own replies" })
	s.keys("ctrl+z", "ctrl+z")
	s.wait("both taken back", func(l seen) bool { return strings.Contains(l.Undo, "Two jabs") })
	s.keys("ctrl+q")
	ended()
	inFile(s.t, path, func(f *storage.File) {
		if r := f.Data().Fighter("Brenno").Route("Two jabs"); r == nil || timeline.StepsText(r.Steps) != "Thole, Thole > Keel Scrape" {
			s.t.Errorf("the file holds the route %+v", r)
		}
	})
}
