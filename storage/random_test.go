package storage

import (
	"fmt"
	"math/rand/v2"
	"strings"

	"wakeline/timeline"
)

// dice draws projects that keep timeline's rules.
type dice struct{ *rand.Rand }

func newDice(seed uint64) dice { return dice{rand.New(rand.NewPCG(seed, 5))} }

func (g dice) one(in int) bool   { return g.IntN(in) == 0 }
func (g dice) to(lo, hi int) int { return lo + g.IntN(hi-lo+1) }

func (g dice) perhaps(lo, hi int) timeline.Maybe {
	if g.one(2) {
		return timeline.Some(g.to(lo, hi))
	}
	return timeline.Maybe{}
}

// pieces are what names are drawn of, and with more also notes: all that SQL,
// JSON or a list of words could trip over.
var (
	pieces = []string{"drop", "Öl", "嵐", "🌀", "é", " ", ",", "'", `"`, "\\", "--", ";", "%", "_", "NULL", "-1", "\ufeff", "<&>"}
	more   = append([]string{"\t", "\n", "\x00", "\u2028"}, pieces...)
)

// text ends in a number, so that all texts of a list differ.
func (g dice) text(n int) string { return g.of(pieces, n) }

func (g dice) of(pieces []string, n int) string {
	var b strings.Builder
	for range g.IntN(4) {
		b.WriteString(pieces[g.IntN(len(pieces))])
	}
	return fmt.Sprintf("%s%d", b.String(), n)
}

// project draws up to three fighters and setups between them.
func (g dice) project() *timeline.Project {
	p := &timeline.Project{Ruleset: timeline.DefaultRuleset()}
	p.Ruleset.Buffer, p.Ruleset.Trades, p.Ruleset.Health = g.to(0, 9), g.one(2), g.to(1, timeline.MaxPoints)
	p.Ruleset.StartupCountsFirstActive = g.one(2)
	p.Ruleset.Scaling = [][]int{{100}, {100, 90, 0}, {1000, 7}}[g.IntN(3)]
	p.Ruleset.CounterDamage, p.Ruleset.GaugeWorth, p.Ruleset.Reaction = g.to(0, 1000), g.to(0, 99), g.to(0, 512)
	p.Ruleset.ParryAdvantage, p.Ruleset.Carry = g.perhaps(-20, 40), timeline.Ratio{Num: g.IntN(2), Den: 1}
	if p.Ruleset.Carry.Num == 1 {
		p.Ruleset.Carry.Den = g.to(2, 9)
	}
	p.Ruleset.Rate = timeline.Rate{Num: g.to(1, 1000), Den: g.to(1, 3)}
	for i := range g.to(1, 3) {
		f := timeline.Fighter{Name: g.text(i), Body: g.perhaps(0, 200), Width: g.perhaps(0, 90)}
		for k := range g.to(3, 12) {
			f.Moves = append(f.Moves, g.move(k, p.Ruleset))
		}
		for k := range g.to(1, 3) {
			j := timeline.Jump{Name: g.text(100 + k), Prejump: g.to(0, 6), Airborne: g.to(1, 60), Landing: g.to(0, 9), Travel: g.to(-300, 300), Apex: g.perhaps(0, 300)}
			j.GuardAfter = g.to(0, j.Landing)
			f.Jumps = append(f.Jumps, j)
		}
		for k := range g.to(1, 3) {
			f.Rises = append(f.Rises, timeline.Rise{Name: g.text(k), Extra: g.to(0, 20), Shift: g.to(-50, 50)})
		}
		grounded := func() string { return f.Moves[g.to(1, len(f.Moves)-1)].Name }
		for k := range g.IntN(4) {
			r := timeline.Route{Name: g.text(200 + k), Damage: g.perhaps(0, 900), GaugeCost: g.perhaps(0, 3), GaugeGain: g.perhaps(0, 3), Confirmed: g.one(2)}
			for range g.to(1, 4) {
				r.Steps = append(r.Steps, timeline.RouteStep{Move: grounded(), By: []timeline.By{timeline.Link, timeline.Cancel}[g.IntN(2)]})
			}
			f.Routes = append(f.Routes, r)
		}
		for k := range g.IntN(4) {
			f.Replies = append(f.Replies, timeline.Reply{Move: grounded(), Demand: timeline.Beat, Late: k, Costs: g.perhaps(0, 900)})
		}
		if g.one(2) {
			f.Replies = append(f.Replies, timeline.Reply{Move: f.Jumps[0].Name, Demand: timeline.DemandNone})
		}
		p.Fighters = append(p.Fighters, f)
	}
	for i := range g.to(0, 8) {
		p.Setups = append(p.Setups, g.setup(p, i))
	}
	return p
}

// move draws a move; the first of a fighter is done in the air, the others
// aren't.
func (g dice) move(k int, r timeline.Ruleset) timeline.Move {
	m := timeline.Move{Name: g.text(k), Kind: timeline.Strike, Level: timeline.Mid, Air: k == 0, MissesAir: g.one(3), Startup: g.to(1, 20), Recovery: g.to(0, 30)}
	switch g.IntN(4) {
	case 0:
		m = timeline.Move{Name: m.Name, Kind: timeline.Dash, Air: m.Air, Length: g.to(1, 40)}
	case 1:
		m.Kind, m.Level = timeline.Throw, timeline.LevelThrow
	case 2:
		m.Level = timeline.Overhead
	}
	if m.Hits() {
		for range 1 + 2*g.IntN(3) {
			m.Active = append(m.Active, g.to(1, 9))
		}
	}
	total := m.Total(r)
	window := func() timeline.Window {
		from := g.to(1, total)
		return timeline.Window{From: from, To: g.to(from, total)}
	}
	m.OnHit, m.Guardstun, m.Deep, m.Drop, m.Top = g.perhaps(-30, 30), g.perhaps(0, 30), g.perhaps(0, 9), g.perhaps(-90, 90), g.perhaps(0, 300)
	m.AirborneFrom = g.perhaps(1, total)
	if g.one(3) {
		near := g.to(-50, 50)
		m.Reach = &timeline.Interval{Near: near, Far: near + g.to(0, 100)}
		m.Landing = &timeline.Landing{Recovery: 5, GuardAfter: g.to(0, 5)}
	}
	for range g.IntN(3) {
		m.Immune = append(m.Immune, timeline.Immunity{Window: window(), Strikes: true, Throws: g.one(2)})
		m.Armour = append(m.Armour, timeline.Armour{Window: window(), Hits: g.to(1, 3)})
		m.Parry = append(m.Parry, window())
	}
	m.Damage, m.GaugeCost, m.GaugeGain, m.Travel = g.to(0, 9999), g.to(0, 5), g.to(0, 5), g.to(-99, 99)
	m.Knockdown = timeline.Places{Midscreen: timeline.Some(g.to(0, 99)), Wall: g.perhaps(0, 99)}
	m.Distance = timeline.Places{Midscreen: g.perhaps(0, 99), Wall: g.perhaps(0, 99)}
	return m
}

func (g dice) setup(p *timeline.Project, i int) timeline.Setup {
	a, r := &p.Fighters[g.IntN(len(p.Fighters))], &p.Fighters[g.IntN(len(p.Fighters))]
	grounded := func(f *timeline.Fighter) string { return f.Moves[g.to(1, len(f.Moves)-1)].Name }
	s := timeline.Setup{Name: g.text(i), Attacker: a.Name, Rival: r.Name, Ender: grounded(a), Position: timeline.Midscreen, Distance: g.perhaps(0, 400), Room: g.perhaps(0, 400), Delay: g.to(0, 30), Landing: timeline.DoGuard, Note: g.of(more, i)}
	switch g.IntN(4) {
	case 0:
		s.Ender, s.Advantage, s.Position = "", timeline.Some(g.to(0, 99)), timeline.Wall
	case 1:
		s.Landing = grounded(a)
	case 2:
		s.Landing = timeline.DoParry
	}
	for range g.IntN(3) {
		s.Fillers = append(s.Fillers, grounded(a), a.Jumps[0].Name)
	}
	if g.one(2) {
		s.Jump, s.Attack = a.Jumps[0].Name, a.Moves[0].Name
		s.Press = g.perhaps(0, a.Jumps[0].Airborne-1)
	}
	for k := range r.Rises {
		if g.one(2) {
			s.Rises = append(s.Rises, r.Rises[len(r.Rises)-1-k].Name)
		}
	}
	if len(a.Routes) > 0 && g.one(2) {
		s.OnHit, s.Punish = a.Routes[0].Name, []string{a.Routes[len(a.Routes)-1].Name}
	}
	for range g.IntN(3) {
		s.Follow = append(s.Follow, timeline.FollowStep{Move: grounded(a), Wait: g.to(0, 9), By: []timeline.By{timeline.Link, timeline.Cancel}[g.IntN(2)]})
	}
	s.Pressure = g.to(-50, 50)
	if g.one(4) {
		s.Replies = []timeline.Reply{}
	}
	for k := range g.IntN(8) {
		s.Replies = append(s.Replies, timeline.Reply{Move: grounded(r), Demand: []timeline.Demand{timeline.Survive, timeline.Beat, timeline.DemandNone}[k%3], Late: k, Costs: g.perhaps(0, 99)})
	}
	if g.one(3) {
		s.Replies = append(s.Replies, timeline.Reply{Move: r.Jumps[0].Name, Demand: timeline.Survive, Late: 40})
	}
	for k := range g.IntN(4) {
		s.Tags = append(s.Tags, g.text(k))
	}
	return s
}
