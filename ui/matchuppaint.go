package ui

import (
	"fmt"
	"strconv"

	"fyne.io/fyne/v2"

	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/ui/sheet"
)

func (g *matchupGrid) paintCorner(p *pen, size fyne.Size) {
	t := columnText("Setup", gridPad, size.Height-10, sheet.Soft)
	p.text(&t)
	p.line(&sheet.Line{From: sheet.Point{Y: gridHead - 1}, To: sheet.Point{X: float64(size.Width), Y: gridHead - 1}, Stroke: sheet.Soft, Width: 1})
}

// paintHead writes the headings, each on up to two lines.
func (g *matchupGrid) paintHead(p *pen, size fyne.Size) {
	_, _, from, to := g.view()
	for i := from; i < to; i++ {
		x := float32(i*gridCell) - g.scroll.Offset.X
		g.wash(p, x, 0, gridCell, gridHead-1, i == g.hoverColumn, g.focused && i == g.column)
		role := sheet.Soft
		if i == g.column && g.focused {
			role = sheet.Ink
		}
		const room = gridCell - 2*gridPad
		lines := g.wrapper.wrap(nil, g.grid.Replies[i].Title, room)
		if len(lines) > 2 {
			lines = []string{lines[0], g.wrapper.fit(g.grid.Replies[i].Title[len(lines[0]):], room)}
		}
		y := float32(gridHead - 10 - 17*(len(lines)-1))
		for _, s := range lines {
			t := columnText(s, x+gridPad, y, role)
			p.text(&t)
			y += 17
		}
	}
	p.line(&sheet.Line{From: sheet.Point{Y: gridHead - 1}, To: sheet.Point{X: float64(size.Width), Y: gridHead - 1}, Stroke: sheet.Soft, Width: 1})
}

// paintNames writes each setup's verdict and name, bold where it is marked.
func (g *matchupGrid) paintNames(p *pen, size fyne.Size) {
	from, to, _, _ := g.view()
	for i := from; i < to; i++ {
		row := &g.grid.Rows[g.rows[i]]
		y := float32(i*gridRow) - g.scroll.Offset.Y
		g.wash(p, 0, y, size.Width, gridRow, i == g.hoverRow, g.focused && i == g.row)
		p.mark(row.Called.Judgement(), gridPad, float64(y)+7)
		const left = gridPad + markSide + gridPad
		t := columnText(g.wrapper.fit(row.Setup, size.Width-left-gridPad), left, y+gridRow-8, sheet.Ink)
		if g.marked[g.rows[i]] {
			t.Str, t.Bold = g.wrapper.fit(row.Setup, (size.Width-left-gridPad)*0.92), true // bold letters are wider
		}
		p.text(&t)
		g.rule(p, y+gridRow, size.Width)
	}
	p.line(&sheet.Line{From: sheet.Point{X: float64(size.Width) - 1}, To: sheet.Point{X: float64(size.Width) - 1, Y: float64(size.Height)}, Stroke: sheet.Rule, Width: 1})
}

// Where the words of a cell stand, from its left edge.
const (
	gridOutcome = gridPad + markSide + 6
	gridSpare   = gridCell - gridPad // its end
)

func (g *matchupGrid) paintCells(p *pen, _ fyne.Size) {
	row, rowEnd, column, columnEnd := g.view()
	x0, wide := float32(column*gridCell), float32((columnEnd-column)*gridCell)
	for i := row; i < rowEnd; i++ {
		y := float32(i * gridRow)
		g.wash(p, x0, y, wide, gridRow, false, g.focused && i == g.row)
		for k := column; k < columnEnd; k++ {
			x := float32(k * gridCell)
			if i == g.hoverRow && k == g.hoverColumn {
				g.wash(p, x, y, gridCell, gridRow, true, false)
			}
			g.cell(p, &g.grid.Rows[g.rows[i]].Cells[k], x, y)
		}
		p.line(&sheet.Line{From: sheet.Point{X: float64(x0), Y: float64(y + gridRow)}, To: sheet.Point{X: float64(x0 + wide), Y: float64(y + gridRow)}, Stroke: sheet.Rule, Width: 1})
	}
	if g.row < len(g.rows) && g.column < len(g.grid.Replies) {
		stroke := colours().ink[sheet.Rule]
		if g.focused {
			stroke = colours().ink[sheet.Ink]
		}
		x, y := float64(g.column*gridCell), float64(g.row*gridRow)
		p.rect(p.px(x), p.px(y), p.px(x+gridCell), p.px(y+gridRow), nil, stroke, p.thick(1))
	}
}

// cell draws what becomes of one reply: in ink where the setup demands
// something of it, else soft.
func (g *matchupGrid) cell(p *pen, c *compare.GridCell, x, y float32) {
	base := y + gridRow - 8
	role := sheet.Ink
	if c.Demand == timeline.DemandNone {
		role = sheet.Soft
	}
	if !c.Judged {
		t := columnText("does not fit", x+gridOutcome, base, sheet.Soft)
		p.text(&t)
		return
	}
	p.mark(c.Mark, float64(x+gridPad), float64(base)-11)
	t := columnText(c.Cell.Outcome.String(), x+gridOutcome, base, role)
	p.text(&t)
	t = columnText(spareText(&c.Cell), x+gridSpare, base, role)
	t.Anchor = sheet.AtEnd
	p.text(&t)
}

// spareText is a cell's spare alone, negative where the guard is late.
func spareText(c *timeline.Cell) string {
	if !c.Spare.Given {
		return ""
	}
	return strconv.Itoa(c.Spare.N)
}

// cellWords says a cell in words.
func cellWords(c *compare.GridCell) string {
	if !c.Judged {
		return "does not fit: the reply ends past the last frame that can be judged"
	}
	out := c.Cell.Outcome.String()
	if c.Cell.Meeting.Given {
		out += fmt.Sprintf(" on %d", c.Cell.Meeting.N)
	}
	n := &c.Cell
	if words := cellNumber(&timeline.ReplyVerdict{Spare: n.Spare, AfterWake: n.AfterWake, Advantage: n.Advantage, ToPunish: n.ToPunish}); words != "" {
		out += ", " + words
	}
	return out
}

// wash lays a ground under what is pointed at, or stands in the cursor's row
// or column.
func (g *matchupGrid) wash(p *pen, x, y, w, h float32, pointed, current bool) {
	share := 0.0
	if pointed {
		share += 0.06
	}
	if current {
		share += 0.06
	}
	if share > 0 {
		p.rect(p.px(float64(x)), p.px(float64(y)), p.px(float64(x+w)), p.px(float64(y+h)), colours().blend(sheet.Ink, share), nil, 0)
	}
}

func (g *matchupGrid) rule(p *pen, y, width float32) {
	p.line(&sheet.Line{From: sheet.Point{Y: float64(y)}, To: sheet.Point{X: float64(width), Y: float64(y)}, Stroke: sheet.Rule, Width: 1})
}
