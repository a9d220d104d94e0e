package ui

import (
	"image/color"
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/timeline"
	"wakeline/ui/sheet"
)

// drag is a hand on the sheet, from the press of the button on.
type drag struct {
	at    sheet.Point // where it took hold
	frame float64     // the frame there
	from  float64     // the view's, for a pan
	pan   bool
	part  timeline.Part
	index int

	moving bool // past the first movement
	over   bool // taken back; what the hand still does is ignored

	value   int // the delay, press or advantage that it started from
	fillers []timeline.Span
}

// hints say what a hand can do with a part.
var hints = map[timeline.Part]string{
	timeline.PartDelay:  "Drag the delay, or press Left and Right: one frame each",
	timeline.PartJump:   "Drag the jump to change the delay before it",
	timeline.PartFiller: "Drag a filler past its neighbour to swap them; drop it above or below the track to take it out",
	timeline.PartAttack: "Drag the attack to press it earlier or later in the air ([ and ])",
	timeline.PartRise:   "Drag the wake-up to try another advantage",
}

// grips reports whether a hand can take hold of a part.
func grips(p timeline.Part) bool { return hints[p] != "" }

// MouseDown takes hold of what is under the pointer.
func (t *Timeline) MouseDown(ev *desktop.MouseEvent) {
	defer t.model.survive("The sheet")
	if c := fyne.CurrentApp().Driver().CanvasForObject(t); c != nil {
		c.Focus(t)
	}
	if t.drawing == nil || ev.Button == desktop.MouseButtonSecondary {
		return
	}
	t.hold(ev.Position, ev.Button == desktop.MouseButtonTertiary)
}

// MouseUp lets go where no drag has begun; DragEnd ends one that has.
func (t *Timeline) MouseUp(*desktop.MouseEvent) {
	defer t.model.survive("The sheet")
	if t.drag != nil && !t.drag.moving {
		t.drag = nil
		t.Refresh()
	}
}

func (t *Timeline) hold(pos fyne.Position, pan bool) {
	p := point(pos)
	d := &drag{at: p, frame: t.drawing.Frame(p.X), from: t.view.From, pan: true}
	t.drag = d
	hot := t.drawing.HotAt(p)
	if pan || hot == nil || !grips(hot.Part) {
		return
	}
	s, plan := t.model.Setup(), t.model.Plan()
	d.pan, d.part, d.index = false, hot.Part, hot.Index
	switch hot.Part {
	case timeline.PartDelay, timeline.PartJump:
		d.value = s.Delay
	case timeline.PartAttack:
		d.value = plan.Press()
	case timeline.PartRise:
		d.value = plan.K
	case timeline.PartFiller:
		for _, b := range t.scene.Top {
			if b.Part == timeline.PartFiller {
				d.fillers = append(d.fillers, b.Span)
			}
		}
	}
}

// Dragged moves what is held by whole frames.
func (t *Timeline) Dragged(ev *fyne.DragEvent) {
	defer t.model.survive("The sheet")
	if t.drawing == nil {
		return
	}
	if t.drag == nil {
		t.hold(ev.Position.SubtractXY(ev.Dragged.DX, ev.Dragged.DY), false)
	}
	d := t.drag
	if d.over {
		return
	}
	p := point(ev.Position)
	if d.pan {
		d.moving = true
		t.look(d.from - (p.X-d.at.X)/t.view.Scale)
		return
	}
	if !d.moving {
		d.moving = true
		t.model.Begin()
	}
	n := int(math.Round(t.drawing.Frame(p.X) - d.frame))
	switch d.part {
	case timeline.PartDelay, timeline.PartJump:
		t.model.SetDelay(d.value + n)
	case timeline.PartAttack:
		t.model.SetPress(d.value + n)
	case timeline.PartRise:
		t.model.SetAdvantage(d.value + n)
	case timeline.PartFiller:
		t.dragFiller(p)
	}
}

// offTrack is how far from where it was taken a filler is dropped out, in
// units.
const offTrack = 72

// dragFiller puts the held filler where the pointer is: past a neighbour's
// middle they swap; far off the track it goes out.
func (t *Timeline) dragFiller(p sheet.Point) {
	d := t.drag
	start, ok := t.model.Gesture()
	if !ok || d.index >= len(start.Fillers) || d.index >= len(d.fillers) {
		return
	}
	if math.Abs(p.Y-d.at.Y) > offTrack {
		t.model.SetFillers(without(start.Fillers, d.index))
		return
	}
	f, to := t.drawing.Frame(p.X), d.index
	for i, s := range d.fillers {
		middle := float64(s.From+s.To) / 2
		if i < d.index && f < middle {
			to--
		} else if i > d.index && f > middle {
			to++
		}
	}
	list := moved(start.Fillers, d.index, to)
	if !slices.Equal(list, t.model.Setup().Fillers) {
		t.model.SetFillers(list)
	}
}

// DragEnd lets go: all that the hand did is one step for undo.
func (t *Timeline) DragEnd() {
	defer t.model.survive("The sheet")
	d := t.drag
	t.drag = nil
	if d != nil && d.moving && !d.over && !d.pan {
		t.model.Commit()
	}
	t.Refresh()
}

// takeBack undoes a running drag. It reports whether there was one.
func (t *Timeline) takeBack() bool {
	d := t.drag
	if d == nil || !d.moving || d.over {
		return false
	}
	d.over = true
	if d.pan {
		t.look(d.from)
	} else {
		t.model.Cancel()
	}
	return true
}

// held is the place to mark as held, or as ready to be.
func (t *Timeline) held() *sheet.Hot {
	if t.drawing == nil {
		return nil
	}
	part, index := timeline.Part(0), 0
	switch {
	case t.drag != nil && (t.drag.pan || t.drag.over || t.drag.part == timeline.PartFiller):
		return nil // a filler changes places under the hand
	case t.drag != nil:
		part, index = t.drag.part, t.drag.index
	case t.hover != nil:
		part, index = t.hover.Part, t.hover.Index
	default:
		return nil
	}
	for i := range t.drawing.Hots {
		if h := &t.drawing.Hots[i]; h.Part == part && h.Index == index {
			return h
		}
	}
	return nil
}

// MouseIn implements desktop.Hoverable.
func (t *Timeline) MouseIn(ev *desktop.MouseEvent) { t.MouseMoved(ev) }

// MouseMoved marks what a press would take hold of, and says so.
func (t *Timeline) MouseMoved(ev *desktop.MouseEvent) {
	defer t.model.survive("The sheet")
	if t.drawing == nil || t.drag != nil {
		return
	}
	hot := t.drawing.HotAt(point(ev.Position))
	if hot != nil && !grips(hot.Part) {
		hot = nil
	}
	t.setHover(hot)
}

// MouseOut implements desktop.Hoverable.
func (t *Timeline) MouseOut() {
	if t.drag == nil {
		t.setHover(nil)
	}
}

func (t *Timeline) setHover(hot *sheet.Hot) {
	same := hot == nil && t.hover == nil || hot != nil && t.hover != nil && hot.Part == t.hover.Part && hot.Index == t.hover.Index
	if same {
		return
	}
	t.hover, t.cursor = nil, desktop.DefaultCursor
	hint := ""
	if hot != nil {
		h := *hot
		t.hover, t.cursor, hint = &h, desktop.HResizeCursor, hints[h.Part]
		if h.Part == timeline.PartFiller {
			t.cursor = desktop.PointerCursor
		}
	}
	t.Refresh()
	if t.OnHint != nil {
		t.OnHint(hint)
	}
}

// Cursor implements desktop.Cursorable.
func (t *Timeline) Cursor() desktop.Cursor { return t.cursor }

// Scrolled zooms at the pointer; with Shift, or sideways, it pans.
func (t *Timeline) Scrolled(ev *fyne.ScrollEvent) {
	defer t.model.survive("The sheet")
	if t.drawing == nil {
		return
	}
	const wheel = 40 // units a step of zooming
	dx, dy := float64(ev.Scrolled.DX), float64(ev.Scrolled.DY)
	if t.keys()&fyne.KeyModifierShift != 0 && dx == 0 {
		dx, dy = dy, 0
	}
	if dx != 0 {
		t.look(t.view.From - 3*dx/t.view.Scale)
	}
	if dy != 0 {
		t.Zoom(dy/wheel, float64(ev.Position.X))
	}
}

func point(p fyne.Position) sheet.Point { return sheet.Point{X: float64(p.X), Y: float64(p.Y)} }

// fade is c with a share of its opacity.
func fade(c color.RGBA, share float64) color.RGBA {
	of := func(v uint8) uint8 { return uint8(float64(v)*share + 0.5) }
	return color.RGBA{of(c.R), of(c.G), of(c.B), of(c.A)}
}
