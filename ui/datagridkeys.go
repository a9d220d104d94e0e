package ui

import (
	"wakeline/ui/paint"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// FocusGained implements fyne.Focusable.
func (g *dataGrid) FocusGained() {
	g.focused = true
	g.Refresh()
}

// FocusLost implements fyne.Focusable.
func (g *dataGrid) FocusLost() {
	g.focused = false
	g.Refresh()
}

// AcceptsTab implements fyne.Tabbable: Tab goes on to the next cell.
func (g *dataGrid) AcceptsTab() bool { return true }

// TypedRune begins to type over the cell.
func (g *dataGrid) TypedRune(r rune) {
	defer paint.Survive("The table")
	g.on.edit(string(r))
}

// page is how many rows are in view.
func (g *dataGrid) page() int {
	_, h := g.view()
	return max(int(h/dataRow)-1, 1)
}

// TypedKey moves the cursor, with Shift the end of the selection, and asks for
// edits.
func (g *dataGrid) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The move data")
	to := g.cur
	shift := g.keys()&fyne.KeyModifierShift != 0
	switch ev.Name {
	case fyne.KeyUp:
		to.row--
	case fyne.KeyDown:
		to.row++
	case fyne.KeyLeft:
		to.col--
	case fyne.KeyRight:
		to.col++
	case fyne.KeyPageUp:
		to.row -= g.page()
	case fyne.KeyPageDown:
		to.row += g.page()
	case fyne.KeyHome:
		to.col = 0
	case fyne.KeyEnd:
		to.col = len(g.widths) - 1
	case fyne.KeyTab:
		g.step(shift)
		return
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeyF2:
		g.on.edit("")
		return
	case fyne.KeyDelete, fyne.KeyBackspace:
		if g.cur.col == labelColumn {
			g.on.drop()
		} else {
			g.on.empty()
		}
		return
	case fyne.KeyEscape:
		g.on.escape()
		return
	case fyne.KeyF6:
		g.away(shift)
		return
	case fyne.KeyF1:
		g.on.help()
		return
	default:
		return
	}
	g.goTo(to, shift)
}

// goTo moves the cursor by keys, or the end of the selection.
func (g *dataGrid) goTo(to dataPlace, stretch bool) {
	if to.col <= 0 && (to.col != g.cur.col || to.row == g.cur.row) { // the row's beginning
		g.offset.X = 0
	}
	if stretch {
		g.stretch(to)
	} else {
		g.place(to)
	}
}

// step goes to the next cell of the row, or of the next row; past the last
// the keys go on to what stands after the grid.
func (g *dataGrid) step(back bool) {
	to := g.cur
	if to != g.tabbed.to {
		g.tabbed.from = to.col
	}
	if back {
		if to.col--; to.col < 0 {
			to.row, to.col = to.row-1, len(g.widths)-1
		}
	} else if to.col++; to.col == len(g.widths) {
		to.row, to.col = to.row+1, 0
	}
	if to.row < 0 || to.row >= g.cells.len() {
		g.away(back)
		return
	}
	g.goTo(to, false)
	g.tabbed.to = g.cur
}

// below is the cell so many rows down: after Tab, in the column where that
// began.
func (g *dataGrid) below(rows int) dataPlace {
	to := dataPlace{g.cur.row + rows, g.cur.col}
	if g.cur == g.tabbed.to {
		to.col = g.tabbed.from
	}
	return to
}

// away gives the keys to what stands after the grid, or before it.
func (g *dataGrid) away(back bool) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(g); c != nil && back {
		c.FocusPrevious()
	} else if c != nil {
		c.FocusNext()
	}
}

// TypedShortcut copies, cuts and pastes, and does what only a table has keys
// for; the rest is the window's.
func (g *dataGrid) TypedShortcut(s fyne.Shortcut) {
	defer paint.Survive("The move data")
	switch s := s.(type) {
	case *fyne.ShortcutCopy:
		g.on.copy(s.Clipboard)
		return
	case *fyne.ShortcutCut:
		g.on.copy(s.Clipboard)
		g.on.empty()
		return
	case *fyne.ShortcutPaste:
		g.on.paste(s.Clipboard)
		return
	case *fyne.ShortcutSelectAll:
		g.place(dataPlace{})
		g.stretch(g.last())
		return
	case *desktop.CustomShortcut:
		if do := dataShortcuts[*s]; do != nil {
			do(g)
			return
		}
	}
	if c, ok := fyne.CurrentApp().Driver().CanvasForObject(g).(fyne.Shortcutable); ok {
		c.TypedShortcut(s)
	}
}

// dataShortcuts are the shortcuts that only a table has.
var dataShortcuts = func() map[desktop.CustomShortcut]func(g *dataGrid) {
	out := map[desktop.CustomShortcut]func(g *dataGrid){
		{KeyName: fyne.KeyMinus, Modifier: paint.KeyCtrl}:      func(g *dataGrid) { g.on.drop() },
		{KeyName: fyne.KeyPageUp, Modifier: paint.KeyCtrl}:     func(g *dataGrid) { g.on.turn(-1) },
		{KeyName: fyne.KeyPageDown, Modifier: paint.KeyCtrl}:   func(g *dataGrid) { g.on.turn(1) },
		{KeyName: fyne.KeyUp, Modifier: fyne.KeyModifierAlt}:   func(g *dataGrid) { g.sortBy(g.cur.col, true) },
		{KeyName: fyne.KeyDown, Modifier: fyne.KeyModifierAlt}: func(g *dataGrid) { g.sortBy(g.cur.col, false) },
	}
	for key, end := range map[fyne.KeyName]func(g *dataGrid) dataPlace{
		fyne.KeyHome:  func(*dataGrid) dataPlace { return dataPlace{} },
		fyne.KeyEnd:   (*dataGrid).last,
		fyne.KeyUp:    func(g *dataGrid) dataPlace { return dataPlace{0, g.cur.col} },
		fyne.KeyDown:  func(g *dataGrid) dataPlace { return dataPlace{g.last().row, g.cur.col} },
		fyne.KeyLeft:  func(g *dataGrid) dataPlace { return dataPlace{g.cur.row, 0} },
		fyne.KeyRight: func(g *dataGrid) dataPlace { return dataPlace{g.cur.row, g.last().col} },
	} {
		out[desktop.CustomShortcut{KeyName: key, Modifier: paint.KeyCtrl}] = func(g *dataGrid) { g.goTo(end(g), false) }
		out[desktop.CustomShortcut{KeyName: key, Modifier: paint.KeyCtrl | paint.KeyShift}] = func(g *dataGrid) { g.goTo(end(g), true) }
	}
	return out
}()

// last is the last cell.
func (g *dataGrid) last() dataPlace { return dataPlace{g.cells.len() - 1, len(g.widths) - 1} }

// sortBy sorts by a column.
func (g *dataGrid) sortBy(col int, falling bool) {
	if col != labelColumn {
		g.sorted, g.falling = col, falling
		g.on.sort()
	}
}

// Scrolled scrolls; with Shift the wheel goes across.
func (g *dataGrid) Scrolled(ev *fyne.ScrollEvent) {
	defer paint.Survive("The table")
	d := ev.Scrolled
	if g.keys()&fyne.KeyModifierShift != 0 && d.DX == 0 {
		d.DX, d.DY = d.DY, 0
	}
	g.scrollTo(g.offset.SubtractXY(d.DX, d.DY))
	g.on.moved()
	g.Refresh()
}

// MouseDown puts the cursor under the pointer, with Shift the end of the
// selection; a heading sorts.
func (g *dataGrid) MouseDown(ev *desktop.MouseEvent) {
	defer paint.Survive("The move data")
	if g.drag = g.barAt(ev.Position); g.drag != noDataDrag {
		g.held = ev.Position
		return
	}
	at, ok := g.at(ev.Position)
	if !ok || !g.on.leave() {
		return
	}
	if c := fyne.CurrentApp().Driver().CanvasForObject(g); c != nil {
		c.Focus(g)
	}
	switch {
	case at.row < 0 && at.col != labelColumn:
		if g.sorted == at.col && g.falling {
			g.sorted = -1
			g.on.sort()
		} else {
			g.sortBy(at.col, g.sorted == at.col)
		}
	case at.row < 0:
	case ev.Modifier&fyne.KeyModifierShift != 0:
		g.stretch(at)
		g.drag = rangeDrag
	case ev.Button == desktop.MouseButtonPrimary || !g.selects(at):
		g.place(at)
		g.drag = rangeDrag
	}
}

func (g *dataGrid) selects(at dataPlace) bool {
	a, b := g.selection()
	return at.row >= a.row && at.row <= b.row && at.col >= a.col && at.col <= b.col
}

// barAt is the scroll bar under a point.
func (g *dataGrid) barAt(pos fyne.Position) dataDrag {
	size := g.Size()
	if from, n, ok := g.bar(false); ok && pos.X >= size.Width-dataBar && pos.Y >= from && pos.Y < from+n {
		return downBar
	}
	if from, n, ok := g.bar(true); ok && pos.Y >= size.Height-dataBar && pos.X >= from && pos.X < from+n {
		return acrossBar
	}
	return noDataDrag
}

// MouseUp implements desktop.Mouseable.
func (g *dataGrid) MouseUp(*desktop.MouseEvent) { g.drag = noDataDrag }

// Dragged stretches the selection, or scrolls by a bar.
func (g *dataGrid) Dragged(ev *fyne.DragEvent) {
	defer paint.Survive("The move data")
	w, h := g.whole()
	vw, vh := g.view()
	switch g.drag {
	case rangeDrag:
		pos := ev.Position
		pos.Y = max(pos.Y, dataHead-g.offset.Y)
		to := g.cur
		if at, ok := g.at(pos); ok {
			to = at
		} else {
			to.row = int((pos.Y - dataHead + g.offset.Y) / dataRow)
		}
		if g.anchor.col == labelColumn {
			to.col = labelColumn
		}
		g.stretch(to)
	case downBar, acrossBar:
		d := ev.Position.Subtract(g.held)
		g.held = ev.Position
		to := g.offset
		if g.drag == downBar {
			to.Y += d.Y * h / vh
		} else {
			to.X += d.X * w / vw
		}
		g.scrollTo(to)
		g.on.moved()
		g.Refresh()
	}
}

// DragEnd implements fyne.Draggable.
func (g *dataGrid) DragEnd() { g.drag = noDataDrag }

// DoubleTapped edits the cell.
func (g *dataGrid) DoubleTapped(ev *fyne.PointEvent) {
	defer paint.Survive("The move data")
	if at, ok := g.at(ev.Position); ok && at.row >= 0 && at.col >= 0 && at == g.cur {
		g.on.edit("")
	}
}

// TappedSecondary offers what can be done with the selection.
func (g *dataGrid) TappedSecondary(ev *fyne.PointEvent) {
	defer paint.Survive("The table")
	c := fyne.CurrentApp().Driver().CanvasForObject(g)
	if items := g.on.menu(); c != nil && len(items) > 0 {
		widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", items...), c, ev.AbsolutePosition)
	}
}

// Cursor implements desktop.Cursorable.
func (g *dataGrid) Cursor() desktop.Cursor { return desktop.DefaultCursor }
