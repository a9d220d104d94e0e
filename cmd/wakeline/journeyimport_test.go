package main

import (
	"os"
	"path/filepath"

	"wakeline/storage"
	"wakeline/timeline"
)

// importTable is a move table with headings of its own, one of which the
// program doesn't know, and a row that it can't take.
const importTable = `Move,Kind,Level,Startup,Active,Recovery,House number,Immune
rising gale,strike,mid,4,4,30,-28,1-8
slow gale,strike,mid,9,4,30,-10,
no gale,strike,mid,soon,4,30,-10,
`

// importJourney takes a move table into a project file: it maps the heading
// that is not known, sees the bad row, leaves it out, and finds the setup
// turned.
func importJourney(s *screen) {
	p, err := timeline.ReadText([]byte(windowProject))
	if err != nil {
		s.t.Fatal(err)
	}
	p.Setups[0].Delay = 7 // the last safe one
	dir := filepath.Join(s.dir, "tables")
	if err := os.Mkdir(dir, 0o755); err != nil {
		s.t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "moves.csv"), []byte(importTable), 0o644); err != nil {
		s.t.Fatal(err)
	}
	path := filepath.Join(dir, "tides"+storage.Ext)
	f, err := storage.Create(path, p)
	if err != nil {
		s.t.Fatal(err)
	}
	f.Close()
	ended := s.start(path)
	s.wait("the file's first sheet", func(l seen) bool { return l.DelayAt != nil && l.Verdict == "safe" })
	s.id = s.window()
	s.settled()
	s.keys("ctrl+i")
	s.settled()
	list := s.settled().Places["List"]
	s.moveTo(list[0]+80, list[1]+48) // the second line: the first leads to the folder above
	s.do("click", "1")
	s.settled()
	s.click("Import")
	s.wait("the import", func(l seen) bool { return l.Places["Skip bad rows"] != [4]int{} })
	s.settled()
	s.click("whose moves these are")
	s.write("Maerwyn")
	s.click("skip")
	s.click("on guard")
	s.wait("the preview to tell the good rows from the bad", func(l seen) bool { return l.Places["2 rows to import, 1 bad"] != [4]int{} })
	s.settled()
	s.shoot("journey-import.png")
	s.click("Skip bad rows")
	s.click("Import")
	s.wait("the setup to turn", func(l seen) bool { return l.Verdict == "unsafe" && l.Places["Import"] == [4]int{} })
	s.settled()
	s.shoot("journey-imported.png")
	s.keys("ctrl+q")
	ended()

	f, err = storage.Open(path)
	if err != nil {
		s.t.Fatal(err)
	}
	defer f.Close()
	if p, err = f.Project(); err != nil {
		s.t.Fatal(err)
	}
	rival := p.Fighter("Maerwyn")
	if m := rival.Move("slow gale"); m == nil || m.OnGuard != timeline.Some(-10) {
		s.t.Errorf("the file holds %+v, want a slow gale at -10 on guard", m)
	}
	if m := rival.Move("rising gale"); m.Startup != 4 {
		s.t.Errorf("rising gale starts in %d, want the table's 4", m.Startup)
	}
	if rival.Move("no gale") != nil {
		s.t.Error("the bad row was taken")
	}
}
