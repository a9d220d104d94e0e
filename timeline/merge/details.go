package merge

import (
	"slices"
	"strconv"
	"strings"

	"wakeline/timeline"
)

// Detail is one field of an item on both sides, in words; empty where a side
// lacks it.
type Detail struct{ Field, Ours, Theirs string }

// Details are the fields in which the item of that place differs; of what one
// side lacks, those that it gives.
func (c *Comparison) Details(i int) []Detail {
	it := &c.Items[i]
	o, t := c.ours.Project, c.theirs.Project
	switch it.Kind {
	case RulesetKind:
		return only(differing([]timeline.Field[timeline.Ruleset]{timeline.RulesetFields[it.ours]}, &o.Ruleset, &t.Ruleset))
	case FighterKind:
		out := details(timeline.FighterFields, it, o.Fighters, t.Fighters)
		if it.ours < 0 {
			f := &t.Fighters[it.their]
			for _, n := range []struct {
				of string
				n  int
			}{{"moves", len(f.Moves)}, {"jumps", len(f.Jumps)}, {"rises", len(f.Rises)}, {"routes", len(f.Routes)}, {"standing replies", len(f.Replies)}} {
				out = append(out, Detail{n.of, "", strconv.Itoa(n.n)})
			}
		}
		return out
	case SetupKind:
		return only(setupDetails(at(o.Setups, it.ours), at(t.Setups, it.their)))
	case ListKind:
		a, b := at(c.ours.Lists, it.ours), at(c.theirs.Lists, it.their)
		d := Detail{Field: "filter"}
		if a != nil {
			d.Ours = a.Search
		}
		if b != nil {
			d.Theirs = b.Search
		}
		return only([]Detail{d})
	}
	var a, b timeline.Fighter
	if f := o.Fighter(it.Owner); f != nil {
		a = *f
	}
	if f := t.Fighter(it.Owner); f != nil {
		b = *f
	}
	switch it.Kind {
	case MoveKind:
		out := details(timeline.MoveFields, it, a.Moves, b.Moves)
		if it.State == Clash {
			out = append([]Detail{{"what it is", "a jump", "a move"}}, out...)
		}
		return out
	case JumpKind:
		out := details(timeline.JumpFields, it, a.Jumps, b.Jumps)
		if it.State == Clash {
			out = append([]Detail{{"what it is", "a move", "a jump"}}, out...)
		}
		return out
	case RiseKind:
		return details(timeline.RiseFields, it, a.Rises, b.Rises)
	case RouteKind:
		out := details(timeline.RouteFields, it, a.Routes, b.Routes)
		return append(only([]Detail{{"steps", steps(at(a.Routes, it.ours)), steps(at(b.Routes, it.their))}}), out...)
	default:
		say := func(r *timeline.Reply) []string {
			if r == nil {
				return []string{"", ""}
			}
			return []string{string(r.Demand), number(r.Costs)}
		}
		x, y := say(at(a.Replies, it.ours)), say(at(b.Replies, it.their))
		return only([]Detail{{"demand", x[0], y[0]}, {"costs", x[1], y[1]}})
	}
}

// at is the thing at a place, nil where it isn't there.
func at[T any](list []T, i int) *T {
	if i < 0 {
		return nil
	}
	return &list[i]
}

func steps(r *timeline.Route) string {
	if r == nil {
		return ""
	}
	return timeline.StepsText(r.Steps)
}

func number(m timeline.Maybe) string {
	if !m.Given {
		return ""
	}
	return strconv.Itoa(m.N)
}

// details are the fields of an item of two lists.
func details[T any](of []timeline.Field[T], it *Item, ours, theirs []T) []Detail {
	return only(differing(of, at(ours, it.ours), at(theirs, it.their)))
}

// differing writes the fields in which two things differ; of one alone, those
// that aren't the default.
func differing[T any](of []timeline.Field[T], a, b *T) (out []Detail) {
	if a != nil && b != nil {
		for _, f := range timeline.Differing(of, a, b) {
			out = append(out, Detail{f.Label, f.Text(a), f.Text(b)})
		}
		return out
	}
	for _, f := range timeline.Columns(of) {
		switch {
		case f.Label == "name":
		case a != nil && !f.IsDefault(a):
			out = append(out, Detail{f.Label, f.Text(a), ""})
		case b != nil && !f.IsDefault(b):
			out = append(out, Detail{f.Label, "", f.Text(b)})
		}
	}
	return out
}

// only are those that differ.
func only(of []Detail) []Detail {
	return slices.DeleteFunc(of, func(d Detail) bool { return d.Ours == d.Theirs })
}

// setupDetails writes what two setups are made of, nil for one that isn't there.
func setupDetails(a, b *timeline.Setup) (out []Detail) {
	of := func(s *timeline.Setup) (values []string) {
		say := func(text string) { values = append(values, text) }
		if s == nil {
			s = &timeline.Setup{}
		}
		say(s.Attacker)
		say(s.Rival)
		say(s.Ender)
		say(string(s.Position))
		say(number(s.Advantage))
		say(number(s.Distance))
		say(number(s.Room))
		say(strings.Join(s.Fillers, ", "))
		if s.Name == "" {
			say("")
		} else {
			say(strconv.Itoa(s.Delay))
		}
		say(s.Jump)
		say(s.Attack)
		say(press(s))
		say(s.Landing)
		say(names(s, s.Rises, "all"))
		say(replies(s))
		say(s.OnHit)
		say(names(s, s.Punish, "any route"))
		say(timeline.FollowText(s.Follow))
		if s.Pressure == 0 {
			say("")
		} else {
			say(strconv.Itoa(s.Pressure))
		}
		say(strings.Join(s.Tags, ", "))
		say(s.Note)
		return values
	}
	x, y := of(a), of(b)
	for i, field := range setupFields {
		out = append(out, Detail{field, x[i], y[i]})
	}
	return out
}

// setupFields are the labels of what a setup is made of.
var setupFields = []string{"attacker", "rival", "ender", "position", "knockdown advantage", "distance", "room", "fillers", "delay", "jump", "attack", "press",
	"landing action", "rises", "replies", "on hit", "punish", "string", "pressure", "tags", "note"}

func press(s *timeline.Setup) string {
	switch {
	case s.Attack == "":
		return ""
	case s.Press.Given:
		return "air frame " + strconv.Itoa(s.Press.N)
	}
	return timeline.Auto
}

// names joins names; none are said with a word.
func names(s *timeline.Setup, of []string, none string) string {
	if len(of) == 0 && s.Name != "" {
		return none
	}
	return strings.Join(of, ", ")
}

// replies writes a setup's own replies, each with what is asked of it.
func replies(s *timeline.Setup) string {
	switch {
	case s.Name == "":
		return ""
	case s.Replies == nil:
		return "the rival's"
	case len(s.Replies) == 0:
		return "none"
	}
	out := make([]string, len(s.Replies))
	for i, r := range s.Replies {
		if out[i] = r.Title(); r.Demand != timeline.Survive {
			out[i] += " (" + string(r.Demand) + ")"
		}
		if r.Costs.Given {
			out[i] += " costs " + strconv.Itoa(r.Costs.N)
		}
	}
	return strings.Join(out, ", ")
}

// sameSetup reports whether two setups of one name are equal.
func sameSetup(a, b *timeline.Setup) bool {
	return a.Attacker == b.Attacker && a.Rival == b.Rival && a.Ender == b.Ender && a.Position == b.Position && a.Advantage == b.Advantage &&
		a.Distance == b.Distance && a.Room == b.Room && a.Delay == b.Delay && a.Jump == b.Jump && a.Attack == b.Attack && a.Press == b.Press &&
		a.Landing == b.Landing && a.Note == b.Note && a.OnHit == b.OnHit && a.Pressure == b.Pressure && (a.Replies == nil) == (b.Replies == nil) &&
		slices.Equal(a.Fillers, b.Fillers) && slices.Equal(a.Rises, b.Rises) && slices.Equal(a.Replies, b.Replies) &&
		slices.Equal(a.Tags, b.Tags) && slices.Equal(a.Punish, b.Punish) && slices.Equal(a.Follow, b.Follow)
}
