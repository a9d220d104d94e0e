package timeline

import (
	"fmt"
	"math/rand/v2"
)

// randomValue makes a valid project with one setup that has everything
// value.md speaks of, and the gauges of both sides.
func randomValue(seed uint64) (p *Project, gauge, rival Maybe) {
	p = randomProject(seed)
	g := &dice{rand.New(rand.NewPCG(seed, 13)), p.Ruleset}
	r := &p.Ruleset
	if g.one(2) {
		r.Scaling = [][]int{{100, 80, 60}, {100, 100, 33, 0}, {90}, {100, 150, 20}}[g.IntN(4)]
	}
	r.CounterDamage = []int{100, 100, 120, 133, 50}[g.IntN(5)]
	r.GaugeWorth = []int{0, 0, g.to(1, 60), g.to(60, 300)}[g.IntN(4)]
	r.ParryAdvantage = g.perhaps(2, 1, 12)
	r.Reaction = []int{15, 0, 1, g.to(0, 20)}[g.IntN(4)]
	r.Gauge = g.to(0, 5)
	for i := range p.Fighters {
		g.value(&p.Fighters[i])
	}
	s := &p.Setups[0]
	att, riv := p.Fighter(s.Attacker), p.Fighter(s.Rival)
	if g.one(3) {
		riv.Replies, s.Replies = s.Replies, nil
	} else if s.Replies == nil {
		s.Replies = []Reply{}
	}
	asked := s.Asked(riv)
	for i := range asked {
		asked[i].Costs = g.perhaps(4, 0, 300)
	}
	if !g.one(3) {
		s.OnHit = att.Routes[g.IntN(len(att.Routes))].Name
	}
	if g.one(2) {
		for _, i := range g.Perm(len(att.Routes))[:min(g.to(1, 3), len(att.Routes))] {
			s.Punish = append(s.Punish, att.Routes[i].Name)
		}
	}
	if g.one(2) {
		for range g.to(1, 4) {
			s.Follow = append(s.Follow, FollowStep{att.Moves[3+g.IntN(9)].Name, g.some(2, 0, 4), []By{Link, Link, Cancel}[g.IntN(3)]})
		}
	}
	s.Pressure = g.some(2, -50, 100)
	return p, g.perhaps(2, 0, r.Gauge), g.perhaps(2, 0, r.Gauge)
}

// value gives a fighter damage, gauge and routes.
func (g *dice) value(f *Fighter) {
	for i := range f.Moves {
		m := &f.Moves[i]
		m.Damage = []int{0, 10 * g.to(1, 20), g.to(1, 200), 100}[g.IntN(4)]
		m.GaugeCost, m.GaugeGain = g.some(4, 0, 2), g.some(3, 0, 2)
		if m.Kind == Strike && m.OnHit.Given && g.one(2) {
			m.OnHit.N += 8
		}
		if m.OnGuard.Given && g.one(2) {
			m.OnGuard.N += 6
		}
	}
	for i := range g.to(1, 5) {
		r := Route{Name: fmt.Sprintf("route %d", i), Damage: g.perhaps(5, 0, 400), GaugeCost: g.perhaps(6, 0, 3), GaugeGain: g.perhaps(6, 0, 3), Confirmed: g.one(4)}
		for range g.to(1, 4) {
			r.Steps = append(r.Steps, RouteStep{f.Moves[3+g.IntN(9)].Name, []By{Link, Link, Cancel}[g.IntN(3)]})
		}
		if g.one(3) {
			r.Steps[len(r.Steps)-1].Move = "ender"
		}
		f.Routes = append(f.Routes, r)
	}
}
