package main

import "os"

// matchupJourney looks at the sample's first match-up, goes to an unsafe cell
// by keys, and opens it on the timeline.
func matchupJourney(s *screen) {
	text, err := os.ReadFile("../../samples/sample.json")
	if err != nil {
		s.t.Fatal(err)
	}
	_, ended := s.open(string(text))
	first := s.settled()
	s.keys("ctrl+3")
	s.wait("the match-up", func(l seen) bool { return l.Page == "matchupPage" && l.Focus == "matchupGrid" })
	s.settled()
	s.keys("Down", "Right", "Right", "Right")
	s.settled()
	s.shoot("journey-match-up.png")
	s.keys("Return")
	at := s.wait("the setup of the second row, with the reply of the fourth column", func(l seen) bool {
		return l.Page == "" && l.Setup == "One frame over" && l.Reply == "Millrace"
	})
	if at.Verdict != "unsafe" || at.Setup == first.Setup {
		s.t.Errorf("the cell opens %+v", at)
	}
	s.shoot("journey-match-up-opened.png")
	s.keys("ctrl+q")
	ended()
}
