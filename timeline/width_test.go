package timeline

import (
	"errors"
	"testing"
)

// TestWhereAPlanPassesTheWidth holds what an error of the width says to plans
// that pass it by one frame, and those that just fit to none.
func TestWhereAPlanPassesTheWidth(t *testing.T) {
	hop := Jump{Name: "hop", Prejump: 4, Airborne: 39, Landing: 4} // 47 frames
	step := Move{Name: "step", Kind: Dash, Length: 10}
	p := &Project{DefaultRuleset(), []Fighter{
		{Name: "Hesk", Moves: []Move{step}, Jumps: []Jump{hop}, Rises: DefaultRises()},
		{Name: "Tarn", Moves: []Move{step}, Rises: []Rise{{Name: "normal"}, {Name: "late", Extra: 1}}},
	}, nil}
	for _, c := range []struct {
		name  string
		setup Setup
		field string
		end   int // 0: it fits
	}{
		{"a jump", Setup{Jump: "hop", Delay: Width - 47}, "", 0},
		{"a jump too late", Setup{Jump: "hop", Delay: Width - 46}, "delay", Width + 1},
		{"a guard", Setup{Delay: Width - 1}, "", 0},
		{"a guard past the last frame", Setup{Delay: Width}, "delay", Width + 1},
		{"a guard after a filler", Setup{Fillers: []string{"step"}, Delay: Width - 9}, "delay", Width + 1},
		{"a rise", Setup{Advantage: Some(Width - 1), Rises: []string{"normal"}}, "", 0},
		{"a rise past the last frame", Setup{Advantage: Some(Width - 1), Rises: []string{"late"}}, "rises", Width + 1},
		{"a reply", Setup{Advantage: Some(Width - 11), Replies: []Reply{{Move: "step", Demand: Survive}}}, "", 0},
		{"a reply too late", Setup{Advantage: Some(Width - 11), Replies: []Reply{{Move: "step", Demand: Survive, Late: 1}}}, "replies[0]", Width + 1},
	} {
		s := c.setup
		s.Name, s.Attacker, s.Rival, s.Position, s.Landing = "s", "Hesk", "Tarn", Midscreen, DoGuard
		if !s.Advantage.Given {
			s.Advantage = Some(40)
		}
		_, err := Compile(p, s)
		var long *PlanError
		switch {
		case c.end == 0:
			if err != nil {
				t.Errorf("%s: %v, want none", c.name, err)
			}
		case !errors.As(err, &long) || long.Field != c.field || long.End != c.end:
			t.Errorf("%s: %v, want %s to end on %d", c.name, err, c.field, c.end)
		}
	}
}
