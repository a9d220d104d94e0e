package data

import (
	"wakeline/storage/table"
	"wakeline/timeline"
	"wakeline/ui/model"
)

var _ dataTable = (*moveTable)(nil)

// moveTable are the moves of a fighter, in the cells of a move table.
type moveTable struct {
	rules timeline.Ruleset
	f     *timeline.Fighter
}

var moveColumns = fieldColumns(model.MoveFields)

// fieldColumns are the columns of a table of fields.
func fieldColumns[T any](of []*timeline.Field[T]) (out []column) {
	for _, f := range of {
		out = append(out, column{name: f.Column, about: f.About})
	}
	return out
}

func (r *moveTable) rowWord() string          { return "move" }
func (r *moveTable) columns() []column        { return moveColumns }
func (r *moveTable) len() int                 { return len(r.f.Moves) }
func (r *moveTable) grows() bool              { return true }
func (r *moveTable) cell(row, col int) string { return table.Cell(&r.f.Moves[row], col) }

// turns: another kind wants other cells.
func (r *moveTable) turns(col int) bool { return moveColumns[col].name == timeline.MoveKind }

func (r *moveTable) before(row int) string {
	if row < len(r.f.Moves) {
		return r.f.Moves[row].Name
	}
	return ""
}

func (r *moveTable) read(row int, cells []string) (timeline.Edit, *fault) {
	m, err := table.ReadCells(cells, r.rules)
	if err != nil {
		return nil, r.fault(err)
	}
	before := r.before(row)
	slim := &timeline.Project{Ruleset: r.rules, Fighters: []timeline.Fighter{namesakes(r.f, before, m.Name)}}
	slim.Fighters[0].Rises = r.f.Rises[:1]
	if f := tryIn(r, slim, timeline.MoveEdit{Owner: r.f.Name, To: &m}); f != nil {
		return nil, f
	}
	return timeline.MoveEdit{Owner: r.f.Name, Before: before, To: &m}, nil
}

func (r *moveTable) fault(err error) *fault {
	if broken, ok := err.(*table.CellError); ok {
		return &fault{col: columnAt(r, broken.Column), want: broken.Want, got: broken.Got}
	}
	return faultOf(r, err)
}

// alone reads the cell among stand-ins for what its row still lacks.
func (r *moveTable) alone(row, col int, cells []string) *fault {
	if err := table.CheckCell(col, cells[col]); err != nil {
		return r.fault(err)
	}
	if cells[col] == "" {
		return nil
	}
	full := table.FilledIn(cells)
	if _, err := table.ReadCells(full, r.rules); err != nil {
		if f := r.fault(err); f.col == col {
			return f
		}
	}
	return nil
}

func (r *moveTable) remove(row int) timeline.Edit {
	return timeline.MoveEdit{Owner: r.f.Name, Before: r.f.Moves[row].Name}
}
