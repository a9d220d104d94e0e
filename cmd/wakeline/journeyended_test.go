package main

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"

	"wakeline/storage"
)

// endedJourney edits a project file, and has the system end the program.
func endedJourney(s *screen) {
	for name, signal := range map[string]syscall.Signal{"terminated": syscall.SIGTERM, "hung up": syscall.SIGHUP} {
		path := filepath.Join(s.dir, name+storage.Ext)
		f, err := storage.Create(path, windowSetup(s.t))
		if err != nil {
			s.t.Fatal(err)
		}
		f.Close()
		s.trace += "." + name
		ended := s.start(path)
		s.wait("the file's first sheet", func(l seen) bool { return l.DelayAt != nil && l.Delay == 2 })
		s.id = s.window()
		s.drag(s.settled(), 2)
		s.wait("the drag by two frames", func(l seen) bool { return l.Delay == 4 })
		s.process.Signal(signal)
		ended()
		left, err := os.ReadDir(s.dir)
		if err != nil {
			s.t.Fatal(err)
		}
		for _, e := range left {
			if strings.HasPrefix(e.Name(), "."+name) || strings.HasPrefix(e.Name(), ".wakeline-") {
				s.t.Errorf("%s: left behind: %s", name, e.Name())
			}
		}
		if delay, _ := onDisk(s.t, path); delay != 4 {
			s.t.Errorf("%s: the file holds delay %d, want 4", name, delay)
		}
		copies, _ := filepath.Glob(filepath.Join(s.dir, ".local", "state", "wakeline", "copies", strings.ReplaceAll(name, " ", "_")+"-*", "*"+storage.Ext))
		if len(copies) != 2 {
			s.t.Errorf("%s: %d copies are kept, want those of before the drag and after it", name, len(copies))
		}
	}
}
