package data

import (
	"fmt"
	"slices"
	"strings"

	"wakeline/timeline"
	"wakeline/ui/grid"
	"wakeline/ui/model"
)

// laid is a row that goes into the table: where, and what stands in the columns
// that go with it.
type laid struct {
	at    int // past the last row: a new one
	line  int // of what is pasted, from 1; 0: of nothing
	cells []string
	aside map[int]string // what its cells say for other columns
}

// place names the row to a person.
func (l *laid) place() string {
	if l.line > 0 {
		return fmt.Sprintf("Line %d of the paste (row %s)", l.line, rowLabel(l.at))
	}
	return "Row " + rowLabel(l.at)
}

// filled is what rows come to once they are filled in.
type filled struct {
	edits  []timeline.Edit
	of     []model.DataRow // the row of each edit, as it was
	drafts map[int]*draftRow
}

// fillIn lays rows over those columns, all or none and as one step. Rows past
// the last become new ones. The first cell that can't stand is named, and
// fillIn reports false and says instead after it. A draft stays one where waits is
// set.
func (p *pasting) fillIn(cols []int, rows []laid, what string, waits bool, instead string) bool {
	to, why := p.filled(cols, rows, waits)
	if why == "" && len(to.edits) > 0 {
		why = p.apply(what, to.edits...)
	}
	if why != "" {
		p.refused(why + " Nothing was changed." + instead)
		return false
	}
	for _, of := range to.of {
		delete(p.drafts, of)
	}
	for row, draft := range to.drafts {
		p.keepDraft(row, draft)
	}
	p.mark(cols, rows)
	return true
}

// filled is what the rows come to, or why one of them can't stand.
func (v *view) filled(cols []int, rows []laid, waits bool) (out filled, why string) {
	out.drafts = map[int]*draftRow{}
	taken := map[string]*laid{} // the names that are given, and where
	for i := range rows {
		l := &rows[i]
		row := v.row(l.at)
		cells, f := v.laidOver(cols, l)
		if cells == nil && f == nil {
			continue
		}
		var e timeline.Edit
		if f == nil {
			e, f = v.table.read(row, cells)
			if f != nil && waits && (v.draft(row) != nil || row == v.table.len()) {
				out.drafts[row] = &draftRow{cells, f}
				continue
			}
		}
		if f == nil && taken[nameOf(v.table, cells)] != nil {
			f = &fault{col: 0, want: "a unique name", got: fmt.Sprintf("%q again, as in %s", nameOf(v.table, cells), strings.ToLower(taken[nameOf(v.table, cells)].place()))}
		}
		if f != nil {
			place := l.place()
			if f.col >= 0 {
				place += ", " + v.table.columns()[f.col].heading()
			}
			return out, place + ": " + f.words() + "."
		}
		taken[nameOf(v.table, cells)] = l
		out.edits, out.of = append(out.edits, e), append(out.of, v.named(row))
	}
	return out, ""
}

// laidOver are the cells of a row with what is laid over it, nil where that changes
// nothing; or what is wrong with one of them by itself.
func (v *view) laidOver(cols []int, l *laid) ([]string, *fault) {
	row := v.row(l.at)
	cells := make([]string, len(v.table.columns()))
	if l.at <= v.table.len() {
		cells = v.cellsAt(row)
	}
	was := slices.Clone(cells)
	for k, col := range cols {
		switch {
		case l.cells[k] == cells[col], v.table.columns()[col].counted:
		case v.table.columns()[col].fixed:
			return nil, &fault{col: col, want: "this column to stay as it is"}
		default:
			cells[col] = l.cells[k]
		}
	}
	for col, text := range l.aside {
		if now := cells[col]; slices.Contains(cols, col) && now != "" && now != text {
			return nil, &fault{col: col, want: text + ", as another cell of the row says", got: now}
		}
		cells[col] = text
	}
	if slices.Equal(cells, was) {
		return nil, nil
	}
	for _, col := range cols {
		if f := v.table.alone(row, col, cells); f != nil {
			return nil, f
		}
	}
	return cells, nil
}

// mark selects what was filled in, where it lies in one block; else its first
// cell.
func (p *pasting) mark(cols []int, rows []laid) {
	first, last := grid.Place{Row: rows[0].at, Col: slices.Min(cols)}, grid.Place{Row: rows[len(rows)-1].at, Col: slices.Max(cols)}
	p.grid.Place(first)
	if last.Row-first.Row == len(rows)-1 && last.Col-first.Col == len(cols)-1 {
		p.grid.Stretch(last)
	}
}
