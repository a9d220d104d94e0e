package sheet

import (
	"testing"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// some is shorthand for a number that is given.
func some(n int) timeline.Maybe { return timeline.Some(n) }

// demo is an invented project with one of everything that a sheet draws.
func demo() *timeline.Project {
	two := timeline.Places{Midscreen: some(42), Wall: some(44)}
	fighter := func(name string) timeline.Fighter {
		return timeline.Fighter{
			Name: name, Body: some(100),
			Moves: []timeline.Move{
				{Name: "heel sweep", Kind: timeline.Strike, Level: timeline.Low, Startup: 8, Active: []int{3}, Recovery: 20, Knockdown: two},
				{Name: "palm jab", Kind: timeline.Strike, Level: timeline.Mid, Startup: 5, Active: []int{3}, Recovery: 9, OnHit: some(4), OnGuard: some(-2)},
				{Name: "kite kick", Kind: timeline.Strike, Air: true, Level: timeline.Overhead, Startup: 7, Active: []int{6}, Hitstun: some(20), Guardstun: some(16), Deep: some(4)},
				{Name: "late kite", Kind: timeline.Strike, Air: true, Level: timeline.Overhead, Startup: 12, Active: []int{3, 2, 4}, Guardstun: some(14), Deep: some(3)},
				{Name: "rising lantern", Kind: timeline.Strike, Level: timeline.Mid, Startup: 4, Active: []int{5}, Recovery: 31, OnGuard: some(-28),
					Immune: []timeline.Immunity{{Window: timeline.Window{From: 1, To: 8}, Strikes: true, Throws: true}}},
				{Name: "short fuse", Kind: timeline.Strike, Level: timeline.Mid, Startup: 2, Active: []int{2}, Recovery: 24, OnGuard: some(-20),
					Immune: []timeline.Immunity{{Window: timeline.Window{From: 1, To: 3}, Strikes: true}}},
				{Name: "anvil shoulder", Kind: timeline.Strike, Level: timeline.Mid, Startup: 16, Active: []int{4}, Recovery: 22, OnGuard: some(-9),
					Armour: []timeline.Armour{{Window: timeline.Window{From: 1, To: 16}, Hits: 1}},
					Immune: []timeline.Immunity{{Window: timeline.Window{From: 1, To: 6}, Throws: true}}},
				{Name: "mirror palm", Kind: timeline.Parry, Length: 34, Parry: []timeline.Window{{From: 1, To: 12}}},
				{Name: "collar grab", Kind: timeline.Throw, Level: timeline.LevelThrow, Startup: 5, Active: []int{3}, Recovery: 20},
				{Name: "side slip", Kind: timeline.Evade, Length: 26, Immune: []timeline.Immunity{{Window: timeline.Window{From: 2, To: 18}, Strikes: true}}},
				{Name: "dash", Kind: timeline.Dash, Length: 19},
			},
			Jumps: []timeline.Jump{
				{Name: "forward jump", Prejump: 4, Airborne: 39, Landing: 3, Travel: 190, Apex: some(200)},
				{Name: "hop", Prejump: 4, Airborne: 24, Landing: 4, GuardAfter: 2, Travel: 90, Apex: some(90)},
			},
			Rises: []timeline.Rise{{Name: "normal"}, {Name: "backward", Extra: 6, Shift: 60}},
		}
	}
	replies := []timeline.Reply{
		{Move: "rising lantern", Demand: timeline.Survive}, {Move: "mirror palm", Demand: timeline.DemandNone},
		{Move: "palm jab", Demand: timeline.Beat, Late: 2}, {Move: "anvil shoulder", Demand: timeline.DemandNone},
		{Move: "collar grab", Demand: timeline.DemandNone}, {Move: "side slip", Demand: timeline.DemandNone},
		{Move: "forward jump", Demand: timeline.DemandNone}, {Move: "short fuse", Demand: timeline.DemandNone},
		{Move: "dash", Demand: timeline.DemandNone, Late: 12},
	}
	base := timeline.Setup{
		Name: "sweep into kite", Attacker: "Juno Marsh", Rival: "Old Brannoc", Ender: "heel sweep", Position: timeline.Midscreen,
		Jump: "forward jump", Attack: "kite kick", Landing: timeline.DoGuard, Rises: []string{"normal"}, Replies: replies,
	}
	with := func(name string, change func(s *timeline.Setup)) timeline.Setup {
		s := base
		s.Name = name
		change(&s)
		return s
	}
	return &timeline.Project{
		Ruleset:  timeline.DefaultRuleset(),
		Fighters: []timeline.Fighter{fighter("Juno Marsh"), fighter("Old Brannoc")},
		Setups: []timeline.Setup{
			base,
			with("three frames too late", func(s *timeline.Setup) { s.Delay = 3 }),
			with("jab, then the long wait", func(s *timeline.Setup) {
				s.Advantage, s.Fillers, s.Delay = some(84), []string{"palm jab", "dash"}, 6
			}),
			with("mirror asked of it", func(s *timeline.Setup) {
				s.Replies = []timeline.Reply{{Move: "rising lantern", Demand: timeline.Survive}, {Move: "mirror palm", Demand: timeline.Survive}}
			}),
			with("empty hop and grab", func(s *timeline.Setup) {
				s.Advantage, s.Jump, s.Attack, s.Landing = some(30), "hop", "", "collar grab"
			}),
			with("bait", func(s *timeline.Setup) { s.Attack = "" }),
			with("grounded meaty", func(s *timeline.Setup) {
				s.Jump, s.Attack, s.Landing, s.Delay = "", "", "palm jab", 37
			}),
			with("wall, parry held", func(s *timeline.Setup) {
				s.Position, s.Landing, s.Delay, s.Attack = timeline.Wall, timeline.DoParry, 1, "late kite"
			}),
			with("three hundred frames of wait", func(s *timeline.Setup) {
				s.Advantage, s.Delay, s.Fillers = some(400), 300, []string{"hop", "hop"}
			}),
			with("armoured landing", func(s *timeline.Setup) {
				s.Landing, s.Attack, s.Advantage = "anvil shoulder", "", some(50)
			}),
		},
	}
}

// plans compiles every setup of p.
func plans(t testing.TB, p *timeline.Project) []*timeline.Plan {
	t.Helper()
	if err := p.Check(); err != nil {
		t.Fatal(err)
	}
	var out []*timeline.Plan
	for i := range p.Setups {
		plan, err := timeline.Compile(p, p.Setups[i])
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, plan)
	}
	return out
}

// sheetOf is the setup of that index, drawn at its own delay in the exchange
// that decides it.
func sheetOf(t testing.TB, index int, w, h float64) (words.Scene, Options) {
	t.Helper()
	p := plans(t, demo())[index]
	d := p.Setup.Delay
	rise, line := p.Deciding(d)
	return words.SceneAt(p, d, rise, line), Options{W: w, H: h, Sentence: words.VerdictAt(p, d).Because, Position: string(p.Setup.Position)}
}

// sheets are drawings of every kind, each with the theme it is shown in: strips
// under three namings, then pages.
func sheets(t *testing.T) (out []*Drawing) {
	t.Helper()
	for _, naming := range []int{0, 3, 4} {
		for _, p := range plans(t, renamed(namings[naming].change)) {
			d := p.Setup.Delay
			rise, line := p.Deciding(d)
			s := words.SceneAt(p, d, rise, line)
			out = append(out, Draw(&s, Options{W: 1024, H: 560, Sentence: words.VerdictAt(p, d).Because}))
		}
	}
	return append(out, pages(t)...)
}

// pages are a lesson, one in letters that the font lacks, a match-up, contents,
// a contact sheet and the glossary.
func pages(t *testing.T) (out []*Drawing) {
	t.Helper()
	for _, naming := range []int{0, 3} {
		l := lessonsOf(t, namings[naming].change)[2]
		out = append(out, DrawLesson(&l, 1024))
	}
	g, attacker, rival := gridOf(t, namings[0].change)
	grid, err := DrawGrid(&g, attacker, rival, 1024)
	if err != nil {
		t.Fatal(err)
	}
	s, o := sheetOf(t, 0, ContactW, ContactH)
	return append(out, grid, Contents("Contents", []Entry{{Name: "one", About: "a vs b", Answer: "Safe at delay 0 to 2.", Word: timeline.Safe}, {Name: "two", Word: timeline.Limited, Pages: 2}}, 800, 600)[0],
		DrawContact([]*Drawing{Draw(&s, o)}, []string{"one.png"}, "All", 1, 1), DrawGlossary(words.Glossary(), "Words", 1024))
}
