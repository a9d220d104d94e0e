package ui

import (
	"strings"

	"wakeline/storage/table"
	"wakeline/timeline"
)

var (
	_ subject = (*listRows[timeline.Jump])(nil)
	_ subject = (*rulesetRows)(nil)
)

// listRows are things with a few plain fields: jumps, rises, fighters.
type listRows[T any] struct {
	what   string
	fields []field[T]
	list   []T
	name   func(v *T) string
	edit   func(before string, v *T) timeline.Edit
	slim   func(before string, v *T) *timeline.Project // in which an addition of v is tried
	start  T                                           // of a new one
}

// field is one column of a list: it reads a cell into a value and writes it.
type field[T any] struct {
	column
	read  func(v *T, cell string) (want string)
	write func(v *T) string
}

func (r *listRows[T]) thing() string            { return r.what }
func (r *listRows[T]) len() int                 { return len(r.list) }
func (r *listRows[T]) grows() bool              { return true }
func (r *listRows[T]) turns(int) bool           { return false }
func (r *listRows[T]) cell(row, col int) string { return r.fields[col].write(&r.list[row]) }

func (r *listRows[T]) columns() []column {
	out := make([]column, len(r.fields))
	for i := range out {
		out[i] = r.fields[i].column
	}
	return out
}

func (r *listRows[T]) before(row int) string {
	if row < len(r.list) {
		return r.name(&r.list[row])
	}
	return ""
}

func (r *listRows[T]) read(row int, cells []string) (timeline.Edit, *fault) {
	v := r.start
	if row < len(r.list) {
		v = r.list[row]
	}
	for col := range r.fields {
		if f := r.readCell(&v, col, cells[col]); f != nil {
			return nil, f
		}
	}
	before := r.before(row)
	if f := tryIn(r, r.slim(before, &v), r.edit("", &v)); f != nil {
		return nil, f
	}
	return r.edit(before, &v), nil
}

func (r *listRows[T]) readCell(v *T, col int, cell string) *fault {
	if col > 0 { // a name is kept to the letter
		cell = strings.TrimSpace(cell)
	}
	if want := r.fields[col].read(v, cell); want != "" {
		return &fault{col: col, want: want, got: quoteCell(cell)}
	}
	return nil
}

// alone reads the cell by itself: an empty one is a lack, and no fault yet.
func (r *listRows[T]) alone(row, col int, cells []string) *fault {
	v := r.start
	if cells[col] == "" {
		return nil
	}
	return r.readCell(&v, col, cells[col])
}

func (r *listRows[T]) remove(row int) timeline.Edit { return r.edit(r.before(row), nil) }

// The fields that lists are made of.

func nameField[T any](about string, at func(v *T) *string) field[T] {
	return field[T]{column{name: "name", about: about}, func(v *T, cell string) string {
		*at(v) = cell
		if strings.TrimSpace(cell) == "" {
			return "a name"
		}
		return ""
	}, func(v *T) string { return *at(v) }}
}

const wantWhole = "a whole number"

// neededField is a number that must be given.
func neededField[T any](name, about string, at func(v *T) *int) field[T] {
	f := numberField(name, about, at)
	read := f.read
	f.read = func(v *T, cell string) string {
		if cell == "" {
			return wantWhole
		}
		return read(v, cell)
	}
	f.write = func(v *T) string { return timeline.Some(*at(v)).String() }
	return f
}

// numberField is a number, 0 where the cell is empty.
func numberField[T any](name, about string, at func(v *T) *int) field[T] {
	return field[T]{column{name: name, about: about}, func(v *T, cell string) string {
		n, ok := table.ReadWhole(cell)
		if *at(v) = n; cell != "" && !ok {
			return wantWhole
		}
		return ""
	}, func(v *T) string { return numberCell(*at(v)) }}
}

// maybeField is a number that may be absent.
func maybeField[T any](name, about string, at func(v *T) *timeline.Maybe) field[T] {
	return field[T]{column{name: name, about: about}, func(v *T, cell string) string {
		n, ok := table.ReadWhole(cell)
		if *at(v) = (timeline.Maybe{N: n, Given: ok}); cell != "" && !ok {
			return wantWhole
		}
		return ""
	}, func(v *T) string { return maybeCell(*at(v)) }}
}

func jumpRows(rules timeline.Ruleset, f *timeline.Fighter) subject {
	return &listRows[timeline.Jump]{
		what: "jump", list: f.Jumps, name: func(j *timeline.Jump) string { return j.Name },
		fields: []field[timeline.Jump]{
			nameField("the jump's name; setups that use it take a new name too", func(j *timeline.Jump) *string { return &j.Name }),
			neededField("prejump", "frames on the ground before it leaves it", func(j *timeline.Jump) *int { return &j.Prejump }),
			neededField("airborne", "frames in the air; the next one is the touchdown", func(j *timeline.Jump) *int { return &j.Airborne }),
			neededField("landing", "frames after touchdown with no action", func(j *timeline.Jump) *int { return &j.Landing }),
			numberField("guard_after", "frames after touchdown before a guard works, at most the landing's", func(j *timeline.Jump) *int { return &j.GuardAfter }),
			numberField("travel", "units it moves its owner", func(j *timeline.Jump) *int { return &j.Travel }),
			maybeField("apex", "units of height at its highest", func(j *timeline.Jump) *timeline.Maybe { return &j.Apex }),
		},
		edit: func(before string, j *timeline.Jump) timeline.Edit {
			return timeline.JumpEdit{Owner: f.Name, Before: before, Jump: j}
		},
		slim: func(before string, j *timeline.Jump) *timeline.Project {
			slim := namesakes(f, before, j.Name)
			slim.Rises = f.Rises[:1]
			return &timeline.Project{Ruleset: rules, Fighters: []timeline.Fighter{slim}}
		},
	}
}

func riseRows(rules timeline.Ruleset, f *timeline.Fighter) subject {
	return &listRows[timeline.Rise]{
		what: "rise", list: f.Rises, name: func(r *timeline.Rise) string { return r.Name },
		fields: []field[timeline.Rise]{
			nameField("the rise's name; setups that claim it take a new name too", func(r *timeline.Rise) *string { return &r.Name }),
			neededField("extra", "frames it is slower than the quickest rise", func(r *timeline.Rise) *int { return &r.Extra }),
			numberField("shift", "units of distance that it adds; none at the wall", func(r *timeline.Rise) *int { return &r.Shift }),
		},
		edit: func(before string, r *timeline.Rise) timeline.Edit {
			return timeline.RiseEdit{Owner: f.Name, Before: before, Rise: r}
		},
		slim: func(before string, r *timeline.Rise) *timeline.Project {
			slim := timeline.Fighter{Name: f.Name}
			for i := range f.Rises {
				if f.Rises[i].Name == r.Name && r.Name != before {
					slim.Rises = append(slim.Rises, f.Rises[i])
				}
			}
			return &timeline.Project{Ruleset: rules, Fighters: []timeline.Fighter{slim}}
		},
	}
}

func fighterRows(p *timeline.Project) subject {
	rises := timeline.DefaultRises()
	return &listRows[timeline.Fighter]{
		what: "fighter", list: p.Fighters, name: func(f *timeline.Fighter) string { return f.Name },
		start: timeline.Fighter{Rises: rises},
		fields: []field[timeline.Fighter]{
			nameField("the fighter's name; setups take a new name too", func(f *timeline.Fighter) *string { return &f.Name }),
			maybeField("body", "units of height, standing", func(f *timeline.Fighter) *timeline.Maybe { return &f.Body }),
		},
		edit: func(before string, f *timeline.Fighter) timeline.Edit {
			return timeline.FighterEdit{Before: before, Fighter: f}
		},
		slim: func(before string, f *timeline.Fighter) *timeline.Project {
			slim := &timeline.Project{Ruleset: p.Ruleset}
			if f.Name != before && p.Fighter(f.Name) != nil {
				slim.Fighters = []timeline.Fighter{{Name: f.Name, Rises: rises}}
			}
			return slim
		},
	}
}
