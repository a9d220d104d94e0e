package editor

import (
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/timeline/words"
	"wakeline/ui/model"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var (
	_ fyne.Widget        = (*Timeline)(nil)
	_ fyne.Focusable     = (*Timeline)(nil)
	_ fyne.Draggable     = (*Timeline)(nil)
	_ fyne.Scrollable    = (*Timeline)(nil)
	_ desktop.Mouseable  = (*Timeline)(nil)
	_ desktop.Hoverable  = (*Timeline)(nil)
	_ desktop.Cursorable = (*Timeline)(nil)
)

// Timeline is the sheet of the model's setup, live: a hand drags its delay,
// jump, fillers, press and wake-up in whole frames, zooms and pans. What a
// frame means it leaves to the model and the core; it turns places into whole
// frames and draws what comes back.
type Timeline struct {
	widget.BaseWidget

	OnHint func(string)            // what the place under the pointer does, empty for nothing
	OnDraw func()                  // after each sheet drawn
	OnKey  func(ev *fyne.KeyEvent) // a key that does nothing on the sheet

	Options  func(o *sheet.Options) // adds to what the sheet is drawn with; may be nil
	OnSelect func()                 // after another block was chosen
	OnShelf  func()                 // when blocks are asked for

	model   *model.Model
	wrapper paint.Wrapper
	Keys    func() fyne.KeyModifier // held now

	// overlays are painted over the sheet, the last on top: what changes while
	// the sheet stays. Repaint paints them alone.
	overlays []func(p *paint.Pen, d *sheet.Drawing)

	drawing     *sheet.Drawing
	Scene       words.Scene
	CurrentView sheet.View
	Fitted      bool    // view is the sheet's own choice, and follows the scene
	tracks      float64 // width of the tracks, in units
	Stale       bool    // the view must be fitted at the next draw

	drag    *drag
	Chosen  Selection
	of      string // the setup that it is chosen in
	Ghost   *ghost // nil: no block from the shelf is held over the sheet
	Typed   typed
	Hover   *sheet.Hot
	Card    *card
	pointer sheet.Point
	cursor  desktop.Cursor
	focused bool

	Renderer *timelineRenderer
}

// NewTimeline returns a live sheet of m.
func NewTimeline(m *model.Model) *Timeline {
	t := &Timeline{model: m, Fitted: true, Stale: true, cursor: desktop.DefaultCursor, Keys: paint.HeldKeys, wrapper: paint.Wrapper{Size: paint.TextSize}}
	t.overlays = []func(*paint.Pen, *sheet.Drawing){t.paintChosen, t.paintBand, t.paintGhost, t.paintDrag, t.paintCard, t.paintTyped}
	t.ExtendBaseWidget(t)
	return t
}

// Drawing is the sheet as it stands, nil before the first.
func (t *Timeline) Drawing() *sheet.Drawing { return t.drawing }

// MinSize is the smallest that holds the sheet's text in a window.
func (t *Timeline) MinSize() fyne.Size { return fyne.NewSize(420, sheet.MinH) }

// Fit shows all of the scene, and keeps it in view from now on.
func (t *Timeline) Fit() {
	t.Fitted, t.Stale = true, true
	t.Refresh()
}

// Repaint paints what lies over the sheet again, and leaves the sheet.
func (t *Timeline) Repaint() {
	if r := t.Renderer; r != nil && r.painted.Width > 0 && r.failed.Crash == nil {
		r.show(r.lay)
	}
}

// Draw makes the sheet anew. Its view stays where it is, except that a fitted
// one is fitted again when the scene leaves it or has become small in it, and
// never while a hand drags: what is held must stay under the hand.
func (t *Timeline) Draw(size fyne.Size) {
	if t.model.Plan() == nil {
		t.drawing = nil
		return
	}
	t.Scene = t.model.Scene()
	t.Card = nil
	t.trim()
	o := sheet.Options{W: float64(size.Width), H: float64(size.Height), Sentence: t.model.Verdict().Because, Position: string(t.model.Setup().Position)}
	if t.Options != nil {
		t.Options(&o)
	}
	if t.drag == nil && t.Fitted && (t.Stale || !t.holds()) {
		t.drawing = sheet.Draw(&t.Scene, o)
		t.CurrentView, t.Stale = t.drawing.View, false
		t.tracks = t.CurrentView.Scale * float64(t.Scene.Span.Len())
		return
	}
	o.View = &t.CurrentView
	t.drawing = sheet.Draw(&t.Scene, o)
}

// View is what a hand has zoomed or panned to, and false where the sheet fits
// itself.
func (t *Timeline) View() (sheet.View, bool) { return t.CurrentView, !t.Fitted }

// Look shows v, as far as it can be shown, until a sheet is fitted again.
func (t *Timeline) Look(v sheet.View) {
	if t.drawing == nil || !(v.Scale > 0) {
		return
	}
	t.CurrentView.Scale = t.within(v.Scale)
	t.LookAt(v.From)
}

// holds reports whether the view shows all of the scene, large enough.
func (t *Timeline) holds() bool {
	s, n := t.Scene.Span, t.tracks/t.CurrentView.Scale
	return float64(s.From) >= t.CurrentView.From-0.01 && float64(s.To) <= t.CurrentView.From+n+0.01 && float64(s.Len()) >= paint.LeastShare*n
}

// Bounds of the scale, in units a frame.
const (
	mostScale = 80
	zoomStep  = 1.2
)

// Zoom multiplies the scale by 1.2 to the power of steps, and keeps the frame
// at x where it is.
func (t *Timeline) Zoom(steps, x float64) {
	if t.drawing == nil {
		return
	}
	f := t.drawing.Frame(x)
	t.CurrentView.Scale = t.within(t.CurrentView.Scale * math.Pow(zoomStep, steps))
	t.LookAt(f - (x-t.drawing.Left)/t.CurrentView.Scale)
}

// within is the scale nearest to s that can be shown.
func (t *Timeline) within(s float64) float64 {
	return min(max(s, t.tracks/(timeline.Width+2*leastInView)), mostScale)
}

// ZoomIn and ZoomOut zoom at the meeting's side of the sheet: its middle.
func (t *Timeline) ZoomIn() { t.Zoom(1, t.middle()) }

// ZoomOut: see ZoomIn.
func (t *Timeline) ZoomOut() { t.Zoom(-1, t.middle()) }

func (t *Timeline) middle() float64 {
	if t.drawing == nil {
		return 0
	}
	return t.drawing.Left + t.tracks/2
}

// leastInView is how many frames of the scene panning leaves in view.
const leastInView = 6

// LookAt moves the left edge of the tracks to frame from.
func (t *Timeline) LookAt(from float64) {
	n := t.tracks / t.CurrentView.Scale
	lo, hi := float64(t.Scene.Span.From+leastInView)-n, float64(t.Scene.Span.To-leastInView)
	t.CurrentView.From = min(max(from, lo), hi)
	t.Fitted = false
	t.Refresh()
}

// Resize fits a fitted view to the new size.
func (t *Timeline) Resize(s fyne.Size) {
	if s == t.Size() {
		return
	}
	if t.tracks > 0 && t.drawing != nil {
		t.tracks += float64(s.Width) - t.drawing.W
	}
	t.Stale = true
	t.BaseWidget.Resize(s)
}

// CreateRenderer implements fyne.Widget.
func (t *Timeline) CreateRenderer() fyne.WidgetRenderer {
	r := &timelineRenderer{t: t}
	t.Renderer = r
	r.focus.StrokeWidth = 1
	return r
}

// timelineRenderer owns the canvas objects of a Timeline.
type timelineRenderer struct {
	t       *Timeline
	Pen     paint.Pen // of the sheet
	Over    paint.Pen // of what lies over it
	painted fyne.Size // as a penRenderer has it
	hover   canvas.Rectangle
	focus   canvas.Rectangle
	objects []fyne.CanvasObject
	failed  paint.FailedView
}

func (r *timelineRenderer) MinSize() fyne.Size { return r.t.MinSize() }
func (r *timelineRenderer) Destroy()           {}

// Objects are what was painted for the size that the sheet has now.
func (r *timelineRenderer) Objects() []fyne.CanvasObject {
	r.Layout(r.t.Size())
	return r.objects
}

// Layout draws for another size.
func (r *timelineRenderer) Layout(s fyne.Size) {
	if s != r.painted {
		r.Refresh()
	}
}

// Refresh draws the sheet again.
func (r *timelineRenderer) Refresh() {
	defer paint.SurviveView(r.t)
	t := r.t
	r.painted = t.Size()
	if r.painted.Width <= 0 || r.painted.Height <= 0 {
		return
	}
	r.show(r.paint)
	if t.OnDraw != nil {
		t.OnDraw()
	}
}

// show shows what paint lays out; where that fails, words in its place.
func (r *timelineRenderer) show(draw func()) {
	if instead := r.failed.Painted(r.t, r.painted, draw); instead != nil {
		r.Pen, r.Over, r.objects = paint.Pen{}, paint.Pen{}, append(r.objects[:0], instead...)
		r.objects = append(r.objects, &r.focus)
	}
	paint.Repaint(r.t, &r.focus)
}

// paint draws the sheet, and lays over it what follows the hand and the keys.
func (r *timelineRenderer) paint() {
	t := r.t
	t.Draw(r.painted)
	r.Pen.Begin(paint.ScaleOf(t))
	if t.drawing != nil {
		r.Pen.Draw(t.drawing.Shapes)
	}
	r.lay()
}

// lay lays the marks and the overlays over the sheet.
func (r *timelineRenderer) lay() {
	t := r.t
	r.objects = append(r.objects[:0], r.Pen.Objects...)
	if h := t.held(); h != nil {
		r.hover.FillColor = paint.Fade(paint.Colours().Ink[sheet.Ink], 0.12)
		r.hover.Move(fyne.NewPos(float32(math.Round(h.Min.X)), float32(math.Round(h.Min.Y))))
		r.hover.Resize(fyne.NewSize(float32(math.Round(h.Max.X-h.Min.X)), float32(math.Round(h.Max.Y-h.Min.Y))))
		r.objects = append(r.objects, &r.hover)
	}
	r.Over.Begin(paint.ScaleOf(t))
	if t.drawing != nil {
		for _, paint := range t.overlays {
			paint(&r.Over, t.drawing)
		}
	}
	r.objects = append(r.objects, r.Over.Objects...)
	if t.Typed.Open() {
		r.objects = append(r.objects, t.Typed.Entry)
	}
	r.focus.FillColor, r.focus.StrokeColor = color.Transparent, nil
	if t.focused && t.drawing != nil {
		r.focus.StrokeColor = paint.Colours().Ink[sheet.Soft]
	}
	r.focus.Resize(r.painted)
	r.objects = append(r.objects, &r.focus)
}
