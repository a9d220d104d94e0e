package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"wakeline/storage"
	"wakeline/timeline"
)

// windowProject is a jump that needs a delay of 4 to meet the wake-up with its
// last air frame, and may wait until 7 for a reversal with 4 frames before its
// first active one.
const windowProject = `{"wakeline": 1,
 "fighters": [
  {"name": "Ostrel",
   "moves": [
    {"name": "tide sweep", "kind": "strike", "level": "low", "startup": 8, "active": [3], "recovery": 22, "knockdown": {"midscreen": 46}},
    {"name": "falling heel", "kind": "strike", "air": true, "level": "overhead", "startup": 7, "active": [6], "hitstun": 20, "guardstun": 16}],
   "jumps": [{"name": "forward jump", "prejump": 4, "airborne": 39, "landing": 3}]},
  {"name": "Maerwyn",
   "moves": [
    {"name": "rising gale", "kind": "strike", "level": "mid", "startup": 5, "active": [4], "recovery": 30, "on_guard": -28,
     "immune": [{"from": 1, "to": 8}]}]}],
 "setups": [
  {"name": "counted heel", "attacker": "Ostrel", "rival": "Maerwyn", "ender": "tide sweep", "delay": 2,
   "jump": "forward jump", "attack": "falling heel", "replies": [{"move": "rising gale"}]}]}`

// TestRealWindow builds the program, opens its window on a display of its
// own, and goes through what a hand does there with a real pointer and real
// keys; it reads from the trace what the window shows. With WAKELINE_SHOTS it
// leaves pictures of the window in that folder.
func TestRealWindow(t *testing.T) {
	s := newScreen(t)
	run := func(t *testing.T, of func(s *screen)) {
		at := *s
		at.t, at.dir = t, t.TempDir()
		at.env = append(slices.Clone(s.env), "HOME="+at.dir, "XDG_CONFIG_HOME="+at.dir, "XDG_STATE_HOME=")
		at.trace = filepath.Join(at.dir, "trace")
		of(&at)
	}
	t.Run("two hundred steps at sixty a second", func(t *testing.T) { run(t, stepsJourney) }) // alone, as it is timed
	t.Run("one after the other", func(t *testing.T) {
		t.Parallel()
		for _, j := range []struct {
			name string
			run  func(s *screen)
		}{
			{"a delay dragged in a project text", dragJourney},
			{"a delay dragged in a project file", fileJourney},
			{"every page, and the menus", pagesJourney},
			{"a match-up", matchupJourney},
			{"a route typed, and standing replies", routesJourney},
			{"the cast, the mix and the finish", worthJourney},
			{"a run of exercises", exercisesJourney},
			{"a presentation", presentJourney},
			{"setups found, and one drilled", findJourney},
			{"from an empty project to a safe setup", buildJourney},
			{"a filter saved as a list, and a project merged", mergeJourney},
			{"a move table imported", importJourney},
			{"ended by the system", endedJourney},
		} {
			t.Run(j.name, func(t *testing.T) { run(t, j.run) })
		}
	})
	t.Run("views left for a while", func(t *testing.T) { // it mostly waits, so it runs beside the others
		t.Parallel()
		run(t, awayJourney)
	})
}

// dragJourney drags the delay of a project text, and sees the verdict follow.
func dragJourney(s *screen) {
	project := filepath.Join(s.dir, "small.json")
	if err := os.WriteFile(project, []byte(windowProject), 0o644); err != nil {
		s.t.Fatal(err)
	}
	ended := s.start(project)
	at := s.wait("the first sheet", func(l seen) bool { return l.DelayAt != nil })
	if at.Setup != "counted heel" || at.Delay != 2 || at.Verdict != "unsafe" {
		s.t.Fatalf("the window opens with %+v", at)
	}
	s.id = s.window()
	at = s.settled()

	s.drag(at, 3)
	at = s.wait("the drag by three frames", func(l seen) bool { return l.Delay == 5 })
	if at.Verdict != "safe" {
		s.t.Errorf("at delay 5 the window says %s, want safe", at.Verdict)
	}
	at = s.settled()
	s.drag(at, 4)
	at = s.wait("the drag by four more", func(l seen) bool { return l.Delay == 9 })
	if at.Verdict != "unsafe" {
		s.t.Errorf("at delay 9 the window says %s, want unsafe", at.Verdict)
	}
	at = s.settled()
	s.hold(at, -8)
	s.wait("the drag back, still held", func(l seen) bool { return l.Delay == 1 })
	s.do("key", "Escape")
	s.wait("Escape", func(l seen) bool { return l.Delay == 9 })
	s.do("mouseup", "1")
	s.do("key", "ctrl+z")
	if at = s.wait("undo", func(l seen) bool { return l.Delay == 5 }); at.Verdict != "safe" {
		s.t.Errorf("after undo the window says %s, want safe", at.Verdict)
	}
	s.do("key", "Left")
	s.wait("the arrow", func(l seen) bool { return l.Delay == 4 && l.Verdict == "safe" })
	s.do("key", "Left")
	s.wait("the arrow again", func(l seen) bool { return l.Delay == 3 && l.Verdict == "unsafe" })
	s.do("key", "ctrl+s")
	s.saved(project, 3)
	s.shoot("real-window.png")
	s.do("key", "ctrl+q")
	ended()
}

// fileJourney drags the delay of a project file, closes the program,
// finds the drag on disk, and takes it back in another run.
func fileJourney(s *screen) {
	t, path := s.t, filepath.Join(s.dir, "tides"+storage.Ext)
	f, err := storage.Create(path, windowSetup(t))
	if err != nil {
		t.Fatal(err)
	}
	f.Close()

	ended := s.start(path)
	s.wait("the file's first sheet", func(l seen) bool { return l.DelayAt != nil && l.Delay == 2 })
	s.id = s.window()
	s.drag(s.settled(), 2)
	s.wait("the drag by two frames", func(l seen) bool { return l.Delay == 4 })
	s.settled()
	s.shoot("real-window-file.png")
	s.do("key", "ctrl+q")
	ended()
	if delay, history := onDisk(t, path); delay != 4 || history != "delay 4" {
		t.Errorf("after the program ended the file holds delay %d, its history %q", delay, history)
	}

	s.trace += ".again"
	ended = s.start() // what was open last
	s.wait("the file opened again", func(l seen) bool { return l.DelayAt != nil && l.Delay == 4 })
	s.id = s.window()
	s.settled()
	s.do("key", "ctrl+z")
	s.wait("undo of the run before", func(l seen) bool { return l.Delay == 2 })
	s.do("key", "ctrl+q")
	ended()
	if delay, history := onDisk(t, path); delay != 2 || history != "delay 4, undone" {
		t.Errorf("after undo the file holds delay %d, its history %q", delay, history)
	}
}

// windowSetup is windowProject.
func windowSetup(t *testing.T) *timeline.Project {
	t.Helper()
	p, err := timeline.ReadText([]byte(windowProject))
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// onDisk reads the delay of the file's only setup, and its history.
func onDisk(t *testing.T, path string) (delay int, history string) {
	t.Helper()
	f, err := storage.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if why := f.ReadOnly(); why != "" {
		t.Errorf("the file is read-only, %s", why)
	}
	p, err := f.Project()
	if err != nil {
		t.Fatal(err)
	}
	notes, err := f.History(10)
	if err != nil {
		t.Fatal(err)
	}
	var words []string
	for _, n := range notes {
		words = append(words, n.What)
		if n.Undone {
			words = append(words, "undone")
		}
	}
	return p.Setups[0].Delay, strings.Join(words, ", ")
}
