package timeline_test

import (
	"strings"
	"testing"

	. "wakeline/timeline"
	"wakeline/timeline/words"
)

// TestNothingToJudgeYet: a setup without an attack and without a demanded reply
// is safe by frames.md, but called something else, and its sentence says that
// nothing is demanded; a strike, or a reply to survive, ends that.
func TestNothingToJudgeYet(t *testing.T) {
	p, s := blankProject()
	judged := func(s Setup) (words.Verdict, Judgement, []Bounds) {
		t.Helper()
		plan, err := Compile(p, s)
		if err != nil {
			t.Fatal(err)
		}
		scene := words.SceneAt(plan, s.Delay, 0, 2)
		return words.VerdictAt(plan, s.Delay), scene.Verdict.Judgement(), scene.Window
	}
	for name, edit := range map[string]func(s *Setup){
		"an ender alone":        func(s *Setup) {},
		"an empty jump":         func(s *Setup) { s.Jump = "hop" },
		"a reply that is shown": func(s *Setup) { s.Replies = []Reply{{Move: "jab", Demand: DemandNone}} },
	} {
		next := s
		edit(&next)
		v, mark, window := judged(next)
		if len(window) > 0 {
			t.Errorf("%s: its sheet shows the window %v", name, window)
		}
		if v.Word != Safe || v.Called != Blank || mark != JudgedNothing || !strings.HasPrefix(v.Because, "Nothing is demanded yet") {
			t.Errorf("%s: %s, called %s, marked %s: %s", name, v.Word, v.Called, mark, v.Because)
		}
	}
	for name, edit := range map[string]func(s *Setup){
		"an attack":          func(s *Setup) { s.Jump, s.Attack = "hop", "kick" },
		"a landing move":     func(s *Setup) { s.Landing = "jab" },
		"a reply to survive": func(s *Setup) { s.Replies = []Reply{{Move: "jab", Demand: Survive}} },
	} {
		next := s
		edit(&next)
		if v, mark, _ := judged(next); v.Called != v.Word || mark != v.Word.Judgement() || mark == JudgedNothing {
			t.Errorf("%s: %s, called %s, marked %s", name, v.Word, v.Called, mark)
		}
	}
}

// blankProject is a fighter and a setup of its that holds an ender alone.
func blankProject() (*Project, Setup) {
	f := Fighter{Name: "Rowan", Rises: []Rise{{Name: "normal"}}, Jumps: []Jump{{Name: "hop", Prejump: 3, Airborne: 30, Landing: 3}}, Moves: []Move{
		{Name: "sweep", Kind: Strike, Level: Low, Startup: 8, Active: []int{2}, Recovery: 20, Knockdown: Places{Midscreen: Some(40)}},
		{Name: "kick", Kind: Strike, Air: true, Level: Overhead, Startup: 6, Active: []int{5}, Hitstun: Some(20), Guardstun: Some(15)},
		{Name: "jab", Kind: Strike, Level: Mid, Startup: 4, Active: []int{2}, Recovery: 8},
	}}
	return &Project{Ruleset: DefaultRuleset(), Fighters: []Fighter{f}},
		Setup{Name: "empty", Attacker: "Rowan", Rival: "Rowan", Ender: "sweep", Position: Midscreen, Landing: DoGuard}
}
