package timeline

import (
	"fmt"
	"slices"
)

// List is one of the lists of the move data.
type List string

// The lists. Their order counts: the first rise claimed is the one that points
// and strings are told for, replies are judged in theirs, and between routes and
// moves that are as good the earlier is taken.
const (
	FighterList List = "fighter"
	MoveList    List = "move"
	JumpList    List = "jump"
	RiseList    List = "rise"
	RouteList   List = "route"
	ReplyList   List = "reply"
)

// PlaceEdit puts what is called Name By places later in its list, or earlier
// where By is negative; at most first or last. Owner is the fighter whose list
// it is, and empty for FighterList. A standing reply is called by its title.
type PlaceEdit struct {
	Owner string
	List  List
	Name  string
	By    int
}

func (PlaceEdit) data() bool      { return true }
func (e PlaceEdit) owner() string { return e.Owner }

func (e PlaceEdit) apply(p *Project) error {
	if e.List == FighterList {
		return shift(p.Fighters, e, func(f *Fighter) string { return f.Name })
	}
	f, err := p.owned(e.Owner)
	if err != nil {
		return err
	}
	switch e.List {
	case MoveList:
		return shift(f.Moves, e, title)
	case JumpList:
		return shift(f.Jumps, e, title)
	case RiseList:
		return shift(f.Rises, e, title)
	case RouteList:
		return shift(f.Routes, e, title)
	case ReplyList:
		return shift(f.Replies, e, title)
	}
	return fmt.Errorf("expected a list of the move data, got %q", e.List)
}

// shift does a PlaceEdit in a list that is not shared.
func shift[T any](list []T, e PlaceEdit, name func(*T) string) error {
	at := slices.IndexFunc(list, func(v T) bool { return name(&v) == e.Name })
	if at < 0 {
		return fmt.Errorf("expected a %s, got %q", e.List, e.Name)
	}
	Shift(list, at, e.By)
	return nil
}

// Shift puts the value at a place of a list that many places later, earlier
// where by is negative, and at most first or last.
func Shift[T any](list []T, at, by int) {
	to := min(max(0, at+by), len(list)-1)
	v := list[at]
	if to > at {
		copy(list[at:], list[at+1:to+1])
	} else {
		copy(list[to+1:], list[to:at])
	}
	list[to] = v
}
