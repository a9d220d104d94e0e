package matchup

import (
	"fmt"
	"strconv"

	"fyne.io/fyne/v2"

	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/timeline/words"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

func (g *matchupGrid) paintCorner(p *paint.Pen, size fyne.Size) {
	t := paint.ColumnText("Setup", gridPad, size.Height-10, sheet.Soft)
	p.Text(&t)
	p.Line(&sheet.Line{From: sheet.Point{Y: gridHead - 1}, To: sheet.Point{X: float64(size.Width), Y: gridHead - 1}, Stroke: sheet.Soft, Width: 1})
}

// paintHead writes the headings, each on up to two lines.
func (g *matchupGrid) paintHead(p *paint.Pen, size fyne.Size) {
	_, _, from, to := g.view()
	for i := from; i < to; i++ {
		x := float32(i*gridCell) - g.scroll.Offset.X
		g.wash(p, x, 0, gridCell, gridHead-1, i == g.hoverColumn, g.focused && i == g.column)
		role := sheet.Soft
		if i == g.column && g.focused {
			role = sheet.Ink
		}
		const room = gridCell - 2*gridPad
		lines := g.wrapper.Wrap(nil, g.grid.Replies[i].Title, room)
		if len(lines) > 2 {
			lines = []string{lines[0], g.wrapper.Fit(g.grid.Replies[i].Title[len(lines[0]):], room)}
		}
		y := float32(gridHead - 10 - 17*(len(lines)-1))
		for _, s := range lines {
			t := paint.ColumnText(s, x+gridPad, y, role)
			p.Text(&t)
			y += 17
		}
	}
	p.Line(&sheet.Line{From: sheet.Point{Y: gridHead - 1}, To: sheet.Point{X: float64(size.Width), Y: gridHead - 1}, Stroke: sheet.Soft, Width: 1})
}

// paintNames writes each setup's verdict and name, bold where it is marked.
func (g *matchupGrid) paintNames(p *paint.Pen, size fyne.Size) {
	from, to, _, _ := g.view()
	for i := from; i < to; i++ {
		row := &g.grid.Rows[g.rows[i]]
		y := float32(i*gridRow) - g.scroll.Offset.Y
		g.wash(p, 0, y, size.Width, gridRow, i == g.hoverRow, g.focused && i == g.row)
		p.Mark(row.Called.Judgement(), gridPad, float64(y)+7)
		const left = gridPad + paint.MarkSide + gridPad
		t := paint.ColumnText(g.wrapper.Fit(row.Setup, size.Width-left-gridPad), left, y+gridRow-8, sheet.Ink)
		if g.marked[g.rows[i]] {
			t.Str, t.Bold = g.wrapper.Fit(row.Setup, (size.Width-left-gridPad)*0.92), true // bold letters are wider
		}
		p.Text(&t)
		g.rule(p, y+gridRow, size.Width)
	}
	p.Line(&sheet.Line{From: sheet.Point{X: float64(size.Width) - 1}, To: sheet.Point{X: float64(size.Width) - 1, Y: float64(size.Height)}, Stroke: sheet.Rule, Width: 1})
}

// Where the words of a cell stand, from its left edge.
const (
	gridOutcome = gridPad + paint.MarkSide + 6
	gridSpare   = gridCell - gridPad // its end
)

func (g *matchupGrid) paintCells(p *paint.Pen, _ fyne.Size) {
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
		p.Line(&sheet.Line{From: sheet.Point{X: float64(x0), Y: float64(y + gridRow)}, To: sheet.Point{X: float64(x0 + wide), Y: float64(y + gridRow)}, Stroke: sheet.Rule, Width: 1})
	}
	if g.row < len(g.rows) && g.column < len(g.grid.Replies) {
		stroke := paint.Colours().Ink[sheet.Rule]
		if g.focused {
			stroke = paint.Colours().Ink[sheet.Ink]
		}
		x, y := float64(g.column*gridCell), float64(g.row*gridRow)
		p.Rect(p.Px(x), p.Px(y), p.Px(x+gridCell), p.Px(y+gridRow), nil, stroke, p.Thick(1))
	}
}

// cell draws what becomes of one reply: in ink where the setup demands
// something of it, else soft.
func (g *matchupGrid) cell(p *paint.Pen, c *compare.GridCell, x, y float32) {
	base := y + gridRow - 8
	role := sheet.Ink
	if c.Demand == timeline.DemandNone {
		role = sheet.Soft
	}
	if !c.Judged {
		t := paint.ColumnText("does not fit", x+gridOutcome, base, sheet.Soft)
		p.Text(&t)
		return
	}
	p.Mark(c.Mark, float64(x+gridPad), float64(base)-11)
	t := paint.ColumnText(c.Cell.Outcome.String(), x+gridOutcome, base, role)
	p.Text(&t)
	t = paint.ColumnText(spareText(&c.Cell), x+gridSpare, base, role)
	t.Anchor = sheet.AtEnd
	p.Text(&t)
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
	if words := words.MainNumber(&timeline.ReplyVerdict{Spare: n.Spare, AfterWake: n.AfterWake, Advantage: n.Advantage, ToPunish: n.ToPunish}); words != "" {
		out += ", " + words
	}
	return out
}

// wash lays a ground under what is pointed at, or stands in the cursor's row
// or column.
func (g *matchupGrid) wash(p *paint.Pen, x, y, w, h float32, pointed, current bool) {
	share := 0.0
	if pointed {
		share += 0.06
	}
	if current {
		share += 0.06
	}
	if share > 0 {
		p.Rect(p.Px(float64(x)), p.Px(float64(y)), p.Px(float64(x+w)), p.Px(float64(y+h)), paint.Colours().Blend(sheet.Ink, share), nil, 0)
	}
}

func (g *matchupGrid) rule(p *paint.Pen, y, width float32) {
	p.Line(&sheet.Line{From: sheet.Point{Y: float64(y)}, To: sheet.Point{X: float64(width), Y: float64(y)}, Stroke: sheet.Rule, Width: 1})
}
