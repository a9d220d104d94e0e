package model

import (
	"errors"

	"wakeline/storage/table"
	"wakeline/timeline"
)

// RowKind is what a row of the move data is. Each kind has a table of its own.
type RowKind uint8

// The kinds, in the order of the tables.
const (
	MoveRow RowKind = iota
	JumpRow
	RiseRow
	RouteRow
	ReplyRow // of a fighter's standing replies
	FighterRow
	RulesetRow
)

// DataRow names a row of the move data: a move, jump, rise, route or reply of a
// fighter, a fighter, or a rule. A reply is named by its title.
type DataRow struct {
	Owner string // the fighter; empty where the row is of none
	Kind  RowKind
	Name  string
}

// RowField is one of its values.
type RowField struct {
	Label string
	Typed bool // a text, and not a number
}

var RowFields = map[RowKind][]RowField{
	MoveRow: thingFieldsOf(MoveFields),
	JumpRow: thingFieldsOf(jumpFields),
	RiseRow: thingFieldsOf(riseFields),
}

var (
	MoveFields = timeline.Columns(timeline.MoveFields)
	jumpFields = timeline.Columns(timeline.JumpFields)
	riseFields = timeline.Columns(timeline.RiseFields)
)

func thingFieldsOf[T any](of []*timeline.Field[T]) (out []RowField) {
	for _, f := range of {
		out = append(out, RowField{f.Label, f.Kind() == timeline.TextField || f.Kind() == timeline.ListField})
	}
	return out
}

// ColumnsOf are the places of the values worth a row: those that hold
// something, and those that such a thing may have. Words and flags have none:
// they change what a move is, and with that which numbers it has.
func (t *DataRow) ColumnsOf(cells []string) (out []int) {
	var m timeline.Move
	for i := range cells {
		if t.Kind != MoveRow {
			out = append(out, i)
			continue
		}
		switch f := MoveFields[i]; f.Kind() {
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

// Cells are its values as texts, nil where the data have no such thing.
func (t *DataRow) Cells(p *timeline.Project) []string {
	f := p.Fighter(t.Owner)
	if f == nil {
		return nil
	}
	switch t.Kind {
	case MoveRow:
		if m := f.Move(t.Name); m != nil {
			return table.Cells(m)
		}
	case JumpRow:
		if j := f.Jump(t.Name); j != nil {
			return textsOf(jumpFields, j)
		}
	case RiseRow:
		for i := range f.Rises {
			if f.Rises[i].Name == t.Name {
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
			err = ErrWhole(texts[i])
		}
	}
	return v, err
}

// Read makes an edit of its values, which is its name from then on.
func (t *DataRow) Read(p *timeline.Project, cells []string) (e timeline.Edit, name string, err error) {
	switch t.Kind {
	case JumpRow:
		j, err := readTexts(jumpFields, cells)
		return timeline.JumpEdit{Owner: t.Owner, Before: t.Name, To: &j}, j.Name, err
	case RiseRow:
		r, err := readTexts(riseFields, cells)
		return timeline.RiseEdit{Owner: t.Owner, Before: t.Name, To: &r}, r.Name, err
	}
	m, err := table.ReadCells(cells, p.Ruleset)
	if broken := (*table.CellError)(nil); errors.As(err, &broken) {
		err = &timeline.FieldError{Path: (*timeline.Path)(nil).At(broken.Column), Want: broken.Want, Got: broken.Got}
	}
	return timeline.MoveEdit{Owner: t.Owner, Before: t.Name, To: &m}, m.Name, err
}

// RowOf is what the move data hold of a part of the chosen setup's sheet,
// nil where they hold nothing of it.
func (m *Model) RowOf(part timeline.Part, fillers []int) *DataRow {
	s := &m.setup
	if m.plan == nil {
		return nil
	}
	named := func(owner, name string) *DataRow {
		f := m.data.Fighter(owner)
		switch {
		case f == nil:
			return nil
		case f.Jump(name) != nil:
			return &DataRow{owner, JumpRow, name}
		case f.Move(name) != nil:
			return &DataRow{owner, MoveRow, name}
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
		return &DataRow{s.Rival, RiseRow, m.verdict.Rises[m.Rise].Rise}
	case timeline.PartReply, timeline.PartLate:
		return named(s.Rival, m.verdict.Rises[m.Rise].Replies[m.Line].Reply)
	}
	return nil
}

// FighterNames names the fighters of p.
func FighterNames(p *timeline.Project) (out []string) {
	for i := range p.Fighters {
		out = append(out, p.Fighters[i].Name)
	}
	return out
}
