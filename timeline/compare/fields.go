package compare

import (
	"slices"
	"strings"

	"wakeline/timeline"
)

// fieldOf is one field of a part, whatever the part is.
type fieldOf struct {
	name string // as in the project text
	noun string // in a sentence
	say  func(part any) string
	mix  func(to, from any) // nil for what no verdict reads
}

// equal reports whether two parts, pointers or nil, hold the same.
func equal(a, b any) bool {
	_, jump := a.(*timeline.Jump)
	_, other := b.(*timeline.Jump)
	return a != nil && b != nil && jump == other && len(changedFields(a, b)) == 0
}

// changedFields lists what differs between two parts of one type, in the
// order of its table. It is empty where one is nil or they are of two types.
func changedFields(before, after any) []fieldOf {
	switch before.(type) {
	case *timeline.Ruleset:
		return differing(timeline.RulesetFields, before, after)
	case *timeline.Fighter:
		return append(differing(timeline.FighterFields, before, after), differingReplies(before, after)...)
	case *timeline.Move:
		return differing(timeline.MoveFields, before, after)
	case *timeline.Jump:
		return differing(timeline.JumpFields, before, after)
	case *timeline.Rise:
		return differing(timeline.RiseFields, before, after)
	case *timeline.Reply:
		return differingReply(before, after)
	case *timeline.Route:
		return append(differingSteps(before, after), differing(timeline.RouteFields, before, after)...)
	}
	return nil
}

// differing is Differing of two parts, nothing where one isn't a T.
func differing[T any](of []timeline.Field[T], before, after any) (out []fieldOf) {
	b, _ := before.(*T)
	a, _ := after.(*T)
	if b == nil || a == nil {
		return nil
	}
	for _, f := range timeline.Differing(of, b, a) {
		out = append(out, fieldOf{f.Path(), f.Noun, func(part any) string { return orNone(f.Text(part.(*T))) },
			func(to, from any) { f.Copy(to.(*T), from.(*T)) }})
	}
	return out
}

// differingReplies is differing of what two fighters are asked in every setup.
func differingReplies(before, after any) []fieldOf {
	b, _ := before.(*timeline.Fighter)
	a, _ := after.(*timeline.Fighter)
	if b == nil || a == nil || slices.Equal(a.Replies, b.Replies) {
		return nil
	}
	say := func(part any) string {
		var out []string
		for _, r := range part.(*timeline.Fighter).Replies {
			if out = append(out, r.Title()); r.Demand != timeline.Survive {
				out[len(out)-1] += " (" + string(r.Demand) + ")"
			}
		}
		return orNone(strings.Join(out, ", "))
	}
	return []fieldOf{{"replies", "replies", say, func(to, from any) { to.(*timeline.Fighter).Replies = from.(*timeline.Fighter).Replies }}}
}

// differingReply is differing of a standing reply that both states ask, told
// from the others by its move and lateness.
func differingReply(before, after any) (out []fieldOf) {
	b, _ := before.(*timeline.Reply)
	a, _ := after.(*timeline.Reply)
	if b == nil || a == nil {
		return nil
	}
	if a.Demand != b.Demand {
		out = append(out, fieldOf{"demand", "demand", func(part any) string { return string(part.(*timeline.Reply).Demand) }, nil})
	}
	if a.Costs != b.Costs {
		out = append(out, fieldOf{"costs", "costs", func(part any) string { return part.(*timeline.Reply).Costs.String() }, nil})
	}
	return out
}

// differingSteps is differing of a route's steps.
func differingSteps(before, after any) []fieldOf {
	b, _ := before.(*timeline.Route)
	a, _ := after.(*timeline.Route)
	if b == nil || a == nil || slices.Equal(a.Steps, b.Steps) {
		return nil
	}
	return []fieldOf{{"steps", "steps", func(part any) string { return timeline.StepsText(part.(*timeline.Route).Steps) }, nil}}
}

func orNone(text string) string {
	if text == "" {
		return timeline.Maybe{}.String()
	}
	return text
}

// mix is a copy of before with those fields of after.
func mix(before, after any, fields []fieldOf) any {
	out := before
	switch v := before.(type) {
	case *timeline.Ruleset:
		out = copied(v)
	case *timeline.Fighter:
		out = copied(v)
	case *timeline.Move:
		out = copied(v)
	case *timeline.Jump:
		out = copied(v)
	case *timeline.Rise:
		out = copied(v)
	}
	for _, f := range fields {
		f.mix(out, after)
	}
	return out
}

func copied[T any](v *T) *T {
	out := *v
	return &out
}
