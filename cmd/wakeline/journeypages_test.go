package main

import (
	"os"
	"strconv"
	"strings"
)

// largerText asks for larger letters: everything grows by a fifth, and the
// window stays as large as it was, but for a pixel.
func largerText(s *screen) {
	before := s.settled()
	was := s.do("getwindowgeometry", "--shell", s.id)
	s.keys("alt+v", "Up", "Up", "Up", "Right", "Down", "Down", "Return")
	right := func(l seen) float64 { return float64(l.Places["menu Help"][2]) }
	s.wait("larger letters", func(l seen) bool { return right(l) > 1.15*right(before) })
	at := s.settled()
	if k := right(at) / right(before); k < 1.18 || k > 1.22 {
		s.t.Errorf("the menus grew by %.3f, want 1.2", k)
	}
	width := func(shell string) (n int) {
		for _, line := range strings.Split(shell, "\n") {
			if v, ok := strings.CutPrefix(line, "WIDTH="); ok {
				n, _ = strconv.Atoi(v)
			}
		}
		return n
	}
	if is := s.do("getwindowgeometry", "--shell", s.id); width(was)-width(is) > 2 || width(is) > width(was) {
		s.t.Errorf("the window was %d wide, and is %d", width(was), width(is))
	}
	s.shoot("journey-larger-text.png")
	s.keys("alt+v", "Up", "Up", "Up", "Right", "Down", "Return")
	s.wait("small letters again", func(l seen) bool { return right(l) < 1.02*right(before) })
}

// pagesJourney goes to every page by the bar, and through the menus with the
// pointer alone.
func pagesJourney(s *screen) {
	text, err := os.ReadFile("../../samples/sample.json")
	if err != nil {
		s.t.Fatal(err)
	}
	_, ended := s.open(string(text))
	s.settled()
	for _, p := range []struct{ name, page string }{
		{"Move data", "dataPage"}, {"Match-up", "matchupPage"}, {"Cast", "castPage"}, {"Find", "findPage"}, {"Drill", "drillPage"}, {"Lesson", "lessonPage"},
		{"Export", "exportPage"}, {"History", "historyPage"}, {"Glossary", "glossaryPage"}, {"Timeline", ""},
	} {
		s.click("page " + p.name)
		s.wait("the page "+p.name, func(l seen) bool { return l.Page == p.page && l.Focus != "pageBar" && l.Focus != "" })
		s.shoot("journey-page-" + strings.ToLower(strings.ReplaceAll(p.name, " ", "-")) + ".png")
	}
	s.click("menu File")
	s.wait("the menu File", func(l seen) bool { return l.Places["Quit"] != [4]int{} })
	s.click("menu Edit")
	s.wait("the menu Edit, by a click on its title", func(l seen) bool { return l.Focus == "openMenu" && l.Places["Copy as text"] != [4]int{} })
	s.moveTo(s.spot("menu Pages"))
	s.wait("the menu Pages, by the pointer", func(l seen) bool { return l.Places["Match-up"] != [4]int{} })
	s.click("Match-up")
	s.wait("the match-up, by the menu", func(l seen) bool { return l.Page == "matchupPage" && l.Focus == "matchupGrid" })
	s.keys("alt+h", "Escape")
	s.wait("Escape to close the menu, not the page", func(l seen) bool { return l.Page == "matchupPage" && l.Focus == "matchupGrid" })
	s.keys("ctrl+h")
	s.wait("the history by its key", func(l seen) bool { return l.Page == "historyPage" })
	s.keys("Escape")
	s.wait("the timeline", func(l seen) bool { return l.Page == "" && l.Focus == "Timeline" })
	largerText(s)
	s.keys("ctrl+q")
	ended()
}
