package timeline

import "testing"

// TestTheTouchedSideStandsInStun holds later spans to the place of the first
// touch: who is hit or guards takes no step until it is free.
func TestTheTouchedSideStandsInStun(t *testing.T) {
	fighter := func(name string, moves ...Move) Fighter {
		return Fighter{Name: name, Moves: moves, Rises: DefaultRises(), Jumps: []Jump{{Name: "hop", Prejump: 4, Airborne: 10, Landing: 6}}}
	}
	// Active on its frames 3 to 4 and 8 to 9, of 19.
	twice := Move{Name: "twice", Kind: Strike, Level: Mid, Startup: 3, Active: []int{2, 3, 2}, Recovery: 10, Hitstun: Some(20), Reach: &Interval{0, 52}}
	// Active on its frames 6 to 7 and 13 to 14, of 23.
	slow := Move{Name: "slow", Kind: Strike, Level: Mid, Startup: 6, Active: []int{2, 5, 2}, Recovery: 9, Guardstun: Some(10), Reach: &Interval{0, 60}}
	off := Move{Name: "off", Kind: Dash, Length: 18, Travel: -90} // 5 units a frame
	back := Move{Name: "back", Kind: Dash, Length: 10, Travel: -100}
	p := &Project{DefaultRuleset(), []Fighter{fighter("Hesk", twice, back), fighter("Tarn", slow, off)}, nil}
	for _, c := range []struct {
		name  string
		setup Setup
		reply Reply
		want  Cell
	}{
		// Hit on 10 by the first span; the second, from 15 on, finds it at 50
		// still: 15 + 1 + 20 - 27.
		{"a dash that has begun", Setup{Delay: 8, Landing: "twice"}, Reply{Move: "off", Demand: Survive},
			Cell{Outcome: AttackHits, Meeting: Some(10), AfterWake: Some(0), Advantage: Some(9), Apart: Some(50), Side: InFront}},
		{"a dash that never begins", Setup{Delay: 8, Landing: "twice"}, Reply{Move: "off", Demand: Survive, Late: 2},
			Cell{Outcome: AttackHits, Meeting: Some(10), AfterWake: Some(0), Advantage: Some(9), Apart: Some(50), Side: InFront}},
		// Guarded on 15, before the landing dash of 20; guarded again on 22, so
		// the reply's end on 33 lies on the end of the guard.
		{"a landing dash that never begins", Setup{Jump: "hop", Landing: "back"}, Reply{Move: "slow", Demand: Survive},
			Cell{Outcome: ReplyBlocked, Meeting: Some(15), Spare: Some(1), ToPunish: Some(0), Apart: Some(50), Side: InFront}},
	} {
		s := c.setup
		s.Name, s.Attacker, s.Rival, s.Position = "s", "Hesk", "Tarn", Midscreen
		s.Advantage, s.Distance, s.Replies = Some(10), Some(50), []Reply{c.reply}
		p.Setups = []Setup{s}
		r := verdictOf(t, p, nil).Rises[0].Replies[3]
		if got := (Cell{r.Outcome, r.Meeting, r.Spare, r.AfterWake, r.Advantage, r.ToPunish, r.Apart, r.Side}); got != c.want {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
}
