package timeline

// fieldOf is one field of a part, whatever the part is.
type fieldOf struct {
	name string // as in the project text
	noun string // in a sentence
	say  func(part any) string
	mix  func(to, from any)
}

// equal reports whether two parts, pointers or nil, hold the same.
func equal(a, b any) bool {
	_, jump := a.(*Jump)
	_, other := b.(*Jump)
	return a != nil && b != nil && jump == other && len(changedFields(a, b)) == 0
}

// changedFields lists what differs between two parts of one type, in the
// order of its table. It is empty where one is nil or they are of two types.
func changedFields(before, after any) []fieldOf {
	switch before.(type) {
	case *Ruleset:
		return differing(RulesetFields, before, after)
	case *Fighter:
		return differing(FighterFields, before, after)
	case *Move:
		return differing(MoveFields, before, after)
	case *Jump:
		return differing(JumpFields, before, after)
	case *Rise:
		return differing(RiseFields, before, after)
	}
	return nil
}

// differing lists the fields of a table in which two parts differ: each place
// of a knockdown by itself, a reach or landing as a whole.
func differing[T any](of []Field[T], before, after any) (out []fieldOf) {
	b, _ := before.(*T)
	a, _ := after.(*T)
	if b == nil || a == nil {
		return nil
	}
	for i := range of {
		f := &of[i]
		switch {
		case f.at == nil:
			out = append(out, differing(f.Parts, before, after)...)
		case f.at.get(b) != f.at.get(a):
			out = append(out, fieldOf{f.Path, f.Noun, func(part any) string { return orNone(f.Text(part.(*T))) },
				func(to, from any) { f.at.copy(to.(*T), from.(*T)) }})
		}
	}
	return out
}

func orNone(text string) string {
	if text == "" {
		return Maybe{}.String()
	}
	return text
}

// mix is a copy of before with those fields of after.
func mix(before, after any, fields []fieldOf) any {
	out := before
	switch v := before.(type) {
	case *Ruleset:
		out = copied(v)
	case *Fighter:
		out = copied(v)
	case *Move:
		out = copied(v)
	case *Jump:
		out = copied(v)
	case *Rise:
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
