package mix

import (
	"math/big"

	"fyne.io/fyne/v2"

	"wakeline/timeline/value/report"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var _ fyne.Widget = (*table)(nil)

// table shows the payoffs of a mix: a row a setup, a column a reply, those of
// one rise together, with the shares of both sides as bars.
type table struct {
	paint.NamedGrid

	wrapper, small paint.Wrapper
	got            *report.Mix // nil: there are no cells
	rows           []tableRow
}

// tableRow is one setup of the ender.
type tableRow struct {
	name  string
	place int    // in the pair
	on    bool   // it takes part
	at    int    // its row of the mix, -1: none
	why   string // there is none
}

// The measures of the table, in units.
const (
	rowHeight  = 26
	headHeight = 78
	cellWidth  = 108
	nameWidth  = 230
	nameWidest = 420

	tickLeft = 8
	tickSide = 14
	tickRoom = tickLeft + tickSide + 6 // a click up to here is on the box
	barWide  = 54
	withBars = 300 // a narrower column has room for the names alone
	numWide  = 58  // "under 1 %"
)

func newTable() *table {
	t := &table{wrapper: paint.Wrapper{Size: paint.TextSize}, small: paint.Wrapper{Size: paint.CaptionSize}}
	t.PaintHead, t.PaintNames, t.PaintCells = t.paintHead, t.paintNames, t.paintCells
	t.Begin(t, "The mix", paint.GridMeasures{Row: rowHeight, Head: headHeight, Cell: cellWidth, Name: nameWidth, NameTo: nameWidest, Corner: "Setup, and how often"})
	return t
}

// show shows other rows.
func (t *table) show(got *report.Mix, rows []tableRow) {
	t.got, t.rows = got, rows
	columns := 0
	if got != nil {
		columns = len(got.Columns)
	}
	t.Lay(len(rows), columns)
}

// firstOfRise reports whether a column is the first of its rise.
func (t *table) firstOfRise(j int) bool {
	return j == 0 || t.got.Columns[j].Rise != t.got.Columns[j-1].Rise
}

// share draws a share as a bar, and in percent at its right.
func share(p *paint.Pen, small *paint.Wrapper, r *big.Rat, never bool, x, base, wide float32) {
	f, _ := r.Float64()
	words, role := report.Percent(r), sheet.Ink
	if never {
		words, role = "never", sheet.Soft
	}
	t := paint.ColumnText(small.Fit(words, numWide), x+wide, base, role)
	t.Size, t.Anchor = paint.CaptionSize, sheet.AtEnd
	p.Text(&t)
	if bar := wide - numWide; bar > 0 {
		y := float64(base) - 9
		p.Box(&sheet.Box{Min: sheet.Point{X: float64(x), Y: y}, Max: sheet.Point{X: float64(x + bar), Y: y + 8}, Stroke: sheet.Rule, Width: 1})
		if end := float64(bar) * f; end > 0 {
			p.Box(&sheet.Box{Min: sheet.Point{X: float64(x), Y: y}, Max: sheet.Point{X: float64(x) + max(end, 1), Y: y + 8}, Fill: sheet.Ink, Texture: sheet.Solid})
		}
	}
}

// paintHead writes the rises, the replies under them, and the rival's shares.
func (t *table) paintHead(p *paint.Pen, size fyne.Size) {
	_, _, from, to := t.View()
	for j := from; j < to; j++ {
		x := float32(j*cellWidth) - t.Scroll.Offset.X
		c := &t.got.Columns[j]
		t.Wash(p, x, 0, cellWidth, headHeight-1, j == t.HoverColumn, j == t.Column)
		if t.firstOfRise(j) {
			p.Line(&sheet.Line{From: sheet.Point{X: float64(x)}, To: sheet.Point{X: float64(x), Y: headHeight}, Stroke: sheet.Soft, Width: 1})
		}
		if j == from || t.firstOfRise(j) { // the name of a rise stays in view
			end := j + 1
			for end < len(t.got.Columns) && !t.firstOfRise(end) {
				end++
			}
			left := max(x, 0) + paint.GridPad
			rise := paint.ColumnText(t.small.Fit(c.Rise+" rise", float32(end*cellWidth)-t.Scroll.Offset.X-left-paint.GridPad), left, 15, sheet.Soft)
			rise.Size = paint.CaptionSize
			p.Text(&rise)
		}
		role := sheet.Ink
		if c.Never {
			role = sheet.Soft
		}
		const room = cellWidth - 2*paint.GridPad
		name := t.got.Reply(j)
		lines := t.wrapper.Wrap(nil, name, room)
		if len(lines) > 2 {
			lines = []string{lines[0], t.wrapper.Fit(name[len(lines[0]):], room)}
		}
		for i, s := range lines {
			l := paint.ColumnText(s, x+paint.GridPad, float32(headHeight-28-16*(len(lines)-1-i)), role)
			p.Text(&l)
		}
		share(p, &t.small, c.Share, c.Never, x+paint.GridPad, headHeight-9, room)
	}
	t.RuleUnder(p, headHeight-1, size.Width, sheet.Soft)
}

// paintNames writes each setup's box, name and share.
func (t *table) paintNames(p *paint.Pen, size fyne.Size) {
	from, to, _, _ := t.View()
	for i := from; i < to; i++ {
		r := &t.rows[i]
		y := float32(i*rowHeight) - t.Scroll.Offset.Y
		t.Wash(p, 0, y, size.Width, rowHeight, i == t.HoverRow, i == t.Row)
		tick(p, tickLeft, float64(y)+6, r.on)
		role := sheet.Soft
		right := size.Width - paint.GridPad
		base := y + rowHeight - 8
		if r.at >= 0 {
			row := &t.got.Rows[r.at]
			if !row.Never {
				role = sheet.Ink
			}
			wide := float32(numWide)
			if size.Width >= withBars {
				wide += barWide
			}
			share(p, &t.small, row.Share, row.Never, right-wide, base, wide)
			right -= wide
		} else if r.on && r.why != "" {
			out := paint.ColumnText("left out", right, base, sheet.Soft)
			out.Size, out.Anchor = paint.CaptionSize, sheet.AtEnd
			p.Text(&out)
			right -= numWide
		}
		name := paint.ColumnText(t.wrapper.Fit(r.name, right-tickRoom-paint.GridPad), tickRoom, base, role)
		p.Text(&name)
		t.RuleUnder(p, y+rowHeight, size.Width, sheet.Rule)
	}
	t.RuleAfterNames(p, size)
}

// tick draws a box, and a tick in it.
func tick(p *paint.Pen, x, y float64, on bool) {
	p.Box(&sheet.Box{Min: sheet.Point{X: x, Y: y}, Max: sheet.Point{X: x + tickSide, Y: y + tickSide}, Stroke: sheet.Soft, Width: 1})
	if on {
		p.Path(&sheet.Path{Points: []sheet.Point{{X: x + 3, Y: y + 7}, {X: x + 6, Y: y + 11}, {X: x + 12, Y: y + 3}}, Stroke: sheet.Ink, Width: 2})
	}
}

// paintCells writes the payoffs: in ink where both sides take them, bold where
// no other setup makes more against that reply.
func (t *table) paintCells(p *paint.Pen, _ fyne.Size) {
	t.EachCell(p, func(row, column int, x, y float32) {
		if t.firstOfRise(column) {
			p.Line(&sheet.Line{From: sheet.Point{X: float64(x), Y: float64(y)}, To: sheet.Point{X: float64(x), Y: float64(y + rowHeight)}, Stroke: sheet.Soft, Width: 1})
		}
		at := t.rows[row].at
		if at < 0 {
			return
		}
		v, c := t.got.Payoff[at][column], &t.got.Columns[column]
		role := sheet.Soft
		if t.got.Rows[at].Share.Sign() > 0 && c.Share.Sign() > 0 {
			role = sheet.Ink
		}
		n := paint.ColumnText(report.Short(v), x+cellWidth-paint.GridPad, y+rowHeight-8, role)
		n.Anchor, n.Bold = sheet.AtEnd, v.Cmp(c.Best) == 0
		p.Text(&n)
	})
}
