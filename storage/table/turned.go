package table

import "wakeline/storage/book"

// turned is a sheet with its rows as columns: for a table whose moves stand side
// by side, with the headings below one another.
type turned struct {
	rows  []book.Row
	lines []int // of each column of rows
}

// mostTurned is how many rows and columns a table has at most that is turned.
const mostTurned = 4000

// turn turns rows, nil where there are too many.
func turn(rows []book.Row) *turned {
	wide := 0
	for i := range rows {
		wide = max(wide, len(rows[i].Cells))
	}
	if wide < 2 || len(rows) > mostTurned || len(rows) < 3 {
		return nil
	}
	out := &turned{rows: make([]book.Row, wide)}
	for k := range out.rows {
		out.rows[k] = book.Row{Line: k + 1, Cells: make([]string, len(rows))}
	}
	for i := range rows {
		out.lines = append(out.lines, rows[i].Line)
		for k, cell := range rows[i].Cells {
			out.rows[k].Cells[i] = cell
		}
	}
	return out
}

// layTurned brings a table whose moves stand side by side into one form, nil
// where it isn't one: where its columns don't name more than its rows, named.
func (sh *shape) layTurned(s *book.Sheet, named int, renamed map[string]string) *block {
	t := turn(s.Rows)
	if t == nil {
		return nil
	}
	h := sh.find(t.rows, renamed)
	if h.named < 3 || h.named <= named || h.rows > 1 {
		return nil
	}
	b := &block{at: Place{Sheet: s.Name, Line: t.lines[0]}, named: h.named}
	b.notes = append(b.notes, Note{b.at, "", "a table with its headings below one another", "the first column names more columns of ours than any row"})
	for i, text := range h.texts {
		b.headings = append(b.headings, newHeading(Place{Sheet: s.Name, Line: t.lines[i], Column: h.first + 1}, text))
	}
	for k := h.first + 1; k < len(t.rows); k++ {
		row := &t.rows[k]
		if row.Filled() == 0 {
			continue
		}
		l := line{at: Place{Sheet: s.Name, Line: t.lines[0], Column: k + 1}, cells: row.Cells, src: row}
		for i := range row.Cells {
			l.where = append(l.where, Place{Line: t.lines[i], Column: k + 1})
		}
		b.rows = append(b.rows, l)
	}
	b.nameColumns(sh, renamed)
	return b
}
