package patch

import (
	"slices"

	"wakeline/timeline"
	"wakeline/timeline/value"
)

// RouteKind says what became of a route.
type RouteKind string

// What a route does from one state to another.
const (
	Broke        RouteKind = "broke"   // it linked, or was confirmed, and is no longer
	Mended       RouteKind = "mended"  // the other way round
	RouteIsNew   RouteKind = "new"     // only the later state has it
	RouteIsGone  RouteKind = "gone"    // only the earlier one has
	RouteChanged RouteKind = "changed" // its margins, points or gauge are others
)

// Route is a named route under two states.
type Route struct {
	Fighter, Name string
	Kind          RouteKind
	Before, After *RouteState // nil: that state doesn't have it
}

// RouteState is a route worked out under one state.
type RouteState struct {
	value.Route
	Links  bool // by its margins alone, confirmed or not
	Steps  []timeline.RouteStep
	throws []bool // of each step
}

// routes lists the named routes that two states work out otherwise, fighter by
// fighter in the later state's order; what only the earlier one has comes last.
func routes(before, after *timeline.Project) (out []Route) {
	add := func(fighter, name string, b, a *RouteState) {
		if r := (Route{Fighter: fighter, Name: name, Before: b, After: a}); r.kind() != "" {
			r.Kind = r.kind()
			out = append(out, r)
		}
	}
	for i := range after.Fighters {
		f := &after.Fighters[i]
		was := before.Fighter(f.Name)
		for k := range f.Routes {
			name := f.Routes[k].Name
			add(f.Name, name, stateOf(before, was, name), stateOf(after, f, name))
		}
		if was == nil {
			continue
		}
		for k := range was.Routes {
			if name := was.Routes[k].Name; f.Route(name) == nil {
				add(f.Name, name, stateOf(before, was, name), nil)
			}
		}
	}
	for i := range before.Fighters {
		f := &before.Fighters[i]
		if after.Fighter(f.Name) != nil {
			continue
		}
		for k := range f.Routes {
			add(f.Name, f.Routes[k].Name, stateOf(before, f, f.Routes[k].Name), nil)
		}
	}
	return out
}

// stateOf works out a route of a fighter; nil where there is none.
func stateOf(p *timeline.Project, f *timeline.Fighter, name string) *RouteState {
	if f == nil {
		return nil
	}
	r := f.Route(name)
	if r == nil {
		return nil
	}
	bare := *r
	bare.Confirmed = false
	byLinks := value.RouteOf(p.Ruleset, f, &bare)
	out := &RouteState{Route: value.RouteOf(p.Ruleset, f, r), Links: byLinks.Counts, Steps: r.Steps}
	for _, s := range r.Steps {
		out.throws = append(out.throws, f.Move(s.Move).Kind == timeline.Throw)
	}
	return out
}

// kind says what became of the route, empty where nothing did.
func (r *Route) kind() RouteKind {
	b, a := r.Before, r.After
	switch {
	case b == nil:
		return RouteIsNew
	case a == nil:
		return RouteIsGone
	case b.Counts && !a.Counts, b.Links && !a.Links:
		return Broke
	case a.Counts && !b.Counts, a.Links && !b.Links:
		return Mended
	case !slices.Equal(b.Margins, a.Margins), !slices.Equal(b.Steps, a.Steps),
		b.Damage != a.Damage, b.Cost != a.Cost, b.Gain != a.Gain, b.Needs() != a.Needs():
		return RouteChanged
	}
	return ""
}
