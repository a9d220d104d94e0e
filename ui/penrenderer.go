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
	failed  failedView
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

// Refresh paints again. A painter that fails leaves words in its place, until
// it is asked again.
func (r *penRenderer) Refresh() {
	if r.size.Width <= 0 || r.size.Height <= 0 {
		return
	}
	instead := r.failed.painted(r.owner, r.palette(), r.size, func() {
		r.pen.begin(r.palette(), scaleOf(r.owner))
		r.paint(&r.pen, r.size)
	})
	r.unseen.FillColor = color.Transparent
	r.objects = append(r.objects[:0], &r.unseen)
	if instead != nil {
		r.pen = pen{}
		r.objects = append(r.objects, instead...)
	} else {
		r.objects = append(r.objects, r.pen.objects...)
	}
	canvas.Refresh(&r.unseen)
}

// scaleOf is how many pixels a unit has on o's canvas.
func scaleOf(o fyne.CanvasObject) float32 {
	if c := fyne.CurrentApp().Driver().CanvasForObject(o); c != nil {
		return c.Scale()
	}
	return 1
}
