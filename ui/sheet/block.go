package sheet

import (
	"math"

	"wakeline/timeline"
)

// piece draws one phase of a block between heights y0 and y1, clipped to the
// tracks. endless says that it goes on past its last drawn frame.
func (p *pen) piece(ph timeline.Phase, span timeline.Span, y0, y1 float64, endless bool) {
	x0, x1, openL, openR, ok := p.clip(float64(span.From), float64(span.To))
	if !ok {
		return
	}
	openR = openR || endless
	b := Box{Min: Point{x0, y0}, Max: Point{x1, y1}, Fill: Ink}
	switch ph {
	case timeline.Startup:
		b.Texture = Hatch
		p.box(b)
	case timeline.Active:
		b.Texture = Solid
		p.box(b)
	case timeline.Recovery:
		b.Texture = Dots
		p.box(b)
	case timeline.Waiting:
		p.outline(x0, y0, x1, y1, openL, openR, true)
		return
	case timeline.Airborne:
		p.hop(span, y0, y1)
		return
	case timeline.Idle:
		p.line(x0, y1, x1, y1, medium, Ink)
		return
	case timeline.Motion: // a centre line: it moves, and never hits
		y := y1 - 0.16*(y1-y0)
		p.dash(x0, y, x1, y, hair, Ink)
	case timeline.Guarding: // a wall at its front
		if !openL {
			w := math.Min(thick*p.em, x1-x0)
			p.box(Box{Min: b.Min, Max: Point{x0 + w, y1}, Fill: Ink, Texture: Solid})
		}
	case timeline.Parrying: // an open jaw at its front
		if h := y1 - y0; !openL && x1-x0 > h/2 {
			p.path(thick, Ink, Point{x0, y0}, Point{x0 + h/3, (y0 + y1) / 2}, Point{x0, y1})
		}
	}
	p.outline(x0, y0, x1, y1, openL, openR, false)
}

// outline draws a block's edges, but not those that the view cuts off.
func (p *pen) outline(x0, y0, x1, y1 float64, openL, openR, dashed bool) {
	if dashed {
		p.dash(x0, y0, x1, y0, medium, Ink)
		p.dash(x0, y1, x1, y1, medium, Ink)
		if !openL {
			p.dash(x0, y0, x0, y1, medium, Ink)
		}
		if !openR {
			p.dash(x1, y0, x1, y1, medium, Ink)
		}
		return
	}
	switch {
	case !openL && !openR:
		p.box(Box{Min: Point{x0, y0}, Max: Point{x1, y1}, Stroke: Ink, Width: medium * p.em})
	case openL && openR:
		p.line(x0, y0, x1, y0, medium, Ink)
		p.line(x0, y1, x1, y1, medium, Ink)
	case openL:
		p.path(medium, Ink, Point{x0, y0}, Point{x1, y0}, Point{x1, y1}, Point{x0, y1})
	default:
		p.path(medium, Ink, Point{x1, y0}, Point{x0, y0}, Point{x0, y1}, Point{x1, y1})
	}
}

// hop is a small arc: a jump that is a filler or a reply.
func (p *pen) hop(span timeline.Span, y0, y1 float64) {
	const n = 24
	points := make([]Point, 0, n+1)
	for i := 0; i <= n; i++ {
		u := float64(i) / n
		points = append(points, Point{p.d.X(float64(span.From) + u*float64(span.Len())), y1 - 4*u*(1-u)*(y1-y0)})
	}
	if points = p.cut(points); len(points) > 1 {
		p.path(medium, Ink, points...)
	}
}

// cut cuts a line that runs from left to right to the tracks.
func (p *pen) cut(in []Point) []Point {
	if len(in) == 0 || in[0].X >= p.left && in[len(in)-1].X <= p.right {
		return in
	}
	out := make([]Point, 0, len(in))
	for i, q := range in {
		if i > 0 {
			a := in[i-1]
			for _, edge := range [...]float64{p.left, p.right} {
				if a.X < edge && q.X > edge {
					out = append(out, Point{edge, a.Y + (q.Y-a.Y)*(edge-a.X)/(q.X-a.X)})
				}
			}
		}
		if q.X >= p.left && q.X <= p.right {
			out = append(out, q)
		}
	}
	return out
}

// torn is the ender's end: its left edge is torn off.
func (p *pen) torn(b *timeline.Block) {
	x0, x1, openL, openR, ok := p.clip(float64(b.Span.From), float64(b.Span.To))
	if !ok {
		return
	}
	y0, y1 := p.barA, p.groundA
	points := []Point{{x1, y0}, {x0, y0}}
	if !openL {
		const teeth = 5
		depth := math.Min(0.45*p.em, (x1-x0)/2)
		for i := 1; i < teeth; i++ {
			points = append(points, Point{x0 + depth*float64(i%2), y0 + (y1-y0)*float64(i)/teeth})
		}
	}
	points = append(points, Point{x0, y1}, Point{x1, y1})
	p.box(Box{Min: Point{x0 + math.Min(0.45*p.em, (x1-x0)/2), y0}, Max: Point{x1, y1}, Fill: Ink, Texture: Dots})
	p.path(medium, Ink, points...)
	if !openR {
		p.line(x1, y0, x1, y1, medium, Ink)
	}
}

// attackerTrack draws the attacker's blocks on its ground line. The arc is
// flight's.
func (p *pen) attackerTrack() {
	p.line(p.left, p.groundA, p.right, p.groundA, thin, Ink)
	y0, y1 := p.barA, p.groundA
	squat := y1 - 0.5*(y1-y0) // prejump and landing are half as high: the body is low
	top := p.s.Top
	var landing, delay *timeline.Block
	for i := range top {
		b := &top[i]
		switch b.Part {
		case timeline.PartEnder:
			p.torn(b)
			p.hot(b.Part, 0, float64(b.Span.From), float64(b.Span.To), y0, y1, 0)
		case timeline.PartDelay:
			delay = b
			if b.Span.Len() > 0 {
				p.block(b, y0, y1, false)
			}
		case timeline.PartStep:
			p.block(b, y0, y1, false)
		case timeline.PartFiller:
			p.block(b, y0, y1, false)
			p.hot(b.Part, b.Index, float64(b.Span.From), float64(b.Span.To), y0, y1, 6)
		case timeline.PartLanding:
			landing = b
		case timeline.PartAttack:
		case timeline.PartJump:
			for _, q := range b.Pieces {
				if q.Phase != timeline.Airborne {
					p.piece(q.Phase, q.Span, squat, y1, false)
				}
			}
			p.takeSpan(b.Pieces[0].Span, squat, y1)
			p.takeSpan(b.Pieces[2].Span, squat, y1)
			p.hot(b.Part, 0, float64(b.Span.From), float64(b.Span.To), p.airTop, y1, 0)
		}
	}
	if b := landing; b != nil {
		endless := p.s.After == nil && (b.Pieces[0].Phase == timeline.Guarding || b.Pieces[0].Phase == timeline.Parrying)
		p.block(b, y0, y1, endless)
		p.hot(b.Part, b.Index, float64(b.Span.From), float64(b.Span.To), y0, y1, 10)
	}
	if a := p.s.Arc; a != nil && a.Attack.Len() > 0 {
		lo, hi := p.stretch(a.Attack)
		p.hot(timeline.PartAttack, 0, float64(a.Attack.From), float64(a.Attack.To), lo-0.5*p.em, hi, 12)
	}
	if b := delay; b != nil {
		edge := 6 / p.d.View.Scale // the edge at J can be taken from both sides, and the number over it
		p.hot(b.Part, b.Index, math.Min(float64(b.Span.From), float64(b.Span.To)-edge), float64(b.Span.To)+edge, y0-1.05*p.em, p.windowY+0.5*p.em, 0)
	}
}

// takeSpan keeps texts off frames [from, to) between two heights.
func (p *pen) takeSpan(s timeline.Span, y0, y1 float64) {
	if x0, x1, _, _, ok := p.clip(float64(s.From), float64(s.To)); ok {
		p.take(x0, y0, x1, y1)
	}
}

// block draws all pieces of b, and keeps texts off it.
func (p *pen) block(b *timeline.Block, y0, y1 float64, endless bool) {
	for i, q := range b.Pieces {
		if last := int(math.Ceil(p.d.Frame(p.right))); endless && i == len(b.Pieces)-1 && q.Span.To < last {
			q.Span.To = last
		}
		p.piece(q.Phase, q.Span, y0, y1, endless && i == len(b.Pieces)-1)
	}
	if !blank(b) {
		p.takeSpan(b.Span, y0, y1)
	}
}

// blank reports whether a name can be read inside b.
func blank(b *timeline.Block) bool {
	if len(b.Pieces) != 1 {
		return false
	}
	switch b.Pieces[0].Phase {
	case timeline.Guarding, timeline.Parrying, timeline.Idle, timeline.Motion:
		return true
	}
	return false
}

// rivalTrack draws the rival: lying, the tick from lying to standing on the
// wake-up, then what it does.
func (p *pen) rivalTrack() {
	p.line(p.left, p.groundB, p.right, p.groundB, thin, Ink)
	y0, y1 := p.barB, p.groundB
	var reply, rise *timeline.Block
	for i := range p.s.Bottom {
		b := &p.s.Bottom[i]
		switch b.Part {
		case timeline.PartRise:
			rise = b
		case timeline.PartReply, timeline.PartAfter, timeline.PartLate, timeline.PartStun:
			endless := i == len(p.s.Bottom)-1 && blank(b) && b.Pieces[0].Phase != timeline.Motion
			p.block(b, y0, y1, endless)
			if b.Part == timeline.PartReply {
				reply = b
			}
		}
	}
	if reply != nil {
		p.hot(reply.Part, reply.Index, float64(reply.Span.From), float64(reply.Span.To), y0, y1, 10)
	}
	if rise != nil {
		p.rising(rise)
	}
	p.downAgain()
}

// rising is the figure: a heavy line along the ground that gets up on W.
func (p *pen) rising(b *timeline.Block) {
	w := p.x(p.s.Wake)
	y0, y1 := p.barB, p.groundB
	low := y1 - 0.14*p.em
	if x0, x1, _, _, ok := p.clip(float64(b.Span.From), float64(b.Span.To)); ok {
		r := math.Min(0.55*(y1-y0), x1-x0)
		if p.inView(w) {
			points := make([]Point, 0, 12)
			points = append(points, Point{x0, low})
			for i := 0; i <= 10; i++ { // a quarter of an ellipse, flat on the ground and upright at the end
				a := float64(i) / 10 * math.Pi / 2
				points = append(points, Point{w - r + r*math.Sin(a), low - (low-y0)*(1-math.Cos(a))})
			}
			p.path(thick, Ink, points...)
		} else {
			p.line(x0, low, x1, low, thick, Ink)
		}
		p.take(x0, low-0.1*p.em, x1, y1)
	}
	if p.inView(w) {
		top := y0 - 0.3*p.em
		p.line(w, top, w, y1, medium, Ink)
		p.take(w-1, top, w+1, y1)
	}
	p.hot(b.Part, b.Index, float64(p.s.Wake), float64(p.s.Wake), y0-0.6*p.em, y1+0.4*p.em, 16)
}
