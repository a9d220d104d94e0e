package data

import (
	"fmt"
	"slices"
	"strings"

	"wakeline/storage/table"
	"wakeline/ui/model"
)

// pasteHead is the first row of a paste, where that names columns.
type pasteHead struct {
	columns []int    // of the table, by the cells of the row; -1: left out
	whose   int      // the cell that says whose the rows are, -1 where none does
	leftOut []string // the headings that name no column
}

// headOf reads a row as headings: it is one where most of its cells, and two at
// least, name columns of the table; or where its only one names the column
// under the cursor, at.
func (p *pasting) headOf(row []string, at int) (h pasteHead, ok bool) {
	h.whose = -1
	filled, named := 0, 0
	known := p.mapped(row)
	for i, cell := range row {
		col := -1
		if strings.TrimSpace(cell) != "" {
			filled++
			name := p.columnNamed(cell, known)
			switch col = columnAt(p.table, name); {
			case name == model.FighterColumn && p.owner() != "" && h.whose < 0:
				h.whose = i
				named++
			case col >= 0 && !slices.Contains(h.columns, col):
				named++
			default:
				col = -1
				h.leftOut = append(h.leftOut, strings.TrimSpace(cell))
			}
		}
		h.columns = append(h.columns, col)
	}
	return h, named > 1 && 2*named > filled || named == 1 && filled == 1 && slices.Contains(h.columns, at)
}

// columnNamed is the name of the column that a heading stands for, in any
// writing of it, or as an import mapped it before; empty for none.
func (p *pasting) columnNamed(heading string, known map[string]string) string {
	key := strings.ToLower(strings.TrimSpace(heading))
	for _, c := range p.table.columns() {
		if table.Alike(c.name, key) {
			return c.name
		}
	}
	if p.table.rowWord() != "move" {
		return ""
	}
	if ours, mapped := known[key]; mapped {
		return ours
	}
	return table.Guess(key)
}

// pasteByHead puts the rows under a row of headings into the columns that
// those name. Where one of them names the first column, a row goes to the one
// of its name, or becomes a new one; else the rows go in from the row at from
// on.
func (p *pasting) pasteByHead(h pasteHead, block [][]string, from int) {
	var cols []int
	var rows []laid
	key := slices.Index(h.columns, 0)
	for _, col := range h.columns {
		if col >= 0 && !(col == 0 && p.table.columns()[0].fixed) {
			cols = append(cols, col)
		}
	}
	fresh := p.table.len()
	for i, cells := range block[1:] {
		if !slices.ContainsFunc(cells, func(s string) bool { return strings.TrimSpace(s) != "" }) {
			continue
		}
		l := laid{at: from + len(rows), line: i + 2}
		if h.whose >= 0 && strings.TrimSpace(cells[h.whose]) != p.owner() {
			p.refused(fmt.Sprintf("Line %d of the paste, fighter: expected %s, whose table this is, got %s. Nothing was changed. A table of several fighters can be imported: File, Import copied table…",
				l.line, p.owner(), quoteCell(cells[h.whose])))
			return
		}
		if key >= 0 {
			if l.at = p.placeNamed(cells[key]); l.at < 0 && !p.table.grows() {
				p.refused(fmt.Sprintf("Line %d of the paste, %s: expected one that the table has, got %s. Nothing was changed.", l.line, p.table.columns()[0].heading(), quoteCell(cells[key])))
				return
			} else if l.at < 0 {
				l.at = fresh
				fresh++
			}
		}
		for k, col := range h.columns {
			if slices.Contains(cols, col) {
				l.cells = append(l.cells, cells[k])
			}
		}
		rows = append(rows, l)
	}
	switch {
	case len(rows) == 0:
		p.refused("Only headings were copied: expected rows under them. Nothing was changed.")
		return
	case len(cols) == 0:
		p.refused("The headings name no column that can be typed in. Nothing was changed.")
		return
	case key < 0 && !p.hasRoom(from, len(rows)):
		return
	}
	said := p.understand(cols, rows)
	if p.fillIn(cols, rows, "paste "+model.CountOf(len(rows), "row"), false, "") {
		words := "Pasted " + model.CountOf(len(rows), "row") + " by their headings."
		if len(h.leftOut) > 0 {
			words += " Left out: " + strings.Join(h.leftOut, ", ") + "."
		}
		p.foot.say(words)
		p.tellSaid(said)
	}
}

// understand reads the cells of pasted moves in the writing of others, and says
// what was taken for something else than its letters say.
func (p *pasting) understand(cols []int, rows []laid) (said []string) {
	moves, ok := p.table.(*moveTable)
	if !ok {
		return nil
	}
	names := make([]string, len(cols))
	for i, col := range cols {
		names[i] = p.table.columns()[col].name
	}
	for i := range rows {
		l := &rows[i]
		cells, aside, of := table.Understood(names, l.cells, moves.rules)
		l.cells = cells
		for name, text := range aside {
			if l.aside == nil {
				l.aside = map[int]string{}
			}
			l.aside[columnAt(p.table, name)] = text
		}
		for _, s := range of {
			said = append(said, model.Headings.Replace(fmt.Sprintf("%s, %s: %s taken as %s: %s", l.place(), s.Column, quoteCell(s.Wrote), s.Took, s.Why)))
		}
	}
	return said
}

// tellSaid lists what was taken for something else than its letters say.
func (p *pasting) tellSaid(said []string) {
	const most = 500
	if len(said) == 0 {
		return
	}
	if len(said) > most {
		said = append(said[:most], "and "+model.CountOf(len(said)-most, "more note"))
	}
	p.host.Dialogs().Lines("Notes on the paste", said)
}
