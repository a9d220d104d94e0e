package pagetest

import (
	"fmt"

	"wakeline/timeline"
)

// Sample is a small project for tests: with setup 0 an undelayed jump is one
// frame short of its window.
func Sample() *timeline.Project {
	attacker := timeline.Fighter{
		Name: "Ostrel",
		Moves: []timeline.Move{
			{Name: "tide sweep", Kind: timeline.Strike, Level: timeline.Low, Startup: 8, Active: []int{3}, Recovery: 22, Knockdown: timeline.Places{Midscreen: timeline.Some(58), Wall: timeline.Some(61)}},
			{Name: "short step", Kind: timeline.Dash, Length: 12},
			{Name: "feint palm", Kind: timeline.Strike, Level: timeline.Mid, Startup: 4, Active: []int{2}, Recovery: 6, OnHit: timeline.Some(4), OnGuard: timeline.Some(1)},
			{Name: "falling heel", Kind: timeline.Strike, Air: true, Level: timeline.Overhead, Startup: 7, Active: []int{6}, Hitstun: timeline.Some(20), Guardstun: timeline.Some(16)},
			{Name: "low reed", Kind: timeline.Strike, Level: timeline.Low, Startup: 5, Active: []int{3}, Recovery: 9, OnHit: timeline.Some(5), OnGuard: timeline.Some(-1)},
		},
		Jumps: []timeline.Jump{{Name: "forward jump", Prejump: 4, Airborne: 39, Landing: 3, Travel: 190}},
		Rises: []timeline.Rise{{Name: "normal"}},
	}
	rival := timeline.Fighter{
		Name: "Maerwyn",
		Moves: []timeline.Move{
			{Name: "rising gale", Kind: timeline.Strike, Level: timeline.Mid, Startup: 5, Active: []int{4, 3, 6}, Recovery: 30, OnGuard: timeline.Some(-28), Immune: []timeline.Immunity{{Window: timeline.Window{From: 1, To: 8}, Strikes: true, Throws: true}}},
			{Name: "slow anchor", Kind: timeline.Strike, Level: timeline.Mid, Startup: 9, Active: []int{4}, Recovery: 18, OnGuard: timeline.Some(-10), Armour: []timeline.Armour{{Window: timeline.Window{From: 3, To: 10}, Hits: 1}}},
			{Name: "grip", Kind: timeline.Throw, Level: timeline.LevelThrow, Startup: 5, Active: []int{3}, Recovery: 24},
			{Name: "quick jab", Kind: timeline.Strike, Level: timeline.Mid, Startup: 4, Active: []int{2}, Recovery: 7, OnGuard: timeline.Some(1)},
			{Name: "back step", Kind: timeline.Evade, Length: 24, Immune: []timeline.Immunity{{Window: timeline.Window{From: 1, To: 12}, Strikes: true, Throws: true}}},
		},
		Jumps: []timeline.Jump{{Name: "back jump", Prejump: 4, Airborne: 36, Landing: 3}},
		Rises: []timeline.Rise{{Name: "normal"}, {Name: "back roll", Extra: 3, Shift: 90}},
	}
	setup := timeline.Setup{
		Name: "tide sweep, two steps, heel", Attacker: "Ostrel", Rival: "Maerwyn", Ender: "tide sweep", Position: timeline.Midscreen,
		Fillers: []string{"short step"}, Delay: 3, Jump: "forward jump", Attack: "falling heel", Landing: timeline.DoGuard, Rises: []string{"normal"},
		Replies: []timeline.Reply{
			{Move: "rising gale", Demand: timeline.Survive}, {Move: "quick jab", Demand: timeline.Beat}, {Move: "grip", Demand: timeline.Survive}, {Move: "slow anchor", Demand: timeline.DemandNone}, {Move: "back step", Demand: timeline.DemandNone}, {Move: "rising gale", Demand: timeline.Survive, Late: 2},
		},
	}
	both := setup
	both.Name, both.Rises, both.Delay = "tide sweep, heel, both rises", nil, 4
	palm := setup
	palm.Name, palm.Fillers, palm.Delay = "tide sweep, palm and step", []string{"feint palm", "short step"}, 0
	palm.Advantage = timeline.Some(66)
	return &timeline.Project{Ruleset: timeline.DefaultRuleset(), Fighters: []timeline.Fighter{attacker, rival}, Setups: []timeline.Setup{setup, both, palm}}
}

// Many is the sample with n setups.
func Many(n int) *timeline.Project {
	p := Sample()
	first := p.Setups[0]
	for i := len(p.Setups); i < n; i++ {
		s := first
		s.Name = fmt.Sprintf("%s, no. %d", first.Name, i)
		s.Delay = i % 9
		p.Setups = append(p.Setups, s)
	}
	return p
}
