package timeline_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	. "wakeline/timeline"
	"wakeline/timeline/words"
)

// TestTaughtNamesTheRules: where a rule of the game decides, the student is
// told which.
func TestTaughtNamesTheRules(t *testing.T) {
	grab := func(startup, active int) Move {
		return Move{Name: "grab", Kind: Throw, Level: LevelThrow, Startup: startup, Active: []int{active}, Recovery: 20}
	}
	swing := Move{Name: "swing", Kind: Strike, Level: Mid, Startup: 1, Active: []int{3}, Recovery: 20}
	haul := func(p *Project) {
		p.Fighters[0].Moves = append(p.Fighters[0].Moves, Move{Name: "haul", Kind: Throw, Level: LevelThrow, Startup: 5, Active: []int{2}, Recovery: 20})
		p.Setups[0].Landing = "haul"
	}
	bait := func(p *Project) { p.Setups[0].Attack = "" }
	none := func(*Project) {}
	cases := []struct {
		name    string
		project *Project
		change  func(p *Project)
		delay   int
		outcome Outcome
		want    string // empty: no rule is named
	}{
		{"landing grace", DropIn(42, grab(2, 2)), func(p *Project) { bait(p); p.Ruleset.ThrowGraceLanding = 2 }, 0, NoContact,
			"grab is active on frame 43, but Hesk can't be thrown for 2 frames after landing (throw immunity on landing)."},
		{"no landing grace", DropIn(42, grab(2, 2)), bait, 0, ReplyThrows, ""},
		{"in the air", DropIn(42, grab(2, 2)), bait, 8, NoContact, "grab is active on frame 43, but Hesk can't be thrown in the air."},
		{"in prejump", DropIn(42, grab(2, 2)), bait, 42, NoContact, "grab is active on frame 43, but Hesk can't be thrown in prejump (prejump immune to throws)."},
		{"thrown in prejump", DropIn(42, grab(2, 2)), func(p *Project) { bait(p); p.Ruleset.PrejumpThrowProof = false }, 42, ReplyThrows, ""},
		{"two strikes trade", JabAt(4, swing), none, 0, Trade, "In this ruleset two strikes on one frame both hit."},
		{"two strikes, the attacker's wins", JabAt(4, swing), func(p *Project) { p.Ruleset.Trades = false }, 0, AttackHits,
			"In this ruleset the attacker's strike wins where two touch on one frame."},
		{"a strike beats a throw", JabAt(4, grab(1, 2)), none, 0, AttackHits, "On one frame a strike beats a throw."},
		{"a throw loses to a strike", JabAt(4, swing), haul, 0, ReplyHits, "On one frame a strike beats a throw."},
		{"two throws", JabAt(4, grab(1, 2)), haul, 0, Trade, "Two throws on one frame trade."},
		{"throw grace after the wake-up", JabAt(2, Move{Name: "wait", Kind: Evade, Length: 10}), func(p *Project) { haul(p); p.Ruleset.ThrowGraceRise = 2 }, 0, AttackHits,
			"After the wake-up Tarn can't be thrown for 2 frames (throw immunity after wake-up)."},
		{"a late guard", DropIn(42, Reversal(4)), func(p *Project) { p.Fighters[0].Jumps[0].GuardAfter = 2 }, 1, ReplyHits, "After landing Hesk can't guard for 2 frames."},
		{"no rule", DropIn(42, Reversal(4)), none, 1, ReplyBlocked, ""},
	}
	rules := []string{"throw immunity", "can't be thrown", "In this ruleset", "On one frame", "on one frame", "After landing", "After the wake-up"}
	for _, c := range cases {
		c.change(c.project)
		if err := c.project.Check(); err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		plan, err := Compile(c.project, c.project.Setups[0])
		if err != nil {
			t.Fatal(err)
		}
		s := words.LessonAt(plan, c.delay, 0, 0, 3).Steps[0]
		if got := s.Scene.Cell.Outcome; got != c.outcome {
			t.Errorf("%s: outcome %v, want %v", c.name, got, c.outcome)
		}
		named := slices.ContainsFunc(rules, func(r string) bool { return strings.Contains(s.Sentence, r) })
		if named != (c.want != "") || !strings.Contains(s.Sentence, c.want) {
			t.Errorf("%s: %q, want %q in it", c.name, s.Sentence, c.want)
		}
	}
}

// named is move m under another name.
func named(m Move, name string) Move {
	m.Name = name
	return m
}

// TestGivesUp: what wins though nothing is demanded of it is told, and nothing
// else.
func TestGivesUp(t *testing.T) {
	grab := Move{Name: "grab", Kind: Throw, Level: LevelThrow, Startup: 5, Active: []int{3}, Recovery: 20}
	turn := Move{Name: "turn", Kind: Parry, Length: 30, Parry: []Window{{1, 10}}}
	plan := func(advantage int, change func(p *Project), replies ...Move) *Plan {
		t.Helper()
		p := DropIn(advantage, replies...)
		for i := range p.Setups[0].Replies {
			p.Setups[0].Replies[i].Demand = DemandNone
		}
		change(p)
		if err := p.Check(); err != nil {
			t.Fatal(err)
		}
		plan, err := Compile(p, p.Setups[0])
		if err != nil {
			t.Fatal(err)
		}
		return plan
	}
	none := func(*Project) {}
	for _, c := range []struct {
		name string
		plan *Plan
		d    int
		want string
	}{
		{"none wins", plan(42, none, grab), 0, ""},
		{"one wins", plan(42, none, grab, turn), 0, "Loses to turn (attack parried on 42): nothing is demanded of it."},
		{"two win", plan(44, none, grab, turn), 0, "Loses to grab (reply throws on 48): nothing is demanded of it."},
		{"demanded", plan(42, func(p *Project) { p.Setups[0].Replies[0].Demand = Survive }, turn), 0, ""},
		{"on one rise", plan(42, func(p *Project) {
			p.Fighters[1].Rises = append(p.Fighters[1].Rises, Rise{Name: "late", Extra: 2})
		}, grab), 0, "Loses to grab (late rise, reply throws on 48): nothing is demanded of it."},
		{"many", plan(42, none, named(turn, "one"), named(turn, "two"), named(turn, "three"), named(turn, "four"), named(turn, "five")), 0,
			"Loses to one (attack parried on 42), two (attack parried on 42), three (attack parried on 42) and 2 more: nothing is demanded of them."},
	} {
		if got := words.LessonAt(c.plan, c.d, 0, 0, words.Breaking).GivesUp; got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
		short := regexp.MustCompile(` \([^)]*\)`).ReplaceAllString(c.want, "")
		if got := words.SceneAt(c.plan, c.d, 0, 0).GivesUp; got != short {
			t.Errorf("%s: the scene says %q, want %q", c.name, got, short)
		}
	}
}
