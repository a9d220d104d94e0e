package editor

import (
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

// grasp is what a hand does on the sheet.
type grasp uint8

// The grasps.
const (
	graspNothing grasp = iota
	graspPaper         // pans
	graspGround        // draws a band around fillers
	graspBlock         // drags a block
)

// drag is a hand on the sheet, from the press of the button on.
type drag struct {
	does  grasp
	at    sheet.Point // where it took hold
	to    sheet.Point // where it is
	frame float64     // the frame where it took hold
	from  float64     // the view's, for a pan
	part  timeline.Part
	index int

	moving bool // past the first movement
	over   bool // taken back; what the hand still does is ignored

	value   int // the number that it started from
	fillers []timeline.Span
	chosen  Selection // at the press
	alone   bool      // let go without a movement, it alone is chosen
	follow  bool      // the deciding reply was followed
}

// Hints say what a hand can do with a part.
var Hints = map[timeline.Part]string{
	timeline.PartEnder:   "The ender: replace it from the blocks (/)",
	timeline.PartDelay:   "Drag the delay, or press Left and Right: one frame each; type a number",
	timeline.PartJump:    "Drag the jump to change the delay before it; Delete removes it",
	timeline.PartFiller:  "Drag a filler past its neighbour to swap them; drop it above or below the track to remove it",
	timeline.PartAttack:  "Drag the attack to press it earlier or later in the air ([ and ]); type an air frame",
	timeline.PartLanding: "The landing action: replace it from the blocks (/); Delete goes back to the guard",
	timeline.PartRise:    "Drag the wake-up to try another knockdown advantage; type a number",
	timeline.PartReply:   "Drag the reply to do it later; type how many frames late; Delete removes it",
}

// hintOf says what a hand can do with a part as it stands.
func (t *Timeline) hintOf(part timeline.Part) string {
	switch {
	case part == timeline.PartReply && t.model.Reply() < 0:
		return "This reply is always judged; choose another in the table under the sheet"
	case part == timeline.PartLanding && t.waits(part):
		return "Drag it to change the delay before it; replace it from the blocks (/); Delete goes back to the guard"
	}
	return Hints[part]
}

// grips reports whether a hand can drag a part.
func (t *Timeline) grips(part timeline.Part) bool {
	switch part {
	case timeline.PartFiller, timeline.PartAttack, timeline.PartRise:
		return true
	case timeline.PartReply:
		return t.model.Reply() >= 0
	}
	return t.waits(part)
}

// MouseDown chooses and takes hold of what is under the pointer.
func (t *Timeline) MouseDown(ev *desktop.MouseEvent) {
	defer paint.Survive("The sheet")
	paint.FocusOn(t)
	if t.drawing == nil || ev.Button == desktop.MouseButtonSecondary {
		return
	}
	t.hold(ev.Position, ev.Button == desktop.MouseButtonTertiary, ev.Modifier)
}

// MouseUp lets go where no drag has begun; DragEnd ends one that has.
func (t *Timeline) MouseUp(*desktop.MouseEvent) {
	defer paint.Survive("The sheet")
	if d := t.drag; d != nil && !d.moving {
		t.drag = nil
		if d.alone {
			t.Select(One(d.part, d.index))
		}
		t.Refresh()
	}
}

// hold begins a drag at pos. With Shift on bare ground, or off the tracks, the
// paper is held; with Control or Shift on a block, what is chosen grows.
func (t *Timeline) hold(pos fyne.Position, pan bool, mod fyne.KeyModifier) {
	p := paint.Point(pos)
	d := &drag{at: p, to: p, frame: t.drawing.Frame(p.X), from: t.CurrentView.From, chosen: t.Chosen, follow: t.model.Follows()}
	t.drag = d
	more := mod&(fyne.KeyModifierControl|fyne.KeyModifierShift) != 0
	hot := t.drawing.HotAt(p)
	switch {
	case pan, hot == nil && (mod&fyne.KeyModifierShift != 0 || p.Y < t.drawing.Top.From || p.Y > t.drawing.Bottom.To):
		d.does = graspPaper
		return
	case hot == nil:
		d.does = graspGround
		if !more {
			d.chosen = Selection{}
			t.Select(Selection{})
		}
		return
	}
	d.part, d.index = hot.Part, hot.Index
	t.press(d, mod)
	if !t.grips(d.part) || d.part == timeline.PartFiller && !t.Chosen.has(d.part, d.index) {
		return
	}
	d.does, d.chosen = graspBlock, t.Chosen
	d.value, _ = t.Value(d.part)
	for _, b := range t.Scene.Top {
		if b.Part == timeline.PartFiller {
			d.fillers = append(d.fillers, b.Span)
		}
	}
}

// press chooses the block that a press takes hold of.
func (t *Timeline) press(d *drag, mod fyne.KeyModifier) {
	filler := d.part == timeline.PartFiller
	switch {
	case filler && mod&fyne.KeyModifierShift != 0:
		t.Select(t.Chosen.reaching(d.index))
	case filler && mod&fyne.KeyModifierControl != 0:
		t.Select(t.Chosen.toggled(d.index))
	case t.Chosen.has(d.part, d.index):
		d.alone = filler // several stay chosen for a drag
	default:
		t.Select(One(d.part, d.index))
	}
}

// Dragged moves what is held by whole frames.
func (t *Timeline) Dragged(ev *fyne.DragEvent) {
	defer paint.Survive("The sheet")
	if t.drawing == nil {
		return
	}
	if t.drag == nil {
		t.hold(ev.Position.SubtractXY(ev.Dragged.DX, ev.Dragged.DY), false, 0)
	}
	d := t.drag
	if d.over {
		return
	}
	d.to = paint.Point(ev.Position)
	switch d.does {
	case graspPaper:
		d.moving = true
		t.LookAt(d.from - (d.to.X-d.at.X)/t.CurrentView.Scale)
	case graspGround:
		d.moving = true
		t.chooseInBand()
	case graspBlock:
		if !d.moving {
			d.moving = true
			t.model.Begin()
		}
		t.dragBlock()
	}
}

// dragBlock gives the number or the place that the hand has come to.
func (t *Timeline) dragBlock() {
	d := t.drag
	if d.part == timeline.PartFiller {
		t.dragFillers()
		return
	}
	n := t.snapped(t.drawing.Frame(d.to.X) - d.frame)
	switch d.part {
	case timeline.PartDelay, timeline.PartJump, timeline.PartLanding:
		t.model.SetDelay(n)
	case timeline.PartAttack:
		t.model.SetPress(n)
	case timeline.PartRise:
		t.model.SetAdvantage(n)
	case timeline.PartReply:
		if err := t.model.SetLate(max(n, 0)); err != nil {
			t.hint(model.WhyNot(err))
		}
	}
	t.Repaint() // where nothing has changed, the tag and the guide may have
}

// offTrack is how far from where it was taken a filler is dropped out, in
// units.
const offTrack = 72

// dragFillers puts the fillers held where the pointer is, as one run: past a
// neighbour's middle they swap; far off the track they go out.
func (t *Timeline) dragFillers() {
	d := t.drag
	start, ok := t.model.Gesture()
	if !ok || len(d.fillers) != len(start.Fillers) {
		return
	}
	at := d.chosen.fillers()
	rest, run := parted(start.Fillers, at)
	if math.Abs(d.to.Y-d.at.Y) > offTrack {
		t.Chosen = Selection{}
		t.model.SetFillers(rest)
		return
	}
	f, to := t.drawing.Frame(d.to.X), 0
	for i, s := range d.fillers {
		if middle := float64(s.From+s.To) / 2; middle < f && !slices.Contains(at, i) {
			to++
		}
	}
	t.Chosen = FillersChosen(to, to+len(run))
	list := slices.Insert(rest, to, run...)
	if slices.Equal(list, t.model.Setup().Fillers) {
		t.Repaint()
	} else {
		t.model.SetFillers(list)
	}
}

// chooseInBand chooses the fillers that the band touches, beside those that
// were chosen before where the press said so.
func (t *Timeline) chooseInBand() {
	d := t.drag
	lo := sheet.Point{X: min(d.at.X, d.to.X), Y: min(d.at.Y, d.to.Y)}
	hi := sheet.Point{X: max(d.at.X, d.to.X), Y: max(d.at.Y, d.to.Y)}
	s := Selection{part: timeline.PartFiller, at: slices.Clone(d.chosen.fillers())}
	for _, h := range t.drawing.Hots {
		if h.Part == timeline.PartFiller && h.Min.X < hi.X && h.Max.X > lo.X && h.Min.Y < hi.Y && h.Max.Y > lo.Y {
			s.at = append(s.at, h.Index)
		}
	}
	slices.Sort(s.at)
	s.at = slices.Compact(s.at)
	s.on = len(s.at) > 0
	t.Select(s)
}

// paintBand draws the band.
func (t *Timeline) paintBand(p *paint.Pen, _ *sheet.Drawing) {
	d := t.drag
	if d == nil || d.does != graspGround || !d.moving || d.over {
		return
	}
	p.Box(&sheet.Box{
		Min:    sheet.Point{X: min(d.at.X, d.to.X), Y: min(d.at.Y, d.to.Y)},
		Max:    sheet.Point{X: max(d.at.X, d.to.X), Y: max(d.at.Y, d.to.Y)},
		Stroke: sheet.Ink, Width: 1, Dashed: true,
	})
}

// DragEnd lets go: all that the hand did is one step for undo.
func (t *Timeline) DragEnd() {
	defer paint.Survive("The sheet")
	d := t.drag
	t.drag = nil
	if d != nil && d.moving && !d.over && d.does == graspBlock {
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
	switch d.does {
	case graspPaper:
		t.LookAt(d.from)
	case graspGround:
		t.Select(d.chosen)
	case graspBlock:
		t.Chosen = d.chosen
		t.model.Cancel()
		if d.follow && !t.model.Follows() {
			t.model.Follow()
		}
	}
	return true
}

// held is the place to mark as held, or as ready to be.
func (t *Timeline) held() *sheet.Hot {
	switch d := t.drag; {
	case d != nil && (d.does != graspBlock || d.over || d.part == timeline.PartFiller):
		return nil // a filler changes places under the hand
	case d != nil:
		return t.Hot(d.part, d.index)
	case t.Hover != nil:
		return t.Hot(t.Hover.Part, t.Hover.Index)
	}
	return nil
}

// MouseIn implements desktop.Hoverable.
func (t *Timeline) MouseIn(ev *desktop.MouseEvent) { t.MouseMoved(ev) }

// MouseMoved marks what a press would take hold of, says so, and tells about
// it on a card.
func (t *Timeline) MouseMoved(ev *desktop.MouseEvent) {
	defer paint.Survive("The sheet")
	if t.drawing == nil || t.drag != nil {
		return
	}
	if t.Ghost != nil { // what lies under a block that is carried is told by it
		t.setHover(nil)
		return
	}
	t.pointer = paint.Point(ev.Position)
	hot := t.drawing.HotAt(t.pointer)
	t.setHover(hot)
	if hot != nil && t.Card == nil {
		t.lookAt(hot)
	}
	if t.Card != nil {
		t.Repaint()
	}
}

// MouseOut implements desktop.Hoverable.
func (t *Timeline) MouseOut() {
	defer paint.Survive("The sheet")
	if t.drag == nil {
		t.setHover(nil)
	}
}

func (t *Timeline) setHover(hot *sheet.Hot) {
	same := hot == nil && t.Hover == nil || hot != nil && t.Hover != nil && hot.Part == t.Hover.Part && hot.Index == t.Hover.Index
	if same {
		return
	}
	t.Hover, t.Card, t.cursor = nil, nil, desktop.DefaultCursor
	hint := ""
	if hot != nil {
		h := *hot
		t.Hover, t.cursor, hint = &h, desktop.PointerCursor, t.hintOf(h.Part)
		if h.Part != timeline.PartFiller && t.grips(h.Part) {
			t.cursor = desktop.HResizeCursor
		}
	}
	t.Repaint()
	t.hint(hint)
}

// Cursor implements desktop.Cursorable.
func (t *Timeline) Cursor() desktop.Cursor { return t.cursor }

// Scrolled zooms at the pointer; with Shift, or sideways, it pans.
func (t *Timeline) Scrolled(ev *fyne.ScrollEvent) {
	defer paint.Survive("The sheet")
	if t.drawing == nil {
		return
	}
	const wheel = 40 // units a step of zooming
	dx, dy := float64(ev.Scrolled.DX), float64(ev.Scrolled.DY)
	if t.Keys()&fyne.KeyModifierShift != 0 && dx == 0 {
		dx, dy = dy, 0
	}
	if dx != 0 {
		t.LookAt(t.CurrentView.From - 3*dx/t.CurrentView.Scale)
	}
	if dy != 0 {
		t.Zoom(dy/wheel, float64(ev.Position.X))
	}
}
