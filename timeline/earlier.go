package timeline

// Texts, tables and files of earlier versions wrote some words otherwise.
// What reads them takes those words for what they mean now.

// earlierParry is what a parry was called: the kind of a move, its windows and
// the landing action.
const earlierParry = "catch"

// earlierRise is the name of the one rise that a fighter had who was given
// none.
const earlierRise = "quick"

// KindOf is the kind of that name, also of its name in earlier versions. Other
// names stay as they are: Check refuses them.
func KindOf(name string) Kind {
	if name == earlierParry {
		return Parry
	}
	return Kind(name)
}

// ColumnOf is the column of move tables of that name, also of its name in
// earlier versions.
func ColumnOf(name string) string {
	for _, f := range Columns(MoveFields) {
		if f.Earlier != "" && f.Earlier == name {
			return f.Column
		}
	}
	return name
}

// readEarlier takes the setups' words of earlier versions for what they mean
// now: the landing action, and the rise of a fighter of byDefault, who was
// given none.
func (p *Project) readEarlier(byDefault map[string]bool) {
	for i := range p.Setups {
		s := &p.Setups[i]
		if f := p.Fighter(s.Attacker); s.Landing == earlierParry && f != nil && f.Move(earlierParry) == nil {
			s.Landing = DoParry
		}
		for k, name := range s.Rises {
			if name == earlierRise && byDefault[s.Rival] {
				s.Rises[k] = DefaultRises()[0].Name
			}
		}
	}
}
