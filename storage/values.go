package storage

import (
	"fmt"

	"wakeline/storage/table"
	"wakeline/timeline"
)

// maybe turns an optional number into a column's value.
func maybe(m timeline.Maybe) any {
	if !m.Given {
		return nil
	}
	return int64(m.N)
}

func flag(b bool) any {
	if b {
		return int64(1)
	}
	return int64(0)
}

// textOrNull is s, or NULL where s is empty.
func textOrNull(s string) any {
	if s == "" {
		return nil
	}
	return s
}

// number, maybe, flag and text read a column back; a column of another type
// reads as nothing, which the check of the whole project then finds.
func (r row) number(name string) int {
	n, _ := r[name].(int64)
	return int(n)
}

func (r row) maybe(name string) timeline.Maybe {
	n, ok := r[name].(int64)
	return timeline.Maybe{N: int(n), Given: ok}
}

func (r row) int64(name string) int64 {
	n, _ := r[name].(int64)
	return n
}

func (r row) flag(name string) bool { return r.number(name) != 0 }

func (r row) text(name string) string {
	s, _ := r[name].(string)
	return s
}

func rulesetRow(r timeline.Ruleset) row {
	return row{
		"rate_frames": int64(r.Rate.Num), "rate_seconds": int64(r.Rate.Den),
		"startup_counts_first_active": flag(r.StartupCountsFirstActive),
		"throw_grace_rise":            int64(r.ThrowGraceRise), "throw_grace_landing": int64(r.ThrowGraceLanding),
		"prejump_throw_proof": flag(r.PrejumpThrowProof), "buffer": int64(r.Buffer), "trades": flag(r.Trades),
		"health": int64(r.Health), "gauge": int64(r.Gauge),
	}
}

func (r row) ruleset() timeline.Ruleset {
	return timeline.Ruleset{
		Rate:                     timeline.Rate{Num: r.number("rate_frames"), Den: r.number("rate_seconds")},
		StartupCountsFirstActive: r.flag("startup_counts_first_active"),
		ThrowGraceRise:           r.number("throw_grace_rise"), ThrowGraceLanding: r.number("throw_grace_landing"),
		PrejumpThrowProof: r.flag("prejump_throw_proof"), Buffer: r.number("buffer"), Trades: r.flag("trades"),
		Health: r.number("health"), Gauge: r.number("gauge"),
	}
}

// moveRow is m without uid, fighter and place.
func moveRow(m *timeline.Move) row {
	r := row{
		"name": m.Name, "kind": string(m.Kind), "air": flag(m.Air), "level": textOrNull(string(m.Level)),
		"startup": nil, "active": timeline.ActiveWords(m.Active), "recovery": int64(m.Recovery), "total": nil,
		"on_hit": maybe(m.OnHit), "on_guard": maybe(m.OnGuard), "hitstun": maybe(m.Hitstun), "guardstun": maybe(m.Guardstun),
		"airborne_from": maybe(m.AirborneFrom), "misses_air": flag(m.MissesAir),
		"deep": maybe(m.Deep), "drop_units": maybe(m.Drop), "top_units": maybe(m.Top),
		"reach_near": nil, "reach_far": nil, "landing_recovery": nil, "landing_guard_after": nil,
		"immune": table.FormatImmune(m.Immune), "armour": table.FormatArmour(m.Armour), "parry": table.FormatParry(m.Parry),
		"damage": int64(m.Damage), "gauge_cost": int64(m.GaugeCost), "gauge_gain": int64(m.GaugeGain), "travel": int64(m.Travel),
		"knockdown_midscreen": maybe(m.Knockdown.Midscreen), "knockdown_wall": maybe(m.Knockdown.Wall),
		"distance_midscreen": maybe(m.Distance.Midscreen), "distance_wall": maybe(m.Distance.Wall),
	}
	if m.Hits() {
		r["startup"] = int64(m.Startup)
	} else {
		r["total"] = int64(m.Length)
	}
	if m.Reach != nil {
		r["reach_near"], r["reach_far"] = int64(m.Reach.Near), int64(m.Reach.Far)
	}
	if m.Landing != nil {
		r["landing_recovery"], r["landing_guard_after"] = int64(m.Landing.Recovery), int64(m.Landing.GuardAfter)
	}
	return r
}

func (r row) move() (timeline.Move, error) {
	m := timeline.Move{
		Name: r.text("name"), Kind: timeline.Kind(r.text("kind")), Air: r.flag("air"), Level: timeline.Level(r.text("level")),
		Startup: r.number("startup"), Recovery: r.number("recovery"), Length: r.number("total"),
		OnHit: r.maybe("on_hit"), OnGuard: r.maybe("on_guard"), Hitstun: r.maybe("hitstun"), Guardstun: r.maybe("guardstun"),
		AirborneFrom: r.maybe("airborne_from"), MissesAir: r.flag("misses_air"),
		Deep: r.maybe("deep"), Drop: r.maybe("drop_units"), Top: r.maybe("top_units"),
		Damage: r.number("damage"), GaugeCost: r.number("gauge_cost"), GaugeGain: r.number("gauge_gain"), Travel: r.number("travel"),
		Knockdown: timeline.Places{Midscreen: r.maybe("knockdown_midscreen"), Wall: r.maybe("knockdown_wall")},
		Distance:  timeline.Places{Midscreen: r.maybe("distance_midscreen"), Wall: r.maybe("distance_wall")},
	}
	if r["reach_near"] != nil {
		m.Reach = &timeline.Interval{Near: r.number("reach_near"), Far: r.number("reach_far")}
	}
	if r["landing_recovery"] != nil {
		m.Landing = &timeline.Landing{Recovery: r.number("landing_recovery"), GuardAfter: r.number("landing_guard_after")}
	}
	var errs [4]error
	m.Active, errs[0] = table.ParseActive(r.text("active"))
	m.Immune, errs[1] = table.ParseImmune(r.text("immune"))
	m.Armour, errs[2] = table.ParseArmour(r.text("armour"))
	m.Parry, errs[3] = table.ParseParry(r.text("parry"))
	for _, err := range errs {
		if err != nil {
			return m, fmt.Errorf("move %q: %w", m.Name, err)
		}
	}
	return m, nil
}

func jumpRow(j *timeline.Jump) row {
	return row{"name": j.Name, "prejump": int64(j.Prejump), "airborne": int64(j.Airborne), "landing": int64(j.Landing),
		"guard_after": int64(j.GuardAfter), "travel": int64(j.Travel), "apex": maybe(j.Apex)}
}

func (r row) jump() timeline.Jump {
	return timeline.Jump{Name: r.text("name"), Prejump: r.number("prejump"), Airborne: r.number("airborne"),
		Landing: r.number("landing"), GuardAfter: r.number("guard_after"), Travel: r.number("travel"), Apex: r.maybe("apex")}
}

func riseRow(r timeline.Rise) row {
	return row{"name": r.Name, "extra": int64(r.Extra), "shift": int64(r.Shift)}
}

func (r row) rise() timeline.Rise {
	return timeline.Rise{Name: r.text("name"), Extra: r.number("extra"), Shift: r.number("shift")}
}
