package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"time"

	"wakeline/timeline"
)

// The drag of stepsJourney.
const (
	dragSteps = 200
	dragReach = 20 // frames to either side
	latest    = time.Second
)

// busyProject is windowProject with 60 replies on 3 rises, and a delay of 30.
func busyProject(s *screen) string {
	p, err := timeline.ReadText([]byte(windowProject))
	if err != nil {
		s.t.Fatal(err)
	}
	rival, setup := &p.Fighters[1], &p.Setups[0]
	for i := 2; i <= 60; i++ {
		m := rival.Moves[0]
		m.Name, m.Startup = fmt.Sprintf("gale %d", i), 3+i%9
		rival.Moves = append(rival.Moves, m)
		setup.Replies = append(setup.Replies, timeline.Reply{Move: m.Name, Demand: timeline.Survive})
	}
	rival.Rises = append(rival.Rises, timeline.Rise{Name: "back roll", Extra: 4}, timeline.Rise{Name: "slow", Extra: 9})
	setup.Delay = 30
	path := filepath.Join(s.dir, "busy.json")
	if err := os.WriteFile(path, timeline.WriteText(p), 0o644); err != nil {
		s.t.Fatal(err)
	}
	return path
}

// stepsJourney drags the delay by one frame a step, 60 steps a second, to and
// fro: each is handled, and the last is on screen soon. How soon it was is
// logged; only what no machine should need is a failure.
func stepsJourney(s *screen) {
	ended := s.start(busyProject(s))
	s.wait("the first sheet", func(l seen) bool { return l.DelayAt != nil })
	s.id = s.window()
	at := s.settled()
	x, y := (at.DelayAt[0]+at.DelayAt[2])/2, (at.DelayAt[1]+at.DelayAt[3])/2
	s.moveTo(x, y)
	s.do("mousedown", "1")
	var moves []string
	var sent time.Time
	frame := 0
	for i := range dragSteps {
		if i/dragReach%4 == 1 || i/dragReach%4 == 2 {
			frame--
		} else {
			frame++
		}
		to := x + int(float64(frame)*at.PixelsAFrame+float64(sign(frame))*0.5)
		if i == dragSteps-1 { // by a command of its own: the time to start that counts as the window's
			s.do(moves...)
			sent = time.Now()
			s.moveTo(to, y)
		}
		moves = append(moves, "sleep", "0.0166", "mousemove", "--window", s.id, strconv.Itoa(to), strconv.Itoa(y))
	}
	end := s.wait("the last step", func(l seen) bool { return l.Steps >= at.Steps+dragSteps && l.Delay == at.Delay+frame })
	took := time.UnixMicro(end.Shown).Sub(sent)
	s.t.Logf("the last of %d steps was on screen %v after it was sent", dragSteps, took)
	if end.Steps != at.Steps+dragSteps {
		s.t.Errorf("the sheet drew %d steps, want %d", end.Steps-at.Steps, dragSteps)
	}
	if took > latest && !raced {
		s.t.Errorf("the last step was on screen after %v", took)
	}
	s.shoot("journey-steps.png")
	s.do("mouseup", "1")
	s.do("key", "ctrl+z")
	s.wait("the whole drag taken back in one step", func(l seen) bool { return l.Delay == at.Delay && l.Undo == "" })
	s.do("key", "ctrl+q")
	ended()
}

func sign(n int) int {
	switch {
	case n < 0:
		return -1
	case n > 0:
		return 1
	}
	return 0
}
