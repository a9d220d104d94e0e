package grid

import (
	"fyne.io/fyne/v2"

	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

// painter paints a grid once.
type painter struct {
	*Grid
	p    *paint.Pen
	room fyne.Size
}

// draw draws the cells in view: those that scroll first, then over them the
// head, the first column and the labels, which stay.
func (g *painter) draw() {
	p, size := g.p, g.room
	if len(g.widths) == 0 {
		return
	}
	ground := paint.Colours().Ink[sheet.Paper]
	first := int(g.offset.Y / RowHeight)
	last := min(g.cells.Len(), int((g.offset.Y+size.Height-HeadHeight)/RowHeight)+1)
	frozen := g.frozen()
	from := 1
	for from < len(g.widths)-1 && g.left(from)+g.widths[from] <= frozen {
		from++
	}
	to := from
	for to < len(g.widths) && g.left(to) < size.Width {
		to++
	}
	heads := g.cells.Heads()
	end := min(size.Height, g.top(g.cells.Len()))
	g.band(first, last, from, to, end)
	for row := first; row < last; row++ {
		g.line(g.top(row)+RowHeight, 0, min(size.Width, g.right()))
	}
	g.fill(0, HeadHeight, frozen, end-HeadHeight, sheet.Paper, 1)
	g.band(first, last, 0, 1, end)
	for row := first; row < last; row++ {
		g.line(g.top(row)+RowHeight, 0, frozen)
		g.text(g.cells.Label(row), 0, g.label, g.top(row), g.labelRole(row))
	}
	p.Rect(p.Px(float64(frozen))-p.Thick(1), p.Px(HeadHeight), p.Px(float64(frozen)), p.Px(float64(end)), paint.Colours().Ink[sheet.Soft], nil, 0)
	p.Rect(p.Px(float64(g.label))-p.Thick(1), p.Px(HeadHeight), p.Px(float64(g.label)), p.Px(float64(end)), paint.Colours().Ink[sheet.Rule], nil, 0)

	p.Rect(0, 0, p.Px(float64(size.Width)), p.Px(HeadHeight), ground, nil, 0)
	for col := from; col < to; col++ {
		g.head(heads[col], col)
	}
	p.Rect(0, 0, p.Px(float64(frozen)), p.Px(HeadHeight), ground, nil, 0)
	g.head(heads[0], 0)
	p.Rect(0, p.Px(HeadHeight)-p.Thick(1), p.Px(float64(size.Width)), p.Px(HeadHeight), paint.Colours().Ink[sheet.Soft], nil, 0)
	g.cursor()
	g.bars()
}

// band draws a block of cells, and the wash of the selection under them.
func (g *painter) band(first, last, from, to int, end float32) {
	a, b := g.Selection()
	for col := from; col < to; col++ {
		x, w := g.left(col), g.widths[col]
		if col >= a.Col && col <= b.Col && (a != b || g.cur.Col == LabelColumn) {
			top, bottom := max(a.Row, first), min(b.Row+1, last)
			g.fill(x, g.top(top), w, g.top(bottom)-g.top(top), sheet.Ink, 0.09)
		}
		g.p.Rect(g.p.Px(float64(x+w))-g.p.Thick(1), g.p.Px(HeadHeight), g.p.Px(float64(x+w)), g.p.Px(float64(end)), paint.Colours().Ink[sheet.Rule], nil, 0)
		for row := first; row < last; row++ {
			role := sheet.Ink
			y := g.top(row)
			switch g.cells.Look(row, col) {
			case Soft:
				role = sheet.Soft
			case Needs:
				g.p.Box(&sheet.Box{Min: sheet.Point{X: float64(x) + 3, Y: float64(y) + 3}, Max: sheet.Point{X: float64(x+w) - 4, Y: float64(y) + RowHeight - 4},
					Stroke: sheet.Soft, Width: 1, Dashed: true})
			case Wrong:
				g.p.Box(&sheet.Box{Min: sheet.Point{X: float64(x) + 2, Y: float64(y) + 2}, Max: sheet.Point{X: float64(x+w) - 3, Y: float64(y) + RowHeight - 3},
					Stroke: sheet.Ink, Width: 1.5})
			case Found:
				g.fill(x+pad, y+RowHeight-5, w-2*pad, 2, sheet.Ink, 1)
			}
			room := g.marked(row, col)
			if room > 0 {
				j, _ := g.cells.(Marks).Mark(row, col)
				g.p.Mark(j, float64(x)+pad, float64(y)+(RowHeight-paint.MarkSide)/2)
			}
			g.text(g.cells.Text(row, col), x+room, w-room, y, role)
		}
	}
}

func (g *painter) fill(x, y, w, h float32, role sheet.Role, share float64) {
	g.p.Rect(g.p.Px(float64(x)), g.p.Px(float64(y)), g.p.Px(float64(x+w)), g.p.Px(float64(y+h)), paint.Colours().Blend(role, share), nil, 0)
}

func (g *painter) line(y, from, to float32) {
	g.p.Rect(g.p.Px(float64(from)), g.p.Px(float64(y))-g.p.Thick(1), g.p.Px(float64(to)), g.p.Px(float64(y)), paint.Colours().Ink[sheet.Rule], nil, 0)
}

func (g *painter) text(s string, x, w, top float32, role sheet.Role) {
	if s == "" {
		return
	}
	t := paint.ColumnText(g.wrapper.Fit(s, w-2*pad+2), x+pad, top+RowHeight-9, role)
	g.p.Text(&t)
}

func (g *painter) labelRole(row int) sheet.Role {
	if a, b := g.Selection(); row >= a.Row && row <= b.Row {
		return sheet.Ink
	}
	return sheet.Soft
}

// head draws a column's heading, with the mark of sorting.
func (g *painter) head(name string, col int) {
	x, w := g.left(col), g.widths[col]
	role := sheet.Soft
	if a, b := g.Selection(); col >= a.Col && col <= b.Col {
		role = sheet.Ink
	}
	room := w
	if col == g.Sorted {
		room -= 12
		right, mid := float64(x+w)-9, float64(HeadHeight)/2
		up := 3.0
		if g.Falling {
			up = -3
		}
		g.p.Path(&sheet.Path{Points: []sheet.Point{{X: right - 4, Y: mid + up}, {X: right, Y: mid - up}, {X: right + 4, Y: mid + up}}, Stroke: sheet.Ink, Width: 1.5})
	}
	g.text(name, x, room, 0, role)
	g.p.Rect(g.p.Px(float64(x+w))-g.p.Thick(1), 0, g.p.Px(float64(x+w)), g.p.Px(HeadHeight), paint.Colours().Ink[sheet.Rule], nil, 0)
}

// cursor outlines the cell under it: thick while the grid has the keys.
func (g *painter) cursor() {
	x, y := g.left(g.cur.Col), g.top(g.cur.Row)
	if y < HeadHeight-1 || y > g.room.Height || g.cur.Col > 0 && x < g.frozen()-1 || g.cells.Len() == 0 {
		return // scrolled away
	}
	width, role := 2, sheet.Ink
	if !g.Focused {
		width, role = 1, sheet.Soft
	}
	g.p.Rect(g.p.Px(float64(x)), g.p.Px(float64(y))-g.p.Thick(1), g.p.Px(float64(x+g.wide(g.cur.Col))), g.p.Px(float64(y+RowHeight)), nil, paint.Colours().Ink[role], g.p.Thick(float64(width)))
}

// bars draws how far the grid is scrolled.
func (g *painter) bars() {
	for _, across := range []bool{false, true} {
		if from, n, ok := g.bar(across); ok {
			x, y, w, h := g.room.Width-barWidth+2, from, float32(barWidth-3), n
			if across {
				x, y, w, h = from, g.room.Height-barWidth+2, n, barWidth-3
			}
			g.fill(x, y, w, h, sheet.Ink, 0.40)
		}
	}
}
