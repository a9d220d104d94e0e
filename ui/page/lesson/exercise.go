package lesson

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/timeline/words"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var (
	_ fyne.Widget        = (*exercise)(nil)
	_ fyne.Focusable     = (*exercise)(nil)
	_ fyne.Draggable     = (*exercise)(nil)
	_ desktop.Mouseable  = (*exercise)(nil)
	_ desktop.Hoverable  = (*exercise)(nil)
	_ desktop.Cursorable = (*exercise)(nil)
)

// exercise is the sheet of a setup with all covered that tells where it is
// safe. A student drags its delay, which is nobody's but theirs: no setup is
// edited.
type exercise struct {
	widget.BaseWidget

	OnKey func(ev *fyne.KeyEvent) // a key that moves nothing

	keys func() fyne.KeyModifier // held now

	plan       *timeline.Plan // nil: nothing is shown
	rise, line int            // of the exchange that is shown
	delay      int            // the student's

	scene   words.Scene // covered
	drawing *sheet.Drawing
	view    *sheet.View // nil: fitted at the next draw
	held    *hold       // nil: no hand drags
	over    bool        // what can be dragged lies under the pointer
	focused bool
}

// hold is a hand on the delay.
type hold struct {
	frame float64 // where it took hold
	value int     // the delay that it started from
}

func newExercise(keys func() fyne.KeyModifier) *exercise {
	e := &exercise{keys: keys}
	e.ExtendBaseWidget(e)
	return e
}

// begin shows plan without its answer, from that delay on.
func (e *exercise) begin(plan *timeline.Plan, rise, line, delay int) {
	e.plan, e.rise, e.line, e.delay = plan, rise, line, delay
	e.view, e.held, e.over = nil, nil, false
	e.Refresh()
}

// show shows another exchange.
func (e *exercise) show(rise, line int) {
	e.rise, e.line, e.view = rise, line, nil
	e.Refresh()
}

// wait makes the student's delay d, as far as delays go.
func (e *exercise) wait(d int) {
	if e.plan == nil {
		return
	}
	e.delay = max(0, min(d, e.plan.LastDelay()))
	e.Refresh()
}

// CreateRenderer implements fyne.Widget.
func (e *exercise) CreateRenderer() fyne.WidgetRenderer {
	return &paint.PenRenderer{Owner: e, Paint: e.paint, Min: func() fyne.Size { return fyne.NewSize(sheet.MinW, sheet.MinH) }}
}

func (e *exercise) paint(p *paint.Pen, size fyne.Size) {
	if e.drawing = nil; e.plan == nil {
		return
	}
	e.scene = words.SceneAt(e.plan, e.delay, e.rise, e.line).Covered()
	e.scene.Setup = "Which delay makes this safe?"
	o := sheet.Options{W: float64(size.Width), H: float64(size.Height), Position: string(e.plan.Setup.Position), Sentence: words.Asked(e.plan)}
	if e.held == nil && !e.holds(o.W) {
		e.view = nil
	}
	o.View = e.view
	e.drawing = sheet.Draw(&e.scene, o)
	view := e.drawing.View
	e.view = &view
	p.Draw(e.drawing.Shapes)
	if e.focused {
		p.Rect(0, 0, p.Px(o.W), p.Px(o.H), nil, paint.Colours().Ink[sheet.Soft], p.Thick(1))
	}
}

// holds reports whether the view shows all of the scene, large enough, on a
// sheet of that width.
func (e *exercise) holds(w float64) bool {
	if e.view == nil || e.drawing == nil {
		return false
	}
	tracks := (w - e.drawing.W + e.drawing.Right - e.drawing.Left) / e.view.Scale
	from, to := float64(e.scene.Span.From), float64(e.scene.Span.To)
	return from >= e.view.From-0.01 && to <= e.view.From+tracks+0.01 && to-from >= paint.LeastShare*tracks
}

// grips reports whether the delay can be taken hold of at p.
func (e *exercise) grips(p sheet.Point) bool {
	if e.drawing == nil {
		return false
	}
	for _, h := range e.drawing.Hots {
		if (h.Part == timeline.PartDelay || h.Part == timeline.PartJump || h.Part == timeline.PartAttack) &&
			p.X >= h.Min.X && p.X <= h.Max.X && p.Y >= h.Min.Y && p.Y <= h.Max.Y {
			return true
		}
	}
	return false
}

// MouseDown takes hold of the delay.
func (e *exercise) MouseDown(ev *desktop.MouseEvent) {
	defer paint.Survive("The exercise")
	if c := fyne.CurrentApp().Driver().CanvasForObject(e); c != nil {
		c.Focus(e)
	}
	if p := paint.Point(ev.Position); e.grips(p) {
		e.held = &hold{frame: e.drawing.Frame(p.X), value: e.delay}
	}
}

// MouseUp lets go of it.
func (e *exercise) MouseUp(*desktop.MouseEvent) { e.DragEnd() }

// Dragged moves it by whole frames.
func (e *exercise) Dragged(ev *fyne.DragEvent) {
	defer paint.Survive("The exercise")
	if h := e.held; h != nil && e.drawing != nil {
		e.wait(int(math.Round(float64(h.value) + e.drawing.Frame(float64(ev.Position.X)) - h.frame)))
	}
}

// DragEnd lets go of it.
func (e *exercise) DragEnd() {
	if e.held != nil {
		e.held = nil
		e.Refresh()
	}
}

// MouseIn implements desktop.Hoverable.
func (e *exercise) MouseIn(ev *desktop.MouseEvent) { e.MouseMoved(ev) }

// MouseMoved implements desktop.Hoverable.
func (e *exercise) MouseMoved(ev *desktop.MouseEvent) { e.over = e.grips(paint.Point(ev.Position)) }

// MouseOut implements desktop.Hoverable.
func (e *exercise) MouseOut() { e.over = false }

// Cursor implements desktop.Cursorable.
func (e *exercise) Cursor() desktop.Cursor {
	if e.over || e.held != nil {
		return desktop.HResizeCursor
	}
	return desktop.DefaultCursor
}

// FocusGained implements fyne.Focusable.
func (e *exercise) FocusGained() { e.focus(true) }

// FocusLost implements fyne.Focusable.
func (e *exercise) FocusLost() { e.focus(false) }

func (e *exercise) focus(on bool) {
	e.focused = on
	e.Refresh()
}

// TypedRune implements fyne.Focusable.
func (e *exercise) TypedRune(rune) {}

// TypedKey moves the delay.
func (e *exercise) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The exercise")
	step := 1
	if e.keys()&fyne.KeyModifierShift != 0 {
		step = paint.BigStep
	}
	switch ev.Name {
	case fyne.KeyLeft:
		e.wait(e.delay - step)
	case fyne.KeyRight:
		e.wait(e.delay + step)
	case fyne.KeyHome:
		e.wait(0)
	default:
		if e.OnKey != nil {
			e.OnKey(ev)
		}
	}
}
