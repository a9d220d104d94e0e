package model

import (
	"fmt"
	"reflect"
	"strconv"

	"wakeline/timeline"
)

// StepWords say what a step back or forward has changed: of one setup, its
// value before and after; else what the step is called.
func StepWords(next NextStep, before, after *timeline.Setup) string {
	name := NameOr(next.Setup, "")
	if before != nil && next.At >= 0 {
		if what, was, is := OneChange(before, after); what != "" {
			return fmt.Sprintf("%s of “%s”, %s → %s", what, CutText(after.Name, 60), was, is)
		}
		name = after.Name
	}
	if name == "" {
		return next.What
	}
	return fmt.Sprintf("%s (“%s”)", next.What, CutText(name, 60))
}

// OneChange is the field in which two values of a setup differ, where it is a
// single one of one value, and both values in words.
func OneChange(before, after *timeline.Setup) (what, was, is string) {
	maybe := func(m timeline.Maybe, none string) string {
		if m.Given {
			return m.String()
		}
		return none
	}
	of := func(s *timeline.Setup) [][2]string {
		return [][2]string{
			{"delay", strconv.Itoa(s.Delay)}, {"press", maybe(s.Press, "auto")}, {"advantage", maybe(s.Advantage, "the ender's")}, {"position", string(s.Position)},
			{"distance", maybe(s.Distance, "the ender's")}, {"room", maybe(s.Room, "the position's")},
			{"ender", NameOr(s.Ender, "none")}, {"jump", NameOr(s.Jump, "none")}, {"attack", NameOr(s.Attack, "none")}, {"landing action", s.Landing},
		}
	}
	a, b := of(before), of(after)
	for i := range a {
		if a[i] == b[i] {
			continue
		}
		if what != "" {
			return "", "", ""
		}
		what, was, is = a[i][0], a[i][1], b[i][1]
	}
	return what, was, is
}

// ChangedRow is the first row of the move data that differs between two
// states, as after has it; one that is gone is told by the row in its place.
func ChangedRow(before, after *timeline.Project) (out DataRow, ok bool) {
	if !before.Ruleset.Equal(after.Ruleset) {
		return DataRow{Kind: RulesetRow}, true
	}
	if len(before.Fighters) != len(after.Fighters) {
		return DataRow{Kind: FighterRow, Name: nameAt(after.Fighters, firstChange(before.Fighters, after.Fighters), func(f *timeline.Fighter) string { return f.Name })}, true
	}
	for i := range after.Fighters {
		was, is := &before.Fighters[i], &after.Fighters[i]
		own := is.Own()
		own.Replies = was.Replies
		if !reflect.DeepEqual(was.Own(), own) {
			return DataRow{Kind: FighterRow, Name: is.Name}, true
		}
		for _, t := range []struct {
			kind RowKind
			at   int
			name func(at int) string
		}{
			{MoveRow, firstChange(was.Moves, is.Moves), func(at int) string { return nameAt(is.Moves, at, func(m *timeline.Move) string { return m.Name }) }},
			{JumpRow, firstChange(was.Jumps, is.Jumps), func(at int) string { return nameAt(is.Jumps, at, func(j *timeline.Jump) string { return j.Name }) }},
			{RiseRow, firstChange(was.Rises, is.Rises), func(at int) string { return nameAt(is.Rises, at, func(r *timeline.Rise) string { return r.Name }) }},
			{RouteRow, firstChange(was.Routes, is.Routes), func(at int) string { return nameAt(is.Routes, at, func(r *timeline.Route) string { return r.Name }) }},
			{ReplyRow, firstChange(was.Replies, is.Replies), func(at int) string {
				return nameAt(is.Replies, at, func(r *timeline.Reply) string { return r.Title() })
			}},
		} {
			if t.at >= 0 {
				return DataRow{is.Name, t.kind, t.name(t.at)}, true
			}
		}
	}
	return out, false
}

// firstChange is the first place at which two lists differ, -1 for none.
func firstChange[T any](before, after []T) int {
	for i := range max(len(before), len(after)) {
		if i >= len(before) || i >= len(after) || !reflect.DeepEqual(before[i], after[i]) {
			return i
		}
	}
	return -1
}

// nameAt is the name at a place of a list, or at its last where that is past
// the end.
func nameAt[T any](list []T, at int, name func(*T) string) string {
	if len(list) == 0 {
		return ""
	}
	return name(&list[min(at, len(list)-1)])
}
