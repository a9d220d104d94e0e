package main

import (
	"os"
	"strings"
	"time"
)

// findJourney searches from the sample's first setup by keys, opens the second
// answer, drills it for one press, and takes the answer back.
func findJourney(s *screen) {
	text, err := os.ReadFile("../../samples/sample.json")
	if err != nil {
		s.t.Fatal(err)
	}
	_, ended := s.open(string(text))
	first := s.settled()
	s.keys("ctrl+4")
	s.wait("the answers", func(l seen) bool {
		return l.Page == "findPage" && l.Focus == "answerList" && l.Places["Open as a setup"] != [4]int{}
	})
	s.keys("Down")
	s.settled()
	s.shoot("journey-find.png")
	s.click("By ender")
	s.settled()
	s.shoot("journey-find-enders.png")
	s.click("Answers")
	s.settled()
	s.click("Open as a setup")
	at := s.wait("the answer as a setup", func(l seen) bool { return l.Page == "" && l.Setups == first.Setups+1 })
	if at.Verdict != "safe" || at.Undo != "found setup" || at.Setup == first.Setup {
		s.t.Errorf("opened %+v", at)
	}
	s.keys("ctrl+5")
	s.wait("the drill", func(l seen) bool { return l.Page == "drillPage" && l.Focus == "pad" })
	s.keys("space")
	s.wait("the count", func(l seen) bool { return l.Places["Stop (Esc)"] != [4]int{} })
	press := func(l seen) bool {
		for words := range l.Places {
			if strings.HasPrefix(words, "1 press, of which ") {
				return true
			}
		}
		return false
	}
	for range 40 { // the first that is no false start counts
		s.keys("space")
		if l, _ := s.last(); press(l) {
			break
		}
		time.Sleep(50 * time.Millisecond)
	}
	s.wait("a press", press)
	s.shoot("journey-drill.png")
	s.keys("Escape")
	s.wait("the drill's end", func(l seen) bool { return l.Places["Start (Space)"] != [4]int{} })
	s.keys("Escape")
	s.wait("the timeline", func(l seen) bool { return l.Page == "" })
	s.keys("ctrl+z")
	s.wait("the answer taken back", func(l seen) bool { return l.Setups == first.Setups })
	s.keys("ctrl+q")
	ended()
}
