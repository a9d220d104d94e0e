package sheet

import (
	"math"

	"wakeline/timeline"
)

// Lane is a strip in which one reply stands as thin bars, on the scale of
// frames of the sheet over it.
type Lane struct {
	Left, Right float64 // the tracks
	Top, End    float64 // of the bars
	View        View
}

// laneEm is the measure that a lane's lines are drawn with, in units.
const laneEm = 9.5

// Draw appends the shapes of a scene's lower blocks to into: what the lane
// cuts off stays out of it.
func (l *Lane) Draw(into []Shape, blocks []timeline.Block) []Shape {
	p := pen{d: &Drawing{Shapes: into, Left: l.Left, View: l.View}}
	p.em, p.left, p.right = laneEm, l.Left, l.Right
	for i := range blocks {
		b := &blocks[i]
		if b.Part == timeline.PartRise {
			p.lies(b.Span, l.Top, l.End)
			continue
		}
		p.block(b, l.Top, l.End, blank(b) && b.Pieces[0].Phase != timeline.Motion)
		for _, m := range b.Marks { // a bracket's line: hovering says which
			if x0, x1, _, _, ok := p.clip(float64(m.Span.From), float64(m.Span.To)); ok {
				p.line(x0, l.Top-2.5, x1, l.Top-2.5, medium, Ink)
			}
		}
	}
	return p.d.Shapes
}

// lies is a rival on the ground up to its wake-up.
func (p *pen) lies(s timeline.Span, y0, y1 float64) {
	if x0, x1, _, openR, ok := p.clip(float64(s.From), float64(s.To)); ok {
		p.line(x0, y1, x1, y1, hair, Soft)
		if !openR {
			p.line(x1, y0-1, x1, y1, medium, Ink)
		}
	}
}

// X is where frame f begins, and whether that is in the tracks.
func (l *Lane) X(f int) (x float64, in bool) {
	x = l.Left + (float64(f)-l.View.From)*l.View.Scale
	return x, x >= l.Left-0.01 && x <= l.Right+0.01
}

// Clip cuts frames [from, to) to the tracks; ok is false where nothing of
// them is in view.
func (l *Lane) Clip(s timeline.Span) (x0, x1 float64, ok bool) {
	x0, _ = l.X(s.From)
	x1, _ = l.X(s.To)
	x0, x1 = math.Max(x0, l.Left), math.Min(x1, l.Right)
	return x0, x1, x1-x0 > 0.01
}

// MeetingMark is the tick of a lane's meeting on frame f: a bar over the
// lane's height whose ends say the judgement by their shape, as the edges of
// the sheet's wash do.
func (l *Lane) MeetingMark(into []Shape, f int, j timeline.Judgement) []Shape {
	x, in := l.X(f)
	if !in {
		return into
	}
	y0, y1, role := l.Top-4, l.End+3, RoleOf(j)
	switch j {
	case timeline.JudgedUnsafe:
		return append(into, Path{Points: zigzag(x, y0, y1, 3, 5), Stroke: role, Width: 2})
	case timeline.JudgedEven:
		return append(into, Line{From: Point{x, y0}, To: Point{x, y1}, Stroke: role, Width: 1.5, Dashed: true})
	case timeline.JudgedLimited:
		n := 3.0
		return append(into, Path{Points: []Point{{x - n, y0}, {x, y0}, {x, y1}, {x + n, y1}}, Stroke: role, Width: 2})
	}
	return append(into, Line{From: Point{x, y0}, To: Point{x, y1}, Stroke: role, Width: 2})
}
