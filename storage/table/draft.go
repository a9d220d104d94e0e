package table

import (
	"errors"
	"strconv"
	"strings"

	"wakeline/timeline"
)

// fault is what is wrong with a row: the column of ours, what was expected
// there, and what stands there.
type fault struct{ column, want, got string }

// finish makes a whole move of the cells read, as the project text's reader
// does, and asks it to keep timeline's rules.
func (d *draft) finish(rules timeline.Ruleset) *fault {
	m := &d.Move
	m.Startup = d.startup.N
	if m.Level == "" {
		m.Level = defaultLevel(m)
	}
	if f := d.lengths(); f != nil {
		return f
	}
	if f := half(d.near, d.far, "reach_near", "reach_far"); f != nil {
		return f
	}
	if f := half(d.recovery, d.guardAfter, "landing_recovery", "landing_guard_after"); f != nil {
		return f
	}
	if d.near.Given {
		m.Reach = &timeline.Interval{Near: d.near.N, Far: d.far.N}
	}
	if d.recovery.Given {
		m.Landing = &timeline.Landing{Recovery: d.recovery.N, GuardAfter: d.guardAfter.N}
	}
	var broken *timeline.FieldError
	if errors.As(timeline.CheckMove("$", m, rules), &broken) {
		return &fault{columnOf(broken.Path), broken.Want, broken.Got}
	}
	if total := m.Total(rules); d.total.Given && d.total.N != total {
		return &fault{"total", "no total, or what startup, active and recovery come to, " + strconv.Itoa(total), d.total.String()}
	}
	return nil
}

// lengths asks for what the kind needs: active frames, or a total alone.
func (d *draft) lengths() *fault {
	m := &d.Move
	switch {
	case m.Kind == "":
		return &fault{"kind", "strike, throw, parry, evade or dash", "nothing"}
	case m.Hits():
		if !d.startup.Given {
			return &fault{"startup", "the startup of a " + string(m.Kind), "nothing"}
		}
		if len(m.Active) == 0 {
			return &fault{"active", "the active frames of a " + string(m.Kind), "nothing"}
		}
	default:
		alone := "nothing: a " + string(m.Kind) + " has a total alone"
		switch {
		case m.Startup != 0:
			return &fault{"startup", alone, strconv.Itoa(m.Startup)}
		case len(m.Active) > 0:
			return &fault{"active", alone, timeline.ActiveWords(m.Active)}
		case m.Recovery != 0:
			return &fault{"recovery", alone, strconv.Itoa(m.Recovery)}
		case !d.total.Given:
			return &fault{"total", "the total of a " + string(m.Kind), "nothing"}
		}
		m.Length = d.total.N
	}
	return nil
}

// half finds fault with one number of a pair without the other.
func half(a, b timeline.Maybe, nameA, nameB string) *fault {
	switch {
	case a.Given && !b.Given:
		return &fault{nameB, "a number beside " + nameA, "nothing"}
	case b.Given && !a.Given:
		return &fault{nameA, "a number beside " + nameB, "nothing"}
	}
	return nil
}

// columnOf returns the column that holds what path says of a move "$".
func columnOf(path string) string {
	path = strings.TrimPrefix(path, "$.")
	switch path {
	case "reach[0]":
		return "reach_near"
	case "reach[1]":
		return "reach_far"
	}
	name, _, _ := strings.Cut(path, "[")
	return strings.ReplaceAll(name, ".", "_")
}
