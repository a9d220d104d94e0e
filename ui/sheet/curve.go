package sheet

import "math"

// Odds is how likely a counted wait lands by where it is aimed: a small curve
// under the lane of safe delays. Where the sheet has no room for it, it is
// left out.
type Odds struct {
	Chances []float64 // from 0 to 1, from delay 0 on
	Per     int       // of them a frame, above 0
	Label   string    // stands at the set delay; empty: no wait is counted, and the lane stays empty
}

// oddsLane is the height of the curve's lane, in ems.
const oddsLane = 1.75

// at is the chance at a delay, 0 past the curve's end.
func (o *Odds) at(delay int) float64 {
	if i := delay * o.Per; i >= 0 && i < len(o.Chances) {
		return o.Chances[i]
	}
	return 0
}

// oddsCurve draws the chances over a hairline, with a dot on the set delay and
// what they are in the margin.
func (p *pen) oddsCurve() {
	o := p.o.Odds
	if o == nil || p.odds == 0 || len(o.Chances) == 0 || o.Per < 1 || o.Label == "" {
		return
	}
	em, j0 := p.em, float64(p.s.Delay.From)
	base := p.groundA + 1.45*em + p.odds - 0.15*em
	high := p.odds - 0.45*em
	y := func(c float64) float64 { return base - high*clamp(c, 0, 1) }
	end := j0 + float64(len(o.Chances)-1)/float64(o.Per)
	x0, x1, _, _, ok := p.clip(j0, end)
	if !ok {
		return
	}
	p.line(x0, base, x1, base, hair, Soft)
	p.inMargin("chance by hand", base)
	points := make([]Point, 0, len(o.Chances))
	for i, c := range o.Chances {
		if x := p.d.X(j0 + float64(i)/float64(o.Per)); p.inView(x) {
			points = append(points, Point{math.Round(8*x) / 8, math.Round(8*y(c)) / 8})
		}
	}
	if len(points) > 1 {
		p.path(thin, Ink, points...)
	}
	x, set := p.x(p.s.Delay.To), o.at(p.s.Delay.Len())
	if !p.inView(x) {
		return
	}
	r := 0.2 * em
	p.line(x, base, x, y(set), hair, Ink)
	p.box(Box{Min: Point{x - r, y(set) - r}, Max: Point{x + r, y(set) + r}, Fill: Ink, Texture: Solid})
	p.take(x-r, y(set)-r, x+r, base)
	size := small(0.85 * em)
	at := base - 0.15*em
	p.place(Text{Str: o.Label, Size: size, Role: Ink}, spot{math.Max(x1, x) + 0.7*em, at, AtStart}, spot{math.Min(x0, x) - 0.7*em, at, AtEnd})
}
