package timeline

import (
	"fmt"
	"slices"
)

// Edit is one change of a project: it replaces a value, adds one last, or
// removes one. A new name is given to the value in all setups that use it, too.
type Edit interface {
	apply(p *Project) error
	data() bool    // changes the move data
	owner() string // the fighter whose lists it changes; empty: of none
}

// NameEdit is an edit of what setups have the name of.
type NameEdit interface {
	Edit
	// Names are what it is called before and after; empty where it is added, or
	// taken away, and of a reply, whose name no setup has.
	Names() (before, after string)
	Named(name string) Edit // with another name for what it puts
	There(p *Project) Edit  // putting what p has under the name before
}

// RulesetEdit replaces the ruleset.
type RulesetEdit struct{ Ruleset Ruleset }

// FighterEdit replaces the name, body and replies of the fighter called Before; adds
// Fighter with all it has where Before is empty; takes Before away with all
// it has where Fighter is nil.
type FighterEdit struct {
	Before  string
	Fighter *Fighter
}

// SetupEdit replaces the setup called Before; adds Setup where Before is
// empty; takes Before away where Setup is nil.
type SetupEdit struct {
	Before string
	Setup  *Setup
}

// With returns p with the edits done in their order; p stays as it is. Values
// that no edit touches are shared. The error says which edit can't be done,
// or which rule of interfaces.md the result would break: a name that a setup
// uses can't be taken away.
func (p *Project) With(edits ...Edit) (*Project, error) {
	q := &Project{p.Ruleset, slices.Clone(p.Fighters), slices.Clone(p.Setups)}
	q.own(edits)
	data := false
	for _, e := range edits {
		if err := e.apply(q); err != nil {
			return nil, err
		}
		data = data || e.data()
	}
	if data {
		return q, q.Check()
	}
	return q, q.checkEdited(edits)
}

// checkEdited is Check of the setups that were edited, and of no others.
func (p *Project) checkEdited(edits []Edit) error {
	c := checker{rules: p.Ruleset}
	seen := make(names, len(p.Setups))
	edited := map[string]bool{}
	for _, e := range edits {
		if s := e.(SetupEdit).Setup; s != nil {
			edited[s.Name] = true
		}
	}
	for i := range p.Setups {
		s := &p.Setups[i]
		path := (*Path)(nil).At("setups").Item(i)
		c.name(path, s.Name, seen)
		if edited[s.Name] {
			c.setup(path, p.roster, s)
		}
	}
	return c.first()
}

func (RulesetEdit) data() bool { return true }
func (FighterEdit) data() bool { return true }
func (SetupEdit) data() bool   { return false }

func (RulesetEdit) owner() string   { return "" }
func (e FighterEdit) owner() string { return e.Before }
func (SetupEdit) owner() string     { return "" }

// Names implements NameEdit.
func (e FighterEdit) Names() (before, after string) {
	if e.Fighter != nil {
		after = e.Fighter.Name
	}
	return e.Before, after
}

// Named implements NameEdit.
func (e FighterEdit) Named(name string) Edit {
	f := *e.Fighter
	f.Name, e.Fighter = name, &f
	return e
}

// There implements NameEdit.
func (e FighterEdit) There(p *Project) Edit {
	e.Fighter = p.Fighter(e.Before)
	return e
}

func (e RulesetEdit) apply(p *Project) error {
	p.Ruleset = e.Ruleset
	return nil
}

func (e FighterEdit) apply(p *Project) error {
	name := func(f *Fighter) string { return f.Name }
	if e.Fighter != nil && e.Before != "" {
		f := p.Fighter(e.Before)
		if f == nil {
			return fmt.Errorf("expected a fighter, got %q", e.Before)
		}
		next := e.Fighter.Own()
		next.Moves, next.Jumps, next.Rises, next.Routes = f.Moves, f.Jumps, f.Rises, f.Routes
		*f = next
		p.rename(e.Before, next.Name, func(s *Setup, to func(*string)) {
			to(&s.Attacker)
			to(&s.Rival)
		})
		return nil
	}
	if e.Fighter != nil {
		next := e.Fighter.apart()
		return put(&p.Fighters, "fighter", "", &next, name)
	}
	if err := p.unused("fighter", e.Before, func(s *Setup) bool { return s.Attacker == e.Before || s.Rival == e.Before }); err != nil {
		return err
	}
	return put(&p.Fighters, "fighter", e.Before, nil, name)
}

func (e SetupEdit) apply(p *Project) error {
	return put(&p.Setups, "setup", e.Before, e.Setup, func(s *Setup) string { return s.Name })
}

// put replaces the value called before in a list, adds one last, or takes one
// away. The list must not be shared.
func put[T any](list *[]T, what, before string, value *T, name func(*T) string) error {
	if before == "" {
		if value != nil {
			*list = append(*list, *value)
		}
		return nil
	}
	i := slices.IndexFunc(*list, func(v T) bool { return name(&v) == before })
	if i < 0 {
		return fmt.Errorf("expected a %s, got %q", what, before)
	}
	if value == nil {
		*list = slices.Delete(*list, i, i+1)
	} else {
		(*list)[i] = *value
	}
	return nil
}

// own copies the lists of the fighters that edits name, once for all edits, so
// that they can be changed.
func (p *Project) own(edits []Edit) {
	done := map[string]bool{}
	for _, e := range edits {
		name := e.owner()
		if f := p.Fighter(name); f != nil && !done[name] {
			*f = f.apart()
		}
		done[name] = true
	}
}

// apart is f with copies of its lists.
func (f *Fighter) apart() Fighter {
	out := f.Own()
	out.Replies = slices.Clone(f.Replies)
	out.Moves, out.Jumps, out.Rises, out.Routes = slices.Clone(f.Moves), slices.Clone(f.Jumps), slices.Clone(f.Rises), slices.Clone(f.Routes)
	return out
}

// owned is the fighter of that name, whose lists are copies already.
func (p *Project) owned(name string) (*Fighter, error) {
	f := p.Fighter(name)
	if f == nil {
		return nil, fmt.Errorf("expected a fighter, got %q", name)
	}
	return f, nil
}

// unused checks that no setup uses a thing.
func (p *Project) unused(what, name string, uses func(*Setup) bool) error {
	for i := range p.Setups {
		if uses(&p.Setups[i]) {
			return fmt.Errorf("setup %q uses the %s %q", p.Setups[i].Name, what, name)
		}
	}
	return nil
}

// Uses reports whether s names that move or jump of that fighter: its own, or a
// reply.
func (s *Setup) Uses(fighter, name string) bool {
	return s.Attacker == fighter && (s.Ender == name || s.Jump == name || s.Attack == name || s.Landing == name || slices.Contains(s.Fillers, name) ||
		slices.ContainsFunc(s.Follow, func(f FollowStep) bool { return f.Move == name })) ||
		s.Rival == fighter && slices.ContainsFunc(s.Replies, func(r Reply) bool { return r.Move == name })
}

// UsesRoute reports whether s names that route of its attacker.
func (s *Setup) UsesRoute(name string) bool {
	return s.OnHit == name || slices.Contains(s.Punish, name)
}

// renameDone gives a move or jump its new name in its fighter's replies and
// routes, and in every setup.
func (p *Project) renameDone(fighter, before, after string) {
	if f := p.Fighter(fighter); before != "" && before != after && f.uses(before) {
		f.renamed(before, after)
	}
	p.rename(before, after, func(s *Setup, to func(*string)) {
		if s.Attacker == fighter {
			for _, at := range []*string{&s.Ender, &s.Jump, &s.Attack, &s.Landing} {
				to(at)
			}
			s.Fillers = slices.Clone(s.Fillers)
			for i := range s.Fillers {
				to(&s.Fillers[i])
			}
			s.Follow = slices.Clone(s.Follow)
			for i := range s.Follow {
				to(&s.Follow[i].Move)
			}
		}
		if s.Rival == fighter {
			s.Replies = slices.Clone(s.Replies)
			for i := range s.Replies {
				to(&s.Replies[i].Move)
			}
		}
	})
}

// rename replaces the name before with after, in every place of every setup.
func (p *Project) rename(before, after string, in func(s *Setup, to func(*string))) {
	if before == "" || before == after {
		return
	}
	for i := range p.Setups {
		in(&p.Setups[i], func(at *string) {
			if *at == before {
				*at = after
			}
		})
	}
}

// renamed gives a move or jump its new name in f's own replies and routes,
// which may be shared.
func (f *Fighter) renamed(before, after string) {
	f.Replies = slices.Clone(f.Replies)
	for i := range f.Replies {
		if f.Replies[i].Move == before {
			f.Replies[i].Move = after
		}
	}
	f.Routes = slices.Clone(f.Routes)
	for i := range f.Routes {
		steps := slices.Clone(f.Routes[i].Steps)
		for k := range steps {
			if steps[k].Move == before {
				steps[k].Move = after
			}
		}
		f.Routes[i].Steps = steps
	}
}
