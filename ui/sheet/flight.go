package sheet

import (
	"math"

	"wakeline/timeline"
)

// airY is the height on the sheet of the arc at frame f, which may have a
// fraction: between two air frames it runs straight.
func (p *pen) airY(f float64) float64 {
	a := p.s.Arc
	n := len(a.Height)
	i := f - float64(a.Air.From) + 0.5 // air frame k has its height in its middle, at k+1 here
	k := int(math.Floor(i))
	at := func(k int) float64 {
		if k < 1 || k > n {
			return 0
		}
		return float64(a.Height[k-1]) / 1000
	}
	h := at(k) + (at(k+1)-at(k))*(i-math.Floor(i))
	switch { // half a frame at each end is on the way from or to the ground
	case k < 1:
		h = at(1) * math.Max(0, 2*i-1)
	case k >= n:
		h = at(n) * math.Max(0, 1-2*(i-float64(n)))
	}
	return p.groundA - clamp(h, 0, 1)*(p.groundA-p.airTop)
}

// along is the arc from frame from to frame to, cut to the tracks.
func (p *pen) along(from, to float64) []Point {
	from, to = math.Max(from, p.d.Frame(p.left)), math.Min(to, p.d.Frame(p.right))
	if to <= from {
		return nil
	}
	points := make([]Point, 0, int(to-from)+3)
	points = append(points, Point{p.d.X(from), p.airY(from)})
	for f := math.Floor(from-0.5) + 0.5; f < to; f++ {
		if f > from {
			points = append(points, Point{p.d.X(f), p.airY(f)})
		}
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
			p.path(core, Paper, pts...)
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
		p.line(x, p.barA-0.9*p.em, x, p.groundA+0.4*p.em, medium, Ink)
		p.take(x-1, p.barA-0.9*p.em, x+1, p.groundA)
	}
}
