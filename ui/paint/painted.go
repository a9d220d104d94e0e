package paint

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

var (
	_ fyne.Widget       = (*Painted)(nil)
	_ desktop.Hoverable = (*Pointed)(nil)
)

// Painted is a widget that one function paints with a pen.
type Painted struct {
	widget.BaseWidget
	owner fyne.Widget
	paint func(p *Pen, size fyne.Size)
	least func() fyne.Size
}

// Extend makes the widget that embeds it, owner, known to the toolkit: paint
// paints it, and least is the size that it needs.
func (v *Painted) Extend(owner fyne.Widget, paint func(p *Pen, size fyne.Size), least func() fyne.Size) {
	v.owner, v.paint, v.least = owner, paint, least
	v.ExtendBaseWidget(owner)
}

// CreateRenderer implements fyne.Widget.
func (v *Painted) CreateRenderer() fyne.WidgetRenderer {
	return &PenRenderer{Owner: v.owner, Paint: v.paint, Min: v.least}
}

// Keyed is a painted widget that takes the keys, and paints whether it has
// them. It takes no letters.
type Keyed struct {
	Painted
	Focused bool
}

// FocusGained implements fyne.Focusable.
func (k *Keyed) FocusGained() { k.focus(true) }

// FocusLost implements fyne.Focusable.
func (k *Keyed) FocusLost() { k.focus(false) }

func (k *Keyed) focus(on bool) {
	k.Focused = on
	k.owner.Refresh()
}

// TypedRune implements fyne.Focusable.
func (k *Keyed) TypedRune(rune) {}

// Pointed is a widget that follows the pointer.
type Pointed struct {
	what string
	over func(at fyne.Position)
	left func()
}

// OnPointer has over told where the pointer is on the widget, and left that it has
// gone. What fails there is told as a failure of what.
func (p *Pointed) OnPointer(what string, over func(at fyne.Position), left func()) {
	p.what, p.over, p.left = what, over, left
}

// MouseIn implements desktop.Hoverable.
func (p *Pointed) MouseIn(ev *desktop.MouseEvent) { p.MouseMoved(ev) }

// MouseMoved implements desktop.Hoverable.
func (p *Pointed) MouseMoved(ev *desktop.MouseEvent) {
	defer Survive(p.what)
	p.over(ev.Position)
}

// MouseOut implements desktop.Hoverable.
func (p *Pointed) MouseOut() {
	defer Survive(p.what)
	p.left()
}

// Row is a painted row of a list. At is the item that it shows, -1 before the
// first.
type Row struct {
	Painted
	At int
}

// Extend is that of Painted; the row shows nothing yet.
func (r *Row) Extend(owner fyne.Widget, paint func(p *Pen, size fyne.Size), least func() fyne.Size) {
	r.At = -1
	r.Painted.Extend(owner, paint, least)
}

// Set shows another item.
func (r *Row) Set(i int) {
	r.At = i
	r.owner.Refresh()
}

// SetRow shows an item of a list on one of its rows.
func SetRow(i widget.ListItemID, row fyne.CanvasObject) { row.(interface{ Set(i int) }).Set(i) }
