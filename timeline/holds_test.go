package timeline

import "testing"

func TestHolds(t *testing.T) {
	s := Setup{Name: "Plain", Attacker: "Ostrel", Rival: "Maerwyn", Ender: "tide sweep", Position: Wall, Fillers: []string{"palm strike"},
		Jump: "forward jump", Attack: "Falling heel", Landing: "low reed", Replies: []Reply{{Move: "rising gale"}}, Tags: []string{"Éclair"}, Note: "at night"}
	for _, text := range []string{"", "plain", "OSTREL", "maer", "tide", "wall", "palm", "forward", "falling HEEL", "reed", "gale", "éclAIR", "night"} {
		if !s.Holds(text) {
			t.Errorf("it doesn't hold %q", text)
		}
	}
	s.Landing = DoGuard
	for _, text := range []string{"reed", "guard", "midscreen", "survive"} {
		if s.Holds(text) {
			t.Errorf("it holds %q", text)
		}
	}
}
