package merge

import (
	"strings"

	"wakeline/timeline"
)

// Side is one of two projects: ours, which the other is merged into, or theirs.
type Side struct {
	Project *timeline.Project
	Lists   []timeline.SavedList
}

// Kind is what an item is.
type Kind uint8

// The kinds, in the order of the items.
const (
	RulesetKind Kind = iota // one field of the ruleset
	FighterKind             // a fighter that one side lacks, with all it has; of both, its body
	MoveKind
	JumpKind
	RiseKind
	RouteKind
	ReplyKind // a reply that every setup against the fighter is asked
	SetupKind
	ListKind        // a saved list
	Kinds    = iota // how many there are
)

// State says how an item stands on the two sides.
type State uint8

// The states.
const (
	Equal     State = iota
	New             // theirs has it, ours lacks it
	OursAlone       // theirs lacks it
	Different
	Clash // theirs is new, but ours has another thing of its name: it can't be added
)

// Choice is what becomes of an item.
type Choice uint8

// The choices.
const (
	Ours   Choice = iota // it stays as it is; what is new is left out
	Theirs               // theirs takes its place, or comes in
	Both                 // theirs comes in beside it, under a name of its own
)

// Item is one thing of either side.
type Item struct {
	Kind        Kind
	State       State
	Owner       string // the fighter that has it; empty where none does
	Name        string // as ours calls it, else as theirs does
	ours, their int    // places in their lists; -1: it isn't there
}

// Choices are those that there are for the item, its default first: what is new
// comes in, and what differs stays.
func (it *Item) Choices() []Choice {
	switch {
	case it.State == New:
		return []Choice{Theirs, Ours}
	case it.State == Different && it.Kind >= SetupKind:
		return []Choice{Ours, Theirs, Both}
	case it.State == Different:
		return []Choice{Ours, Theirs}
	}
	return []Choice{Ours}
}

// Comparison is two projects side by side. It is not changed after Compare.
type Comparison struct {
	Items []Item

	ours, theirs Side
	fresh        bool // ours holds nothing yet, and its ruleset is the default
}

// Compare lays theirs beside ours. Both keep the rules of their kind.
func Compare(ours, theirs Side) *Comparison {
	c := &Comparison{ours: ours, theirs: theirs}
	o, t := ours.Project, theirs.Project
	c.fresh = len(o.Fighters) == 0 && o.Ruleset.Equal(timeline.DefaultRuleset())
	for i := range timeline.RulesetFields {
		state := Equal
		if len(timeline.Differing(timeline.RulesetFields[i:i+1], &o.Ruleset, &t.Ruleset)) > 0 {
			state = Different
		}
		c.Items = append(c.Items, Item{Kind: RulesetKind, State: state, Name: timeline.RulesetFields[i].Label, ours: i, their: i})
	}
	c.fighters()
	lay(c, SetupKind, "", o.Setups, t.Setups, func(s *timeline.Setup) string { return s.Name }, sameSetup)
	lay(c, ListKind, "", ours.Lists, theirs.Lists, func(l *timeline.SavedList) string { return strings.ToLower(l.Name) },
		func(a, b *timeline.SavedList) bool { return a.Search == b.Search })
	for i := range c.Items {
		if it := &c.Items[i]; it.Kind == ListKind {
			if it.ours >= 0 {
				it.Name = ours.Lists[it.ours].Name
			} else {
				it.Name = theirs.Lists[it.their].Name
			}
		}
	}
	return c
}

// fighters lays the fighters side by side, and what those of both sides have.
func (c *Comparison) fighters() {
	o, t := c.ours.Project, c.theirs.Project
	at := len(c.Items)
	lay(c, FighterKind, "", o.Fighters, t.Fighters, func(f *timeline.Fighter) string { return f.Name },
		func(a, b *timeline.Fighter) bool { return len(timeline.Differing(timeline.FighterFields, a, b)) == 0 })
	for _, it := range append([]Item{}, c.Items[at:]...) {
		if it.ours < 0 || it.their < 0 {
			continue
		}
		a, b := &o.Fighters[it.ours], &t.Fighters[it.their]
		at := len(c.Items)
		lay(c, MoveKind, a.Name, a.Moves, b.Moves, func(m *timeline.Move) string { return m.Name },
			func(a, b *timeline.Move) bool { return len(timeline.Differing(timeline.MoveFields, a, b)) == 0 })
		lay(c, JumpKind, a.Name, a.Jumps, b.Jumps, func(j *timeline.Jump) string { return j.Name },
			func(a, b *timeline.Jump) bool { return len(timeline.Differing(timeline.JumpFields, a, b)) == 0 })
		for i := at; i < len(c.Items); i++ { // moves and jumps share their names
			if next := &c.Items[i]; next.State == New && (next.Kind == MoveKind && a.Jump(next.Name) != nil || next.Kind == JumpKind && a.Move(next.Name) != nil) {
				next.State = Clash
			}
		}
		lay(c, RiseKind, a.Name, a.Rises, b.Rises, func(r *timeline.Rise) string { return r.Name },
			func(a, b *timeline.Rise) bool { return *a == *b })
		lay(c, RouteKind, a.Name, a.Routes, b.Routes, func(r *timeline.Route) string { return r.Name },
			func(a, b *timeline.Route) bool {
				return len(timeline.Differing(timeline.RouteFields, a, b)) == 0 && timeline.StepsText(a.Steps) == timeline.StepsText(b.Steps)
			})
		lay(c, ReplyKind, a.Name, a.Replies, b.Replies, func(r *timeline.Reply) string { return r.Title() },
			func(a, b *timeline.Reply) bool { return *a == *b })
	}
}

// lay adds the items of two lists: ours in their order, then what theirs has
// besides.
func lay[T any](c *Comparison, kind Kind, owner string, ours, theirs []T, name func(*T) string, same func(a, b *T) bool) {
	place := make(map[string]int, len(theirs))
	for i := range theirs {
		place[name(&theirs[i])] = i
	}
	known := make(map[string]bool, len(ours))
	for i := range ours {
		it := Item{Kind: kind, Owner: owner, Name: name(&ours[i]), State: OursAlone, ours: i, their: -1}
		known[it.Name] = true
		if k, both := place[it.Name]; both {
			it.their, it.State = k, Different
			if same(&ours[i], &theirs[k]) {
				it.State = Equal
			}
		}
		c.Items = append(c.Items, it)
	}
	for k := range theirs {
		if n := name(&theirs[k]); !known[n] {
			c.Items = append(c.Items, Item{Kind: kind, Owner: owner, Name: n, State: New, ours: -1, their: k})
		}
	}
}

// Defaults are the choices that lose nothing of ours: what is new comes in, and
// what differs stays as it is. A project that holds nothing yet takes the
// ruleset too.
func (c *Comparison) Defaults() []Choice {
	out := make([]Choice, len(c.Items))
	for i := range c.Items {
		out[i] = c.Items[i].Choices()[0]
		if c.fresh && c.Items[i].Kind == RulesetKind && c.Items[i].State == Different {
			out[i] = Theirs
		}
	}
	return out
}
