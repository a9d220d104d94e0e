package data

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/grid"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var (
	_ fyne.Focusable = (*cellEntry)(nil)
	_ fyne.Tabbable  = (*cellEntry)(nil)
	_ fyne.Layout    = (*cellLayout)(nil)
)

// cellEntry is the field in which a cell is typed.
type cellEntry struct {
	widget.Entry
	keys func() fyne.KeyModifier
	done func(down, right int) // the text stands; the cursor goes so many cells on
	undo func()                // the cell's edit is taken back
}

func newCellEntry() *cellEntry {
	e := &cellEntry{keys: paint.HeldKeys}
	e.ExtendBaseWidget(e)
	return e
}

// AcceptsTab implements fyne.Tabbable: Tab goes on to the next cell.
func (e *cellEntry) AcceptsTab() bool { return true }

// TypedKey ends the edit where a key goes on to another cell, or takes it
// back.
func (e *cellEntry) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The move data")
	back := 1
	if e.keys()&fyne.KeyModifierShift != 0 {
		back = -1
	}
	switch ev.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		e.done(back, 0)
	case fyne.KeyTab:
		e.done(0, back)
	case fyne.KeyUp:
		e.done(-1, 0)
	case fyne.KeyDown:
		e.done(1, 0)
	case fyne.KeyEscape:
		e.undo()
	default:
		e.Entry.TypedKey(ev)
	}
}

// reasonBox says beside a cell why what is typed there can't stand.
type reasonBox struct {
	paint.Painted
	wrapper paint.Wrapper
	text    string
	lines   []string
}

// The measures of the box, in units.
const (
	reasonMost = 340
	reasonLine = 19
	reasonPad  = 9
)

func newReasonBox() *reasonBox {
	b := &reasonBox{wrapper: paint.Wrapper{Size: paint.TextSize}}
	b.Extend(b, b.paint, b.need)
	b.Hide()
	return b
}

// say shows the reason, or nothing where it is empty.
func (b *reasonBox) say(text string) {
	b.text = text
	if text == "" {
		b.Hide()
		return
	}
	b.lines = b.wrapper.Wrap(b.lines[:0], text, reasonMost-2*reasonPad)
	b.Show()
	b.Refresh()
}

// need is the room that the words take.
func (b *reasonBox) need() fyne.Size {
	wide := float32(0)
	for _, l := range b.lines {
		wide = max(wide, b.wrapper.WidthOf(l))
	}
	return fyne.NewSize(wide+2*reasonPad+2, float32(len(b.lines))*reasonLine+2*reasonPad-4)
}

func (b *reasonBox) paint(p *paint.Pen, size fyne.Size) {
	p.Rect(0, 0, p.Px(float64(size.Width)), p.Px(float64(size.Height)), paint.Colours().Ink[sheet.Paper], paint.Colours().Ink[sheet.Ink], p.Thick(1))
	for i, l := range b.lines {
		t := paint.ColumnText(l, reasonPad, reasonPad+float32(i)*reasonLine+11, sheet.Ink)
		p.Text(&t)
	}
}

// cellLayout lays a grid, and over it the field and the reason, by the grid's
// cursor.
type cellLayout struct {
	g      *grid.Grid
	entry  *cellEntry
	reason *reasonBox
}

// MinSize implements fyne.Layout.
func (l *cellLayout) MinSize([]fyne.CanvasObject) fyne.Size { return l.g.MinSize() }

// Layout implements fyne.Layout.
func (l *cellLayout) Layout(_ []fyne.CanvasObject, s fyne.Size) {
	defer paint.Survive("The layout")
	l.g.Resize(s)
	l.follow()
}

// follow puts the field over the cell under the cursor, as wide as its text
// needs, and the reason below it, or above where there is no room. While the
// cell is scrolled away both wait out of sight.
func (l *cellLayout) follow() {
	at, cell, ok := l.g.Rect(l.g.At())
	if !ok {
		return
	}
	size := l.g.Size()
	if at.Y < grid.HeadHeight-grid.RowHeight/2 || at.Y > size.Height || l.g.Aside(l.g.At().Col) {
		at = fyne.NewPos(-2*reasonMost, -2*reasonMost)
	}
	if l.entry.Visible() {
		high := l.entry.MinSize().Height
		wide := max(cell.Width, l.reason.wrapper.WidthOf(l.entry.Text)+26, 80)
		l.entry.Resize(fyne.NewSize(max(min(wide, size.Width-at.X), cell.Width), high))
		l.entry.Move(fyne.NewPos(at.X-1, at.Y-(high-cell.Height)/2))
	}
	need := l.reason.need()
	l.reason.Resize(need)
	y := at.Y + cell.Height + 5
	if y+need.Height > size.Height {
		y = at.Y - 5 - need.Height
	}
	if at.X >= 0 {
		at.X = max(min(at.X, size.Width-need.Width-4), 0)
	}
	l.reason.Move(fyne.NewPos(at.X, y))
}
