package ui

import (
	"fyne.io/fyne/v2"

	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

// paint draws the cells in view: those that scroll first, then over them the
// head, the first column and the labels, which stay.
func (g *dataGrid) paint(p *paint.Pen, size fyne.Size) {
	if len(g.widths) == 0 {
		return
	}
	ground := paint.Colours().Ink[sheet.Paper]
	first := int(g.offset.Y / dataRow)
	last := min(g.cells.len(), int((g.offset.Y+size.Height-dataHead)/dataRow)+1)
	frozen := g.frozen()
	from := 1
	for from < len(g.widths)-1 && g.left(from)+g.widths[from] <= frozen {
		from++
	}
	to := from
	for to < len(g.widths) && g.left(to) < size.Width {
		to++
	}
	heads := g.cells.heads()
	end := min(size.Height, g.top(g.cells.len()))
	g.band(p, first, last, from, to, end)
	for row := first; row < last; row++ {
		g.line(p, g.top(row)+dataRow, 0, min(size.Width, g.right()))
	}
	g.fill(p, 0, dataHead, frozen, end-dataHead, sheet.Paper, 1)
	g.band(p, first, last, 0, 1, end)
	for row := first; row < last; row++ {
		g.line(p, g.top(row)+dataRow, 0, frozen)
		g.text(p, g.cells.label(row), 0, g.label, g.top(row), g.labelRole(row))
	}
	p.Rect(p.Px(float64(frozen))-p.Thick(1), p.Px(dataHead), p.Px(float64(frozen)), p.Px(float64(end)), paint.Colours().Ink[sheet.Soft], nil, 0)
	p.Rect(p.Px(float64(g.label))-p.Thick(1), p.Px(dataHead), p.Px(float64(g.label)), p.Px(float64(end)), paint.Colours().Ink[sheet.Rule], nil, 0)

	p.Rect(0, 0, p.Px(float64(size.Width)), p.Px(dataHead), ground, nil, 0)
	for col := from; col < to; col++ {
		g.head(p, heads[col], col)
	}
	p.Rect(0, 0, p.Px(float64(frozen)), p.Px(dataHead), ground, nil, 0)
	g.head(p, heads[0], 0)
	p.Rect(0, p.Px(dataHead)-p.Thick(1), p.Px(float64(size.Width)), p.Px(dataHead), paint.Colours().Ink[sheet.Soft], nil, 0)
	g.cursor(p, size)
	g.bars(p, size)
}

// right is where the last column ends.
func (g *dataGrid) right() float32 {
	n := len(g.widths) - 1
	return g.left(n) + g.widths[n]
}

// band draws a block of cells, and the wash of the selection under them.
func (g *dataGrid) band(p *paint.Pen, first, last, from, to int, end float32) {
	a, b := g.selection()
	for col := from; col < to; col++ {
		x, w := g.left(col), g.widths[col]
		if col >= a.col && col <= b.col && (a != b || g.cur.col == labelColumn) {
			top, bottom := max(a.row, first), min(b.row+1, last)
			g.fill(p, x, g.top(top), w, g.top(bottom)-g.top(top), sheet.Ink, 0.09)
		}
		p.Rect(p.Px(float64(x+w))-p.Thick(1), p.Px(dataHead), p.Px(float64(x+w)), p.Px(float64(end)), paint.Colours().Ink[sheet.Rule], nil, 0)
		for row := first; row < last; row++ {
			role := sheet.Ink
			y := g.top(row)
			switch g.cells.look(row, col) {
			case softCell:
				role = sheet.Soft
			case needsCell:
				p.Box(&sheet.Box{Min: sheet.Point{X: float64(x) + 3, Y: float64(y) + 3}, Max: sheet.Point{X: float64(x+w) - 4, Y: float64(y) + dataRow - 4},
					Stroke: sheet.Soft, Width: 1, Dashed: true})
			case wrongCell:
				p.Box(&sheet.Box{Min: sheet.Point{X: float64(x) + 2, Y: float64(y) + 2}, Max: sheet.Point{X: float64(x+w) - 3, Y: float64(y) + dataRow - 3},
					Stroke: sheet.Ink, Width: 1.5})
			case foundCell:
				g.fill(p, x+dataPad, y+dataRow-5, w-2*dataPad, 2, sheet.Ink, 1)
			}
			g.text(p, g.cells.text(row, col), x, w, y, role)
		}
	}
}

func (g *dataGrid) fill(p *paint.Pen, x, y, w, h float32, role sheet.Role, share float64) {
	p.Rect(p.Px(float64(x)), p.Px(float64(y)), p.Px(float64(x+w)), p.Px(float64(y+h)), paint.Colours().Blend(role, share), nil, 0)
}

func (g *dataGrid) line(p *paint.Pen, y, from, to float32) {
	p.Rect(p.Px(float64(from)), p.Px(float64(y))-p.Thick(1), p.Px(float64(to)), p.Px(float64(y)), paint.Colours().Ink[sheet.Rule], nil, 0)
}

func (g *dataGrid) text(p *paint.Pen, s string, x, w, top float32, role sheet.Role) {
	if s == "" {
		return
	}
	t := paint.ColumnText(g.wrapper.Fit(s, w-2*dataPad+2), x+dataPad, top+dataRow-9, role)
	p.Text(&t)
}

func (g *dataGrid) labelRole(row int) sheet.Role {
	if a, b := g.selection(); row >= a.row && row <= b.row {
		return sheet.Ink
	}
	return sheet.Soft
}

// head draws a column's heading, with the mark of sorting.
func (g *dataGrid) head(p *paint.Pen, name string, col int) {
	x, w := g.left(col), g.widths[col]
	role := sheet.Soft
	if a, b := g.selection(); col >= a.col && col <= b.col {
		role = sheet.Ink
	}
	room := w
	if col == g.sorted {
		room -= 12
		right, mid := float64(x+w)-9, float64(dataHead)/2
		up := 3.0
		if g.falling {
			up = -3
		}
		p.Path(&sheet.Path{Points: []sheet.Point{{X: right - 4, Y: mid + up}, {X: right, Y: mid - up}, {X: right + 4, Y: mid + up}}, Stroke: sheet.Ink, Width: 1.5})
	}
	g.text(p, name, x, room, 0, role)
	p.Rect(p.Px(float64(x+w))-p.Thick(1), 0, p.Px(float64(x+w)), p.Px(dataHead), paint.Colours().Ink[sheet.Rule], nil, 0)
}

// cursor outlines the cell under it: thick while the grid has the keys.
func (g *dataGrid) cursor(p *paint.Pen, size fyne.Size) {
	x, y := g.left(g.cur.col), g.top(g.cur.row)
	if y < dataHead-1 || y > size.Height || g.cur.col > 0 && x < g.frozen()-1 || g.cells.len() == 0 {
		return // scrolled away
	}
	width, role := 2, sheet.Ink
	if !g.focused {
		width, role = 1, sheet.Soft
	}
	p.Rect(p.Px(float64(x)), p.Px(float64(y))-p.Thick(1), p.Px(float64(x+g.wide(g.cur.col))), p.Px(float64(y+dataRow)), nil, paint.Colours().Ink[role], p.Thick(float64(width)))
}

// bars draws how far the grid is scrolled.
func (g *dataGrid) bars(p *paint.Pen, size fyne.Size) {
	for _, across := range []bool{false, true} {
		if from, n, ok := g.bar(across); ok {
			x, y, w, h := size.Width-dataBar+2, from, float32(dataBar-3), n
			if across {
				x, y, w, h = from, size.Height-dataBar+2, n, dataBar-3
			}
			g.fill(p, x, y, w, h, sheet.Ink, 0.40)
		}
	}
}

// bar is where the thumb of a scroll bar lies; there is none where all is in
// view.
func (g *dataGrid) bar(across bool) (from, n float32, ok bool) {
	w, h := g.whole()
	vw, vh := g.view()
	start, whole, view, at := float32(dataHead), h, vh, g.offset.Y
	if across {
		start, whole, view, at = g.frozen(), w, vw, g.offset.X
	}
	if whole <= view {
		return 0, 0, false
	}
	room := view - dataBar
	n = max(room*view/whole, 24)
	return start + (room-n)*at/(whole-view), n, true
}
