package compare

import (
	"slices"
	"strings"

	"wakeline/timeline"
)

// Parts lists all that differs between two states of the move data, used by a
// setup or not: the ruleset, then fighter by fighter in the later state's
// order, each with what stands by itself, its moves, jumps, rises, standing
// replies and routes. What only the earlier state has comes last of its kind. A
// fighter of one state alone is one part. It is empty exactly where both hold
// the same; the order counts for rises and standing replies alone, since
// nothing reads another.
func Parts(before, after *timeline.Project) (out []Cause) {
	out = appendPart(out, DataPart{Kind: RulesetPart}, &before.Ruleset, &after.Ruleset)
	for i := range after.Fighters {
		f := &after.Fighters[i]
		if was := before.Fighter(f.Name); was != nil {
			out = append(out, fighterParts(was, f)...)
		} else {
			out = append(out, Cause{DataPart: DataPart{FighterPart, f.Name, ""}, New: true})
		}
	}
	for i := range before.Fighters {
		if name := before.Fighters[i].Name; after.Fighter(name) == nil {
			out = append(out, Cause{DataPart: DataPart{FighterPart, name, ""}, Gone: true})
		}
	}
	return out
}

// fighterParts is Parts of one fighter that both states have.
func fighterParts(before, after *timeline.Fighter) (out []Cause) {
	if own := differing(timeline.FighterFields, before, after); len(own) > 0 {
		out = append(out, fieldsOf(Cause{DataPart: DataPart{BodyPart, after.Name, ""}}, own, before, after))
	}
	b, a := movesOf(before), movesOf(after)
	out = appendList(out, MovePart, after.Name, b, a)
	out = appendList(out, RisePart, after.Name, named(before.Rises, riseName), named(after.Rises, riseName))
	out = appendOrder(out, after.Name, "rises", named(before.Rises, riseName), named(after.Rises, riseName))
	out = appendList(out, ReplyPart, after.Name, named(before.Replies, replyName), named(after.Replies, replyName))
	out = appendOrder(out, after.Name, "replies", named(before.Replies, replyName), named(after.Replies, replyName))
	return appendList(out, RoutePart, after.Name, named(before.Routes, routeName), named(after.Routes, routeName))
}

func riseName(r *timeline.Rise) string   { return r.Name }
func replyName(r *timeline.Reply) string { return r.Title() }
func routeName(r *timeline.Route) string { return r.Name }

// item is one thing of a list, and what it is told from the others by.
type item struct {
	name  string
	value any // a pointer
}

func named[T any](of []T, name func(*T) string) (out []item) {
	for i := range of {
		out = append(out, item{name(&of[i]), &of[i]})
	}
	return out
}

// movesOf are a fighter's moves and then its jumps, which share their names.
func movesOf(f *timeline.Fighter) []item {
	return append(named(f.Moves, func(m *timeline.Move) string { return m.Name }),
		named(f.Jumps, func(j *timeline.Jump) string { return j.Name })...)
}

// appendList appends what differs between two lists of one kind.
func appendList(out []Cause, kind PartKind, fighter string, before, after []item) []Cause {
	was := make(map[string]any, len(before))
	for _, b := range before {
		was[b.name] = b.value
	}
	now := make(map[string]bool, len(after))
	for _, a := range after {
		now[a.name] = true
		out = appendPart(out, DataPart{kind, fighter, a.name}, was[a.name], a.value)
	}
	for _, b := range before {
		if !now[b.name] {
			out = appendPart(out, DataPart{kind, fighter, b.name}, b.value, nil)
		}
	}
	return out
}

// appendPart appends a part where it differs; nil stands for none.
func appendPart(out []Cause, at DataPart, before, after any) []Cause {
	c := Cause{DataPart: at, New: before == nil, Gone: after == nil}
	if equal(before, after) {
		return out
	}
	for _, v := range []any{before, after} {
		if _, ok := v.(*timeline.Jump); ok {
			c.Jump = true
		}
	}
	return append(out, fieldsOf(c, changedFields(before, after), before, after))
}

// appendOrder appends a change of the order in which what both lists have
// stands.
func appendOrder(out []Cause, fighter, list string, before, after []item) []Cause {
	common := func(of, other []item) (names []string) {
		for _, i := range of {
			if slices.ContainsFunc(other, func(o item) bool { return o.name == i.name }) {
				names = append(names, i.name)
			}
		}
		return names
	}
	b, a := common(before, after), common(after, before)
	if slices.Equal(b, a) {
		return out
	}
	return append(out, Cause{DataPart: DataPart{BodyPart, fighter, ""},
		Fields: []Difference{{list, "order of " + list, strings.Join(b, ", "), strings.Join(a, ", ")}}})
}

// fieldsOf is c with those fields, as they stand in both states.
func fieldsOf(c Cause, changed []fieldOf, before, after any) Cause {
	for _, f := range changed {
		c.Fields = append(c.Fields, Difference{f.name, f.noun, f.say(before), f.say(after)})
	}
	return c
}
