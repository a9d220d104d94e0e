package drill

import (
	"fmt"
	"math"

	"fyne.io/fyne/v2"

	"wakeline/timeline/odds"
	"wakeline/ui/model"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

// strip shows the presses of a drill in ink, by how late each came,
// stacked over the window that they were to land in, and under it what they
// say of the hand.
type strip struct {
	paint.Painted
	wrapper paint.Wrapper
	clock   *clock  // nil: nothing is shown
	frame   float64 // milliseconds
}

// The measures of the strip, in units.
const (
	stripHigh  = 132
	stripTop   = 4
	stripBase  = 86            // of the stacks, from the top
	stripFirst = stripBase - 8 // the middle of the lowest dot
	stripPad   = 14
	stripDot   = 6
	stripReach = 9 // frames on both sides
)

func newStrip() *strip {
	s := &strip{wrapper: paint.Wrapper{Size: paint.CaptionSize}}
	s.Extend(s, s.paint, func() fyne.Size { return fyne.NewSize(360, stripHigh) })
	return s
}

// stripSpot is a press on the strip: a dot, or at the strip's end the head of
// an arrow for one that is off the scale.
type stripSpot struct {
	x, y float64
	open bool // of the attack
	off  int  // off the scale: -1 early, 1 late; else 0
}

// x is where so many milliseconds after the aim stand, no further than the
// strip's ends.
func (s *strip) x(ms float64, width float32) float64 {
	half := (float64(width) - 2*stripPad) / 2
	return float64(width)/2 + half*min(max(ms/(s.frame*stripReach), -1), 1)
}

// off is -1 where a press is too early for the strip, 1 where it is too late,
// else 0.
func (s *strip) off(p *press) int {
	switch f := p.Late / s.frame; {
	case f < -stripReach:
		return -1
	case f >= stripReach:
		return 1
	}
	return 0
}

// pastEnds counts the presses off the scale, on both sides.
func (s *strip) pastEnds() (early, late int) {
	for i := range s.clock.presses {
		switch s.off(&s.clock.presses[i]) {
		case -1:
			early++
		case 1:
			late++
		}
	}
	return early, late
}

// offScale says which presses are off the scale.
func (s *strip) offScale() (out []string) {
	early, late := s.pastEnds()
	if early > 0 {
		out = append(out, fmt.Sprintf("Off the scale: %s more than %d frames early.", model.CountOf(early, "press"), stripReach))
	}
	if late > 0 {
		out = append(out, fmt.Sprintf("Off the scale: %s more than %d frames late.", model.CountOf(late, "press"), stripReach))
	}
	return out
}

// spots stacks the presses, two places a frame, and a place at each end for
// those off the scale. A stack that is too high for the strip draws closer, and
// all others with it.
func (s *strip) spots(width float32) (out []stripSpot) {
	const room = stripFirst - stripTop - stripDot/2
	high := map[int]int{}
	place := func(p *press) int {
		if off := s.off(p); off != 0 {
			return off * 3 * stripReach
		}
		return int(math.Floor(2 * p.Late / s.frame))
	}
	step := float64(stripDot + 1)
	for i := range s.clock.presses {
		at := place(&s.clock.presses[i])
		if n := high[at]; n > 0 {
			step = min(step, room/float64(n))
		}
		high[at]++
	}
	clear(high)
	for i := range s.clock.presses {
		p := &s.clock.presses[i]
		at := place(p)
		x, off := s.x((float64(at)+0.5)/2*s.frame, width), s.off(p)
		if off != 0 {
			x = float64(width)/2 + float64(off)*(float64(width)/2-stripPad/2)
		}
		out = append(out, stripSpot{x, stripFirst - float64(high[at])*step, p.what == pressOfAttack, off})
		high[at]++
	}
	return out
}

func (s *strip) paint(p *paint.Pen, size fyne.Size) {
	if s.clock == nil {
		return
	}
	w := size.Width
	for _, r := range s.clock.drill.Around(s.clock.drill.Jump) {
		p.Box(&sheet.Box{Min: sheet.Point{X: s.x(r[0], w), Y: stripTop}, Max: sheet.Point{X: s.x(r[1], w), Y: stripBase}, Fill: sheet.Safe, Texture: sheet.Tint})
		p.Box(&sheet.Box{Min: sheet.Point{X: s.x(r[0], w), Y: stripBase - 2}, Max: sheet.Point{X: s.x(r[1], w), Y: stripBase + 2}, Fill: sheet.Safe, Texture: sheet.Solid})
	}
	p.Line(&sheet.Line{From: sheet.Point{X: stripPad, Y: stripBase}, To: sheet.Point{X: float64(w) - stripPad, Y: stripBase}, Stroke: sheet.Soft, Width: 1})
	for i := -stripReach; i <= stripReach; i++ {
		x := s.x(float64(i)*s.frame, w)
		p.Line(&sheet.Line{From: sheet.Point{X: x, Y: stripBase}, To: sheet.Point{X: x, Y: stripBase + 4}, Stroke: sheet.Soft, Width: 1})
	}
	middle := float64(w) / 2
	p.Line(&sheet.Line{From: sheet.Point{X: middle, Y: stripTop}, To: sheet.Point{X: middle, Y: stripBase}, Stroke: sheet.Soft, Width: 1, Dashed: true})
	for _, d := range s.spots(w) {
		d.paint(p)
	}
	write := func(text string, x float32, a sheet.Anchor) {
		t := paint.ColumnText(text, x, stripBase+20, sheet.Soft)
		t.Size, t.Anchor = paint.CaptionSize, a
		p.Text(&t)
	}
	early, late := "early", "late; one tick per frame"
	if n, m := s.pastEnds(); n > 0 || m > 0 {
		early, late = fmt.Sprintf("early, %d off the scale", n), fmt.Sprintf("late, %d off the scale", m)
	}
	write(early, stripPad, sheet.AtStart)
	write("the aim", w/2, sheet.AtMiddle)
	write(late, w-stripPad, sheet.AtEnd)
	s.paintHand(p, w)
}

// paint draws a press.
func (d *stripSpot) paint(p *paint.Pen) {
	const half = stripDot / 2
	if d.off != 0 {
		tip, back := d.x+float64(d.off)*half, d.x-float64(d.off)*half
		arrow := sheet.Path{Points: []sheet.Point{{X: tip, Y: d.y}, {X: back, Y: d.y - half - 1}, {X: back, Y: d.y + half + 1}}, Closed: true, Fill: sheet.Ink}
		if d.open {
			arrow.Fill, arrow.Stroke, arrow.Width = sheet.None, sheet.Ink, 1
		}
		p.Path(&arrow)
		return
	}
	b := sheet.Box{Min: sheet.Point{X: d.x - half, Y: d.y - half}, Max: sheet.Point{X: d.x + half, Y: d.y + half}, Fill: sheet.Ink, Texture: sheet.Solid}
	if d.open {
		b.Fill, b.Stroke, b.Width = sheet.None, sheet.Ink, 1
	}
	p.Box(&b)
}

// paintHand draws the bias, and the spread on both sides of it. What is off
// the scale is not drawn.
func (s *strip) paintHand(p *paint.Pen, w float32) {
	e, err := odds.Measure(s.clock.late())
	if err != nil {
		return
	}
	const y = stripBase + 31
	x, from, to := s.x(e.RobustBias.Value, w), s.x(e.RobustBias.Value-e.RobustSpread.Value, w), s.x(e.RobustBias.Value+e.RobustSpread.Value, w)
	p.Line(&sheet.Line{From: sheet.Point{X: from, Y: y}, To: sheet.Point{X: to, Y: y}, Stroke: sheet.Ink, Width: 1.5})
	for _, end := range []float64{from, to} {
		if end <= stripPad || end >= float64(w)-stripPad {
			continue
		}
		p.Line(&sheet.Line{From: sheet.Point{X: end, Y: y - 3}, To: sheet.Point{X: end, Y: y + 3}, Stroke: sheet.Ink, Width: 1.5})
	}
	if x > stripPad && x < float64(w)-stripPad {
		p.Box(&sheet.Box{Min: sheet.Point{X: x - 3, Y: y - 3}, Max: sheet.Point{X: x + 3, Y: y + 3}, Fill: sheet.Ink, Texture: sheet.Solid})
	}
	if at, anchor, ok := besideSpan(from, to, w, s.wrapper.WidthOf(handLabel)); ok {
		t := paint.ColumnText(handLabel, at, y+4, sheet.Soft)
		t.Size, t.Anchor = paint.CaptionSize, anchor
		p.Text(&t)
	}
}

const handLabel = "bias and spread"

// besideSpan is where a text of that width stands after a span of a strip, or
// before it; ok is false where neither side has room.
func besideSpan(from, to float64, width, text float32) (x float32, a sheet.Anchor, ok bool) {
	const gap = 10
	switch left, right := float32(from)-gap, float32(to)+gap; {
	case right+text <= width-stripPad:
		return right, sheet.AtStart, true
	case left-text >= stripPad:
		return left, sheet.AtEnd, true
	}
	return 0, sheet.AtStart, false
}
