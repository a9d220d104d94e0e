package main

import (
	"os"
	"path/filepath"
	"strings"

	"wakeline/storage"
)

// presentJourney presents the setups of a list: the next one, earlier and later,
// why, and back; nothing of the file changes.
func presentJourney(s *screen) {
	p, path := s.sampleFile()
	// Larger text was asked for, for which the screen has room, and the window none.
	kept := filepath.Join(s.dir, "fyne", "org.wakeline.app")
	if err := os.MkdirAll(kept, 0o700); err != nil {
		s.t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(kept, "preferences.json"), []byte(`{"text.size": "120"}`), 0o600); err != nil {
		s.t.Fatal(err)
	}
	ended := s.start(path)
	first := s.wait("the first sheet", func(l seen) bool { return l.DelayAt != nil })
	s.id = s.window()
	s.do("windowsize", "--sync", s.id, "1100", "700")
	s.settled()
	size := func() string {
		_, of, _ := strings.Cut(s.do("getwindowgeometry", "--shell", s.id), "WIDTH=")
		return of
	}
	before := size()
	s.keys("ctrl+shift+p")
	s.wait("the presentation", func(l seen) bool { return l.Page == "presentPage" && l.Focus == "board" })
	s.settled()
	if size() == before {
		s.t.Errorf("the presentation has the size of the window, %s", before)
	}
	s.keys("Right", "w")
	s.settled()
	s.shoot("journey-present.png")
	s.keys("space")
	s.wait("the next setup", func(l seen) bool { return l.Setup == p.Setups[1].Name && l.Page == "presentPage" })
	s.keys("Left", "w", "BackSpace")
	s.wait("the first setup again", func(l seen) bool { return l.Setup == first.Setup && l.Page == "presentPage" })
	s.keys("Escape")
	s.wait("the sheet again", func(l seen) bool { return l.Page == "" && l.DelayAt != nil && l.Delay == first.Delay })
	s.settled()
	if after := size(); after != before {
		s.t.Errorf("the window was %s, and is %s", before, after)
	}
	s.keys("ctrl+q")
	ended()
	inFile(s.t, path, func(f *storage.File) {
		if steps, err := f.History(1); err != nil || len(steps) != 0 {
			s.t.Errorf("the file holds the steps %+v, %v", steps, err)
		}
	})
}
