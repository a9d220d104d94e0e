package ui

import (
	"strconv"
	"wakeline/ui/paint"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

var (
	_ fyne.Focusable      = (*dataGrid)(nil)
	_ fyne.Tabbable       = (*dataGrid)(nil)
	_ fyne.Shortcutable   = (*dataGrid)(nil)
	_ fyne.Scrollable     = (*dataGrid)(nil)
	_ fyne.Draggable      = (*dataGrid)(nil)
	_ fyne.DoubleTappable = (*dataGrid)(nil)
	_ desktop.Mouseable   = (*dataGrid)(nil)
	_ desktop.Cursorable  = (*dataGrid)(nil)
)

// dataGrid is a table of cells with a cursor and a selected range. Its head,
// the row labels and the first column stay while the rest scrolls. It paints
// the cells in view and no others. It changes nothing: what a hand asks for
// goes to on.
type dataGrid struct {
	widget.BaseWidget

	cells   dataCells
	on      dataEvents
	keys    func() fyne.KeyModifier
	wrapper paint.Wrapper

	cur, anchor dataPlace // a corner of the selection each
	tabbed      tabRun
	offset      fyne.Position
	widths      []float32 // of the columns
	label       float32   // of the row labels
	sorted      int       // the column that the rows are sorted by, -1: none
	falling     bool
	focused     bool
	drag        dataDrag
	held        fyne.Position // where a drag of a bar began
}

// dataPlace is a cell; column labelColumn is the row's label.
type dataPlace struct{ row, col int }

const labelColumn = -1

// tabRun is a row of cells gone through with Tab: the column of the first, and
// where the last step led.
type tabRun struct {
	from int
	to   dataPlace
}

// dataCells is what a grid shows.
type dataCells interface {
	heads() []string
	len() int
	text(row, col int) string
	label(row int) string
	look(row, col int) cellLook
}

// cellLook is how a cell is drawn.
type cellLook uint8

const (
	plainCell cellLook = iota
	softCell           // said quietly: it can't be typed in, or invites to
	needsCell          // its row lacks it
	wrongCell          // its row is refused for it
	foundCell          // it holds what is looked for
)

// dataEvents is what a hand asks of a grid.
type dataEvents interface {
	moved()                 // the cursor stands elsewhere
	leave() bool            // before the cursor moves by the mouse; false: it stays
	edit(with string)       // the cell under the cursor; with text in place of its own unless empty
	empty()                 // the selected cells
	drop()                  // the rows of the selection
	copy(c fyne.Clipboard)  // the selection
	paste(c fyne.Clipboard) // from the cursor on
	sort()                  // by another column, or the other way
	turn(by int)            // to another table
	escape()
	menu() []*fyne.MenuItem // of the selection, for a right click
	help()
}

type dataDrag uint8

const (
	noDataDrag dataDrag = iota
	rangeDrag
	downBar
	acrossBar
)

// The measures of a grid, in units.
const (
	dataRow      = 26
	dataHead     = 26
	dataPad      = 7
	dataLeast    = 46  // width of a column
	dataMost     = 230 // and the widest
	dataNameMost = 250 // the widest of the first one
	dataLastMost = 640 // and of the last
	dataBar      = 10
	dataSample   = 400 // rows whose cells are measured at most
)

func newDataGrid(cells dataCells, on dataEvents) *dataGrid {
	g := &dataGrid{cells: cells, on: on, keys: paint.HeldKeys, wrapper: paint.Wrapper{Size: paint.TextSize}, sorted: -1}
	g.ExtendBaseWidget(g)
	return g
}

// CreateRenderer implements fyne.Widget.
func (g *dataGrid) CreateRenderer() fyne.WidgetRenderer {
	return &paint.PenRenderer{Owner: g, Paint: g.paint, Min: func() fyne.Size { return fyne.NewSize(240, dataHead+3*dataRow) }}
}

// Resize keeps the cursor in view.
func (g *dataGrid) Resize(s fyne.Size) {
	defer paint.Survive("The table")
	if s != g.Size() {
		g.BaseWidget.Resize(s)
		g.reveal()
	}
}

// fit measures the columns anew.
func (g *dataGrid) fit() {
	heads := g.cells.heads()
	g.widths = g.widths[:0]
	n := min(g.cells.len(), dataSample)
	for col, head := range heads {
		widest := g.wrapper.WidthOf(head) + 14 // and the mark of sorting
		for row := range n {
			widest = max(widest, g.wrapper.WidthOf(g.cells.text(row, col)))
		}
		most := float32(dataMost)
		switch {
		case col == 0:
			most = dataNameMost
		case col == len(heads)-1:
			most = dataLastMost
		}
		g.widths = append(g.widths, min(max(widest+2*dataPad, dataLeast), most))
	}
	if len(heads) > 0 && n < g.cells.len() {
		g.widths[0] = dataNameMost
	}
	g.label = 34
	for row := range n {
		g.label = max(g.label, g.wrapper.WidthOf(g.cells.label(row))+2*dataPad)
	}
	for row := max(n, g.cells.len()-2); row < g.cells.len(); row++ { // the highest number, and the new one
		g.label = max(g.label, g.wrapper.WidthOf(g.cells.label(row))+2*dataPad)
	}
	g.scrollTo(g.offset)
}

// place puts the cursor there, or on the nearest cell, and selects it alone.
func (g *dataGrid) place(to dataPlace) {
	if to = g.within(to); to != g.cur {
		g.tabbed.to = dataPlace{-1, labelColumn}
	}
	g.cur, g.anchor = to, to
	g.reveal()
	g.on.moved()
	g.Refresh()
}

// stretch selects from the anchor to there.
func (g *dataGrid) stretch(to dataPlace) {
	g.cur = g.within(to)
	g.reveal()
	g.on.moved()
	g.Refresh()
}

func (g *dataGrid) within(at dataPlace) dataPlace {
	return dataPlace{min(max(at.row, 0), max(g.cells.len()-1, 0)), min(max(at.col, labelColumn), len(g.widths)-1)}
}

// selection is the selected range, both ends in it; a row label selects its
// row whole.
func (g *dataGrid) selection() (from, to dataPlace) {
	from = dataPlace{min(g.cur.row, g.anchor.row), min(g.cur.col, g.anchor.col)}
	to = dataPlace{max(g.cur.row, g.anchor.row), max(g.cur.col, g.anchor.col)}
	if from.col == labelColumn {
		from.col, to.col = 0, len(g.widths)-1
	}
	return from, to
}

// frozen is how much of the width stays.
func (g *dataGrid) frozen() float32 {
	if len(g.widths) == 0 {
		return g.label
	}
	return g.label + g.widths[0]
}

// left is where a column begins.
func (g *dataGrid) left(col int) float32 {
	switch col {
	case labelColumn:
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

func (g *dataGrid) wide(col int) float32 {
	if col == labelColumn {
		return g.label
	}
	return g.widths[col]
}

func (g *dataGrid) top(row int) float32 { return dataHead + float32(row)*dataRow - g.offset.Y }

// rect is where a cell lies.
func (g *dataGrid) rect(at dataPlace) (fyne.Position, fyne.Size) {
	return fyne.NewPos(g.left(at.col), g.top(at.row)), fyne.NewSize(g.wide(at.col), dataRow)
}

// whole is the size of all rows and of all columns that scroll; view what of
// it is seen.
func (g *dataGrid) whole() (w, h float32) {
	if len(g.widths) > 1 {
		for _, n := range g.widths[1:] {
			w += n
		}
	}
	return w + dataBar, float32(g.cells.len())*dataRow + dataBar
}

func (g *dataGrid) view() (w, h float32) {
	return max(g.Size().Width-g.frozen(), 1), max(g.Size().Height-dataHead, 1)
}

// scrollTo shows another part, as far as there is one.
func (g *dataGrid) scrollTo(to fyne.Position) {
	w, h := g.whole()
	vw, vh := g.view()
	g.offset = fyne.NewPos(min(max(to.X, 0), max(w-vw, 0)), min(max(to.Y, 0), max(h-vh, 0)))
}

// reveal scrolls so that the cursor is in view.
func (g *dataGrid) reveal() {
	if g.Size().Height <= 0 || len(g.widths) == 0 {
		return
	}
	to := g.offset
	w, h := g.view()
	if y := float32(g.cur.row) * dataRow; y < to.Y {
		to.Y = y
	} else if y+dataRow > to.Y+h-dataBar {
		to.Y = y + dataRow - h + dataBar
	}
	if g.cur.col > 0 {
		x := g.left(g.cur.col) - g.frozen() + g.offset.X
		if wide := g.wide(g.cur.col); x+wide > to.X+w-dataBar {
			to.X = x + wide - w + dataBar
		}
		to.X = min(to.X, x)
	}
	g.scrollTo(to)
}

// at is the cell under a point; in the head, its row is -1.
func (g *dataGrid) at(pos fyne.Position) (dataPlace, bool) {
	out := dataPlace{row: -1, col: labelColumn}
	if pos.Y >= dataHead {
		out.row = int((pos.Y - dataHead + g.offset.Y) / dataRow)
	}
	if out.row >= g.cells.len() {
		return out, false
	}
	switch {
	case pos.X < g.label:
		return out, true
	case pos.X < g.frozen():
		out.col = 0
		return out, true
	}
	for col := 1; col < len(g.widths); col++ {
		if x := g.left(col); pos.X >= x && pos.X < x+g.widths[col] {
			out.col = col
			return out, true
		}
	}
	return out, false
}

// rowLabel writes a row's number.
func rowLabel(row int) string { return strconv.Itoa(row + 1) }
