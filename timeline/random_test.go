package timeline

import (
	"fmt"
	"math/rand/v2"
)

// randomProject makes a valid project with one setup. The numbers are small
// and the advantage is aimed so that the two sides meet about as often as
// they miss.
func randomProject(seed uint64) *Project {
	g := &dice{rand.New(rand.NewPCG(seed, 7)), DefaultRuleset()}
	g.rules.StartupCountsFirstActive = !g.one(5)
	g.rules.PrejumpThrowProof = !g.one(4)
	g.rules.Trades = !g.one(4)
	g.rules.ThrowGraceRise = g.some(3, 0, 7)
	g.rules.ThrowGraceLanding = g.some(3, 0, 7)

	fighters := []Fighter{g.fighter("Hesk"), g.fighter("Tarn")}
	att := &fighters[0]
	riv := &fighters[1]
	if g.one(5) {
		riv = att
	}
	if g.one(12) { // so late that the width cuts
		att.Moves[3] = Move{Name: "step 0", Kind: Dash, Length: g.to(300, 500)}
	}
	s := g.setup(att)
	s.Rival = riv.Name
	s.Distance, s.Room = g.perhaps(2, 0, 160), g.perhaps(4, 0, 80)
	if g.one(12) && !s.Room.Given && s.Position == Midscreen {
		s.Distance = Some(-g.to(0, 60))
	}
	s.Replies = g.replies(riv)
	g.claim(&s, riv)
	g.aim(&s, att)
	return &Project{g.rules, fighters, []Setup{s}}
}

// fighter draws two jumps, three air moves, eight others, an ender without
// an advantage as the last, and three rises.
func (g *dice) fighter(name string) Fighter {
	f := Fighter{Name: name, Body: g.height(2, 0, 4)}
	f.Rises = []Rise{{Name: "normal"}, {Name: "backward", Extra: g.to(1, 4), Shift: g.to(0, 40)}, {Name: "slow", Extra: g.to(0, 12), Shift: g.some(3, -40, 40)}}
	for i := range 2 {
		f.Jumps = append(f.Jumps, g.jump(fmt.Sprintf("hop %d", i)))
	}
	for i := range 3 {
		f.Moves = append(f.Moves, g.move(fmt.Sprintf("dive %d", i), true))
	}
	for i := range 8 {
		f.Moves = append(f.Moves, g.move(fmt.Sprintf("step %d", i), false))
	}
	ender := g.move("ender", false)
	ender.Distance = Places{g.perhaps(2, 20, 160), g.perhaps(2, 0, 120)}
	f.Moves = append(f.Moves, ender)
	return f
}

// dice draws the parts of a random project.
type dice struct {
	*rand.Rand
	rules Ruleset
}

func (g *dice) one(in int) bool   { return g.IntN(in) == 0 }
func (g *dice) to(lo, hi int) int { return lo + g.IntN(hi-lo+1) }

// some is a number from lo to hi in one draw of n, else 0.
func (g *dice) some(n, lo, hi int) int {
	if g.one(n) {
		return g.to(lo, hi)
	}
	return 0
}

// perhaps is a number in one draw of n, else absent.
func (g *dice) perhaps(n, lo, hi int) Maybe {
	if g.one(n) {
		return Some(g.to(lo, hi))
	}
	return Maybe{}
}

// height is a number of units in one draw of n, else absent: so round that
// bodies stand exactly as high as something reaches.
func (g *dice) height(n, lo, hi int) Maybe {
	if g.one(n) {
		return Some(40 * g.to(lo, hi))
	}
	return Maybe{}
}

func (g *dice) jump(name string) Jump {
	j := Jump{Name: name, Prejump: g.to(0, 5), Airborne: g.to(1, 20), Landing: g.to(0, 6), Travel: g.to(-20, 160), Apex: g.height(2, 1, 6)}
	if g.one(3) {
		j.Airborne = g.to(20, 45)
	}
	j.GuardAfter = g.to(0, j.Landing)
	return j
}

func (g *dice) move(name string, air bool) Move {
	m := Move{Name: name, Air: air, Kind: Strike, Travel: g.to(-40, 60)}
	if g.one(3) {
		m.Kind = []Kind{Throw, Throw, Throw, Parry, Evade, Dash}[g.IntN(6)]
	}
	switch m.Kind {
	case Strike:
		m.Level = []Level{Mid, Mid, Mid, Low, Overhead}[g.IntN(5)]
	case Throw:
		m.Level = []Level{LevelThrow, LevelThrow, LevelAirThr}[g.IntN(3)]
	}
	total := 0
	if m.Kind == Strike || m.Kind == Throw {
		m.Startup = g.to(1, 9)
		m.Active = []int{g.to(1, 4)}
		for g.one(2) && len(m.Active) < 9 {
			m.Active = append(m.Active, g.to(1, 3), g.to(1, 3))
		}
		m.Recovery = g.to(0, 14)
		total = m.Startup - 1 + m.Recovery
		if !g.rules.StartupCountsFirstActive {
			total++
		}
		for _, n := range m.Active {
			total += n
		}
		g.stun(&m)
	} else {
		m.Length = g.to(1, 24)
		total = m.Length
	}
	if total > 0 {
		g.windows(&m, total)
	}
	m.MissesAir = g.one(6)
	m.Top = g.height(4, 0, 6)
	if g.one(2) {
		near := g.to(-60, 60)
		m.Reach = &Interval{near, near + g.to(0, 120)}
	}
	if air {
		m.Deep = g.perhaps(3, 0, 9)
		m.Drop = g.height(2, -1, 3)
		if g.one(3) {
			m.Landing = &Landing{Recovery: g.to(0, 8)}
			m.Landing.GuardAfter = g.to(0, m.Landing.Recovery)
		}
	}
	return m
}

func (g *dice) stun(m *Move) {
	switch g.IntN(3) {
	case 0:
		m.OnHit = Some(g.to(-10, 10))
	case 1:
		m.Hitstun = Some(g.to(0, 30))
	}
	switch g.IntN(3) {
	case 0:
		m.OnGuard = Some(g.to(-12, 5))
	case 1:
		m.Guardstun = Some(g.to(0, 25))
	}
}

// windows gives m immunity, armour, parries and a body in the air.
func (g *dice) windows(m *Move, total int) {
	window := func() Window {
		from := 1
		if g.one(2) {
			from = g.to(1, total)
		}
		return Window{from, g.to(from, total)}
	}
	for g.one(4) {
		w := Immunity{Window: window(), Strikes: g.one(2)}
		w.Throws = !w.Strikes || g.one(2)
		m.Immune = append(m.Immune, w)
	}
	if g.one(4) {
		for range g.to(1, 3) {
			m.Armour = append(m.Armour, Armour{window(), g.to(1, 3)})
		}
	}
	if m.Kind == Parry || g.one(6) {
		for range g.to(1, 2) {
			m.Parry = append(m.Parry, window())
		}
	}
	if g.one(5) {
		m.AirborneFrom = Some(g.to(1, total))
	}
}

func (g *dice) setup(att *Fighter) Setup {
	s := Setup{Name: "trial", Attacker: "Hesk", Position: Midscreen, Landing: DoGuard, Delay: g.some(2, 0, 20)}
	if g.one(3) {
		s.Position = Wall
	}
	for g.one(3) && len(s.Fillers) < 3 {
		s.Fillers = append(s.Fillers, []string{"hop 1", "step 0", "step 1", "step 2"}[g.IntN(4)])
	}
	switch g.IntN(5) {
	case 0, 1:
		s.Landing = att.Moves[3+g.IntN(5)].Name
	case 2:
		s.Landing = DoParry
	}
	if g.one(6) {
		return s
	}
	s.Jump = "hop 0"
	if !g.one(6) {
		s.Attack = att.Moves[g.IntN(3)].Name
		s.Press = g.perhaps(3, 0, att.Jumps[0].Airborne-1)
	}
	return s
}

func (g *dice) replies(riv *Fighter) (out []Reply) {
	seen := map[Reply]bool{}
	for range g.to(0, 7) {
		r := Reply{Late: g.some(3, 1, 6)}
		if n := g.IntN(10); n < 8 {
			r.Move = riv.Moves[3+n].Name
		} else {
			r.Move = riv.Jumps[n-8].Name
		}
		if seen[r] {
			continue
		}
		seen[r] = true
		r.Demand = []Demand{Survive, Survive, Beat, DemandNone}[g.IntN(4)]
		out = append(out, r)
	}
	return out
}

// claim picks the rises, in any order; none claimed means all.
func (g *dice) claim(s *Setup, riv *Fighter) {
	if g.one(4) {
		return
	}
	for _, i := range g.Perm(len(riv.Rises))[:g.to(1, 2)] {
		s.Rises = append(s.Rises, riv.Rises[i].Name)
	}
}

// aim gives the setup an advantage of 0 to 60 (or near the width), round the
// frame on which its attack would land at a small delay.
func (g *dice) aim(s *Setup, att *Fighter) {
	ender := &att.Moves[len(att.Moves)-1]
	x := &slowPlan{p: &Project{Ruleset: g.rules}, s: s}
	k := g.to(-6, 12)
	for _, name := range s.Fillers {
		if j := slowJump(att, name); j != nil {
			k += j.Prejump + j.Airborne + j.Landing
		} else {
			k += x.total(slowMove(att, name))
		}
	}
	if j := slowJump(att, s.Jump); j != nil {
		k += j.Prejump + j.Airborne
	}
	if k < 0 || k > 60 && k < 300 || k >= Width || g.one(6) {
		k = g.to(0, 60)
	}
	if g.one(2) {
		s.Advantage = Some(k)
		ender.Knockdown = Places{g.perhaps(2, 0, 60), g.perhaps(2, 0, 60)}
		if g.one(2) {
			s.Ender = "ender"
		}
		return
	}
	s.Ender = "ender"
	ender.Knockdown = Places{Some(k), Some(max(0, k-g.to(0, 2)))}
}
