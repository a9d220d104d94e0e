package data

import (
	"strings"

	"wakeline/timeline"
)

var (
	_ dataTable = (*fieldTable[timeline.Jump])(nil)
	_ dataTable = (*rulesetTable)(nil)
)

// fieldTable are things with a few plain fields: jumps, rises, fighters.
type fieldTable[T any] struct {
	what   string
	fields []*timeline.Field[T]
	list   []T
	name   func(v *T) string
	edit   func(before string, v *T) timeline.Edit
	slim   func(before string, v *T) *timeline.Project // in which an addition of v is tried
	start  T                                           // of a new one
}

func (r *fieldTable[T]) rowWord() string          { return r.what }
func (r *fieldTable[T]) len() int                 { return len(r.list) }
func (r *fieldTable[T]) grows() bool              { return true }
func (r *fieldTable[T]) turns(int) bool           { return false }
func (r *fieldTable[T]) cell(row, col int) string { return r.fields[col].Cell(&r.list[row]) }

func (r *fieldTable[T]) columns() []column {
	return fieldColumns(r.fields)
}

func (r *fieldTable[T]) before(row int) string {
	if row < len(r.list) {
		return r.name(&r.list[row])
	}
	return ""
}

func (r *fieldTable[T]) read(row int, cells []string) (timeline.Edit, *fault) {
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

func (r *fieldTable[T]) readCell(v *T, col int, cell string) *fault {
	f := r.fields[col]
	if want := readField(f, v, cell); want != "" {
		if f.Kind() != timeline.TextField {
			cell = strings.TrimSpace(cell)
		}
		return &fault{col: col, want: want, got: quoteCell(cell)}
	}
	return nil
}

// readField reads a cell into a field, and returns what was expected where it
// can't. An empty cell is the default.
func readField[T any](f *timeline.Field[T], v *T, cell string) (want string) {
	if f.Kind() != timeline.TextField { // a name is kept to the letter
		cell = strings.TrimSpace(cell)
	}
	switch empty := strings.TrimSpace(cell) == ""; {
	case empty && f.Needed(v):
		return f.Need(v)
	case empty:
		f.Reset(v)
		return ""
	}
	return f.SetText(v, cell)
}

// alone reads the cell by itself: an empty one is a lack, and no fault yet.
func (r *fieldTable[T]) alone(row, col int, cells []string) *fault {
	v := r.start
	if cells[col] == "" {
		return nil
	}
	return r.readCell(&v, col, cells[col])
}

func (r *fieldTable[T]) remove(row int) timeline.Edit { return r.edit(r.before(row), nil) }

func jumpTable(rules timeline.Ruleset, f *timeline.Fighter) dataTable {
	return &fieldTable[timeline.Jump]{
		what: "jump", list: f.Jumps, name: func(j *timeline.Jump) string { return j.Name },
		fields: timeline.Columns(timeline.JumpFields),
		edit: func(before string, j *timeline.Jump) timeline.Edit {
			return timeline.JumpEdit{Owner: f.Name, Before: before, To: j}
		},
		slim: func(before string, j *timeline.Jump) *timeline.Project {
			slim := namesakes(f, before, j.Name)
			slim.Rises = f.Rises[:1]
			return &timeline.Project{Ruleset: rules, Fighters: []timeline.Fighter{slim}}
		},
	}
}

func riseTable(rules timeline.Ruleset, f *timeline.Fighter) dataTable {
	return &fieldTable[timeline.Rise]{
		what: "rise", list: f.Rises, name: func(r *timeline.Rise) string { return r.Name },
		fields: timeline.Columns(timeline.RiseFields),
		edit: func(before string, r *timeline.Rise) timeline.Edit {
			return timeline.RiseEdit{Owner: f.Name, Before: before, To: r}
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

func fighterTable(p *timeline.Project) dataTable {
	rises := timeline.DefaultRises()
	return &fieldTable[timeline.Fighter]{
		what: "fighter", list: p.Fighters, name: func(f *timeline.Fighter) string { return f.Name },
		start:  timeline.Fighter{Rises: rises},
		fields: timeline.Columns(timeline.FighterFields),
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
