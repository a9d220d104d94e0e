package find

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline/find"
	"wakeline/ui/paint"
)

// endersTable shows which enders of a fighter give a safe jump: a row an
// ender and position, a column a jump and attack, in each cell the shortest way.
type endersTable struct {
	OnOpen func(r *find.Row, c *find.Cell)

	rows  []find.Row
	table *enderGrid
	head  *widget.Label
	words *widget.Label // of the cell, or in place of the table
	box   *fyne.Container
}

// The measures of the table, in units.
const (
	enderName = 224
	enderCell = 190
)

func newEndersTable(w paint.KeyTaker, open func(r *find.Row, c *find.Cell)) *endersTable {
	e := &endersTable{OnOpen: open, head: paint.NewLowLabel(), words: widget.NewLabel("")}
	e.words.Wrapping, e.head.Wrapping, e.head.Truncation = fyne.TextWrapWord, fyne.TextWrapWord, fyne.TextTruncateOff
	e.table = &enderGrid{w: w}
	e.table.Length = func() (int, int) {
		defer paint.Survive("The search")
		if len(e.rows) == 0 {
			return 0, 0
		}
		return len(e.rows), len(e.rows[0].Cells)
	}
	e.table.CreateCell, e.table.UpdateCell = newEnderCell, paint.GuardedOf2("The search", e.fillCell)
	e.table.ShowHeaderRow, e.table.ShowHeaderColumn = true, true
	e.table.ExtendBaseWidget(e.table)
	e.table.CreateHeader = newEnderCell
	e.table.UpdateHeader = paint.GuardedOf2("The search", e.fillHeader)
	e.table.OnSelected = func(id widget.TableCellID) {
		defer paint.Survive("The search")
		e.table.UnselectAll()
		e.choose(id)
	}
	e.box = container.NewBorder(e.head, e.words, nil, nil, e.table)
	return e
}

func newEnderCell() fyne.CanvasObject {
	l := widget.NewLabel("")
	l.Truncation = fyne.TextTruncateEllipsis
	return l
}

// enderGrid is the table itself: Enter chooses a cell as Space does, and
// Escape closes the page.
type enderGrid struct {
	widget.Table
	w paint.KeyTaker
}

// CreateRenderer implements fyne.Widget. A table of which the toolkit has
// dropped the renderer begins at its top again; it would show nothing there
// where it had been scrolled.
func (g *enderGrid) CreateRenderer() fyne.WidgetRenderer {
	r := g.Table.CreateRenderer()
	g.ScrollToTop()
	g.ScrollToLeading()
	return r
}

// TypedKey implements fyne.Focusable.
func (g *enderGrid) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The search")
	switch {
	case g.w.PageKey(ev):
	case ev.Name == fyne.KeyReturn, ev.Name == fyne.KeyEnter:
		g.Table.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	default:
		g.Table.TypedKey(ev)
	}
}

func (e *endersTable) at(id widget.TableCellID) (*find.Row, *find.Cell) {
	if id.Row < 0 || id.Row >= len(e.rows) || id.Col < 0 || id.Col >= len(e.rows[id.Row].Cells) {
		return nil, nil
	}
	return &e.rows[id.Row], &e.rows[id.Row].Cells[id.Col]
}

func (e *endersTable) fillCell(id widget.TableCellID, o fyne.CanvasObject) {
	l := o.(*widget.Label)
	l.Importance = widget.MediumImportance
	_, c := e.at(id)
	switch {
	case c == nil:
		l.SetText("")
	case c.Shortest == nil:
		l.Importance = widget.LowImportance
		l.SetText("none")
	default:
		l.SetText(c.Shortest.Short())
	}
}

func (e *endersTable) fillHeader(id widget.TableCellID, o fyne.CanvasObject) {
	l := o.(*widget.Label)
	l.TextStyle.Bold = id.Row < 0
	switch {
	case id.Row < 0 && id.Col >= 0 && len(e.rows) > 0 && id.Col < len(e.rows[0].Cells):
		c := &e.rows[0].Cells[id.Col]
		l.SetText(c.Jump + " " + c.Attack)
	case id.Col < 0 && id.Row >= 0 && id.Row < len(e.rows):
		r := &e.rows[id.Row]
		l.SetText(fmt.Sprintf("%s, %s, %d", r.Ender, r.Position, r.Advantage))
	default:
		l.SetText("")
	}
}

// show shows other rows.
func (e *endersTable) show(t *find.ToldEnders) {
	e.rows = t.Rows
	if len(e.rows) == 0 {
		e.say(t.Answer())
		return
	}
	rows := e.rows
	e.head.SetText(t.Answer() + " A row is an ender with its position and knockdown advantage, a cell holds the shortest way; choose a cell to search for it.")
	e.words.SetText("")
	e.table.SetColumnWidth(-1, enderName)
	for i := range rows[0].Cells {
		e.table.SetColumnWidth(i, enderCell)
	}
	e.table.Refresh()
}

// say shows words and no table.
func (e *endersTable) say(words string) {
	e.rows = nil
	e.head.SetText("")
	e.words.SetText(words)
	e.table.Refresh()
}

// choose searches for a cell, or says why it has nothing.
func (e *endersTable) choose(id widget.TableCellID) {
	r, c := e.at(id)
	switch {
	case c == nil:
	case c.Shortest == nil:
		words := fmt.Sprintf("%s, %s, %s %s: %s", r.Ender, r.Position, c.Jump, c.Attack, c.Because)
		if c.Limited {
			words += " With “" + includeLimited + "” there is one."
		}
		e.words.SetText(words)
	default:
		e.OnOpen(r, c)
	}
}
