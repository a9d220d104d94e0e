package grid

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/ui/paint"
)

// AcceptsTab implements fyne.Tabbable: Tab goes on to the next cell.
func (g *Grid) AcceptsTab() bool { return true }

// TypedRune begins to type over the cell.
func (g *Grid) TypedRune(r rune) {
	defer paint.Survive("The table")
	g.edits.Edit(string(r))
}

// TypedKey moves the cursor, with Shift the end of the selection, and asks for
// edits.
func (g *Grid) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The table")
	to := g.cur
	shift := g.Keys()&fyne.KeyModifierShift != 0
	switch ev.Name {
	case fyne.KeyUp:
		to.Row--
	case fyne.KeyDown:
		to.Row++
	case fyne.KeyLeft:
		to.Col--
	case fyne.KeyRight:
		to.Col++
	case fyne.KeyPageUp:
		to.Row -= g.page()
	case fyne.KeyPageDown:
		to.Row += g.page()
	case fyne.KeyHome:
		to.Col = 0
	case fyne.KeyEnd:
		to.Col = len(g.widths) - 1
	case fyne.KeyTab:
		g.Step(shift)
		return
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeyF2:
		g.edits.Edit("")
		return
	case fyne.KeyDelete, fyne.KeyBackspace:
		if g.cur.Col == LabelColumn {
			g.edits.Drop()
		} else {
			g.edits.Empty()
		}
		return
	case fyne.KeyEscape:
		g.on.Escape()
		return
	case fyne.KeyF6:
		g.away(shift)
		return
	case fyne.KeyF1:
		g.edits.Help()
		return
	default:
		return
	}
	g.goTo(to, shift)
}

// goTo moves the cursor by keys, or the end of the selection.
func (g *Grid) goTo(to Place, stretch bool) {
	if to.Col <= 0 && (to.Col != g.cur.Col || to.Row == g.cur.Row) { // the row's beginning
		g.offset.X = 0
	}
	if stretch {
		g.Stretch(to)
	} else {
		g.Place(to)
	}
}

// Step goes to the next cell of the row, or of the next row; past the last
// the keys go on to what stands after the grid.
func (g *Grid) Step(back bool) {
	to := g.cur
	if to != g.tabbed.to {
		g.tabbed.from = to.Col
	}
	if back {
		if to.Col--; to.Col < 0 {
			to.Row, to.Col = to.Row-1, len(g.widths)-1
		}
	} else if to.Col++; to.Col == len(g.widths) {
		to.Row, to.Col = to.Row+1, 0
	}
	if to.Row < 0 || to.Row >= g.cells.Len() {
		g.away(back)
		return
	}
	g.goTo(to, false)
	g.tabbed.to = g.cur
}

// Below is the cell so many rows down: after Tab, in the column where that
// began.
func (g *Grid) Below(rows int) Place {
	to := Place{g.cur.Row + rows, g.cur.Col}
	if g.cur == g.tabbed.to {
		to.Col = g.tabbed.from
	}
	return to
}

// away gives the keys to what stands after the grid, or before it.
func (g *Grid) away(back bool) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(g); c != nil && back {
		c.FocusPrevious()
	} else if c != nil {
		c.FocusNext()
	}
}

// TypedShortcut copies, cuts and pastes, and does what only a table has keys
// for; the rest is the window's.
func (g *Grid) TypedShortcut(s fyne.Shortcut) {
	defer paint.Survive("The table")
	switch s := s.(type) {
	case *fyne.ShortcutCopy:
		g.on.Copy(s.Clipboard)
		return
	case *fyne.ShortcutCut:
		g.on.Copy(s.Clipboard)
		g.edits.Empty()
		return
	case *fyne.ShortcutPaste:
		g.edits.Paste(s.Clipboard)
		return
	case *fyne.ShortcutSelectAll:
		g.Place(Place{})
		g.Stretch(g.last())
		return
	case *desktop.CustomShortcut:
		if do := Shortcuts[*s]; do != nil {
			do(g)
			return
		}
	}
	if c, ok := fyne.CurrentApp().Driver().CanvasForObject(g).(fyne.Shortcutable); ok {
		c.TypedShortcut(s)
	}
}

// Shortcuts are the shortcuts that only a table has.
var Shortcuts = func() map[desktop.CustomShortcut]func(g *Grid) {
	out := map[desktop.CustomShortcut]func(g *Grid){
		{KeyName: fyne.KeyMinus, Modifier: paint.KeyCtrl}:      func(g *Grid) { g.edits.Drop() },
		{KeyName: fyne.KeyPageUp, Modifier: paint.KeyCtrl}:     func(g *Grid) { g.edits.Turn(-1) },
		{KeyName: fyne.KeyPageDown, Modifier: paint.KeyCtrl}:   func(g *Grid) { g.edits.Turn(1) },
		{KeyName: fyne.KeyUp, Modifier: fyne.KeyModifierAlt}:   func(g *Grid) { g.SortBy(g.cur.Col, true) },
		{KeyName: fyne.KeyDown, Modifier: fyne.KeyModifierAlt}: func(g *Grid) { g.SortBy(g.cur.Col, false) },

		{KeyName: fyne.KeyUp, Modifier: fyne.KeyModifierAlt | paint.KeyShift}:   func(g *Grid) { g.edits.Shift(-1) },
		{KeyName: fyne.KeyDown, Modifier: fyne.KeyModifierAlt | paint.KeyShift}: func(g *Grid) { g.edits.Shift(1) },
	}
	for key, end := range map[fyne.KeyName]func(g *Grid) Place{
		fyne.KeyHome:  func(*Grid) Place { return Place{} },
		fyne.KeyEnd:   (*Grid).last,
		fyne.KeyUp:    func(g *Grid) Place { return Place{0, g.cur.Col} },
		fyne.KeyDown:  func(g *Grid) Place { return Place{g.last().Row, g.cur.Col} },
		fyne.KeyLeft:  func(g *Grid) Place { return Place{g.cur.Row, 0} },
		fyne.KeyRight: func(g *Grid) Place { return Place{g.cur.Row, g.last().Col} },
	} {
		out[desktop.CustomShortcut{KeyName: key, Modifier: paint.KeyCtrl}] = func(g *Grid) { g.goTo(end(g), false) }
		out[desktop.CustomShortcut{KeyName: key, Modifier: paint.KeyCtrl | paint.KeyShift}] = func(g *Grid) { g.goTo(end(g), true) }
	}
	return out
}()

// SortBy sorts by a column.
func (g *Grid) SortBy(col int, falling bool) {
	if _, fixed := g.edits.(noEdits); col != LabelColumn && !fixed {
		g.Sorted, g.Falling = col, falling
		g.edits.Sort()
	}
}
