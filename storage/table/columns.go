package table

import (
	"strconv"
	"strings"

	"wakeline/timeline"
)

// draft is a move while its row is read, with what a move holds in pairs or
// not at all.
type draft struct {
	timeline.Move
	fighter              string
	startup, total       timeline.Maybe
	near, far            timeline.Maybe
	recovery, guardAfter timeline.Maybe // of the landing
}

// column is one column of a table. read takes a cell that is not empty, bare
// of the spaces around it, into d and says what was wanted where it can't;
// write gives the cell of a move, empty for a default.
type column struct {
	name  string
	read  func(d *draft, cell string) (want string)
	write func(m *timeline.Move) string
}

// The columns that are kept to the letter, spaces and all.
const (
	fighterColumn = "fighter"
	nameColumn    = "name"
)

// columns is every column in the order of a written table. The fighter is
// the caller's to write.
var columns = []column{
	{fighterColumn, func(d *draft, cell string) string { d.fighter = strings.Clone(cell); return "" }, nil},
	{nameColumn, func(d *draft, cell string) string { d.Name = strings.Clone(cell); return "" },
		func(m *timeline.Move) string { return m.Name }},
	kind(),
	flag("air", func(m *timeline.Move) *bool { return &m.Air }),
	word("level", func(m *timeline.Move) *timeline.Level { return &m.Level }, defaultLevel,
		timeline.Mid, timeline.Low, timeline.Overhead, timeline.LevelThrow, timeline.LevelAirThr),
	part("startup", func(d *draft) *timeline.Maybe { return &d.startup },
		func(m *timeline.Move) timeline.Maybe { return timeline.Maybe{N: m.Startup, Given: m.Startup != 0} }),
	{"active", readActive, func(m *timeline.Move) string { return timeline.ActiveWords(m.Active) }},
	number("recovery", func(m *timeline.Move) *int { return &m.Recovery }),
	part("total", func(d *draft) *timeline.Maybe { return &d.total },
		func(m *timeline.Move) timeline.Maybe { return timeline.Maybe{N: m.Length, Given: m.Length != 0} }),
	perhaps("on_hit", func(m *timeline.Move) *timeline.Maybe { return &m.OnHit }),
	perhaps("on_guard", func(m *timeline.Move) *timeline.Maybe { return &m.OnGuard }),
	perhaps("hitstun", func(m *timeline.Move) *timeline.Maybe { return &m.Hitstun }),
	perhaps("guardstun", func(m *timeline.Move) *timeline.Maybe { return &m.Guardstun }),
	perhaps("airborne_from", func(m *timeline.Move) *timeline.Maybe { return &m.AirborneFrom }),
	flag("misses_air", func(m *timeline.Move) *bool { return &m.MissesAir }),
	perhaps("deep", func(m *timeline.Move) *timeline.Maybe { return &m.Deep }),
	perhaps("drop", func(m *timeline.Move) *timeline.Maybe { return &m.Drop }),
	perhaps("top", func(m *timeline.Move) *timeline.Maybe { return &m.Top }),
	part("reach_near", func(d *draft) *timeline.Maybe { return &d.near }, func(m *timeline.Move) timeline.Maybe {
		if m.Reach == nil {
			return timeline.Maybe{}
		}
		return timeline.Some(m.Reach.Near)
	}),
	part("reach_far", func(d *draft) *timeline.Maybe { return &d.far }, func(m *timeline.Move) timeline.Maybe {
		if m.Reach == nil {
			return timeline.Maybe{}
		}
		return timeline.Some(m.Reach.Far)
	}),
	part("landing_recovery", func(d *draft) *timeline.Maybe { return &d.recovery }, func(m *timeline.Move) timeline.Maybe {
		if m.Landing == nil {
			return timeline.Maybe{}
		}
		return timeline.Some(m.Landing.Recovery)
	}),
	part("landing_guard_after", func(d *draft) *timeline.Maybe { return &d.guardAfter }, func(m *timeline.Move) timeline.Maybe {
		if m.Landing == nil {
			return timeline.Maybe{}
		}
		return timeline.Some(m.Landing.GuardAfter)
	}),
	windows("immune", wantImmune, func(m *timeline.Move) *[]timeline.Immunity { return &m.Immune }, parseImmunity, formatImmunity),
	windows("armour", wantArmour, func(m *timeline.Move) *[]timeline.Armour { return &m.Armour }, parseArmour, formatArmour),
	windows("parry", wantParry, func(m *timeline.Move) *[]timeline.Window { return &m.Parry }, parseParry, formatParry),
	number("damage", func(m *timeline.Move) *int { return &m.Damage }),
	number("gauge_cost", func(m *timeline.Move) *int { return &m.GaugeCost }),
	number("gauge_gain", func(m *timeline.Move) *int { return &m.GaugeGain }),
	number("travel", func(m *timeline.Move) *int { return &m.Travel }),
	perhaps("knockdown_midscreen", func(m *timeline.Move) *timeline.Maybe { return &m.Knockdown.Midscreen }),
	perhaps("knockdown_wall", func(m *timeline.Move) *timeline.Maybe { return &m.Knockdown.Wall }),
	perhaps("distance_midscreen", func(m *timeline.Move) *timeline.Maybe { return &m.Distance.Midscreen }),
	perhaps("distance_wall", func(m *timeline.Move) *timeline.Maybe { return &m.Distance.Wall }),
}

// Columns returns the names of every column, in the order of a written table.
func Columns() []string {
	out := make([]string, len(columns))
	for i, c := range columns {
		out[i] = c.name
	}
	return out
}

// word is a column of one word of a list, in capitals or not; the one that
// byDefault gives is written as nothing.
func word[T ~string](name string, at func(m *timeline.Move) *T, byDefault func(m *timeline.Move) T, list ...T) column {
	names := make([]string, len(list))
	for i, w := range list {
		names[i] = string(w)
	}
	last := len(names) - 1
	want := strings.Join(names[:last], ", ") + " or " + names[last]
	return column{name, func(d *draft, cell string) string {
		for _, w := range list {
			if strings.EqualFold(cell, string(w)) {
				*at(&d.Move) = w
				return ""
			}
		}
		return want
	}, func(m *timeline.Move) string {
		if byDefault != nil && *at(m) == byDefault(m) {
			return ""
		}
		return string(*at(m))
	}}
}

// kind is the column of a move's kind, which is also read by its earlier name.
func kind() column {
	c := word("kind", func(m *timeline.Move) *timeline.Kind { return &m.Kind }, nil,
		timeline.Strike, timeline.Throw, timeline.Parry, timeline.Evade, timeline.Dash)
	read := c.read
	c.read = func(d *draft, cell string) string { return read(d, string(timeline.KindOf(strings.ToLower(cell)))) }
	return c
}

// defaultLevel is the level of a move that gives none.
func defaultLevel(m *timeline.Move) timeline.Level {
	if m.Kind == timeline.Throw {
		return timeline.LevelThrow
	}
	return ""
}

func flag(name string, at func(m *timeline.Move) *bool) column {
	return column{name, func(d *draft, cell string) string {
		value, ok := parseFlag(cell)
		*at(&d.Move) = value
		return unless(ok, wantFlag)
	}, func(m *timeline.Move) string {
		if *at(m) {
			return "yes"
		}
		return ""
	}}
}

func number(name string, at func(m *timeline.Move) *int) column {
	return column{name, func(d *draft, cell string) string {
		n, ok := parseWhole(cell)
		*at(&d.Move) = n
		return unless(ok, wantWhole)
	}, func(m *timeline.Move) string {
		if n := *at(m); n != 0 {
			return strconv.Itoa(n)
		}
		return ""
	}}
}

func perhaps(name string, at func(m *timeline.Move) *timeline.Maybe) column {
	return part(name, func(d *draft) *timeline.Maybe { return at(&d.Move) },
		func(m *timeline.Move) timeline.Maybe { return *at(m) })
}

// part is a column of a number that may be absent and that finish makes a
// part of the move.
func part(name string, at func(d *draft) *timeline.Maybe, of func(m *timeline.Move) timeline.Maybe) column {
	return column{name, func(d *draft, cell string) string {
		n, ok := parseWhole(cell)
		*at(d) = timeline.Some(n)
		return unless(ok, wantWhole)
	}, func(m *timeline.Move) string {
		if n := of(m); n.Given {
			return strconv.Itoa(n.N)
		}
		return ""
	}}
}

func windows[W any](name, want string, at func(m *timeline.Move) *[]W,
	parse func(at timeline.Window, words []string) (W, bool), format func(w W) (timeline.Window, string)) column {
	return column{name, func(d *draft, cell string) string {
		list, ok := parseWindows(cell, parse)
		*at(&d.Move) = list
		return unless(ok, want)
	}, func(m *timeline.Move) string { return formatWindows(*at(m), format) }}
}

func readActive(d *draft, cell string) string {
	active, ok := parseActive(cell)
	d.Active = active
	return unless(ok, wantActive)
}

func unless(ok bool, want string) string {
	if ok {
		return ""
	}
	return want
}
