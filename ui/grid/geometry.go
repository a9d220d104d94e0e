package grid

import (
	"fyne.io/fyne/v2"

	"wakeline/ui/paint"
)

// The measures of a grid, in units.
const (
	RowHeight  = 26
	HeadHeight = 26

	pad         = 7
	leastColumn = 46  // width of a column
	mostColumn  = 230 // and the widest
	mostFirst   = 250 // the widest of the first one
	mostWide    = 420 // of one that holds long texts
	mostLast    = 640 // and of the last
	barWidth    = 10
	mostFitted  = 400 // rows whose cells are measured
)

// geometry is where the cells lie.
type geometry struct {
	cells   Cells
	wrapper paint.Wrapper
	size    fyne.Size // of the grid
	offset  fyne.Position
	widths  []float32 // of the columns
	label   float32   // of the row labels
}

// Shown is what the grid shows.
func (g *geometry) Shown() Cells { return g.cells }

// Fit measures the columns anew.
func (g *geometry) Fit() {
	heads := g.cells.Heads()
	g.widths = g.widths[:0]
	n := min(g.cells.Len(), mostFitted)
	for col, head := range heads {
		widest := g.wrapper.WidthOf(head) + 14 // and the mark of sorting
		for row := range n {
			widest = max(widest, g.wrapper.WidthOf(g.cells.Text(row, col))+g.marked(row, col))
		}
		most := float32(mostColumn)
		switch {
		case col == 0:
			most = mostFirst
		case col == len(heads)-1:
			most = mostLast
		case g.long(col):
			most = mostWide
		}
		g.widths = append(g.widths, min(max(widest+2*pad, leastColumn), most))
	}
	if len(heads) > 0 && n < g.cells.Len() {
		g.widths[0] = mostFirst
	}
	g.label = 34
	for row := range n {
		g.label = max(g.label, g.wrapper.WidthOf(g.cells.Label(row))+2*pad)
	}
	for row := max(n, g.cells.Len()-2); row < g.cells.Len(); row++ { // the highest number, and the new one
		g.label = max(g.label, g.wrapper.WidthOf(g.cells.Label(row))+2*pad)
	}
	g.scrollTo(g.offset)
}

// long reports whether a column holds long texts.
func (g *geometry) long(col int) bool {
	w, ok := g.cells.(Wide)
	return ok && w.Wide(col)
}

// marked is the room that a cell's mark takes, none where it has none.
func (g *geometry) marked(row, col int) float32 {
	if m, ok := g.cells.(Marks); ok {
		if _, has := m.Mark(row, col); has {
			return paint.MarkSide + pad
		}
	}
	return 0
}

// frozen is how much of the width stays.
func (g *geometry) frozen() float32 {
	if len(g.widths) == 0 {
		return g.label
	}
	return g.label + g.widths[0]
}

// left is where a column begins.
func (g *geometry) left(col int) float32 {
	switch col {
	case LabelColumn:
		return 0
	case 0:
		return g.label
	}
	x := g.frozen() - g.offset.X
	for _, w := range g.widths[1:col] {
		x += w
	}
	return x
}

func (g *geometry) wide(col int) float32 {
	if col == LabelColumn {
		return g.label
	}
	return g.widths[col]
}

func (g *geometry) top(row int) float32 { return HeadHeight + float32(row)*RowHeight - g.offset.Y }

// right is where the last column ends.
func (g *geometry) right() float32 {
	n := len(g.widths) - 1
	return g.left(n) + g.widths[n]
}

// whole is the size of all rows and of all columns that scroll; view what of
// it is seen.
func (g *geometry) whole() (w, h float32) {
	if len(g.widths) > 1 {
		for _, n := range g.widths[1:] {
			w += n
		}
	}
	return w + barWidth, float32(g.cells.Len())*RowHeight + barWidth
}

func (g *geometry) view() (w, h float32) {
	return max(g.size.Width-g.frozen(), 1), max(g.size.Height-HeadHeight, 1)
}

// page is how many rows are in view.
func (g *geometry) page() int {
	_, h := g.view()
	return max(int(h/RowHeight)-1, 1)
}

// last is the last cell.
func (g *geometry) last() Place { return Place{g.cells.Len() - 1, len(g.widths) - 1} }

// scrollTo shows another part, as far as there is one.
func (g *geometry) scrollTo(to fyne.Position) {
	w, h := g.whole()
	vw, vh := g.view()
	g.offset = fyne.NewPos(min(max(to.X, 0), max(w-vw, 0)), min(max(to.Y, 0), max(h-vh, 0)))
}

// reveal scrolls so that a cell is in view.
func (g *geometry) reveal(cur Place) {
	if g.size.Height <= 0 || len(g.widths) == 0 {
		return
	}
	to := g.offset
	w, h := g.view()
	if y := float32(cur.Row) * RowHeight; y < to.Y {
		to.Y = y
	} else if y+RowHeight > to.Y+h-barWidth {
		to.Y = y + RowHeight - h + barWidth
	}
	if cur.Col > 0 {
		x := g.left(cur.Col) - g.frozen() + g.offset.X
		if wide := g.wide(cur.Col); x+wide > to.X+w-barWidth {
			to.X = x + wide - w + barWidth
		}
		to.X = min(to.X, x)
	}
	g.scrollTo(to)
}

// hit is the cell under a point; in the head, its row is -1.
func (g *geometry) hit(pos fyne.Position) (Place, bool) {
	out := Place{Row: -1, Col: LabelColumn}
	if pos.Y >= HeadHeight {
		out.Row = int((pos.Y - HeadHeight + g.offset.Y) / RowHeight)
	}
	if out.Row >= g.cells.Len() {
		return out, false
	}
	switch {
	case pos.X < g.label:
		return out, true
	case pos.X < g.frozen():
		out.Col = 0
		return out, true
	}
	for col := 1; col < len(g.widths); col++ {
		if x := g.left(col); pos.X >= x && pos.X < x+g.widths[col] {
			out.Col = col
			return out, true
		}
	}
	return out, false
}

// bar is where the thumb of a scroll bar lies; there is none where all is in
// view.
func (g *geometry) bar(across bool) (from, n float32, ok bool) {
	w, h := g.whole()
	vw, vh := g.view()
	start, whole, view, at := float32(HeadHeight), h, vh, g.offset.Y
	if across {
		start, whole, view, at = g.frozen(), w, vw, g.offset.X
	}
	if whole <= view {
		return 0, 0, false
	}
	room := view - barWidth
	n = max(room*view/whole, 24)
	return start + (room-n)*at/(whole-view), n, true
}

// barAt is the scroll bar under a point.
func (g *geometry) barAt(pos fyne.Position) drag {
	size := g.size
	if from, n, ok := g.bar(false); ok && pos.X >= size.Width-barWidth && pos.Y >= from && pos.Y < from+n {
		return downBar
	}
	if from, n, ok := g.bar(true); ok && pos.Y >= size.Height-barWidth && pos.X >= from && pos.X < from+n {
		return acrossBar
	}
	return noDrag
}

// Rect is where a cell lies; ok is false where there is no such column.
func (g *geometry) Rect(at Place) (pos fyne.Position, size fyne.Size, ok bool) {
	if at.Col >= len(g.widths) {
		return pos, size, false
	}
	return fyne.NewPos(g.left(at.Col), g.top(at.Row)), fyne.NewSize(g.wide(at.Col), RowHeight), true
}

// Aside reports whether a cell is scrolled away under the first column.
func (g *geometry) Aside(col int) bool { return col > 0 && g.left(col) < g.frozen()-1 }
