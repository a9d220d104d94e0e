package panel

import (
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/ui/model"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var (
	_ fyne.Draggable      = (*ShelfRow)(nil)
	_ fyne.DoubleTappable = (*ShelfRow)(nil)
	_ desktop.Mouseable   = (*ShelfRow)(nil)
	_ desktop.Hoverable   = (*ShelfRow)(nil)
	_ desktop.Cursorable  = (*ShelfRow)(nil)
)

// ShelfRow is one line of the shelf on screen: a block's name with its number
// and a mark where the setup uses it, or the head of a group.
type ShelfRow struct {
	paint.Row // At: of the lines shown
	s         *Shelf
	used      bool // shown as used by the setup
}

const shelfRowHeight = 23

func newShelfRow(s *Shelf) *ShelfRow {
	r := &ShelfRow{s: s}
	r.Extend(r, r.paint, func() fyne.Size { return fyne.NewSize(120, shelfRowHeight) })
	return r
}

// Set shows another line.
func (r *ShelfRow) Set(i int) {
	r.s.List.Rows.Note(r)
	r.Row.Set(i)
}

// Line is what the row shows, nil for nothing.
func (r *ShelfRow) Line() *model.ShelfLine {
	if r.At < 0 || r.At >= len(r.s.Shown) {
		return nil
	}
	return r.s.Line(r.At)
}

func (r *ShelfRow) paint(p *paint.Pen, size fyne.Size) {
	l := r.Line()
	if l == nil {
		return
	}
	const pad, left, base = 10, 24, 16
	w := &r.s.wrapper
	if l.Head != "" {
		unit := w.WidthOf(l.Unit)
		title := paint.ColumnText(w.Fit(l.Head, size.Width-3*pad-unit), pad, base, sheet.Ink)
		title.Bold = true
		p.Text(&title)
		right := paint.ColumnText(l.Unit, size.Width-pad, base, sheet.Soft)
		right.Anchor = sheet.AtEnd
		p.Text(&right)
		y := float64(shelfRowHeight - 1)
		p.Line(&sheet.Line{From: sheet.Point{X: pad, Y: y}, To: sheet.Point{X: float64(size.Width - pad), Y: y}, Stroke: sheet.Rule, Width: 1})
		return
	}
	setup := r.s.model.Setup()
	if r.used = l.Block.Uses(&setup); r.used {
		p.Box(&sheet.Box{Min: sheet.Point{X: pad + 1, Y: 8}, Max: sheet.Point{X: pad + 8, Y: 15}, Fill: sheet.Ink, Texture: sheet.Solid})
	}
	if r.At == r.s.at && r.s.List.keys {
		p.Box(&sheet.Box{Min: sheet.Point{X: 2, Y: 1}, Max: sheet.Point{X: float64(size.Width) - 2, Y: shelfRowHeight - 1}, Stroke: sheet.Ink, Width: 1})
	}
	number := ""
	if l.Block.Frames.Given {
		number = strconv.Itoa(l.Block.Frames.N)
	}
	role := sheet.Ink
	if l.Block.Name == "" {
		role = sheet.Soft
	}
	name := paint.ColumnText(w.Fit(l.Block.Title(), size.Width-left-2*pad-w.WidthOf(number)), left, base, role)
	p.Text(&name)
	right := paint.ColumnText(number, size.Width-pad, base, sheet.Ink)
	right.Anchor = sheet.AtEnd
	p.Text(&right)
}

// MouseDown chooses the block.
func (r *ShelfRow) MouseDown(*desktop.MouseEvent) {
	defer paint.Survive("The blocks")
	if r.Line() == nil {
		return
	}
	r.s.Choose(r.At)
	paint.FocusOn(r.s.List)
}

// MouseUp implements desktop.Mouseable.
func (r *ShelfRow) MouseUp(*desktop.MouseEvent) {}

// DoubleTapped puts the block where it belongs.
func (r *ShelfRow) DoubleTapped(*fyne.PointEvent) {
	defer paint.Survive("The shelf")
	if l := r.Line(); l != nil && l.Head == "" {
		r.s.Choose(r.At)
		r.s.Put()
	}
}

// Dragged carries the block.
func (r *ShelfRow) Dragged(ev *fyne.DragEvent) {
	defer paint.Survive("The shelf")
	if l := r.Line(); r.s.drag != nil || l != nil && l.Head == "" {
		var b *model.Block
		if l != nil {
			b = &l.Block
		}
		r.s.Dragging(b, ev.AbsolutePosition)
	}
}

// DragEnd lets the block go.
func (r *ShelfRow) DragEnd() {
	defer paint.Survive("The shelf")
	r.s.Dropped()
}

// MouseIn says what the block is.
func (r *ShelfRow) MouseIn(*desktop.MouseEvent) {
	defer paint.Survive("The blocks")
	if l := r.Line(); l != nil && l.Head == "" && r.s.drag == nil {
		r.s.hint(r.At)
	}
}

// MouseMoved implements desktop.Hoverable.
func (r *ShelfRow) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (r *ShelfRow) MouseOut() {
	defer paint.Survive("The blocks")
	if r.s.drag == nil && r.s.OnHint != nil {
		r.s.OnHint("")
	}
}

// Cursor implements desktop.Cursorable.
func (r *ShelfRow) Cursor() desktop.Cursor {
	defer paint.Survive("The blocks")
	if l := r.Line(); l != nil && l.Head == "" {
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}
