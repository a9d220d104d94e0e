package sheet

import (
	"strconv"

	"wakeline/timeline"
)

// dimensions draws the lengths that matter as dimension lines: first the
// lines, with their words in them where they fit, then the words beside them.
func (p *pen) dimensions() {
	type words struct {
		kind   timeline.DimensionKind
		text   Text
		say    []string
		x0, x1 float64
		y      float64
	}
	var room [8]words
	beside := room[:0]
	for i := range p.s.Dimensions {
		d := &p.s.Dimensions[i]
		y, from := p.dimY, p.flagEnd
		switch d.Kind {
		case timeline.DimAdvantage, timeline.DimRise:
			y, from = p.kY, p.groundB
		case timeline.DimDelay:
			y, from = p.barA-0.75*p.em, p.barA
		}
		if text, x0, x1, left := p.dimension(d, y, from); left {
			beside = append(beside, words{d.Kind, text, p.dimensionWords(d), x0, x1, y})
		}
	}
	for _, b := range beside {
		base, above, gap := b.y+0.36*p.em, b.y-0.75*p.em, 0.5*p.em
		right, left, over := spot{b.x1 + gap, base, AtStart}, spot{b.x0 - gap, base, AtEnd}, spot{(b.x0 + b.x1) / 2, above, AtMiddle}
		if b.y < p.groundA { // left of the delay stands another block's name
			left, over = over, left
		}
		last, row := over, over
		if b.kind == timeline.DimAdvantage && TextWidth(b.text.Str, b.text.Size, true) > b.x1-b.x0 {
			over = spot{b.x1 - gap, above, AtEnd} // off the line down from the wake-up
			last, row = over, over
		}
		if b.kind == timeline.DimTurn { // the last of all
			last, row = spot{p.right, above, AtEnd}, spot{p.right, above - 1.2*p.em, AtEnd}
		}
		for _, b.text.Str = range b.say {
			if p.insist(b.text, right, left, over, last, row) {
				break
			}
		}
	}
}

// dimensionWords is what stands on a dimension, the longest way first.
func (p *pen) dimensionWords(d *timeline.Dimension) []string {
	n := strconv.Itoa(d.Value)
	switch d.Kind {
	case timeline.DimAdvantage:
		return []string{"knockdown advantage " + n, "knockdown " + n, n}
	case timeline.DimRise:
		return []string{"+ " + n + " " + fit(clean(p.s.Rise), p.em, true, 10*p.em) + " rise", "+ " + n}
	case timeline.DimDelay:
		return []string{"delay " + n, n}
	case timeline.DimAfterWake:
		return []string{n + " after wake-up", n}
	case timeline.DimGap:
		return p.gapWords(d)
	case timeline.DimTurn:
		return p.turnWords(d)
	}
	if d.Value < 0 {
		n = strconv.Itoa(-d.Value)
		return []string{n + " too late", n}
	}
	return []string{n + " to spare", n}
}

// dimension draws d on the line y, with extension lines from height from, end
// ticks, and its words in the line. Where they have no room there, they are
// handed back with the ends of the line.
func (p *pen) dimension(d *timeline.Dimension, y, from float64) (text Text, x0, x1 float64, left bool) {
	em := p.em
	rx0, rx1 := p.x(d.From), p.x(d.To)
	x0, x1 = clamp(rx0, p.left, p.right), clamp(rx1, p.left, p.right)
	if rx1 < p.left || rx0 > p.right {
		return
	}
	over := 0.3 * em
	if y < from {
		over = -over
	}
	tick := func(x float64) {
		if p.inView(x) {
			p.line(x, from, x, y+over, hair, Ink)
			p.line(x-0.25*em, y+0.25*em, x+0.25*em, y-0.25*em, medium, Ink)
		}
	}
	tick(rx0)
	if rx1 != rx0 {
		tick(rx1)
	}
	text = Text{Str: p.dimensionWords(d)[0], Size: em, Bold: true, Role: Ink}
	w, pad, mid := TextWidth(text.Str, em, true), 0.35*em, (x0+x1)/2
	if x1-x0 > w+2*pad+0.8*em && p.place(text, spot{mid, y + 0.36*em, AtMiddle}) {
		p.line(x0, y, mid-w/2-pad, y, thin, Ink)
		p.line(mid+w/2+pad, y, x1, y, thin, Ink)
	} else {
		p.line(x0, y, x1, y, thin, Ink)
		left = true
	}
	p.take(x0-0.2*em, y-0.3*em, x1+0.2*em, y+0.3*em)
	return
}
