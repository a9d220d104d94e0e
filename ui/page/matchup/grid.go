package matchup

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline/compare"
	"wakeline/ui/paint"
)

var (
	_ fyne.Widget        = (*matchupGrid)(nil)
	_ fyne.Focusable     = (*matchupGrid)(nil)
	_ fyne.Shortcutable  = (*matchupGrid)(nil)
	_ desktop.Hoverable  = (*gridPart)(nil)
	_ desktop.Cursorable = (*gridPart)(nil)
	_ fyne.Tappable      = (*gridPart)(nil)
	_ fyne.Scrollable    = (*gridPart)(nil)
)

// matchupGrid shows a match-up: a row a setup, a column a reply. The names
// and the headings stay while the cells scroll, and only what is in view is
// painted.
type matchupGrid struct {
	widget.BaseWidget

	OnOpen  func(row, column int) // a cell was clicked, or Enter pressed; column -1: the setup's name
	OnPoint func(row, column int) // the cell under the pointer, else the cursor's; -1: a name, a heading
	OnCopy  func()
	OnKey   func(*fyne.KeyEvent) // those of no use here

	wrapper paint.Wrapper
	grid    *compare.Grid
	rows    []int        // of the grid, in the order shown
	marked  map[int]bool // rows of the grid that stand out

	row, column   int // the cursor, in rows and columns shown
	hoverRow      int // -1: none
	hoverColumn   int // -1: none
	focused       bool
	box           *fyne.Container
	head, names   *gridPart
	corner, cells *gridPart
	scroll        *container.Scroll
}

// The measures of the grid, in units.
const (
	gridRow    = 26
	gridHead   = 44
	gridCell   = 168
	gridName   = 150 // least width of the names' column
	gridNameTo = 300 // and the most
	gridPad    = 8
)

func newGrid() *matchupGrid {
	g := &matchupGrid{wrapper: paint.Wrapper{Size: paint.TextSize}, grid: &compare.Grid{}, hoverRow: -1, hoverColumn: -1}
	g.cells = g.part(g.paintCells, g.cellAt, func() fyne.Size {
		return fyne.NewSize(float32(len(g.grid.Replies)*gridCell), float32(len(g.rows)*gridRow))
	})
	g.head = g.part(g.paintHead, func(at fyne.Position) (row, column int) {
		_, column = g.cellAt(fyne.NewPos(at.X+g.scroll.Offset.X, 0))
		return -1, column
	}, nil)
	g.names = g.part(g.paintNames, func(at fyne.Position) (row, column int) {
		row, _ = g.cellAt(fyne.NewPos(0, at.Y+g.scroll.Offset.Y))
		return row, -1
	}, nil)
	g.corner = g.part(g.paintCorner, func(fyne.Position) (row, column int) { return -1, -1 }, nil)
	g.scroll = container.NewScroll(g.cells)
	g.scroll.OnScrolled = paint.GuardedOf("The match-up", func(fyne.Position) { g.repaint() })
	clip := func(o fyne.CanvasObject) fyne.CanvasObject {
		c := container.NewClip(o)
		c.ExtendBaseWidget(c) // else it has no size before it is drawn
		return c
	}
	g.box = container.New(gridLayout{}, g.corner, clip(g.head), clip(g.names), g.scroll)
	g.ExtendBaseWidget(g)
	return g
}

// CreateRenderer implements fyne.Widget.
func (g *matchupGrid) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(g.box) }

// gridLayout lays the four parts: corner, headings, names, cells.
type gridLayout struct{}

// Layout implements fyne.Layout.
func (gridLayout) Layout(parts []fyne.CanvasObject, size fyne.Size) {
	defer paint.Survive("The layout")
	name := min(max(size.Width*0.24, gridName), gridNameTo)
	put := func(o fyne.CanvasObject, x, y, w, h float32) {
		o.Move(fyne.NewPos(x, y))
		o.Resize(fyne.NewSize(w, h))
	}
	put(parts[0], 0, 0, name, gridHead)
	put(parts[1], name, 0, size.Width-name, gridHead)
	put(parts[2], 0, gridHead, name, size.Height-gridHead)
	put(parts[3], name, gridHead, size.Width-name, size.Height-gridHead)
}

// MinSize keeps the headings and three rows of two replies in view.
func (gridLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(gridName+2*gridCell, gridHead+3*gridRow)
}

// show shows other rows, and marks those of the grid that are in marked. The
// cursor stays in its place as far as there is one.
func (g *matchupGrid) show(grid *compare.Grid, rows []int, marked map[int]bool) {
	g.grid, g.rows, g.marked = grid, rows, marked
	g.hoverRow, g.hoverColumn = -1, -1
	g.row = max(0, min(g.row, len(rows)-1))
	g.column = max(0, min(g.column, len(grid.Replies)-1))
	g.cells.Resize(g.cells.MinSize())
	g.scroll.Refresh()
	g.repaint()
	g.point()
}

// repaint paints all parts again.
func (g *matchupGrid) repaint() {
	for _, p := range []*gridPart{g.corner, g.head, g.names, g.cells} {
		p.Refresh()
	}
}

// moveTo puts the cursor on a cell and brings it into view.
func (g *matchupGrid) moveTo(row, column int) {
	g.row = max(0, min(row, len(g.rows)-1))
	g.column = max(0, min(column, len(g.grid.Replies)-1))
	see := func(offset, at, length, room float32) float32 {
		switch {
		case at < offset:
			return at
		case at+length > offset+room:
			return at + length - room
		}
		return offset
	}
	room := g.scroll.Size()
	g.scroll.ScrollToOffset(fyne.NewPos(
		see(g.scroll.Offset.X, float32(g.column*gridCell), gridCell, room.Width),
		see(g.scroll.Offset.Y, float32(g.row*gridRow), gridRow, room.Height)))
	g.repaint()
	g.point()
}

// point tells what the pointer is on, or else the cursor.
func (g *matchupGrid) point() {
	if g.OnPoint == nil {
		return
	}
	if g.hoverRow >= 0 || g.hoverColumn >= 0 {
		g.OnPoint(g.hoverRow, g.hoverColumn)
	} else {
		g.OnPoint(g.row, g.column)
	}
}

// cellAt is the row and column at a place of all cells, -1 past the last.
func (g *matchupGrid) cellAt(at fyne.Position) (row, column int) {
	row, column = int(at.Y/gridRow), int(at.X/gridCell)
	if row >= len(g.rows) {
		row = -1
	}
	if column >= len(g.grid.Replies) {
		column = -1
	}
	return row, column
}

// view is the rows and columns that are in view, up to and not with the ends.
func (g *matchupGrid) view() (row, rowEnd, column, columnEnd int) {
	o, s := g.scroll.Offset, g.scroll.Size()
	row, column = int(o.Y/gridRow), int(o.X/gridCell)
	rowEnd = min(len(g.rows), int((o.Y+s.Height)/gridRow)+1)
	columnEnd = min(len(g.grid.Replies), int((o.X+s.Width)/gridCell)+1)
	return row, rowEnd, column, columnEnd
}

// FocusGained implements fyne.Focusable.
func (g *matchupGrid) FocusGained() {
	defer paint.Survive("The match-up")
	g.focus(true)
}

// FocusLost implements fyne.Focusable.
func (g *matchupGrid) FocusLost() {
	defer paint.Survive("The match-up")
	g.focus(false)
}

func (g *matchupGrid) focus(on bool) {
	g.focused = on
	g.repaint()
}

// TypedRune implements fyne.Focusable.
func (g *matchupGrid) TypedRune(rune) {}

// TypedKey moves the cursor, and opens what it is on.
func (g *matchupGrid) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The match-up")
	page := max(1, int(g.scroll.Size().Height/gridRow)-1)
	g.hoverRow, g.hoverColumn = -1, -1
	switch ev.Name {
	case fyne.KeyUp:
		g.moveTo(g.row-1, g.column)
	case fyne.KeyDown:
		g.moveTo(g.row+1, g.column)
	case fyne.KeyLeft:
		g.moveTo(g.row, g.column-1)
	case fyne.KeyRight:
		g.moveTo(g.row, g.column+1)
	case fyne.KeyPageUp:
		g.moveTo(g.row-page, g.column)
	case fyne.KeyPageDown:
		g.moveTo(g.row+page, g.column)
	case fyne.KeyHome:
		g.moveTo(g.row, 0)
	case fyne.KeyEnd:
		g.moveTo(g.row, len(g.grid.Replies)-1)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		if g.row < len(g.rows) {
			g.OnOpen(g.row, g.column)
		}
	default:
		if g.OnKey != nil {
			g.OnKey(ev)
		}
	}
}

// TypedShortcut copies the grid.
func (g *matchupGrid) TypedShortcut(s fyne.Shortcut) {
	defer paint.Survive("The match-up")
	if _, ok := s.(*fyne.ShortcutCopy); ok && g.OnCopy != nil {
		g.OnCopy()
	}
}

// gridPart is one of the grid's four parts, which scroll apart.
type gridPart struct {
	widget.BaseWidget
	g     *matchupGrid
	paint func(p *paint.Pen, size fyne.Size)
	at    func(fyne.Position) (row, column int) // -1: none, or all
	min   func() fyne.Size
}

func (g *matchupGrid) part(paint func(*paint.Pen, fyne.Size), at func(fyne.Position) (int, int), least func() fyne.Size) *gridPart {
	if least == nil {
		least = func() fyne.Size { return fyne.Size{} }
	}
	p := &gridPart{g: g, paint: paint, at: at, min: least}
	p.ExtendBaseWidget(p)
	return p
}

// CreateRenderer implements fyne.Widget.
func (m *gridPart) CreateRenderer() fyne.WidgetRenderer {
	return &paint.PenRenderer{Owner: m, Paint: m.paint, Min: m.min}
}

// Tapped opens the setup, with the reply where a cell was clicked.
func (m *gridPart) Tapped(ev *fyne.PointEvent) {
	defer paint.Survive("The match-up")
	row, column := m.at(ev.Position)
	if row >= 0 && (column >= 0 || m == m.g.names) {
		m.g.OnOpen(row, column)
	}
}

// Scrolled scrolls the cells.
func (m *gridPart) Scrolled(ev *fyne.ScrollEvent) { m.g.scroll.Scrolled(ev) }

// MouseIn implements desktop.Hoverable.
func (m *gridPart) MouseIn(ev *desktop.MouseEvent) {
	defer paint.Survive("The match-up")
	m.MouseMoved(ev)
}

// MouseMoved marks what is under the pointer, and tells of it.
func (m *gridPart) MouseMoved(ev *desktop.MouseEvent) {
	defer paint.Survive("The match-up")
	m.hover(m.at(ev.Position))
}

// MouseOut implements desktop.Hoverable.
func (m *gridPart) MouseOut() {
	defer paint.Survive("The match-up")
	m.hover(-1, -1)
}

func (m *gridPart) hover(row, column int) {
	if g := m.g; row != g.hoverRow || column != g.hoverColumn {
		g.hoverRow, g.hoverColumn = row, column
		g.repaint()
		g.point()
	}
}

// Cursor implements desktop.Cursorable.
func (m *gridPart) Cursor() desktop.Cursor {
	if m == m.g.cells || m == m.g.names {
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}
