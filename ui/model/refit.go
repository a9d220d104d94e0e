package model

import (
	"slices"

	"wakeline/timeline"
)

// Refitted is s with what its fighters don't have left out, or put right: who
// takes another fighter keeps all that goes with both.
func Refitted(p *timeline.Project, s timeline.Setup) timeline.Setup {
	attacker, rival := p.Fighter(s.Attacker), p.Fighter(s.Rival)
	if attacker == nil || rival == nil {
		return s
	}
	grounded := func(f *timeline.Fighter, name string) bool {
		m := f.Move(name)
		return m != nil && !m.Air
	}
	if s.Ender != "" && (attacker.Move(s.Ender) == nil || !s.K(attacker).Given) {
		if s.Ender = ""; !s.Advantage.Given {
			if all := Enders(attacker, s.Position); len(all) > 0 {
				s.Ender = all[0]
			}
		}
	}
	s.Fillers = slices.DeleteFunc(slices.Clone(s.Fillers), func(name string) bool { return attacker.Jump(name) == nil && !grounded(attacker, name) })
	if j := attacker.Jump(s.Jump); j == nil {
		s.Jump, s.Attack, s.Press = "", "", timeline.Maybe{}
	} else if s.Press.Given && s.Press.N >= j.Airborne {
		s.Press = timeline.Maybe{}
	}
	if m := attacker.Move(s.Attack); m == nil || !m.Air {
		s.Attack, s.Press = "", timeline.Maybe{}
	}
	if s.Landing != timeline.DoGuard && s.Landing != timeline.DoParry && !grounded(attacker, s.Landing) {
		s.Landing = timeline.DoGuard
	}
	s.Rises = slices.DeleteFunc(slices.Clone(s.Rises), func(name string) bool {
		return !slices.ContainsFunc(rival.Rises, func(r timeline.Rise) bool { return r.Name == name })
	})
	if attacker.Route(s.OnHit) == nil {
		s.OnHit = ""
	}
	s.Punish = slices.DeleteFunc(slices.Clone(s.Punish), func(name string) bool { return attacker.Route(name) == nil })
	s.Follow = slices.DeleteFunc(slices.Clone(s.Follow), func(f timeline.FollowStep) bool { return !grounded(attacker, f.Move) })
	s.Replies = slices.DeleteFunc(slices.Clone(s.Replies), func(r timeline.Reply) bool { return rival.Jump(r.Move) == nil && !grounded(rival, r.Move) })
	return s
}

// Enders are the names of a fighter's moves that knock down at that position.
func Enders(f *timeline.Fighter, at timeline.Position) (out []string) {
	for i := range f.Moves {
		if f.Moves[i].Knockdown.At(at).Given {
			out = append(out, f.Moves[i].Name)
		}
	}
	return out
}

// Positions are where an ender knocks down.
var Positions = []string{string(timeline.Midscreen), string(timeline.Wall)}

// FightersWithEnder lists all fighters, and says which is the first that has a
// move that knocks down; empty where none has.
func FightersWithEnder(p *timeline.Project) (names []string, first string) {
	for i := range p.Fighters {
		f := &p.Fighters[i]
		names = append(names, f.Name)
		if first == "" && len(Enders(f, timeline.Midscreen))+len(Enders(f, timeline.Wall)) > 0 {
			first = f.Name
		}
	}
	return names, first
}
