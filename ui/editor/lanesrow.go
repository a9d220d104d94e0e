package editor

import (
	"fmt"
	"image/color"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/timeline"
	"wakeline/timeline/words"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var (
	_ fyne.Focusable     = (*lanesBody)(nil)
	_ fyne.Tappable      = (*lanesBody)(nil)
	_ desktop.Cursorable = (*lanesBody)(nil)
)

// lanesBody is the stack of lanes, of which it paints those in view. A click
// shows a reply above, and so do the arrow keys.
type lanesBody struct {
	paint.Keyed
	paint.Pointed
	l      *Lanes
	hover  int
	shapes []sheet.Shape
	column float32 // where the outcomes end
}

// inView is the lanes that the scroller shows, and the heights it shows.
func (b *lanesBody) inView() (from, to int, top, end float32) {
	top = b.l.Rows.Offset.Y
	end = top + b.l.Rows.Size().Height
	return max(int(top/LaneRow), 0), min(int(end/LaneRow)+1, len(b.l.Lanes)), top, end
}

func (b *lanesBody) paint(p *paint.Pen, size fyne.Size) {
	l := b.l
	if l.plan == nil || l.sheet.Drawing() == nil || l.model.Plan() != l.plan {
		return
	}
	from, to, top, end := b.inView()
	b.references(p, top, end)
	b.column = b.words(from, to)
	at := l.at()
	for i := from; i < to; i++ {
		b.lane(p, size, i, b.ground(p, size, i, i == at))
	}
	if b.Focused {
		p.Rect(p.Px(0), p.Px(float64(top)), p.Px(float64(size.Width)), p.Px(float64(end)), nil, paint.Colours().Ink[sheet.Soft], p.Thick(1))
	}
}

// references are the frames on which the attacker can touch, as a wash, and
// the one from which it guards, as a line, through all lanes.
func (b *lanesBody) references(p *paint.Pen, top, end float32) {
	l := b.l
	lane := l.Strip(0)
	for _, s := range l.sheet.Scene.Touches() {
		if x0, x1, ok := lane.Clip(s); ok {
			p.Rect(p.Px(x0), p.Px(float64(top)), p.Px(x1), p.Px(float64(end)), paint.Colours().Blend(sheet.Ink, 0.10), nil, 0)
		}
	}
	if x, in := lane.X(l.sheet.Scene.GuardsFrom); in {
		p.Line(&sheet.Line{From: sheet.Point{X: x, Y: float64(top)}, To: sheet.Point{X: x, Y: float64(end)}, Stroke: sheet.Soft, Width: 1, Dashed: true})
	}
}

// Strip is where lane i draws.
func (l *Lanes) Strip(i int) sheet.Lane {
	y := float64(i * LaneRow)
	return sheet.Lane{Left: l.shown.left, Right: l.shown.right, Top: y + laneTop, End: y + laneEnd, View: l.shown.view}
}

// ground marks the shown lane and the one under the pointer. It returns what
// words stand on there.
func (b *lanesBody) ground(p *paint.Pen, size fyne.Size, i int, shown bool) color.Color {
	y0, y1 := float64(i*LaneRow), float64((i+1)*LaneRow)
	p.Line(&sheet.Line{From: sheet.Point{X: 0, Y: y1}, To: sheet.Point{X: float64(size.Width), Y: y1}, Stroke: sheet.Rule, Width: 1})
	ink, share := paint.Colours().Ink[sheet.Ink], 0.0
	var edge color.Color
	switch {
	case shown:
		share, edge = 0.08, ink
	case i == b.hover:
		share = 0.05
	default:
		return paint.Colours().Ink[sheet.Paper]
	}
	p.Rect(0, p.Px(y0), p.Px(float64(size.Width)), p.Px(y1), paint.Fade(ink, share), edge, p.Thick(1))
	return paint.Colours().Blend(sheet.Ink, share)
}

func (b *lanesBody) lane(p *paint.Pen, size fyne.Size, i int, ground color.Color) {
	l := b.l
	lane, s := &l.Lanes[i], l.Strip(i)
	b.shapes = s.Draw(b.shapes[:0], l.Rival(lane))
	if m := lane.Cell.Meeting; m.Given {
		b.shapes = s.MeetingMark(b.shapes, m.N, lane.Mark)
	}
	p.Draw(b.shapes)

	base := float32(i*LaneRow) + 17
	p.Mark(lane.Mark, 8, float64(base)-12)
	words := l.wrapper.Fit(l.ending(lane), size.Width/3)
	x := b.column - l.wrapper.WidthOf(words)
	b.over(p, words, x, base, ground)
	room := float32(l.shown.left)
	if wake, in := s.X(l.model.Verdict().Rises[lane.Rise].Wake); in { // nothing stands before it
		room = float32(wake)
	}
	if x < room {
		room = x
	}
	b.over(p, l.wrapper.Fit(lane.Title, room-laneName-8), laneName, base, ground)
}

// words says where the lanes' outcomes end: before anybody can touch, where the names leave them room there, else at the right, over what ends
// there.
func (b *lanesBody) words(from, to int) float32 {
	l := b.l
	first := timeline.Width
	for _, r := range l.model.Verdict().Rises {
		first = min(first, r.Wake)
	}
	if t := l.sheet.Scene.Touches(); len(t) > 0 {
		first = min(first, t[0].From)
	}
	lane := l.Strip(0)
	x, in := lane.X(first)
	need := float32(0)
	for i := from; i < to; i++ {
		need = max(need, l.wrapper.WidthOf(l.ending(&l.Lanes[i])))
	}
	if !in || float32(x)-need < laneName+namesLeast {
		return float32(l.shown.right) - 2
	}
	return float32(x) - 8
}

// namesLeast is the room that names keep before the outcomes.
const namesLeast = 130

// over writes on a ground of its own, so that no bar runs through the words.
func (b *lanesBody) over(p *paint.Pen, s string, x, base float32, ground color.Color) {
	if s == "" {
		return
	}
	n := b.l.wrapper.WidthOf(s)
	p.Rect(p.Px(float64(x-3)), p.Px(float64(base-13)), p.Px(float64(x+n+3)), p.Px(float64(base+4)), ground, nil, 0)
	t := paint.ColumnText(s, x, base, sheet.Ink)
	t.Size = paint.CaptionSize
	p.Text(&t)
}

// ending is a lane's outcome, its frame and the number that matters most, with
// the rise where lanes may have several.
func (l *Lanes) ending(lane *timeline.Lane) string {
	got := &l.model.Verdict().Rises[lane.Rise].Replies[lane.Line]
	say := got.Outcome.String()
	if got.Meeting.Given { // it may lie out of view
		say += " on " + strconv.Itoa(got.Meeting.N)
	}
	if n := words.MainNumber(got); n != "" {
		say += ", " + n
	}
	if l.shown.worst && l.plan.Rises() > 1 {
		say = l.model.Verdict().Rises[lane.Rise].Rise + ": " + say
	}
	return say
}

// numbers tells all that a lane's exchange comes to.
func (l *Lanes) numbers(lane *timeline.Lane) string {
	v := &l.model.Verdict().Rises[lane.Rise]
	got := &v.Replies[lane.Line]
	say := []string{fmt.Sprintf("%s, %s rise, wake-up on %d: %s", lane.Title, v.Rise, v.Wake, got.Outcome)}
	if got.Meeting.Given {
		say[0] += " on " + strconv.Itoa(got.Meeting.N)
	}
	add := func(n timeline.Maybe, format string) {
		if n.Given {
			say = append(say, fmt.Sprintf(format, n.N))
		}
	}
	add(got.Spare, "%d to spare")
	add(got.AfterWake, "%d after the wake-up")
	add(got.Advantage, "advantage %+d")
	add(got.ToPunish, "to punish %+d")
	if got.Demand == timeline.Survive || got.Demand == timeline.Beat {
		say = append(say, "to "+string(got.Demand))
	}
	return strings.Join(say, ", ")
}

func (b *lanesBody) hit(pos fyne.Position) int {
	if i := int(pos.Y / LaneRow); pos.Y >= 0 && i < len(b.l.Lanes) {
		return i
	}
	return -1
}

// Tapped shows the lane's reply above.
func (b *lanesBody) Tapped(ev *fyne.PointEvent) {
	defer paint.Survive("The lanes")
	paint.FocusOn(b)
	if i := b.hit(ev.Position); i >= 0 {
		b.l.choose(i)
	}
}

func (b *lanesBody) setHover(i int) {
	if i == b.hover {
		return
	}
	b.hover = i
	b.Refresh()
	if b.l.OnHint == nil {
		return
	}
	if i < 0 || b.l.model.Plan() != b.l.plan {
		b.l.OnHint("")
	} else {
		b.l.OnHint(b.l.numbers(&b.l.Lanes[i]))
	}
}

// TypedKey walks the lanes; what means nothing to them is the sheet's.
func (b *lanesBody) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The lanes")
	l := b.l
	page := max(int(l.Rows.Size().Height)/LaneRow-1, 1)
	switch ev.Name {
	case fyne.KeyUp:
		l.walk(-1)
	case fyne.KeyDown:
		l.walk(1)
	case fyne.KeyPageUp:
		l.walk(-page)
	case fyne.KeyPageDown:
		l.walk(page)
	case fyne.KeyHome:
		l.walk(-len(l.Lanes))
	case fyne.KeyEnd:
		l.walk(len(l.Lanes))
	default:
		l.sheet.TypedKey(ev)
	}
}

// TypedRune changes the choice of rises; else it is the sheet's.
func (b *lanesBody) TypedRune(r rune) {
	defer paint.Survive("The lanes")
	if r == 'r' || r == 'R' {
		b.l.SetWorst(!b.l.Worst)
		return
	}
	b.l.sheet.TypedRune(r)
}

// Cursor implements desktop.Cursorable.
func (b *lanesBody) Cursor() desktop.Cursor { return desktop.PointerCursor }
