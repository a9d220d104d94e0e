package editor

import (
	"cmp"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/timeline"
	"wakeline/timeline/exercise"
	"wakeline/timeline/words"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var (
	_ fyne.Focusable     = (*Exercise)(nil)
	_ fyne.Draggable     = (*Exercise)(nil)
	_ desktop.Mouseable  = (*Exercise)(nil)
	_ desktop.Cursorable = (*Exercise)(nil)
)

// Exercise is the sheet of a question, with all covered that tells the answer. A
// student drags its delay, which is nobody's but theirs: no setup is edited.
type Exercise struct {
	paint.Keyed
	paint.Pointed

	OnKey func(ev *fyne.KeyEvent) // a key that moves nothing

	keys func() fyne.KeyModifier // held now

	Question *exercise.Question // with a plan; nil: nothing is shown
	Delay    int                // the student's
	Title    string             // what is asked, short
	Sentence string             // under it; empty: what is asked, whole
	Fixed    bool               // the delay stays as it is

	Scene   words.Scene // as it is shown
	Drawing *sheet.Drawing
	view    *sheet.View // nil: fitted at the next draw
	held    *hold       // nil: no hand drags
	over    bool        // what can be dragged lies under the pointer
}

// hold is a hand on the delay.
type hold struct {
	frame float64 // where it took hold
	value int     // the delay that it started from
}

// NewExercise returns one that shows nothing; keys says which modifiers are held.
func NewExercise(keys func() fyne.KeyModifier) *Exercise {
	e := &Exercise{keys: keys}
	e.Extend(e, e.paint, func() fyne.Size { return fyne.NewSize(sheet.MinW, sheet.MinH) })
	e.OnPointer("The exercise", func(at fyne.Position) { e.over = e.grips(paint.Point(at)) }, func() { e.over = false })
	return e
}

// Begin shows a question from its delay on.
func (e *Exercise) Begin(q *exercise.Question) {
	e.Question, e.Delay = q, q.Delay
	e.view, e.held, e.over = nil, nil, false
	e.Refresh()
}

// Turn shows another exchange.
func (e *Exercise) Turn(rise, line int) {
	e.Question.Rise, e.Question.Line, e.view = rise, line, nil
	e.Refresh()
}

// Wait makes the student's delay d, as far as delays go.
func (e *Exercise) Wait(d int) {
	if e.Question == nil || e.Fixed {
		return
	}
	e.Delay = max(0, min(d, e.Question.Plan.LastDelay()))
	e.Refresh()
}

func (e *Exercise) paint(p *paint.Pen, size fyne.Size) {
	q := e.Question
	if e.Drawing = nil; q == nil {
		return
	}
	e.Scene = q.Scene(e.Delay)
	e.Scene.Setup = e.Title
	o := sheet.Options{W: float64(size.Width), H: float64(size.Height), Position: string(q.Plan.Setup.Position), Sentence: cmp.Or(e.Sentence, q.Ask)}
	if e.held == nil && !e.holds(o.W) {
		e.view = nil
	}
	o.View = e.view
	e.Drawing = sheet.Draw(&e.Scene, o)
	view := e.Drawing.View
	e.view = &view
	p.Draw(e.Drawing.Shapes)
	if e.Focused {
		p.Rect(0, 0, p.Px(o.W), p.Px(o.H), nil, paint.Colours().Ink[sheet.Soft], p.Thick(1))
	}
}

// holds reports whether the view shows all of the scene, large enough, on a
// sheet of that width.
func (e *Exercise) holds(w float64) bool {
	if e.view == nil || e.Drawing == nil {
		return false
	}
	tracks := (w - e.Drawing.W + e.Drawing.Right - e.Drawing.Left) / e.view.Scale
	from, to := float64(e.Scene.Span.From), float64(e.Scene.Span.To)
	return from >= e.view.From-0.01 && to <= e.view.From+tracks+0.01 && to-from >= paint.LeastShare*tracks
}

// grips reports whether the delay can be taken hold of at p.
func (e *Exercise) grips(p sheet.Point) bool {
	if e.Drawing == nil || e.Fixed {
		return false
	}
	for _, h := range e.Drawing.Hots {
		if (h.Part == timeline.PartDelay || h.Part == timeline.PartJump || h.Part == timeline.PartAttack) &&
			p.X >= h.Min.X && p.X <= h.Max.X && p.Y >= h.Min.Y && p.Y <= h.Max.Y {
			return true
		}
	}
	return false
}

// MouseDown takes hold of the delay.
func (e *Exercise) MouseDown(ev *desktop.MouseEvent) {
	defer paint.Survive("The exercise")
	paint.FocusOn(e)
	if p := paint.Point(ev.Position); e.grips(p) {
		e.held = &hold{frame: e.Drawing.Frame(p.X), value: e.Delay}
	}
}

// MouseUp lets go of it.
func (e *Exercise) MouseUp(*desktop.MouseEvent) { e.DragEnd() }

// Dragged moves it by whole frames.
func (e *Exercise) Dragged(ev *fyne.DragEvent) {
	defer paint.Survive("The exercise")
	if h := e.held; h != nil && e.Drawing != nil {
		e.Wait(int(math.Round(float64(h.value) + e.Drawing.Frame(float64(ev.Position.X)) - h.frame)))
	}
}

// DragEnd lets go of it.
func (e *Exercise) DragEnd() {
	if e.held != nil {
		e.held = nil
		e.Refresh()
	}
}

// Cursor implements desktop.Cursorable.
func (e *Exercise) Cursor() desktop.Cursor {
	if e.over || e.held != nil {
		return desktop.HResizeCursor
	}
	return desktop.DefaultCursor
}

// TypedKey moves the delay.
func (e *Exercise) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The exercise")
	step := 1
	if e.keys()&fyne.KeyModifierShift != 0 {
		step = paint.BigStep
	}
	switch ev.Name {
	case fyne.KeyLeft:
		e.Wait(e.Delay - step)
	case fyne.KeyRight:
		e.Wait(e.Delay + step)
	case fyne.KeyHome:
		e.Wait(0)
	default:
		if e.OnKey != nil {
			e.OnKey(ev)
		}
	}
}
