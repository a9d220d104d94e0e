package timeline

import (
	"slices"
	"sync"
)

// roster is a fighter whose moves and jumps are found by name: through maps
// where many setups are worked on, else by looking along the lists.
type roster struct {
	*Fighter
	moves map[string]*Move
	jumps map[string]*Jump
}

// Move is Fighter.Move.
func (r *roster) Move(name string) *Move {
	if r.moves == nil {
		return r.Fighter.Move(name)
	}
	return r.moves[name]
}

// Jump is Fighter.Jump.
func (r *roster) Jump(name string) *Jump {
	if r.jumps == nil {
		return r.Fighter.Jump(name)
	}
	return r.jumps[name]
}

// length returns the exact total of the filler of that name: a move's, or a
// jump's. The name must be one the fighter has.
func (r *roster) length(name string, rules Ruleset) int {
	if j := r.Jump(name); j != nil {
		return j.Total()
	}
	return r.Move(name).Total(rules)
}

// finder finds a fighter by name, nil where there is none.
type finder func(name string) *roster

func (p *Project) roster(name string) *roster {
	if f := p.Fighter(name); f != nil {
		return &roster{Fighter: f}
	}
	return nil
}

// Index finds the fighters, moves and jumps of a project by name, for work on
// many setups of large fighters. The project must not change while it is used.
type Index struct {
	rules   Ruleset
	rosters map[string]*roster
	scratch sync.Pool // of *scratch
}

// NewIndex makes an index of p.
func NewIndex(p *Project) *Index {
	ix := &Index{rules: p.Ruleset, rosters: make(map[string]*roster, len(p.Fighters)), scratch: sync.Pool{New: func() any { return &scratch{} }}}
	for i := range p.Fighters {
		f := &p.Fighters[i]
		r := &roster{f, make(map[string]*Move, len(f.Moves)), make(map[string]*Jump, len(f.Jumps))}
		for k := range f.Moves {
			r.moves[f.Moves[k].Name] = &f.Moves[k]
		}
		for k := range f.Jumps {
			r.jumps[f.Jumps[k].Name] = &f.Jumps[k]
		}
		ix.rosters[f.Name] = r
	}
	return ix
}

func (ix *Index) roster(name string) *roster { return ix.rosters[name] }

// Compile is the function Compile, on the index's project.
func (ix *Index) Compile(s Setup) (*Plan, error) {
	return compile(ix.rules, ix.roster, s, &scratch{})
}

// With compiles s and gives its plan to do, with cells to meet its exchanges
// in. Over many setups it is quicker than Compile: one plan's memory serves the
// next, so that do must keep neither. It may be called from several goroutines
// at once.
func (ix *Index) With(s Setup, do func(p *Plan, into []Cell)) error {
	in := ix.scratch.Get().(*scratch)
	defer ix.scratch.Put(in)
	plan, err := compile(ix.rules, ix.roster, s, in)
	if err != nil {
		return err
	}
	in.cells = slices.Grow(in.cells[:0], len(plan.bodies))
	do(plan, in.cells)
	return nil
}

// Judge compiles s and returns the whole verdict at its own delay, as With
// does.
func (ix *Index) Judge(s Setup) (v Verdict, err error) {
	err = ix.With(s, func(p *Plan, into []Cell) {
		m := p.Meetings(s.Delay, into)
		v = m.Verdict()
		v.Holds = p.Holds(s.Delay)
	})
	return v, err
}

// Fits reports whether reply r, of the rival of s, fits the width on every
// rise that s claims.
func (ix *Index) Fits(s *Setup, r Reply) bool {
	rival := ix.roster(s.Rival)
	k := s.k(ix.roster(s.Attacker)).N
	length := rival.length(r.Move, ix.rules)
	for _, rise := range s.Claimed(rival.Fighter) {
		if k+rise.Extra+r.Late+length > Width {
			return false
		}
	}
	return true
}

// CheckSetup is Project.CheckSetup.
func (ix *Index) CheckSetup(path *Path, s *Setup) error {
	return checkSetup(ix.rules, ix.roster, path, s)
}
