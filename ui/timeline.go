package ui

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
	keys    func() fyne.KeyModifier // held now

	// overlays are painted over the sheet, the last on top: what changes while
	// the sheet stays. Repaint paints them alone.
	overlays []func(p *paint.Pen, d *sheet.Drawing)

	drawing *sheet.Drawing
	scene   words.Scene
	view    sheet.View
	fitted  bool    // view is the sheet's own choice, and follows the scene
	tracks  float64 // width of the tracks, in units
	stale   bool    // the view must be fitted at the next draw

	drag    *drag
	chosen  selection
	of      string // the setup that it is chosen in
	ghost   *ghost // nil: no block from the shelf is held over the sheet
	typed   typed
	hover   *sheet.Hot
	card    *card
	pointer sheet.Point
	cursor  desktop.Cursor
	focused bool

	renderer *timelineRenderer
}

// NewTimeline returns a live sheet of m.
func NewTimeline(m *model.Model) *Timeline {
	t := &Timeline{model: m, fitted: true, stale: true, cursor: desktop.DefaultCursor, keys: paint.HeldKeys, wrapper: paint.Wrapper{Size: paint.TextSize}}
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
	t.fitted, t.stale = true, true
	t.Refresh()
}

// Repaint paints what lies over the sheet again, and leaves the sheet.
func (t *Timeline) Repaint() {
	if r := t.renderer; r != nil && r.painted.Width > 0 && r.failed.Crash == nil {
		r.show(r.lay)
	}
}

// draw makes the sheet anew. Its view stays where it is, except that a fitted
// one is fitted again when the scene leaves it or has become small in it, and
// never while a hand drags: what is held must stay under the hand.
func (t *Timeline) draw(size fyne.Size) {
	plan := t.model.Plan()
	if plan == nil {
		t.drawing = nil
		return
	}
	rise, line := t.model.Shown()
	t.scene = words.SceneAt(plan, t.model.Setup().Delay, rise, line)
	t.card = nil
	t.trim()
	o := sheet.Options{W: float64(size.Width), H: float64(size.Height), Sentence: t.model.Verdict().Because, Position: string(t.model.Setup().Position)}
	if t.Options != nil {
		t.Options(&o)
	}
	if t.drag == nil && t.fitted && (t.stale || !t.holds()) {
		t.drawing = sheet.Draw(&t.scene, o)
		t.view, t.stale = t.drawing.View, false
		t.tracks = t.view.Scale * float64(t.scene.Span.Len())
		return
	}
	o.View = &t.view
	t.drawing = sheet.Draw(&t.scene, o)
}

// View is what a hand has zoomed or panned to, and false where the sheet fits
// itself.
func (t *Timeline) View() (sheet.View, bool) { return t.view, !t.fitted }

// Look shows v, as far as it can be shown, until a sheet is fitted again.
func (t *Timeline) Look(v sheet.View) {
	if t.drawing == nil || !(v.Scale > 0) {
		return
	}
	t.view.Scale = t.within(v.Scale)
	t.look(v.From)
}

// holds reports whether the view shows all of the scene, large enough.
func (t *Timeline) holds() bool {
	s, n := t.scene.Span, t.tracks/t.view.Scale
	return float64(s.From) >= t.view.From-0.01 && float64(s.To) <= t.view.From+n+0.01 && float64(s.Len()) >= paint.LeastShare*n
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
	t.view.Scale = t.within(t.view.Scale * math.Pow(zoomStep, steps))
	t.look(f - (x-t.drawing.Left)/t.view.Scale)
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

// look moves the left edge of the tracks to frame from.
func (t *Timeline) look(from float64) {
	n := t.tracks / t.view.Scale
	lo, hi := float64(t.scene.Span.From+leastInView)-n, float64(t.scene.Span.To-leastInView)
	t.view.From = min(max(from, lo), hi)
	t.fitted = false
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
	t.stale = true
	t.BaseWidget.Resize(s)
}

// CreateRenderer implements fyne.Widget.
func (t *Timeline) CreateRenderer() fyne.WidgetRenderer {
	r := &timelineRenderer{t: t}
	t.renderer = r
	r.focus.StrokeWidth = 1
	return r
}

// timelineRenderer owns the canvas objects of a Timeline.
type timelineRenderer struct {
	t       *Timeline
	pen     paint.Pen // of the sheet
	over    paint.Pen // of what lies over it
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
		r.pen, r.over, r.objects = paint.Pen{}, paint.Pen{}, append(r.objects[:0], instead...)
		r.objects = append(r.objects, &r.focus)
	}
	paint.Repaint(r.t, &r.focus)
}

// paint draws the sheet, and lays over it what follows the hand and the keys.
func (r *timelineRenderer) paint() {
	t := r.t
	t.draw(r.painted)
	r.pen.Begin(paint.ScaleOf(t))
	if t.drawing != nil {
		r.pen.Draw(t.drawing.Shapes)
	}
	r.lay()
}

// lay lays the marks and the overlays over the sheet.
func (r *timelineRenderer) lay() {
	t := r.t
	r.objects = append(r.objects[:0], r.pen.Objects...)
	if h := t.held(); h != nil {
		r.hover.FillColor = paint.Fade(paint.Colours().Ink[sheet.Ink], 0.12)
		r.hover.Move(fyne.NewPos(float32(math.Round(h.Min.X)), float32(math.Round(h.Min.Y))))
		r.hover.Resize(fyne.NewSize(float32(math.Round(h.Max.X-h.Min.X)), float32(math.Round(h.Max.Y-h.Min.Y))))
		r.objects = append(r.objects, &r.hover)
	}
	r.over.Begin(paint.ScaleOf(t))
	if t.drawing != nil {
		for _, paint := range t.overlays {
			paint(&r.over, t.drawing)
		}
	}
	r.objects = append(r.objects, r.over.Objects...)
	if t.typed.open() {
		r.objects = append(r.objects, t.typed.entry)
	}
	r.focus.FillColor, r.focus.StrokeColor = color.Transparent, nil
	if t.focused && t.drawing != nil {
		r.focus.StrokeColor = paint.Colours().Ink[sheet.Soft]
	}
	r.focus.Resize(r.painted)
	r.objects = append(r.objects, &r.focus)
}
