package main

import (
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"wakeline/storage"
	"wakeline/storage/table"
)

// buildJourney begins with an empty project and ends with a safe setup, by
// hand only: fighters, moves and a jump typed into the move data, blocks
// dragged from the shelf, the delay dragged until the verdict is safe. One
// frame more breaks it. Then everything is taken back, and done again; an edit
// of a move turns the setup, and the strip under the table says so.
func buildJourney(s *screen) {
	ended := s.start()
	s.wait("the sample", func(l seen) bool { return l.DelayAt != nil })
	s.id = s.window()
	s.wait("the question of the first start", func(l seen) bool { return l.Places["Empty project"] != [4]int{} })
	s.settled()
	s.shoot("journey-first-start.png")
	s.click("Empty project")
	s.wait("nothing", func(l seen) bool { return l.Setups == 0 && l.Places["Empty project"] == [4]int{} })
	s.settled()
	s.keys("ctrl+n")
	s.wait("the question for a file", func(l seen) bool { return l.Places["Create"] != [4]int{} })
	s.keys("ctrl+a")
	s.write(filepath.Join(s.dir, "tides"+storage.Ext))
	s.keys("Return")
	s.wait("an empty project", func(l seen) bool { return l.Setups == 0 && l.Places["Create"] == [4]int{} })
	s.settled()
	s.shoot("journey-empty.png")

	s.typeData()
	s.buildSetup()
	safe := s.dragUntilSafe()
	s.settled()
	s.shoot("journey-safe.png")
	safe = s.breakByAFrame(safe)
	s.undoAndRedo()
	s.keys("Left")
	s.wait("the safe delay again", func(l seen) bool { return l.Delay == safe && l.Verdict == "safe" })
	s.turnByAnEdit()
	s.keys("ctrl+q")
	ended()
}

// fighters typed into the move data, a move a line: its cells by column.
var (
	ostrelMoves = []map[string]string{
		{"name": "tide sweep", "kind": "strike", "level": "low", "startup": "8", "active": "3", "recovery": "22", "knockdown_midscreen": "46"},
		{"name": "falling heel", "kind": "strike", "air": "yes", "level": "overhead", "startup": "7", "active": "6", "hitstun": "20", "guardstun": "16"},
	}
	maerwynMoves = []map[string]string{
		{"name": "rising gale", "kind": "strike", "level": "mid", "startup": "5", "active": "4", "recovery": "30", "on_guard": "-28", "immune": "1-8"},
	}
)

// typeData types two fighters, their moves and a jump.
func (s *screen) typeData() {
	s.keys("ctrl+2")
	s.click("New fighter")
	s.wait("the question for a name", func(l seen) bool { return l.Focus == "name" })
	s.write("Ostrel")
	s.keys("Return")
	s.wait("the first fighter", func(l seen) bool { return l.Undo == "new fighter Ostrel" && l.Focus == "Grid" })
	s.typeMoves(ostrelMoves)
	s.shoot("journey-moves.png")
	s.click("Jumps")
	s.settled()
	s.row("forward jump", "4", "39", "3")
	s.wait("the jump", func(l seen) bool { return strings.HasPrefix(l.Undo, "new jump") })
	s.click("Fighters")
	s.settled()
	s.keys("Down")
	s.row("Maerwyn")
	s.wait("the second fighter", func(l seen) bool { return l.Undo == "new fighter Maerwyn" })
	s.click("Moves")
	s.click("Ostrel")
	s.click("Maerwyn")
	s.settled()
	s.typeMoves(maerwynMoves)
	s.keys("ctrl+1")
	s.wait("the setups", func(l seen) bool { return l.Page == "" })
}

// typeMoves types moves into the empty rows of the table, and waits for each.
func (s *screen) typeMoves(moves []map[string]string) {
	s.t.Helper()
	for _, m := range moves {
		last := 0
		for i, column := range table.MoveColumns() {
			if m[column] != "" {
				last = i
			}
		}
		var cells []string
		for _, column := range table.MoveColumns()[:last+1] {
			cells = append(cells, m[column])
		}
		s.row(cells...)
		column := table.MoveColumns()[last]
		shown := strings.ReplaceAll(column, "_", " ") // as its heading
		s.wait(m["name"]+" in the table", func(l seen) bool { return l.Undo == shown+" of "+m["name"]+": "+m[column] })
		s.keys("Down", "Home")
	}
}

// row types cells from the cursor on, Tab after each.
func (s *screen) row(cells ...string) {
	s.t.Helper()
	var args []string
	for _, c := range cells {
		if c != "" {
			args = append(args, "type", "--delay", "12", "--args", "1", "--", c)
		}
		args = append(args, "key", "--delay", "25", "Tab")
	}
	s.do(args...)
}

// buildSetup makes a setup, and drags its blocks from the shelf.
func (s *screen) buildSetup() {
	s.keys("ctrl+shift+n")
	s.wait("the question for a setup", func(l seen) bool { return l.Places["Create"] != [4]int{} })
	s.shoot("journey-new-setup.png")
	s.keys("Return")
	s.wait("the new setup", func(l seen) bool { return l.Setup == "tide sweep vs Maerwyn" && l.DelayAt != nil })
	s.keys("ctrl+b")
	for _, b := range []struct{ block, track, undo string }{
		{"jump forward jump", "the attacker's track", "forward jump"},
		{"attack falling heel", "the attacker's track", "falling heel"},
		{"reply rising gale", "the rival's track", "own replies"},
	} {
		s.carry(b.block, b.track)
		s.wait(b.block+" on the sheet", func(l seen) bool { return l.Undo == b.undo })
	}
	s.shoot("journey-built.png")
}

// dragUntilSafe drags the delay, a frame at a time, until the window says
// safe, and a frame at a time on to the last safe one.
func (s *screen) dragUntilSafe() (safe int) {
	at := s.settled()
	if at.Verdict != "unsafe" || at.Delay != 0 {
		s.t.Errorf("the setup as built: %+v", at)
	}
	x, y := (at.DelayAt[0]+at.DelayAt[2])/2, (at.DelayAt[1]+at.DelayAt[3])/2
	s.moveTo(x, y)
	s.do("keydown", "ctrl", "mousedown", "1")
	for d := 1; at.Verdict != "safe"; d++ {
		if d > 12 {
			s.t.Fatalf("no delay up to 12 is safe: %+v", at)
		}
		s.moveTo(x+int(float64(d)*at.PixelsAFrame+0.5), y)
		at = s.wait("delay "+strconv.Itoa(d), func(l seen) bool { return l.Delay == d })
	}
	s.do("mouseup", "1", "keyup", "ctrl")
	return at.Delay
}

// breakByAFrame goes on with the Right key to the last safe delay, and one
// frame further.
func (s *screen) breakByAFrame(safe int) (last int) {
	for last = safe; ; last++ {
		s.keys("Right")
		at := s.wait("one frame more", func(l seen) bool { return l.Delay == last+1 })
		if at.Verdict == "unsafe" {
			s.settled()
			s.shoot("journey-broken.png")
			return last
		}
	}
}

// undoAndRedo takes back all that was done, and does it again.
func (s *screen) undoAndRedo() {
	end := s.settled()
	steps := 0
	for at := end; at.Undo != ""; steps++ {
		before := at
		s.keys("ctrl+z")
		at = s.wait("undo of "+before.Undo, func(l seen) bool { return l.Undo != before.Undo || l.Redo != before.Redo })
	}
	if at := s.settled(); at.Setups != 0 {
		s.t.Errorf("with %d steps taken back there are %d setups", steps, at.Setups)
	}
	for at, n := s.settled(), 0; at.Redo != ""; n++ {
		before := at
		s.keys("ctrl+shift+z")
		at = s.wait("redo of "+before.Redo, func(l seen) bool { return l.Undo != before.Undo || l.Redo != before.Redo })
	}
	if at := s.settled(); at.Setup != end.Setup || at.Delay != end.Delay || at.Verdict != end.Verdict || at.Because != end.Because {
		s.t.Errorf("all %d steps done again it shows %+v, was %+v", steps, at, end)
	}
}

// turnByAnEdit makes the reply quicker by a frame: the strip under the table
// says that the setup would turn, and leads to it.
func (s *screen) turnByAnEdit() {
	s.keys("ctrl+2")
	s.wait("the move data", func(l seen) bool { return l.Focus == "Grid" })
	s.keys("ctrl+Home")
	for range slices.Index(table.MoveColumns(), "startup") {
		s.keys("Right")
	}
	s.write("4")
	turned := "tide sweep vs Maerwyn: safe to unsafe"
	s.wait("the strip to name the setup", func(l seen) bool { return l.Places[turned] != [4]int{} })
	s.shoot("journey-edit-turns.png")
	s.keys("Return")
	s.wait("the edit", func(l seen) bool { return l.Undo == "startup of rising gale: 4" })
	s.click(turned)
	s.wait("the setup it leads to", func(l seen) bool { return l.Page == "" && l.Verdict == "unsafe" })
	s.settled()
	s.keys("ctrl+z")
	s.wait("the edit taken back", func(l seen) bool { return l.Verdict == "safe" })
}
