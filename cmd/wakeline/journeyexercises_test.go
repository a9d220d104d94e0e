package main

import (
	"slices"

	"wakeline/storage"
	"wakeline/timeline"
)

// exercisesJourney begins a run of exercises, has the first question answered,
// ends the run, and finds the result in the file and nothing else changed.
func exercisesJourney(s *screen) {
	p, path := s.sampleFile()
	ended := s.start(path)
	s.wait("the first sheet", func(l seen) bool { return l.DelayAt != nil })
	s.id = s.window()
	s.settled()
	s.keys("ctrl+shift+e")
	s.wait("the exercises", func(l seen) bool { return l.Page == "exercisesPage" && l.Focus == "Start" })
	s.settled()
	s.keys("Return")
	s.wait("a question", func(l seen) bool { return l.Places["Show the answer"] != [4]int{} })
	s.settled()
	s.shoot("journey-exercises.png")
	s.click("Show the answer")
	s.wait("the answer", func(l seen) bool { return l.Focus == "Next" })
	s.settled()
	s.shoot("journey-exercises-answer.png")
	s.keys("Return")
	s.wait("the next question", func(l seen) bool { return l.Places["Show the answer"] != [4]int{} })
	s.keys("Escape")
	s.wait("the end of the run", func(l seen) bool { return l.Focus == "Start" })
	s.keys("Escape")
	s.wait("the sheet again", func(l seen) bool { return l.Page == "" })
	s.keys("ctrl+q")
	ended()
	inFile(s.t, path, func(f *storage.File) {
		got, err := f.Answers()
		if err != nil || len(got) != 1 || got[0].Right || got[0].Points != 0 || !slices.ContainsFunc(p.Setups, func(of timeline.Setup) bool { return of.Name == got[0].Setup }) {
			s.t.Errorf("the file holds the results %+v, %v", got, err)
		}
		if steps, err := f.History(1); err != nil || len(steps) != 0 {
			s.t.Errorf("the file holds the steps %+v, %v", steps, err)
		}
	})
}
