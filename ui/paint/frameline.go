package paint

import (
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/sheet"
)

var _ fyne.Widget = (*FrameLine)(nil)

// FrameLine is an upright line over what lies under it, an object of its own:
// it moves without any of that being painted again.
type FrameLine struct {
	widget.BaseWidget
	X  float32
	On bool

	line, unseen canvas.Rectangle
	objects      []fyne.CanvasObject
}

func NewFrameLine() *FrameLine {
	f := &FrameLine{}
	f.unseen.FillColor = color.Transparent
	f.ExtendBaseWidget(f)
	return f
}

// CreateRenderer implements fyne.Widget.
func (f *FrameLine) CreateRenderer() fyne.WidgetRenderer { return &frameLineRenderer{f} }

type frameLineRenderer struct{ f *FrameLine }

func (r *frameLineRenderer) MinSize() fyne.Size           { return fyne.Size{} }
func (r *frameLineRenderer) Objects() []fyne.CanvasObject { return r.f.objects }
func (r *frameLineRenderer) Destroy()                     {}
func (r *frameLineRenderer) Layout(fyne.Size) {
	defer Survive("The line on a frame")
	r.Refresh()
}

// Refresh moves the line.
func (r *frameLineRenderer) Refresh() {
	defer Survive("The line on a frame")
	f := r.f
	f.objects = append(f.objects[:0], &f.unseen)
	if f.On {
		f.line.FillColor = Colours().Ink[sheet.Ink]
		x := math.Round(float64(f.X))
		Place(&f.line, x-1, 0, x+1, float64(f.Size().Height))
		f.objects = append(f.objects, &f.line)
	}
	canvas.Refresh(&f.unseen)
}

func Place(o fyne.CanvasObject, x0, y0, x1, y1 float64) {
	o.Move(fyne.NewPos(float32(x0), float32(y0)))
	o.Resize(fyne.NewSize(float32(x1-x0), float32(y1-y0)))
}
