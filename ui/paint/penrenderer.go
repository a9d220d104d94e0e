package paint

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

var _ fyne.WidgetRenderer = (*PenRenderer)(nil)

// PenRenderer is the renderer of a widget that one function paints with a pen.
//
// The toolkit drops the renderer of a widget that was not on screen for a
// minute, and makes another one when the widget comes back. It doesn't lay that
// one out, as the widget still has its size. So a penRenderer paints, at the
// latest, when its objects are asked for.
type PenRenderer struct {
	Owner fyne.Widget
	Paint func(p *Pen, size fyne.Size)
	Min   func() fyne.Size

	Pen     Pen
	painted fyne.Size // the owner's, when it was painted last
	colours *Palette  // and the colours then
	objects []fyne.CanvasObject
	unseen  canvas.Rectangle // what a repaint is asked for with
	failed  FailedView
}

func (r *PenRenderer) MinSize() fyne.Size { return r.failed.measured(r.Owner, r.Min) }
func (r *PenRenderer) Destroy()           {}

// Objects are what was painted for the size that the owner has now.
func (r *PenRenderer) Objects() []fyne.CanvasObject {
	r.Layout(r.Owner.Size())
	return r.objects
}

// Layout paints for another size, or in other colours.
func (r *PenRenderer) Layout(s fyne.Size) {
	defer SurviveView(r.Owner)
	if s != r.painted || r.colours != Colours() {
		r.Refresh()
	}
}

// Refresh paints again. A painter that fails leaves words in its place, until
// it is asked again.
func (r *PenRenderer) Refresh() {
	defer SurviveView(r.Owner)
	size := r.Owner.Size()
	r.colours, r.painted = Colours(), size // first: a painter may ask where things lie, and so for these objects
	if size.Width <= 0 || size.Height <= 0 {
		return
	}
	instead := r.failed.Painted(r.Owner, size, func() {
		r.Pen.Begin(ScaleOf(r.Owner))
		r.Paint(&r.Pen, size)
	})
	r.unseen.FillColor = color.Transparent
	r.objects = append(r.objects[:0], &r.unseen)
	if instead != nil {
		r.Pen = Pen{}
		r.objects = append(r.objects, instead...)
	} else {
		r.objects = append(r.objects, r.Pen.Objects...)
	}
	Repaint(r.Owner, &r.unseen)
}

// CanvasOf is the canvas that o lies on. The toolkit forgets it while o is not
// on screen; then it is the window's, of which there is one.
func CanvasOf(o fyne.CanvasObject) fyne.Canvas {
	d := fyne.CurrentApp().Driver()
	if c := d.CanvasForObject(o); c != nil {
		return c
	}
	if all := d.AllWindows(); len(all) > 0 {
		return all[0].Canvas()
	}
	return nil
}

// FocusOn gives o the keys, where it lies in a window.
func FocusOn(o fyne.Focusable) {
	defer Survive("The page")
	if on, ok := o.(fyne.CanvasObject); ok {
		if c := CanvasOf(on); c != nil {
			c.Focus(o)
		}
	}
}

// Repaint has the next frame show what is new among owner's objects.
func Repaint(owner, object fyne.CanvasObject) {
	if c := CanvasOf(owner); c != nil {
		c.Refresh(object)
	}
}

// ScaleOf is how many pixels a unit has on o's canvas.
func ScaleOf(o fyne.CanvasObject) float32 {
	if c := CanvasOf(o); c != nil {
		return c.Scale()
	}
	return 1
}
