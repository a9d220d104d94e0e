package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

var _ fyne.WidgetRenderer = (*penRenderer)(nil)

// penRenderer is the renderer of a widget that one function paints with a pen.
//
// The toolkit drops the renderer of a widget that was not on screen for a
// minute, and makes another one when the widget comes back. It doesn't lay that
// one out, as the widget still has its size. So a penRenderer paints, at the
// latest, when its objects are asked for.
type penRenderer struct {
	owner fyne.Widget
	paint func(p *pen, size fyne.Size)
	min   func() fyne.Size

	pen     pen
	painted fyne.Size // the owner's, when it was painted last
	colours *palette  // and the colours then
	objects []fyne.CanvasObject
	unseen  canvas.Rectangle // what a repaint is asked for with
	failed  failedView
}

func (r *penRenderer) MinSize() fyne.Size { return r.failed.measured(r.owner, r.min) }
func (r *penRenderer) Destroy()           {}

// Objects are what was painted for the size that the owner has now.
func (r *penRenderer) Objects() []fyne.CanvasObject {
	r.Layout(r.owner.Size())
	return r.objects
}

// Layout paints for another size, or in other colours.
func (r *penRenderer) Layout(s fyne.Size) {
	if s != r.painted || r.colours != colours() {
		r.Refresh()
	}
}

// Refresh paints again. A painter that fails leaves words in its place, until
// it is asked again.
func (r *penRenderer) Refresh() {
	defer surviveView(r.owner)
	size := r.owner.Size()
	r.colours, r.painted = colours(), size // first: a painter may ask where things lie, and so for these objects
	if size.Width <= 0 || size.Height <= 0 {
		return
	}
	instead := r.failed.painted(r.owner, size, func() {
		r.pen.begin(scaleOf(r.owner))
		r.paint(&r.pen, size)
	})
	r.unseen.FillColor = color.Transparent
	r.objects = append(r.objects[:0], &r.unseen)
	if instead != nil {
		r.pen = pen{}
		r.objects = append(r.objects, instead...)
	} else {
		r.objects = append(r.objects, r.pen.objects...)
	}
	repaint(r.owner, &r.unseen)
}

// canvasOf is the canvas that o lies on. The toolkit forgets it while o is not
// on screen; then it is the window's, of which there is one.
func canvasOf(o fyne.CanvasObject) fyne.Canvas {
	d := fyne.CurrentApp().Driver()
	if c := d.CanvasForObject(o); c != nil {
		return c
	}
	if all := d.AllWindows(); len(all) > 0 {
		return all[0].Canvas()
	}
	return nil
}

// focusOn gives o the keys, where it lies in a window.
func focusOn(o fyne.Focusable) {
	if on, ok := o.(fyne.CanvasObject); ok {
		if c := canvasOf(on); c != nil {
			c.Focus(o)
		}
	}
}

// repaint has the next frame show what is new among owner's objects.
func repaint(owner, object fyne.CanvasObject) {
	if c := canvasOf(owner); c != nil {
		c.Refresh(object)
	}
}

// scaleOf is how many pixels a unit has on o's canvas.
func scaleOf(o fyne.CanvasObject) float32 {
	if c := canvasOf(o); c != nil {
		return c.Scale()
	}
	return 1
}
