package grid

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/timeline"
	"wakeline/ui/paint"
)

var (
	_ fyne.Focusable      = (*Grid)(nil)
	_ fyne.Tabbable       = (*Grid)(nil)
	_ fyne.Shortcutable   = (*Grid)(nil)
	_ fyne.Scrollable     = (*Grid)(nil)
	_ fyne.Draggable      = (*Grid)(nil)
	_ fyne.DoubleTappable = (*Grid)(nil)
	_ desktop.Mouseable   = (*Grid)(nil)
	_ desktop.Cursorable  = (*Grid)(nil)
)

// Grid is a table of cells with a cursor and a selected range. Its head,
// the row labels and the first column stay while the rest scrolls. It paints
// the cells in view and no others. It changes nothing: what a hand asks for
// goes to its Events.
type Grid struct {
	paint.Keyed
	geometry

	Sorted  int // the column that the rows are sorted by, -1: none
	Falling bool
	Keys    func() fyne.KeyModifier // that are held

	on     Events
	edits  Edits
	cur    Place // the cell under the cursor
	anchor Place // the other corner of the selection
	tabbed tabRun
	drag   drag
	held   fyne.Position // where a drag of a bar began
}

// Place is a cell; column LabelColumn is the row's label.
type Place struct{ Row, Col int }

// LabelColumn is the column of the rows' labels.
const LabelColumn = -1

// tabRun is a row of cells gone through with Tab: the column of the first, and
// where the last step led.
type tabRun struct {
	from int
	to   Place
}

// Cells is what a grid shows.
type Cells interface {
	Heads() []string
	Len() int
	Text(row, col int) string
	Label(row int) string
	Look(row, col int) Look
}

// Marks is what a grid may show besides: a judgement's mark before a cell's
// text.
type Marks interface {
	Mark(row, col int) (timeline.Judgement, bool)
}

// Wide is what a grid may have besides: columns of long texts.
type Wide interface{ Wide(col int) bool }

// Look is how a cell is drawn.
type Look uint8

// The looks.
const (
	Plain Look = iota
	Soft       // said quietly: it can't be typed in, or invites to
	Needs      // its row lacks it
	Wrong      // its row is refused for it
	Found      // it holds what is looked for
)

// Events is what a hand asks of a grid.
type Events interface {
	Moved()                // the cursor stands elsewhere
	Copy(c fyne.Clipboard) // the selection
	Escape()
}

// Edits is what a hand asks of a grid besides, where its cells can be edited.
type Edits interface {
	Leave() bool            // before the cursor moves by the mouse; false: it stays
	Edit(with string)       // the cell under the cursor; with text in place of its own unless empty
	Empty()                 // the selected cells
	Drop()                  // the rows of the selection
	Paste(c fyne.Clipboard) // from the cursor on
	Sort()                  // by another column, or the other way
	Shift(by int)           // the rows of the selection, up or down
	Turn(by int)            // to another table
	Menu() []*fyne.MenuItem // of the selection, for a right click
	Help()
}

// Opens is what a hand asks of a grid that is only read: Enter or a double click
// on the cell under the cursor.
type Opens interface{ Open() }

// opening is of a grid whose cells are opened, not edited.
type opening struct {
	noEdits
	Opens
}

// Edit opens the cell, unless a letter was typed.
func (o opening) Edit(with string) {
	if with == "" {
		o.Open()
	}
}

// noEdits is of a grid that is only read.
type noEdits struct{}

func (noEdits) Leave() bool            { return true }
func (noEdits) Edit(string)            {}
func (noEdits) Empty()                 {}
func (noEdits) Drop()                  {}
func (noEdits) Paste(fyne.Clipboard)   {}
func (noEdits) Sort()                  {}
func (noEdits) Shift(int)              {}
func (noEdits) Turn(int)               {}
func (noEdits) Menu() []*fyne.MenuItem { return nil }
func (noEdits) Help()                  {}

// New returns a grid. Where on is an Edits too its cells can
// be edited, where it is an Opens they can be opened.
func New(cells Cells, on Events) *Grid {
	g := &Grid{geometry: geometry{cells: cells, wrapper: paint.Wrapper{Size: paint.TextSize}}, on: on, edits: noEdits{}, Keys: paint.HeldKeys, Sorted: -1}
	if e, ok := on.(Edits); ok {
		g.edits = e
	} else if o, ok := on.(Opens); ok {
		g.edits = opening{Opens: o}
	}
	g.Extend(g, func(p *paint.Pen, size fyne.Size) { (&painter{g, p, size}).draw() }, func() fyne.Size { return fyne.NewSize(240, HeadHeight+3*RowHeight) })
	return g
}

// Resize keeps the cursor in view.
func (g *Grid) Resize(s fyne.Size) {
	defer paint.Survive("The table")
	if s != g.Size() {
		g.size = s
		g.BaseWidget.Resize(s)
		g.reveal(g.cur)
	}
}

// At is the cell under the cursor.
func (g *Grid) At() Place { return g.cur }

// Within is that cell, or the nearest there is.
func (g *Grid) Within(at Place) Place {
	return Place{min(max(at.Row, 0), max(g.cells.Len()-1, 0)), min(max(at.Col, LabelColumn), len(g.widths)-1)}
}

// Begin scrolls to the first rows and columns, and puts the cursor on a cell.
func (g *Grid) Begin(at Place) {
	g.offset = fyne.Position{}
	g.Place(at)
}

// Place puts the cursor there, or on the nearest cell, and selects it alone.
func (g *Grid) Place(to Place) {
	if to = g.Within(to); to != g.cur {
		g.tabbed.to = Place{-1, LabelColumn}
	}
	g.anchor = to
	g.Stretch(to)
}

// Stretch selects from the last cell that was selected alone to there.
func (g *Grid) Stretch(to Place) {
	g.cur = g.Within(to)
	g.reveal(g.cur)
	g.on.Moved()
	g.Refresh()
}

// Selection is the selected range, both ends in it; a row label selects its
// row whole.
func (g *Grid) Selection() (from, to Place) {
	from = Place{min(g.cur.Row, g.anchor.Row), min(g.cur.Col, g.anchor.Col)}
	to = Place{max(g.cur.Row, g.anchor.Row), max(g.cur.Col, g.anchor.Col)}
	if from.Col == LabelColumn {
		from.Col, to.Col = 0, len(g.widths)-1
	}
	return from, to
}

func (g *Grid) selects(at Place) bool {
	a, b := g.Selection()
	return at.Row >= a.Row && at.Row <= b.Row && at.Col >= a.Col && at.Col <= b.Col
}
