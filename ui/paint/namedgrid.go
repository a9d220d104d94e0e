package paint

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/sheet"
)

var (
	_ fyne.Widget        = (*NamedGrid)(nil)
	_ fyne.Focusable     = (*NamedGrid)(nil)
	_ fyne.Shortcutable  = (*NamedGrid)(nil)
	_ desktop.Cursorable = (*GridPart)(nil)
	_ fyne.Tappable      = (*GridPart)(nil)
	_ fyne.Scrollable    = (*GridPart)(nil)
)

// NamedGrid is a table of which the names of the rows and the headings of the
// columns stay while the cells scroll. Only what is in view is painted: by its
// owner, for it knows no more than how many rows and columns there are.
type NamedGrid struct {
	widget.BaseWidget

	OnOpen  func(row, column int)    // a cell was clicked, or Enter pressed; column -1: a row's name
	OnName  func(row int, x float32) // a row's name was clicked; nil: it is opened
	OnPoint func(row, column int)    // the cell under the pointer, else the cursor's; -1: a name, a heading
	OnCopy  func()
	OnKey   func(*fyne.KeyEvent) // those of no use here

	PaintHead, PaintNames, PaintCells func(p *Pen, size fyne.Size)

	Measures      GridMeasures
	Rows, Columns int // how many there are
	Row, Column   int // the cursor
	HoverRow      int // -1: none
	HoverColumn   int // -1: none
	Focused       bool

	Head, Names   *GridPart
	Corner, Cells *GridPart
	Scroll        *container.Scroll

	what string // for what is said where it fails
	box  *fyne.Container
}

// GridMeasures are the sizes of a grid, in units.
type GridMeasures struct {
	Row, Head, Cell float32
	Name, NameTo    float32 // the least width of the names' column, and the most
	Corner          string  // what stands over the names
}

// GridPad is what stays free at both sides of a cell.
const GridPad = 8

// Begin makes the grid of a widget that embeds it; what is the name of the page.
func (g *NamedGrid) Begin(self fyne.Widget, what string, m GridMeasures) {
	g.what, g.Measures = what, m
	g.HoverRow, g.HoverColumn = -1, -1
	g.Cells = g.part(g.PaintCells, g.cellAt, func() fyne.Size {
		return fyne.NewSize(float32(g.Columns)*g.Measures.Cell, float32(g.Rows)*g.Measures.Row)
	})
	g.Head = g.part(g.PaintHead, func(at fyne.Position) (row, column int) {
		_, column = g.cellAt(fyne.NewPos(at.X+g.Scroll.Offset.X, 0))
		return -1, column
	}, nil)
	g.Names = g.part(g.PaintNames, func(at fyne.Position) (row, column int) {
		row, _ = g.cellAt(fyne.NewPos(0, at.Y+g.Scroll.Offset.Y))
		return row, -1
	}, nil)
	g.Corner = g.part(g.paintCorner, func(fyne.Position) (row, column int) { return -1, -1 }, nil)
	g.Scroll = container.NewScroll(g.Cells)
	g.Scroll.OnScrolled = GuardedOf(what, func(fyne.Position) { g.Repaint() })
	clip := func(o fyne.CanvasObject) fyne.CanvasObject {
		c := container.NewClip(o)
		c.ExtendBaseWidget(c) // else it has no size before it is drawn
		return c
	}
	g.box = container.New(gridLayout{g}, g.Corner, clip(g.Head), clip(g.Names), g.Scroll)
	g.ExtendBaseWidget(self)
}

// CreateRenderer implements fyne.Widget.
func (g *NamedGrid) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(g.box) }

// gridLayout lays the four parts: corner, headings, names, cells.
type gridLayout struct{ g *NamedGrid }

// Layout implements fyne.Layout.
func (l gridLayout) Layout(parts []fyne.CanvasObject, size fyne.Size) {
	defer Survive("The layout")
	m := &l.g.Measures
	name := min(max(size.Width*0.24, m.Name), m.NameTo)
	put := func(o fyne.CanvasObject, x, y, w, h float32) {
		o.Move(fyne.NewPos(x, y))
		o.Resize(fyne.NewSize(w, h))
	}
	put(parts[0], 0, 0, name, m.Head)
	put(parts[1], name, 0, size.Width-name, m.Head)
	put(parts[2], 0, m.Head, name, size.Height-m.Head)
	put(parts[3], name, m.Head, size.Width-name, size.Height-m.Head)
}

// MinSize keeps the headings and three rows of two columns in view.
func (l gridLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	m := &l.g.Measures
	return fyne.NewSize(m.Name+2*m.Cell, m.Head+3*m.Row)
}

// Lay shows so many rows and columns. The cursor stays in its place as far as
// there is one.
func (g *NamedGrid) Lay(rows, columns int) {
	g.Rows, g.Columns = rows, columns
	g.HoverRow, g.HoverColumn = -1, -1
	g.Row = max(0, min(g.Row, rows-1))
	g.Column = max(0, min(g.Column, columns-1))
	g.Cells.Resize(g.Cells.MinSize())
	g.Scroll.Refresh()
	g.Repaint()
	g.point()
}

// Repaint paints all parts again.
func (g *NamedGrid) Repaint() {
	for _, p := range []*GridPart{g.Corner, g.Head, g.Names, g.Cells} {
		p.Refresh()
	}
}

// MoveTo puts the cursor on a cell and brings it into view.
func (g *NamedGrid) MoveTo(row, column int) {
	g.Row = max(0, min(row, g.Rows-1))
	g.Column = max(0, min(column, g.Columns-1))
	see := func(offset, at, length, room float32) float32 {
		switch {
		case at < offset:
			return at
		case at+length > offset+room:
			return at + length - room
		}
		return offset
	}
	room, m := g.Scroll.Size(), &g.Measures
	g.Scroll.ScrollToOffset(fyne.NewPos(
		see(g.Scroll.Offset.X, float32(g.Column)*m.Cell, m.Cell, room.Width),
		see(g.Scroll.Offset.Y, float32(g.Row)*m.Row, m.Row, room.Height)))
	g.Repaint()
	g.point()
}

// point tells what the pointer is on, or else the cursor.
func (g *NamedGrid) point() {
	if g.OnPoint == nil {
		return
	}
	if g.HoverRow >= 0 || g.HoverColumn >= 0 {
		g.OnPoint(g.HoverRow, g.HoverColumn)
	} else {
		g.OnPoint(g.Row, g.Column)
	}
}

// cellAt is the row and column at a place of all cells, -1 past the last.
func (g *NamedGrid) cellAt(at fyne.Position) (row, column int) {
	row, column = int(at.Y/g.Measures.Row), int(at.X/g.Measures.Cell)
	if row >= g.Rows {
		row = -1
	}
	if column >= g.Columns {
		column = -1
	}
	return row, column
}

// View is the rows and columns that are in view, up to and not with the ends.
func (g *NamedGrid) View() (row, rowEnd, column, columnEnd int) {
	o, s, m := g.Scroll.Offset, g.Scroll.Size(), &g.Measures
	row, column = int(o.Y/m.Row), int(o.X/m.Cell)
	rowEnd = min(g.Rows, int((o.Y+s.Height)/m.Row)+1)
	columnEnd = min(g.Columns, int((o.X+s.Width)/m.Cell)+1)
	return row, rowEnd, column, columnEnd
}

func (g *NamedGrid) paintCorner(p *Pen, size fyne.Size) {
	t := ColumnText(g.Measures.Corner, GridPad, size.Height-10, sheet.Soft)
	p.Text(&t)
	g.RuleUnder(p, g.Measures.Head-1, size.Width, sheet.Soft)
}

// RuleUnder draws a line from the left edge on.
func (g *NamedGrid) RuleUnder(p *Pen, y, width float32, role sheet.Role) {
	p.Line(&sheet.Line{From: sheet.Point{Y: float64(y)}, To: sheet.Point{X: float64(width), Y: float64(y)}, Stroke: role, Width: 1})
}

// RuleAfterNames draws the line between the names and the cells.
func (g *NamedGrid) RuleAfterNames(p *Pen, size fyne.Size) {
	x := float64(size.Width) - 1
	p.Line(&sheet.Line{From: sheet.Point{X: x}, To: sheet.Point{X: x, Y: float64(size.Height)}, Stroke: sheet.Rule, Width: 1})
}

// Wash lays a ground under what is pointed at, or stands in the cursor's row
// or column.
func (g *NamedGrid) Wash(p *Pen, x, y, w, h float32, pointed, current bool) {
	share := 0.0
	if pointed {
		share += 0.06
	}
	if current && g.Focused {
		share += 0.06
	}
	if share > 0 {
		p.Rect(p.Px(float64(x)), p.Px(float64(y)), p.Px(float64(x+w)), p.Px(float64(y+h)), Colours().Blend(sheet.Ink, share), nil, 0)
	}
}

// EachCell washes and rules the rows in view, has cell paint each cell at its
// place, and draws the cursor.
func (g *NamedGrid) EachCell(p *Pen, cell func(row, column int, x, y float32)) {
	m := &g.Measures
	row, rowEnd, column, columnEnd := g.View()
	x0, wide := float32(column)*m.Cell, float32(columnEnd-column)*m.Cell
	for i := row; i < rowEnd; i++ {
		y := float32(i) * m.Row
		g.Wash(p, x0, y, wide, m.Row, false, i == g.Row)
		for k := column; k < columnEnd; k++ {
			x := float32(k) * m.Cell
			if i == g.HoverRow && k == g.HoverColumn {
				g.Wash(p, x, y, m.Cell, m.Row, true, false)
			}
			cell(i, k, x, y)
		}
		p.Line(&sheet.Line{From: sheet.Point{X: float64(x0), Y: float64(y + m.Row)}, To: sheet.Point{X: float64(x0 + wide), Y: float64(y + m.Row)}, Stroke: sheet.Rule, Width: 1})
	}
	if g.Row < g.Rows && g.Column < g.Columns {
		stroke := Colours().Ink[sheet.Rule]
		if g.Focused {
			stroke = Colours().Ink[sheet.Ink]
		}
		x, y := float64(float32(g.Column)*m.Cell), float64(float32(g.Row)*m.Row)
		p.Rect(p.Px(x), p.Px(y), p.Px(x+float64(m.Cell)), p.Px(y+float64(m.Row)), nil, stroke, p.Thick(1))
	}
}

// FocusGained implements fyne.Focusable.
func (g *NamedGrid) FocusGained() {
	defer Survive(g.what)
	g.focus(true)
}

// FocusLost implements fyne.Focusable.
func (g *NamedGrid) FocusLost() {
	defer Survive(g.what)
	g.focus(false)
}

func (g *NamedGrid) focus(on bool) {
	g.Focused = on
	g.Repaint()
}

// TypedRune implements fyne.Focusable.
func (g *NamedGrid) TypedRune(rune) {}

// TypedKey moves the cursor, and opens what it is on.
func (g *NamedGrid) TypedKey(ev *fyne.KeyEvent) {
	defer Survive(g.what)
	page := max(1, int(g.Scroll.Size().Height/g.Measures.Row)-1)
	g.HoverRow, g.HoverColumn = -1, -1
	switch ev.Name {
	case fyne.KeyUp:
		g.MoveTo(g.Row-1, g.Column)
	case fyne.KeyDown:
		g.MoveTo(g.Row+1, g.Column)
	case fyne.KeyLeft:
		g.MoveTo(g.Row, g.Column-1)
	case fyne.KeyRight:
		g.MoveTo(g.Row, g.Column+1)
	case fyne.KeyPageUp:
		g.MoveTo(g.Row-page, g.Column)
	case fyne.KeyPageDown:
		g.MoveTo(g.Row+page, g.Column)
	case fyne.KeyHome:
		g.MoveTo(g.Row, 0)
	case fyne.KeyEnd:
		g.MoveTo(g.Row, g.Columns-1)
	case fyne.KeySpace:
		if g.OnName != nil && g.Row < g.Rows {
			g.OnName(g.Row, 0)
			return
		}
		fallthrough
	case fyne.KeyReturn, fyne.KeyEnter:
		if g.Row < g.Rows {
			g.OnOpen(g.Row, g.Column)
		}
	default:
		if g.OnKey != nil {
			g.OnKey(ev)
		}
	}
}

// TypedShortcut copies the grid.
func (g *NamedGrid) TypedShortcut(s fyne.Shortcut) {
	defer Survive(g.what)
	if _, ok := s.(*fyne.ShortcutCopy); ok && g.OnCopy != nil {
		g.OnCopy()
	}
}

// GridPart is one of the grid's four parts, which scroll apart.
type GridPart struct {
	Painted
	Pointed
	g  *NamedGrid
	at func(fyne.Position) (row, column int) // -1: none, or all
}

func (g *NamedGrid) part(paint func(*Pen, fyne.Size), at func(fyne.Position) (int, int), least func() fyne.Size) *GridPart {
	if least == nil {
		least = func() fyne.Size { return fyne.Size{} }
	}
	p := &GridPart{g: g, at: at}
	p.Extend(p, paint, least)
	p.OnPointer(g.what, func(at fyne.Position) { p.hover(p.at(at)) }, func() { p.hover(-1, -1) })
	return p
}

// Tapped opens the setup, with the reply where a cell was clicked.
func (m *GridPart) Tapped(ev *fyne.PointEvent) {
	defer Survive(m.g.what)
	row, column := m.at(ev.Position)
	switch {
	case row < 0:
	case m == m.g.Names && m.g.OnName != nil:
		m.g.OnName(row, ev.Position.X)
	case column >= 0 || m == m.g.Names:
		m.g.OnOpen(row, column)
	}
}

// Scrolled scrolls the cells.
func (m *GridPart) Scrolled(ev *fyne.ScrollEvent) { m.g.Scroll.Scrolled(ev) }

func (m *GridPart) hover(row, column int) {
	if g := m.g; row != g.HoverRow || column != g.HoverColumn {
		g.HoverRow, g.HoverColumn = row, column
		g.Repaint()
		g.point()
	}
}

// Cursor implements desktop.Cursorable.
func (m *GridPart) Cursor() desktop.Cursor {
	if m == m.g.Cells || m == m.g.Names {
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}
