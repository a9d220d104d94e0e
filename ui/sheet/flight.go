package sheet

import (
	"math"

	"wakeline/timeline"
)

// airY is the height on the sheet of the arc at frame f, which may have a
// fraction. The parabola runs from the first air frame's start to touchdown;
// each air frame's own height is reached within it, and between two of them
// the arc runs straight.
func (p *pen) airY(f float64) float64 {
	a := p.s.Arc
	n := len(a.Height)
	u := (f - float64(a.Air.From)) * float64(n+1) / float64(max(1, n)) // k+1 at air frame k's height
	k := int(math.Floor(u))
	at := func(k int) float64 {
		if k < 1 || k > n {
			return 0
		}
		return float64(a.Height[k-1]) / 1000
	}
	h := at(k) + (at(k+1)-at(k))*(u-float64(k))
	return p.groundA - clamp(h, 0, 1)*(p.groundA-p.airTop)
}

// along is the arc from frame from to frame to, cut to the tracks.
func (p *pen) along(from, to float64) []Point {
	from, to = math.Max(from, p.d.Frame(p.left)), math.Min(to, p.d.Frame(p.right))
	if to <= from {
		return nil
	}
	a := p.s.Arc
	step := float64(a.Air.Len()) / float64(len(a.Height)+1) // between two heights
	k := math.Floor((from-float64(a.Air.From))/step) + 1
	points := make([]Point, 0, int((to-from)/step)+3)
	points = append(points, Point{p.d.X(from), p.airY(from)})
	for ; float64(a.Air.From)+k*step < to-1e-6; k++ {
		f := float64(a.Air.From) + k*step
		points = append(points, Point{p.d.X(f), p.airY(f)})
	}
	return append(points, Point{p.d.X(to), p.airY(to)})
}

// stretch is the least and the greatest height on the sheet of a stretch of
// the arc.
func (p *pen) stretch(s timeline.Span) (lo, hi float64) {
	lo = p.groundA
	for f := s.From; f < s.To; f++ {
		y := p.airY(float64(f) + 0.5)
		lo, hi = math.Min(lo, y), math.Max(hi, y)
	}
	return lo, math.Max(hi, lo+0.6*p.em)
}

// shorter is line with so much cut off its first piece: a hollow stretch is
// closed where it begins.
func shorter(line []Point, by float64) []Point {
	a, b := line[0], line[1]
	n := math.Hypot(b.X-a.X, b.Y-a.Y)
	if n <= by {
		return line
	}
	out := append([]Point(nil), line...)
	out[0] = Point{a.X + (b.X-a.X)*by/n, a.Y + (b.Y-a.Y)*by/n}
	return out
}

// flight draws the arc: thin in the air, thicker while the attack is out,
// heavy where it is active; hollow where it is active but out of reach.
func (p *pen) flight() {
	a := p.s.Arc
	if a == nil {
		return
	}
	whole := p.along(float64(a.Air.From), float64(a.Air.To))
	if len(whole) < 2 {
		return
	}
	p.path(thin, Ink, whole...)
	if a.Attack.Len() > 0 {
		if pts := p.along(float64(a.Attack.From), float64(a.Attack.To)); len(pts) > 1 {
			p.path(thick, Ink, pts...)
		}
	}
	const heavy, core = 0.62, 0.36
	for _, s := range a.Active {
		if pts := p.along(float64(s.From), float64(s.To)); len(pts) > 1 {
			p.path(heavy, Ink, pts...)
			p.path(core, Paper, shorter(pts, medium*p.em)...)
		}
	}
	for _, s := range a.Reach {
		if pts := p.along(float64(s.From), float64(s.To)); len(pts) > 1 {
			p.path(heavy, Ink, pts...)
		}
	}
	if a.Attack.Len() > 0 { // where it was pressed: a tick across the arc
		if f := float64(a.Attack.From); p.inView(p.d.X(f)) {
			x, y := p.d.X(f), p.airY(f)
			p.line(x, y-0.45*p.em, x, y+0.45*p.em, thin, Ink)
		}
	}
	for i := 1; i < len(whole); i++ { // no text over the arc
		q, r := whole[i-1], whole[i]
		p.take(math.Min(q.X, r.X)-0.2*p.em, math.Min(q.Y, r.Y)-0.2*p.em, math.Max(q.X, r.X)+0.2*p.em, math.Max(q.Y, r.Y)+0.2*p.em)
	}
	if x := p.x(a.Air.To); p.inView(x) { // touchdown
		p.line(x, p.barA, x, p.groundA+0.9*p.em, medium, Ink)
		p.take(x-1, p.barA, x+1, p.groundA+0.9*p.em)
	}
}
