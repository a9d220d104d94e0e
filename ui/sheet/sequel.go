package sheet

import (
	"math"
	"strconv"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// What follows the meeting: its blocks are drawn with all others, and here what
// is said of them.

// routeLine draws a line over all steps of a route, with its name and points.
func (p *pen) routeLine() {
	q := p.s.After
	if q == nil || q.Name == "" {
		return
	}
	x0, x1, openL, openR, ok := p.clip(float64(q.From()), float64(q.Free()))
	if !ok {
		return
	}
	em := p.em
	name, points := clean(q.Name), words.Count(q.Points, "point")
	say := []string{fit(name, em, true, 18*em) + ", " + points, fit(name, em, true, 18*em)}
	if q.Points == 0 {
		say = say[1:]
	}
	for _, up := range [...]float64{1.95, 3.15, 4.35} { // over the names of the steps
		y := p.barA - up*em
		if y-1.3*em < p.rulerEnd || !p.free(rect{x0, y - 0.2*em, x1, y + 0.35*em}) {
			continue
		}
		p.line(x0, y, x1, y, thin, Ink)
		if !openL {
			p.line(x0, y, x0, y+0.35*em, thin, Ink)
		}
		if !openR {
			p.line(x1, y, x1, y+0.35*em, thin, Ink)
		}
		p.take(x0, y-0.1*em, x1, y+0.3*em)
		for _, str := range say {
			at := math.Min(x0, p.right-TextWidth(str, em, true))
			if p.place(Text{Str: str, Size: em, Bold: true, Role: Ink}, spot{at, y - 0.45*em, AtStart}, spot{x1, y - 0.45*em, AtEnd}, spot{at, y - 1.6*em, AtStart}, spot{p.right, y - 1.6*em, AtEnd}) {
				break
			}
		}
		return
	}
}

// rowAway writes a block's name one or two rows further from its bar, where the
// row beside the bar is full.
func (p *pen) rowAway(b *timeline.Block, name string, x, base float64) bool {
	way := 1.2 * p.em
	switch b.Part {
	case timeline.PartStun, timeline.PartAfter, timeline.PartDown, timeline.PartEnder:
		return false
	}
	if base < p.groundA {
		way = -way
	}
	bold := b.Part == timeline.PartReply
	t := Text{Str: fit(name, p.em, bold, 18*p.em), Size: p.em, Bold: bold, Role: Ink}
	at := math.Min(x, p.right-TextWidth(t.Str, p.em, bold))
	spots := []spot{{x, base, AtStart}, {x, base + way, AtStart}, {at, base + way, AtStart}, {at, base + 2*way, AtStart}}
	if way > 0 { // under the second row is the edge
		spots = spots[:3]
	}
	return p.place(t, spots...)
}

// downAgain is the rival that a route has knocked down: a heavy line along the
// ground.
func (p *pen) downAgain() {
	n := len(p.s.Bottom)
	if n == 0 || p.s.Bottom[n-1].Part != timeline.PartDown {
		return
	}
	b := &p.s.Bottom[n-1]
	if x := p.x(b.Span.From); x < p.right {
		low := p.groundB - 0.14*p.em
		x = math.Max(x, p.left)
		p.line(x, low, p.right, low, thick, Ink)
		p.take(x, low-0.1*p.em, p.right, p.groundB)
	}
}

// gapWords are what a gap of a string is called, the longest way first.
func (p *pen) gapWords(d *timeline.Dimension) []string {
	n := "gap " + strconv.Itoa(d.Value)
	for i := range p.s.After.Steps {
		if s := &p.s.After.Steps[i]; s.Touch.Given && s.Touch.N+1 == d.To && s.BeatenBy != "" {
			by := fit(clean(s.BeatenBy), p.em, true, 12*p.em)
			return []string{n + ": " + by + " beats it", n + ": " + by, n}
		}
	}
	return []string{n + ": nothing beats it", n}
}

// turnWords say who may act first at the end of a string, and what punishes.
func (p *pen) turnWords(d *timeline.Dimension) []string {
	by := fit(clean(p.s.After.PunishedBy), p.em, true, 12*p.em)
	n := signed(d.Value)
	short := n
	switch {
	case by != "":
		short += ": " + by + " punishes"
	case d.Value > 0:
		short += ": keeps the turn"
	case d.Value < 0:
		short += ": gives up the turn"
	}
	return []string{n + ": " + words.Turn(timeline.Some(d.Value), by), short, n}
}

// trueStrings says under the steps of a string that leave nothing to do that
// they don't.
func (p *pen) trueStrings() {
	q := p.s.After
	if q == nil || q.Kind != timeline.Guarded {
		return
	}
	for i := range q.Steps {
		s := &q.Steps[i]
		if s.Gap != timeline.Some(0) || !p.inView(p.x(s.Touch.N)) {
			continue
		}
		x, y := p.x(s.Touch.N), p.dimY+0.36*p.em
		for _, str := range [...]string{"true string", "true"} {
			t := Text{Str: str, Size: p.em, Bold: true, Role: Ink}
			var spots []spot
			for _, at := range [...]spot{{x, y, AtMiddle}, {x, y, AtEnd}, {x, y, AtStart}, {x, y - 1.1*p.em, AtMiddle}} {
				if !p.onDimension(textRect(at.x, at.y, TextWidth(str, p.em, true), p.em, at.a)) {
					spots = append(spots, at)
				}
			}
			if p.insist(t, spots...) {
				break
			}
		}
	}
}

// onDimension reports whether r lies on the line of a gap or a turn.
func (p *pen) onDimension(r rect) bool {
	for i := range p.s.Dimensions {
		d := &p.s.Dimensions[i]
		if d.Kind != timeline.DimGap && d.Kind != timeline.DimTurn {
			continue
		}
		air := 0.4 * p.em
		if r.hits(rect{p.x(d.From) - air, p.dimY - 0.3*p.em, p.x(d.To) + air, p.dimY + 0.3*p.em}) {
			return true
		}
	}
	return false
}
