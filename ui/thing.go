package ui

import (
	"errors"

	"wakeline/storage/table"
	"wakeline/timeline"
)

// thingKind is what a thing of the move data is.
type thingKind uint8

// The kinds.
const (
	aMove thingKind = iota
	aJump
	aRise
)

// thing names a move, jump or rise of a fighter.
type thing struct {
	owner string
	kind  thingKind
	name  string
}

// thingField is one of its values.
type thingField struct {
	label string
	typed bool // a text, and not a number
}

var thingFields = map[thingKind][]thingField{
	aMove: thingFieldsOf(moveFields),
	aJump: thingFieldsOf(jumpFields),
	aRise: thingFieldsOf(riseFields),
}

var (
	moveFields = timeline.Columns(timeline.MoveFields)
	jumpFields = timeline.Columns(timeline.JumpFields)
	riseFields = timeline.Columns(timeline.RiseFields)
)

func thingFieldsOf[T any](of []*timeline.Field[T]) (out []thingField) {
	for _, f := range of {
		out = append(out, thingField{f.Label, f.Kind() == timeline.TextField || f.Kind() == timeline.ListField})
	}
	return out
}

// columnsOf are the places of the values worth a row: those that hold
// something, and those that such a thing may have. Words and flags have none:
// they change what a move is, and with that which numbers it has.
func (t *thing) columnsOf(cells []string) (out []int) {
	var m timeline.Move
	for i := range cells {
		if t.kind != aMove {
			out = append(out, i)
			continue
		}
		switch f := moveFields[i]; f.Kind() {
		case timeline.WordField, timeline.FlagField:
			if cells[i] != "" {
				f.SetText(&m, cells[i])
			}
		default:
			if cells[i] != "" || f.Fits == nil || f.Fits(&m) {
				out = append(out, i)
			}
		}
	}
	return out
}

// cells are its values as texts, nil where the data have no such thing.
func (t *thing) cells(p *timeline.Project) []string {
	f := p.Fighter(t.owner)
	if f == nil {
		return nil
	}
	switch t.kind {
	case aMove:
		if m := f.Move(t.name); m != nil {
			return table.Cells(m)
		}
	case aJump:
		if j := f.Jump(t.name); j != nil {
			return textsOf(jumpFields, j)
		}
	case aRise:
		for i := range f.Rises {
			if f.Rises[i].Name == t.name {
				return textsOf(riseFields, &f.Rises[i])
			}
		}
	}
	return nil
}

func textsOf[T any](of []*timeline.Field[T], v *T) (out []string) {
	for _, f := range of {
		out = append(out, f.Text(v))
	}
	return out
}

// readTexts makes a value of its texts.
func readTexts[T any](of []*timeline.Field[T], texts []string) (v T, err error) {
	for i, f := range of {
		if texts[i] != "" && f.SetText(&v, texts[i]) != "" && err == nil {
			err = errWhole(texts[i])
		}
	}
	return v, err
}

// read makes an edit of its values, which is its name from then on.
func (t *thing) read(p *timeline.Project, cells []string) (e timeline.Edit, name string, err error) {
	switch t.kind {
	case aJump:
		j, err := readTexts(jumpFields, cells)
		return timeline.JumpEdit{Owner: t.owner, Before: t.name, Jump: &j}, j.Name, err
	case aRise:
		r, err := readTexts(riseFields, cells)
		return timeline.RiseEdit{Owner: t.owner, Before: t.name, Rise: &r}, r.Name, err
	}
	m, err := table.ReadCells(cells, p.Ruleset)
	if broken := (*table.CellError)(nil); errors.As(err, &broken) {
		err = &timeline.FieldError{Path: broken.Column, Want: broken.Want, Got: broken.Got}
	}
	return timeline.MoveEdit{Owner: t.owner, Before: t.name, Move: &m}, m.Name, err
}

// thingOf is what the move data hold of a part of the chosen setup's sheet,
// nil where they hold nothing of it.
func (m *Model) thingOf(part timeline.Part, fillers []int) *thing {
	s := &m.setup
	if m.plan == nil {
		return nil
	}
	named := func(owner, name string) *thing {
		f := m.data.Fighter(owner)
		switch {
		case f == nil:
			return nil
		case f.Jump(name) != nil:
			return &thing{owner, aJump, name}
		case f.Move(name) != nil:
			return &thing{owner, aMove, name}
		}
		return nil
	}
	switch part {
	case timeline.PartEnder:
		return named(s.Attacker, s.Ender)
	case timeline.PartFiller:
		if len(fillers) == 1 && fillers[0] < len(s.Fillers) {
			return named(s.Attacker, s.Fillers[fillers[0]])
		}
	case timeline.PartJump:
		return named(s.Attacker, s.Jump)
	case timeline.PartAttack:
		return named(s.Attacker, s.Attack)
	case timeline.PartLanding:
		return named(s.Attacker, s.Landing)
	case timeline.PartRise:
		return &thing{s.Rival, aRise, m.verdict.Rises[m.rise].Rise}
	case timeline.PartReply, timeline.PartLate:
		return named(s.Rival, m.verdict.Rises[m.rise].Replies[m.line].Reply)
	}
	return nil
}
