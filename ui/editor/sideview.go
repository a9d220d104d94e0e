package editor

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/timeline"
	"wakeline/timeline/words"
	"wakeline/ui/model"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var (
	_ fyne.Draggable     = (*SideView)(nil)
	_ desktop.Mouseable  = (*SideView)(nil)
	_ desktop.Cursorable = (*SideView)(nil)
)

// SideView shows where both stand on the scrub line's frame, and without the
// line on the frame that tells most. A hand drags the rival, the wall and the
// touchdown in it. Where that is it leaves to the model and the core.
type SideView struct {
	paint.Painted
	paint.Pointed

	OnHint func(string)

	model   *model.Model
	scrub   *Scrub
	drawing *sheet.Drawing
	view    words.SideView
	shown   sideState
	drag    *sideDrag
	cursor  desktop.Cursor
}

// sideState is what a side view is painted from: where it is the same, so is
// what is painted.
type sideState struct {
	plan       *timeline.Plan
	delay      int
	rise, line int
	frame      int
	scrubbed   bool
	held       bool
}

// sideDrag is a hand in the side view.
type sideDrag struct {
	part   timeline.Part
	at     float64    // the unit of the axis where it took hold
	value  int        // the number that it started from
	view   sheet.View // stays while the hand drags: what is held stays under it
	moving bool
}

var sideHints = map[timeline.Part]string{
	timeline.PartPlace:     "Drag the rival to change the distance between both on frame 0",
	timeline.PartWall:      "Drag the wall to change the room behind the rival",
	timeline.PartTouchdown: "Drag the touchdown to take the jump that comes nearest to it",
}

// NewSideView returns a side view of m on the frame of a scrub line.
func NewSideView(m *model.Model, s *Scrub) *SideView {
	v := &SideView{model: m, scrub: s, cursor: desktop.DefaultCursor}
	v.Extend(v, v.paint, v.MinSize)
	v.OnPointer("The side view", func(at fyne.Position) {
		if v.drawing != nil && v.drag == nil {
			v.point(v.drawing.HotAt(paint.Point(at)))
		}
	}, func() { v.point(nil) })
	return v
}

// MinSize holds the view's text.
func (v *SideView) MinSize() fyne.Size { return fyne.NewSize(sheet.MinSideW, sheet.MinSideH) }

// Drawing is the view as it stands, nil before the first.
func (v *SideView) Drawing() *sheet.Drawing { return v.drawing }

// Follow paints again where what is shown is another.
func (v *SideView) Follow() {
	if v.Visible() && v.state() != v.shown {
		v.Refresh()
	}
}

func (v *SideView) state() sideState {
	s := sideState{plan: v.model.Plan(), delay: v.model.Setup().Delay, held: v.drag != nil}
	s.rise, s.line = v.model.Shown()
	if s.frame, s.scrubbed = v.scrub.Frame(); !s.scrubbed {
		s.frame = 0
	}
	return s
}

func (v *SideView) paint(p *paint.Pen, size fyne.Size) {
	v.shown = v.state()
	v.drawing = nil
	if v.shown.plan == nil {
		return
	}
	v.view = words.SideViewAt(v.shown.plan, v.shown.delay, v.shown.rise, v.shown.line)
	o := sheet.SideOptions{W: float64(size.Width), H: float64(size.Height), Frame: v.view.Frame}
	if v.shown.scrubbed {
		o.Frame = v.shown.frame
	}
	if v.drag != nil {
		o.View = &v.drag.view
	}
	v.drawing = sheet.DrawSide(&v.view, o)
	p.Draw(v.drawing.Shapes)
}

// MouseDown takes hold of what is under the pointer.
func (v *SideView) MouseDown(ev *desktop.MouseEvent) {
	defer paint.Survive("The side view")
	if ev.Button == desktop.MouseButtonPrimary {
		v.hold(ev.Position)
	}
}

// MouseUp lets go where no drag has begun; DragEnd ends one that has.
func (v *SideView) MouseUp(*desktop.MouseEvent) {
	defer paint.Survive("The side view")
	if v.drag != nil && !v.drag.moving {
		v.drag = nil
		v.Refresh()
	}
}

// hold begins a drag where there is something to take hold of.
func (v *SideView) hold(pos fyne.Position) {
	v.drag = nil
	if v.drawing == nil {
		return
	}
	at := paint.Point(pos)
	hot := v.drawing.HotAt(at)
	if hot == nil {
		return
	}
	d := &sideDrag{part: hot.Part, at: v.drawing.Frame(at.X), view: v.drawing.View}
	switch hot.Part {
	case timeline.PartPlace:
		d.value = v.view.Distance
	case timeline.PartWall:
		d.value = v.view.Wall.N - v.view.Distance
	case timeline.PartTouchdown:
		d.value = v.view.Travel()
	}
	v.drag = d
}

// Dragged gives the number that the hand has come to.
func (v *SideView) Dragged(ev *fyne.DragEvent) {
	defer paint.Survive("The side view")
	if v.drag == nil {
		v.hold(ev.Position.SubtractXY(ev.Dragged.DX, ev.Dragged.DY))
	}
	d := v.drag
	if d == nil || v.drawing == nil {
		return
	}
	if !d.moving {
		d.moving = true
		v.model.Begin()
	}
	by := int(math.Round(v.drawing.Frame(paint.Point(ev.Position).X) - d.at))
	switch d.part {
	case timeline.PartPlace:
		v.model.SetDistance(d.value + by)
	case timeline.PartWall:
		v.model.SetRoom(d.value + by)
	case timeline.PartTouchdown:
		v.model.JumpTo(d.value + by*v.view.Toward())
	}
}

// DragEnd lets go: all that the hand did is one step for undo.
func (v *SideView) DragEnd() {
	defer paint.Survive("The side view")
	if d := v.drag; d != nil && d.moving {
		v.model.Commit()
	}
	v.drag = nil
	v.Refresh()
}

// TakeBack undoes a running drag. It reports whether there was one.
func (v *SideView) TakeBack() bool {
	if v.drag == nil || !v.drag.moving {
		return false
	}
	v.drag = nil
	v.model.Cancel()
	return true
}

func (v *SideView) point(hot *sheet.Hot) {
	hint, cursor := "", desktop.DefaultCursor
	if hot != nil {
		hint, cursor = sideHints[hot.Part], desktop.HResizeCursor
	}
	if v.cursor = cursor; v.OnHint != nil {
		v.OnHint(hint)
	}
}

// Cursor implements desktop.Cursorable.
func (v *SideView) Cursor() desktop.Cursor { return v.cursor }
