package grid

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/paint"
)

// drag is what a held button moves.
type drag uint8

const (
	noDrag drag = iota
	rangeDrag
	downBar
	acrossBar
)

// Scrolled scrolls; with Shift the wheel goes across.
func (g *Grid) Scrolled(ev *fyne.ScrollEvent) {
	defer paint.Survive("The table")
	d := ev.Scrolled
	if g.Keys()&fyne.KeyModifierShift != 0 && d.DX == 0 {
		d.DX, d.DY = d.DY, 0
	}
	g.scrollTo(g.offset.SubtractXY(d.DX, d.DY))
	g.on.Moved()
	g.Refresh()
}

// MouseDown puts the cursor under the pointer, with Shift the end of the
// selection; a heading sorts.
func (g *Grid) MouseDown(ev *desktop.MouseEvent) {
	defer paint.Survive("The table")
	if g.drag = g.barAt(ev.Position); g.drag != noDrag {
		g.held = ev.Position
		return
	}
	at, ok := g.hit(ev.Position)
	if !ok || !g.edits.Leave() {
		return
	}
	paint.FocusOn(g)
	switch {
	case at.Row < 0 && at.Col != LabelColumn:
		if g.Sorted == at.Col && g.Falling {
			g.Sorted = -1
			g.edits.Sort()
		} else {
			g.SortBy(at.Col, g.Sorted == at.Col)
		}
	case at.Row < 0:
	case ev.Modifier&fyne.KeyModifierShift != 0:
		g.Stretch(at)
		g.drag = rangeDrag
	case ev.Button == desktop.MouseButtonPrimary || !g.selects(at):
		g.Place(at)
		g.drag = rangeDrag
	}
}

// MouseUp implements desktop.Mouseable.
func (g *Grid) MouseUp(*desktop.MouseEvent) { g.drag = noDrag }

// Dragged stretches the selection, or scrolls by a bar.
func (g *Grid) Dragged(ev *fyne.DragEvent) {
	defer paint.Survive("The table")
	w, h := g.whole()
	vw, vh := g.view()
	switch g.drag {
	case rangeDrag:
		pos := ev.Position
		pos.Y = max(pos.Y, HeadHeight-g.offset.Y)
		to := g.cur
		if at, ok := g.hit(pos); ok {
			to = at
		} else {
			to.Row = int((pos.Y - HeadHeight + g.offset.Y) / RowHeight)
		}
		if g.anchor.Col == LabelColumn {
			to.Col = LabelColumn
		}
		g.Stretch(to)
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
		g.on.Moved()
		g.Refresh()
	}
}

// DragEnd implements fyne.Draggable.
func (g *Grid) DragEnd() { g.drag = noDrag }

// DoubleTapped edits the cell.
func (g *Grid) DoubleTapped(ev *fyne.PointEvent) {
	defer paint.Survive("The table")
	if at, ok := g.hit(ev.Position); ok && at.Row >= 0 && at.Col >= 0 && at == g.cur {
		g.edits.Edit("")
	}
}

// TappedSecondary offers what can be done with the selection.
func (g *Grid) TappedSecondary(ev *fyne.PointEvent) {
	defer paint.Survive("The table")
	c := fyne.CurrentApp().Driver().CanvasForObject(g)
	if items := g.edits.Menu(); c != nil && len(items) > 0 {
		widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", items...), c, ev.AbsolutePosition)
	}
}

// Cursor implements desktop.Cursorable.
func (g *Grid) Cursor() desktop.Cursor { return desktop.DefaultCursor }
