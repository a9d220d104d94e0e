package ui

import (
	"fmt"

	. "wakeline/timeline"
)

// sample is a small project for tests: with setup 0 an undelayed jump is one
// frame short of its window.
func sample() *Project {
	attacker := Fighter{
		Name: "Ostrel",
		Moves: []Move{
			{Name: "tide sweep", Kind: Strike, Level: Low, Startup: 8, Active: []int{3}, Recovery: 22, Knockdown: Places{Midscreen: Some(58), Wall: Some(61)}},
			{Name: "short step", Kind: Dash, Length: 12},
			{Name: "feint palm", Kind: Strike, Level: Mid, Startup: 4, Active: []int{2}, Recovery: 6, OnHit: Some(4), OnGuard: Some(1)},
			{Name: "falling heel", Kind: Strike, Air: true, Level: Overhead, Startup: 7, Active: []int{6}, Hitstun: Some(20), Guardstun: Some(16)},
			{Name: "low reed", Kind: Strike, Level: Low, Startup: 5, Active: []int{3}, Recovery: 9, OnHit: Some(5), OnGuard: Some(-1)},
		},
		Jumps: []Jump{{Name: "forward jump", Prejump: 4, Airborne: 39, Landing: 3, Travel: 190}},
		Rises: []Rise{{Name: "quick"}},
	}
	rival := Fighter{
		Name: "Maerwyn",
		Moves: []Move{
			{Name: "rising gale", Kind: Strike, Level: Mid, Startup: 5, Active: []int{4, 3, 6}, Recovery: 30, OnGuard: Some(-28), Immune: []Immunity{{Window: Window{From: 1, To: 8}, Strikes: true, Throws: true}}},
			{Name: "slow anchor", Kind: Strike, Level: Mid, Startup: 9, Active: []int{4}, Recovery: 18, OnGuard: Some(-10), Armour: []Armour{{Window: Window{From: 3, To: 10}, Hits: 1}}},
			{Name: "grip", Kind: Throw, Level: LevelThrow, Startup: 5, Active: []int{3}, Recovery: 24},
			{Name: "quick jab", Kind: Strike, Level: Mid, Startup: 4, Active: []int{2}, Recovery: 7, OnGuard: Some(1)},
			{Name: "back step", Kind: Evade, Length: 24, Immune: []Immunity{{Window: Window{From: 1, To: 12}, Strikes: true, Throws: true}}},
		},
		Jumps: []Jump{{Name: "back jump", Prejump: 4, Airborne: 36, Landing: 3}},
		Rises: []Rise{{Name: "quick"}, {Name: "back roll", Extra: 3, Shift: 90}},
	}
	setup := Setup{
		Name: "tide sweep, two steps, heel", Attacker: "Ostrel", Rival: "Maerwyn", Ender: "tide sweep", Position: Midscreen,
		Fillers: []string{"short step"}, Delay: 3, Jump: "forward jump", Attack: "falling heel", Landing: DoGuard, Rises: []string{"quick"},
		Replies: []Reply{
			{Move: "rising gale", Demand: Survive}, {Move: "quick jab", Demand: Beat}, {Move: "grip", Demand: Survive}, {Move: "slow anchor", Demand: NoneD}, {Move: "back step", Demand: NoneD}, {Move: "rising gale", Demand: Survive, Late: 2},
		},
	}
	both := setup
	both.Name, both.Rises, both.Delay = "tide sweep, heel, both rises", nil, 4
	palm := setup
	palm.Name, palm.Fillers, palm.Delay = "tide sweep, palm and step", []string{"feint palm", "short step"}, 0
	palm.Advantage = Some(66)
	return &Project{Ruleset: DefaultRuleset(), Fighters: []Fighter{attacker, rival}, Setups: []Setup{setup, both, palm}}
}

// many is the sample with n setups.
func many(n int) *Project {
	p := sample()
	first := p.Setups[0]
	for i := len(p.Setups); i < n; i++ {
		s := first
		s.Name = fmt.Sprintf("%s, no. %d", first.Name, i)
		s.Delay = i % 9
		p.Setups = append(p.Setups, s)
	}
	return p
}
