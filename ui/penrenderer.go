package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

var _ fyne.WidgetRenderer = (*penRenderer)(nil)

// penRenderer is the renderer of a widget that one function paints with a pen.
type penRenderer struct {
	owner   fyne.Widget
	palette func() *palette
	paint   func(p *pen, size fyne.Size)
	min     func() fyne.Size

	pen     pen
	size    fyne.Size
	objects []fyne.CanvasObject
	unseen  canvas.Rectangle // what a repaint is asked for with
}

func (r *penRenderer) MinSize() fyne.Size           { return r.min() }
func (r *penRenderer) Objects() []fyne.CanvasObject { return r.objects }
func (r *penRenderer) Destroy()                     {}

func (r *penRenderer) Layout(s fyne.Size) {
	if s != r.size {
		r.size = s
		r.Refresh()
	}
}

// Refresh paints again.
func (r *penRenderer) Refresh() {
	if r.size.Width <= 0 || r.size.Height <= 0 {
		return
	}
	r.pen.begin(r.palette(), scaleOf(r.owner))
	r.paint(&r.pen, r.size)
	r.unseen.FillColor = color.Transparent
	r.objects = append(append(r.objects[:0], &r.unseen), r.pen.objects...)
	canvas.Refresh(&r.unseen)
}

// scaleOf is how many pixels a unit has on o's canvas.
func scaleOf(o fyne.CanvasObject) float32 {
	if c := fyne.CurrentApp().Driver().CanvasForObject(o); c != nil {
		return c.Scale()
	}
	return 1
}
