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

// paintHead writes the headings, each on up to two lines.
func (g *matchupGrid) paintHead(p *paint.Pen, size fyne.Size) {
	_, _, from, to := g.View()
	for i := from; i < to; i++ {
		x := float32(i*gridCell) - g.Scroll.Offset.X
		g.Wash(p, x, 0, gridCell, gridHead-1, i == g.HoverColumn, i == g.Column)
		role := sheet.Soft
		if i == g.Column && g.Focused {
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
	g.RuleUnder(p, gridHead-1, size.Width, sheet.Soft)
}

// paintNames writes each setup's verdict and name, bold where it is marked.
func (g *matchupGrid) paintNames(p *paint.Pen, size fyne.Size) {
	from, to, _, _ := g.View()
	for i := from; i < to; i++ {
		row, high := &g.grid.Rows[g.rows[i]], g.Measures.Row
		y := float32(i)*high - g.Scroll.Offset.Y
		g.Wash(p, 0, y, size.Width, high, i == g.HoverRow, i == g.Row)
		p.Mark(row.Called.Judgement(), gridPad, float64(y)+7)
		const left = gridPad + paint.MarkSide + gridPad
		t := paint.ColumnText(g.wrapper.Fit(row.Setup, size.Width-left-gridPad), left, y+gridRow-8, sheet.Ink)
		if g.marked[g.rows[i]] {
			t.Str, t.Bold = g.wrapper.Fit(row.Setup, (size.Width-left-gridPad)*0.92), true // bold letters are wider
		}
		p.Text(&t)
		g.RuleUnder(p, y+high, size.Width, sheet.Rule)
	}
	g.RuleAfterNames(p, size)
}

// Where the words of a cell stand, from its left edge.
const (
	gridOutcome = gridPad + paint.MarkSide + 6
	gridSpare   = gridCell - gridPad // its end
)

func (g *matchupGrid) paintCells(p *paint.Pen, _ fyne.Size) {
	g.EachCell(p, func(row, column int, x, y float32) {
		g.cell(p, &g.grid.Rows[g.rows[row]].Cells[column], x, y)
	})
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
	if g.points {
		t := paint.ColumnText(g.wrapper.Fit(words.ShortWorth(c.Worth), gridCell-gridOutcome-gridPad), x+gridOutcome, base+gridLine, sheet.Soft)
		p.Text(&t)
	}
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
