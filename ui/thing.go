package ui

import (
	"errors"
	"strconv"

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

// columns are the names of its values, the first of them its own name.
func (k thingKind) columns() []string {
	switch k {
	case aJump:
		return []string{"name", "prejump", "airborne", "landing", "guard_after", "travel", "apex"}
	case aRise:
		return []string{"name", "extra", "shift"}
	}
	return table.MoveColumns()
}

// textColumns are those of a move that hold more than one number.
var textColumns = map[string]bool{"name": true, "active": true, "immune": true, "armour": true, "parry": true}

// moveWords are the columns of a move that hold no number: they change what it
// is, and with that which numbers it has.
var moveWords = map[string]bool{"kind": true, "air": true, "level": true, "misses_air": true}

// Which numbers a move may have beside those of every move.
var (
	ofHits     = map[string]bool{"startup": true, "active": true, "recovery": true, "on_hit": true, "on_guard": true, "hitstun": true, "guardstun": true, "reach_near": true, "reach_far": true, "top": true, "damage": true}
	ofAir      = map[string]bool{"deep": true, "drop": true, "landing_recovery": true, "landing_guard_after": true}
	ofGrounded = map[string]bool{"on_hit": true, "on_guard": true, "airborne_from": true, "knockdown_midscreen": true, "knockdown_wall": true, "distance_midscreen": true, "distance_wall": true}
)

// columnsOf are the places of the columns worth a row: those that hold
// something, and those that such a thing may have.
func (t *thing) columnsOf(cells []string) (out []int) {
	columns := t.kind.columns()
	at := func(name string) string {
		for i, c := range columns {
			if c == name {
				return cells[i]
			}
		}
		return ""
	}
	hits, air := at("kind") == string(timeline.Strike) || at("kind") == string(timeline.Throw), at("air") != ""
	for i, name := range columns {
		switch {
		case t.kind == aMove && moveWords[name]:
		case t.kind != aMove, cells[i] != "":
			out = append(out, i)
		case ofHits[name] && !hits, ofAir[name] && !(hits && air), ofGrounded[name] && air, name == "total" && hits:
		default:
			out = append(out, i)
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
	number := strconv.Itoa
	switch t.kind {
	case aMove:
		if m := f.Move(t.name); m != nil {
			return table.Cells(m)
		}
	case aJump:
		if j := f.Jump(t.name); j != nil {
			apex := ""
			if j.Apex.Given {
				apex = j.Apex.String()
			}
			return []string{j.Name, number(j.Prejump), number(j.Airborne), number(j.Landing), number(j.GuardAfter), number(j.Travel), apex}
		}
	case aRise:
		for _, r := range f.Rises {
			if r.Name == t.name {
				return []string{r.Name, number(r.Extra), number(r.Shift)}
			}
		}
	}
	return nil
}

// read makes an edit of its values, which is its name from then on.
func (t *thing) read(p *timeline.Project, cells []string) (e timeline.Edit, name string, err error) {
	number := func(i int) (v int) {
		if cells[i] == "" {
			return 0
		}
		v, failed := strconv.Atoi(cells[i])
		if failed != nil && err == nil {
			err = errWhole(cells[i])
		}
		return v
	}
	switch t.kind {
	case aJump:
		j := timeline.Jump{Name: cells[0], Prejump: number(1), Airborne: number(2), Landing: number(3), GuardAfter: number(4), Travel: number(5)}
		if cells[6] != "" {
			j.Apex = timeline.Some(number(6))
		}
		return timeline.JumpEdit{Owner: t.owner, Before: t.name, Jump: &j}, j.Name, err
	case aRise:
		r := timeline.Rise{Name: cells[0], Extra: number(1), Shift: number(2)}
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
