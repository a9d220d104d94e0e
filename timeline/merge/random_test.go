package merge

import (
	"fmt"
	"math/rand/v2"
	"slices"

	"wakeline/timeline"
)

// dice draws projects.
type dice struct{ *rand.Rand }

func (g dice) one(in int) bool { return g.IntN(in) == 0 }

func pick[T any](g dice, of []T) T { return of[g.IntN(len(of))] }

// world draws a sound project of three fighters and so many setups, and lists.
func (g dice) world(setups int) Side {
	p := &timeline.Project{Ruleset: timeline.DefaultRuleset()}
	p.Ruleset.Buffer = g.IntN(6)
	for _, name := range []string{"Hesk", "Tarn", "Ulme"} {
		p.Fighters = append(p.Fighters, g.fighter(name))
	}
	for i := range setups {
		p.Setups = append(p.Setups, g.setup(p, fmt.Sprint("setup ", i)))
	}
	var lists []timeline.SavedList
	for i := range 5 {
		l := timeline.SavedList{Name: fmt.Sprint("list ", i), Search: fmt.Sprintf("name:%d", g.IntN(9))}
		if i > 0 && g.one(2) {
			l.Search += " or " + timeline.ListSearch(fmt.Sprint("List ", g.IntN(i)))
		}
		lists = append(lists, l)
	}
	return Side{p, lists}
}

func (g dice) fighter(name string) timeline.Fighter {
	f := timeline.Fighter{Name: name, Rises: []timeline.Rise{{Name: "normal"}, {Name: "slow", Extra: g.IntN(9)}}}
	if g.one(2) {
		f.Body = timeline.Some(g.IntN(200))
	}
	for i := range 4 {
		f.Moves = append(f.Moves, g.ground(fmt.Sprint("move ", i)))
	}
	for i := range 2 {
		m := g.ground(fmt.Sprint("dive ", i))
		m.Kind, m.Level, m.Air, m.Knockdown = timeline.Strike, timeline.Overhead, true, timeline.Places{}
		f.Moves = append(f.Moves, m)
		f.Jumps = append(f.Jumps, timeline.Jump{Name: fmt.Sprint("hop ", i), Prejump: 4, Airborne: 30 + g.IntN(12), Landing: 3})
	}
	for i := range 3 {
		r := timeline.Route{Name: fmt.Sprint("route ", i), Confirmed: g.one(2)}
		for range 1 + g.IntN(3) {
			r.Steps = append(r.Steps, timeline.RouteStep{Move: fmt.Sprint("move ", g.IntN(4)), By: pick(g, []timeline.By{timeline.Link, timeline.Cancel})})
		}
		f.Routes = append(f.Routes, r)
	}
	f.Replies = g.replies(&f)
	return f
}

func (g dice) ground(name string) timeline.Move {
	return timeline.Move{Name: name, Kind: timeline.Strike, Level: timeline.Mid, Startup: 1 + g.IntN(9), Active: []int{1 + g.IntN(4)}, Recovery: g.IntN(20),
		Damage: g.IntN(90), Knockdown: timeline.Places{Midscreen: timeline.Some(30 + g.IntN(20)), Wall: timeline.Some(30)}}
}

func (g dice) replies(f *timeline.Fighter) (out []timeline.Reply) {
	for i := range 4 {
		if g.one(2) {
			out = append(out, timeline.Reply{Move: fmt.Sprint("move ", i), Demand: pick(g, []timeline.Demand{timeline.Survive, timeline.Beat}), Late: g.IntN(3)})
		}
	}
	return out
}

func (g dice) setup(p *timeline.Project, name string) timeline.Setup {
	att, riv := pick(g, p.Fighters), pick(g, p.Fighters)
	s := timeline.Setup{Name: name, Attacker: att.Name, Rival: riv.Name, Ender: "move 0", Position: timeline.Midscreen, Delay: g.IntN(9), Landing: timeline.DoGuard}
	for range g.IntN(3) {
		s.Fillers = append(s.Fillers, pick(g, []string{"move 1", "move 2", "hop 1"}))
	}
	if !g.one(4) {
		s.Jump, s.Attack = "hop 0", pick(g, []string{"dive 0", "dive 1"})
	}
	if g.one(2) {
		s.Rises = []string{pick(g, []string{"normal", "slow"})}
	}
	if g.one(2) {
		if s.Replies = g.replies(&riv); s.Replies == nil {
			s.Replies = []timeline.Reply{}
		}
	}
	if g.one(3) {
		s.OnHit, s.Punish = pick(g, []string{"", "route 0"}), []string{"route 1"}
		s.Follow = []timeline.FollowStep{{Move: "move 3", Wait: g.IntN(3), By: timeline.Link}}
	}
	if g.one(3) {
		s.Tags, s.Note = []string{"drawn"}, "n"
	}
	return s
}

// keep draws a part of a list, in its order; what must be there is.
func keep[T any](g dice, list []T, must func(v *T) bool) (out []T) {
	for i := range list {
		if g.one(2) || must(&list[i]) {
			out = append(out, list[i])
		}
	}
	return out
}

// part draws a part of a sound project that is sound itself.
func (g dice) part(of Side) Side {
	never := func(*timeline.Setup) bool { return false }
	p := &timeline.Project{Ruleset: of.Project.Ruleset, Setups: keep(g, of.Project.Setups, never)}
	uses := func(does func(s *timeline.Setup) bool) bool {
		for i := range p.Setups {
			if does(&p.Setups[i]) {
				return true
			}
		}
		return false
	}
	p.Fighters = keep(g, of.Project.Fighters, func(f *timeline.Fighter) bool {
		return uses(func(s *timeline.Setup) bool { return s.Attacker == f.Name || s.Rival == f.Name })
	})
	for i := range p.Fighters {
		f := p.Fighters[i]
		f.Replies = keep(g, f.Replies, func(*timeline.Reply) bool { return false })
		f.Routes = keep(g, f.Routes, func(r *timeline.Route) bool {
			return uses(func(s *timeline.Setup) bool {
				return s.Attacker == f.Name && (s.OnHit == r.Name || slices.Contains(s.Punish, r.Name))
			})
		})
		f.Moves = keep(g, f.Moves, func(m *timeline.Move) bool {
			for _, r := range f.Replies {
				if r.Move == m.Name {
					return true
				}
			}
			for _, r := range f.Routes {
				for _, step := range r.Steps {
					if step.Move == m.Name {
						return true
					}
				}
			}
			return uses(func(s *timeline.Setup) bool { return s.Uses(f.Name, m.Name) })
		})
		f.Jumps = keep(g, f.Jumps, func(j *timeline.Jump) bool {
			return uses(func(s *timeline.Setup) bool { return s.Uses(f.Name, j.Name) })
		})
		f.Rises = keep(g, f.Rises, func(r *timeline.Rise) bool {
			return r.Name == "normal" || uses(func(s *timeline.Setup) bool { return s.Rival == f.Name && slices.Contains(s.Rises, r.Name) })
		})
		p.Fighters[i] = f
	}
	lists := of.Lists[:g.IntN(len(of.Lists)+1)] // a list names those before it
	return Side{p, slices.Clip(lists)}
}

// changed draws another project out of one: it has other numbers, lacks things,
// and has things of its own. It may break rules.
func (g dice) changed(of Side) Side {
	p, err := timeline.ReadText(timeline.WriteText(of.Project))
	if err != nil {
		panic(err)
	}
	if g.one(3) {
		p.Ruleset.Health, p.Ruleset.Trades = 1+g.IntN(2000), g.one(2)
	}
	for i := range p.Fighters {
		f := &p.Fighters[i]
		if g.one(4) {
			f.Body = timeline.Some(g.IntN(99))
		}
		for k := range f.Moves {
			if m := &f.Moves[k]; g.one(5) {
				m.Recovery++
				if g.one(6) && m.Air {
					m.Air = false
				}
			}
		}
		for k := range f.Routes {
			if g.one(5) {
				f.Routes[k].Steps = f.Routes[k].Steps[:1]
				f.Routes[k].Steps[0].Move = "move 3"
			}
		}
		for k := range f.Replies {
			if g.one(4) {
				f.Replies[k].Costs = timeline.Some(g.IntN(50))
			}
		}
		if g.one(4) {
			f.Rises[1].Extra++
		}
		if g.one(4) {
			f.Moves = append(f.Moves, g.ground(pick(g, []string{"new move", "hop 7", "new hop"})))
		}
		if g.one(4) {
			f.Jumps = append(f.Jumps, timeline.Jump{Name: pick(g, []string{"new hop", "hop 7", "move 9"}), Prejump: 3, Airborne: 30, Landing: 2})
		}
	}
	if g.one(3) {
		p.Fighters = append(p.Fighters, g.fighter(pick(g, []string{"Vane", "Wren"})))
	}
	for i := range p.Setups {
		if g.one(4) {
			p.Setups[i].Delay, p.Setups[i].Note = g.IntN(9), "changed"
		}
	}
	p.Setups = keep(g, p.Setups, func(*timeline.Setup) bool { return !g.one(5) })
	for i := range g.IntN(3) {
		s := g.setup(p, fmt.Sprint("own ", i+g.IntN(2)*10))
		if f := p.Fighter(s.Attacker); g.one(3) {
			s.Fillers = []string{f.Moves[len(f.Moves)-1].Name}
		}
		p.Setups = append(p.Setups, s)
	}
	lists := slices.Clone(of.Lists)
	for i := range lists {
		if g.one(4) {
			lists[i].Search = "tag:changed"
		}
		if g.one(6) {
			lists[i].Name = fmt.Sprint("LIST ", i)
		}
	}
	return Side{p, append(lists, timeline.SavedList{Name: fmt.Sprint("own list ", g.IntN(2)), Search: `list:"list 0" drawn`})}
}
