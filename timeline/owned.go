package timeline

import (
	"fmt"
	"slices"
)

// Owned is what a fighter has, as a pointer: a move, a jump, a rise, a route, or
// a reply that every setup against the fighter is asked.
type Owned[T any] interface {
	*T
	Title() string      // what it is called in its list
	List() List         // the list it stands in
	In(f *Fighter) *[]T // that list of a fighter
	name() *string      // where setups have its name from; nil: they don't name it
}

// OwnedEdit replaces what Owner has under the title Before; adds To last where
// Before is empty; takes Before away where To is nil.
type OwnedEdit[T any, P Owned[T]] struct {
	Owner, Before string
	To            *T
}

// The edits of what fighters have.
type (
	MoveEdit  = OwnedEdit[Move, *Move]
	JumpEdit  = OwnedEdit[Jump, *Jump]
	RiseEdit  = OwnedEdit[Rise, *Rise]
	RouteEdit = OwnedEdit[Route, *Route]
	ReplyEdit = OwnedEdit[Reply, *Reply]
)

func (m *Move) Title() string  { return m.Name }
func (j *Jump) Title() string  { return j.Name }
func (r *Rise) Title() string  { return r.Name }
func (r *Route) Title() string { return r.Name }

func (m *Move) name() *string  { return &m.Name }
func (j *Jump) name() *string  { return &j.Name }
func (r *Rise) name() *string  { return &r.Name }
func (r *Route) name() *string { return &r.Name }
func (r *Reply) name() *string { return nil }

func (*Move) List() List  { return MoveList }
func (*Jump) List() List  { return JumpList }
func (*Rise) List() List  { return RiseList }
func (*Route) List() List { return RouteList }
func (*Reply) List() List { return ReplyList }

func (*Move) In(f *Fighter) *[]Move   { return &f.Moves }
func (*Jump) In(f *Fighter) *[]Jump   { return &f.Jumps }
func (*Rise) In(f *Fighter) *[]Rise   { return &f.Rises }
func (*Route) In(f *Fighter) *[]Route { return &f.Routes }
func (*Reply) In(f *Fighter) *[]Reply { return &f.Replies }

// title is Title, to be handed on.
func title[T any, P Owned[T]](v *T) string { return P(v).Title() }

func (OwnedEdit[T, P]) data() bool      { return true }
func (e OwnedEdit[T, P]) owner() string { return e.Owner }

func (e OwnedEdit[T, P]) apply(p *Project) error {
	f, err := p.owned(e.Owner)
	if err != nil {
		return err
	}
	list := P(nil).List()
	if e.To == nil {
		if err := p.free(f, list, e.Before); err != nil {
			return err
		}
	}
	if err := put(P(nil).In(f), string(list)+" of "+e.Owner, e.Before, e.To, title[T, P]); err != nil {
		return err
	}
	switch {
	case e.To != nil:
		p.renameOwned(list, e.Owner, e.Before, P(e.To).Title())
	case list == RiseList && len(f.Rises) == 0:
		return fmt.Errorf("expected %s to keep at least one rise, %q is the last", e.Owner, e.Before)
	case list == ReplyList && len(f.Replies) == 0:
		f.Replies = nil
	}
	return nil
}

// Names implements NameEdit.
func (e OwnedEdit[T, P]) Names() (before, after string) {
	var v T
	if P(&v).name() == nil {
		return "", ""
	}
	if e.To != nil {
		after = P(e.To).Title()
	}
	return e.Before, after
}

// Named implements NameEdit.
func (e OwnedEdit[T, P]) Named(name string) Edit {
	v := *e.To
	if at := P(&v).name(); at != nil {
		*at = name
	}
	e.To = &v
	return e
}

// There implements NameEdit.
func (e OwnedEdit[T, P]) There(p *Project) Edit {
	list := *P(nil).In(p.Fighter(e.Owner))
	e.To = &list[slices.IndexFunc(list, func(v T) bool { return P(&v).Title() == e.Before })]
	return e
}

// free checks that nothing uses a thing of f that is to go.
func (p *Project) free(f *Fighter, list List, name string) error {
	uses := func(s *Setup) bool { return s.Uses(f.Name, name) }
	switch list {
	case RiseList:
		uses = func(s *Setup) bool { return s.Rival == f.Name && slices.Contains(s.Rises, name) }
	case RouteList:
		uses = func(s *Setup) bool { return s.Attacker == f.Name && s.UsesRoute(name) }
	case ReplyList: // no setup names it
		return nil
	}
	if err := p.unused(string(list), name, uses); err != nil {
		return err
	}
	if (list == MoveList || list == JumpList) && f.uses(name) {
		return fmt.Errorf("a route or a reply of %s uses the %s %q", f.Name, list, name)
	}
	return nil
}

// renameOwned gives a thing of a fighter its new name in every setup.
func (p *Project) renameOwned(list List, fighter, before, after string) {
	switch list {
	case MoveList, JumpList:
		p.renameDone(fighter, before, after)
	case RiseList:
		p.rename(before, after, func(s *Setup, to func(*string)) {
			if s.Rival == fighter {
				s.Rises = slices.Clone(s.Rises)
				for i := range s.Rises {
					to(&s.Rises[i])
				}
			}
		})
	case RouteList:
		p.rename(before, after, func(s *Setup, to func(*string)) {
			if s.Attacker == fighter {
				to(&s.OnHit)
				s.Punish = slices.Clone(s.Punish)
				for i := range s.Punish {
					to(&s.Punish[i])
				}
			}
		})
	}
}
