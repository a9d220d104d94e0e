package data

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"

	"wakeline/ui/grid"
	"wakeline/ui/model"
)

// pasting fills blocks of cells into the table.
type pasting struct {
	*editor
	mapped func(headings []string) map[string]string // how an import mapped those headings before, in small letters
}

// Empty implements grid.Edits: the selected cells become their defaults.
func (p *pasting) Empty() {
	a, b := p.grid.Selection()
	if !p.mayType() {
		return
	}
	instead := ""
	if a.Col == 0 && p.table.grows() { // a name can't be empty: the row was meant
		instead = " Ctrl+- removes the row."
	}
	p.fill(a, b, "", "clear", true, instead)
}

// fill puts one text into every cell from a to b; instead is what else may be
// done where it can't stand there.
func (p *pasting) fill(a, b grid.Place, text, what string, waits bool, instead string) {
	cols := columnsFrom(a.Col, b.Col-a.Col+1)
	var rows []laid
	for at := a.Row; at <= b.Row; at++ {
		rows = append(rows, laid{at: at, cells: slices.Repeat([]string{text}, len(cols))})
	}
	p.fillIn(cols, rows, what+" "+model.CountOf(len(rows)*len(cols), "cell"), waits, instead)
}

// columnsFrom are n columns from the first on.
func columnsFrom(first, n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = first + i
	}
	return out
}

// Paste implements grid.Edits: a block of cells goes in from the selection's
// corner on; one cell fills the whole selection; one whose first row names
// columns goes where its headings say.
func (p *pasting) Paste(c fyne.Clipboard) {
	if !p.mayType() {
		return
	}
	block, err := grid.ParseBlock(c.Content())
	if err != nil {
		p.refused(model.Sentence(err.Error()))
		return
	}
	if len(block) == 0 {
		p.refused("There is no text to paste.")
		return
	}
	a, b := p.grid.Selection()
	if len(block) == 1 && len(block[0]) == 1 {
		p.fill(a, b, block[0][0], "paste", false, "")
		return
	}
	if head, ok := p.headOf(block[0], a.Col); ok {
		p.pasteByHead(head, block, a.Row)
		return
	}
	if room := len(p.table.columns()) - a.Col; len(block[0]) > room {
		p.refused(fmt.Sprintf("The pasted cells are %s wide, and from here on there are %s. Nothing was changed.", model.CountOf(len(block[0]), "column"), model.CountOf(room, "column")))
		return
	}
	if !p.hasRoom(a.Row, len(block)) {
		return
	}
	var rows []laid
	for i := range block {
		rows = append(rows, laid{at: a.Row + i, line: i + 1, cells: block[i]})
	}
	cols := columnsFrom(a.Col, len(block[0]))
	said := p.understand(cols, rows)
	if p.fillIn(cols, rows, "paste "+model.CountOf(len(block)*len(block[0]), "cell"), false, "") {
		p.tellSaid(said)
	}
}

// hasRoom reports whether n rows fit from a row on, and says so
// where they don't.
func (p *pasting) hasRoom(at, n int) bool {
	room := p.table.len() - at
	if p.table.grows() || n <= room {
		return true
	}
	p.refused(fmt.Sprintf("The pasted cells are %s high, and from here on there are %s. Nothing was changed.", model.CountOf(n, "row"), model.CountOf(room, "row")))
	return false
}
