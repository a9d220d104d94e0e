package table

import (
	"fmt"
	"math/rand/v2"
	"strings"

	"wakeline/timeline"
)

// dice draws moves that keep timeline's rules, fields at their limits among
// them.
type dice struct {
	*rand.Rand
	rules timeline.Ruleset
}

func newDice(seed uint64) *dice {
	return &dice{rand.New(rand.NewPCG(seed, 11)), timeline.DefaultRuleset()}
}

func (g *dice) one(in int) bool { return g.IntN(in) == 0 }

// to is a number from lo to hi, now and then one of the two.
func (g *dice) to(lo, hi int) int {
	switch g.IntN(12) {
	case 0:
		return lo
	case 1:
		return hi
	}
	return lo + g.IntN(hi-lo+1)
}

func (g *dice) perhaps(lo, hi int) timeline.Maybe {
	if g.one(3) {
		return timeline.Some(g.to(lo, hi))
	}
	return timeline.Maybe{}
}

// pieces are what names are drawn of: all that a table could trip over.
var pieces = []string{
	"fall", "Öl", "嵐", "ضربة", "🌀", "e\u0301", " ", "  ", ",", ";", `"`, `""`, "=", "+1", "-", "@", "'", `\.`, "#", "\ufeff", "\u00a0", "true", "1-8",
}

// text is a name that ends in a number, so that all of them differ.
func (g *dice) text(n int) string {
	var b strings.Builder
	for range g.IntN(6) {
		b.WriteString(pieces[g.IntN(len(pieces))])
	}
	fmt.Fprintf(&b, "%d", n)
	if g.one(3) {
		b.WriteString(pieces[g.IntN(len(pieces))])
	}
	return b.String()
}

func (g *dice) window(total int) timeline.Window {
	from := g.to(1, total)
	return timeline.Window{From: from, To: g.to(from, total)}
}

func (g *dice) move(n int) timeline.Move {
	kinds := []timeline.Kind{timeline.Strike, timeline.Strike, timeline.Throw, timeline.Parry, timeline.Evade, timeline.Dash}
	m := timeline.Move{Name: g.text(n), Kind: kinds[g.IntN(len(kinds))], Air: g.one(3), MissesAir: g.one(4)}
	switch {
	case m.Kind == timeline.Strike:
		m.Level = []timeline.Level{timeline.Mid, timeline.Low, timeline.Overhead}[g.IntN(3)]
	case m.Kind == timeline.Throw:
		m.Level = []timeline.Level{timeline.LevelThrow, timeline.LevelAirThr}[g.IntN(2)]
	default:
		m.Length = g.to(1, timeline.MaxFrames)
	}
	if m.Hits() {
		m.Startup, m.Recovery = g.to(1, timeline.MaxFrames), g.to(0, 40)
		for range 1 + 2*g.IntN(4) {
			m.Active = append(m.Active, g.to(1, 12))
		}
	}
	total := m.Total(g.rules)
	const frames, units, points = timeline.MaxFrames, timeline.MaxUnits, timeline.MaxPoints
	m.OnHit, m.OnGuard = g.perhaps(-frames, frames), g.perhaps(-20, 20)
	if !m.OnHit.Given {
		m.Hitstun = g.perhaps(0, frames)
	}
	if !m.OnGuard.Given {
		m.Guardstun = g.perhaps(0, 40)
	}
	m.AirborneFrom, m.Deep = g.perhaps(1, total), g.perhaps(0, 20)
	m.Drop, m.Top = g.perhaps(-units, units), g.perhaps(0, units)
	if g.one(3) {
		near := g.to(-units, units)
		m.Reach = &timeline.Interval{Near: near, Far: g.to(near, units)}
	}
	if g.one(3) {
		recovery := g.to(0, 20)
		m.Landing = &timeline.Landing{Recovery: recovery, GuardAfter: g.to(0, recovery)}
	}
	for range g.IntN(3) {
		strikes := g.one(2)
		m.Immune = append(m.Immune, timeline.Immunity{Window: g.window(total), Strikes: strikes, Throws: !strikes || g.one(2)})
		m.Armour = append(m.Armour, timeline.Armour{Window: g.window(total), Hits: g.to(1, 4)})
		m.Parry = append(m.Parry, g.window(total))
	}
	m.Damage, m.GaugeCost, m.GaugeGain, m.Travel = g.to(0, points), g.to(0, 3), g.to(0, points), g.to(-units, units)
	m.Knockdown = timeline.Places{Midscreen: g.perhaps(0, frames-1), Wall: g.perhaps(0, 60)}
	m.Distance = timeline.Places{Midscreen: g.perhaps(-units, units), Wall: g.perhaps(0, 200)}
	return m
}

func (g *dice) moves(n int) []timeline.Move {
	out := make([]timeline.Move, n)
	for i := range out {
		out[i] = g.move(i)
	}
	return out
}
