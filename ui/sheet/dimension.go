package sheet

import (
	"strconv"

	"wakeline/timeline"
)

// dimensions draws the lengths that matter as dimension lines.
func (p *pen) dimensions() {
	for i := range p.s.Dimensions {
		d := &p.s.Dimensions[i]
		switch d.Kind {
		case timeline.DimAdvantage:
			p.dimension(d, p.kY, p.groundB)
		case timeline.DimDelay:
			p.dimension(d, p.barA-0.75*p.em, p.barA)
		case timeline.DimGap, timeline.DimSpare:
			p.dimension(d, p.dimY, p.flagEnd)
		}
	}
}

// dimensionWords is what stands on a dimension.
func dimensionWords(d *timeline.Dimension) string {
	n := strconv.Itoa(d.Value)
	switch d.Kind {
	case timeline.DimAdvantage:
		return "advantage " + n
	case timeline.DimDelay:
		return "delay " + n
	case timeline.DimGap:
		return "gap " + n
	}
	if d.Value < 0 {
		return strconv.Itoa(-d.Value) + " too late"
	}
	return n + " spare"
}

// dimension draws d on the line y, with extension lines from height from, end
// ticks and its words: in the line where they fit, else beside it.
func (p *pen) dimension(d *timeline.Dimension, y, from float64) {
	em := p.em
	rx0, rx1 := p.x(d.From), p.x(d.To)
	x0, x1 := clamp(rx0, p.left, p.right), clamp(rx1, p.left, p.right)
	if rx1 < p.left || rx0 > p.right {
		return
	}
	text := Text{Str: dimensionWords(d), Size: em, Bold: true, Role: Ink}
	w := TextWidth(text.Str, em, true)
	base := y + 0.36*em
	pad := 0.35 * em
	tick := func(x float64) {
		if !p.inView(x) {
			return
		}
		if from != y {
			over := 0.3 * em
			if y < from {
				over = -over
			}
			p.line(x, from, x, y+over, hair, Ink)
		}
		p.line(x-0.25*em, y+0.25*em, x+0.25*em, y-0.25*em, medium, Ink)
	}
	mid := (x0 + x1) / 2
	if x1-x0 > w+2*pad+0.8*em && p.place(text, spot{mid, base, AtMiddle}) {
		p.line(x0, y, mid-w/2-pad, y, thin, Ink)
		p.line(mid+w/2+pad, y, x1, y, thin, Ink)
	} else {
		p.line(x0, y, x1, y, thin, Ink)
		above := y - 0.5*em
		if !p.place(text, spot{x1 + 0.5*em, base, AtStart}, spot{x0 - 0.5*em, base, AtEnd}, spot{mid, above, AtMiddle}) {
			text.Str = strconv.Itoa(d.Value)
			p.place(text, spot{x1 + 0.5*em, base, AtStart}, spot{x0 - 0.5*em, base, AtEnd}, spot{mid, above, AtMiddle})
		}
	}
	tick(rx0)
	if rx1 != rx0 {
		tick(rx1)
	}
	p.take(x0, y-0.3*em, x1, y+0.3*em)
}

// delayWindow draws the lane under the attacker's ground: where the jump's
// start may stand so that the setup is good, and where it stands now.
func (p *pen) delayWindow() {
	em, y := p.em, p.windowY
	j0 := p.s.Delay.From
	if x0, x1, _, _, ok := p.clip(float64(j0), float64(j0+p.s.LastDelay)); ok {
		p.line(x0, y, x1, y, hair, Soft)
	}
	first, last := p.left, p.left
	shown := false
	for _, w := range p.s.Window { // half a frame on both sides: where a hand's drop comes to that delay
		x0, x1, openL, openR, ok := p.clip(float64(j0+w.From)-0.5, float64(j0+w.To)+0.5)
		if !ok {
			continue
		}
		h := 0.26 * em
		p.box(Box{Min: Point{x0, y - h*0.6}, Max: Point{x1, y + h*0.6}, Fill: Safe, Texture: Solid})
		if !openL {
			p.line(x0, y-h*1.4, x0, y+h*1.4, medium, Safe)
		}
		if !openR {
			p.line(x1, y-h*1.4, x1, y+h*1.4, medium, Safe)
		}
		p.take(x0, y-h, x1, y+h)
		if !shown {
			first, shown = x0, true
		}
		last = x1
	}
	j := p.x(p.s.Delay.To)
	if p.inView(j) {
		p.line(j, p.barA, j, y, thin, Ink)
		h := 0.4 * em
		if j-h*0.6 >= p.frame && j+h*0.6 <= p.d.W-p.frame {
			p.fill(Ink, Point{j, p.groundA + 0.1*em + h}, Point{j - 0.6*h, p.groundA + 0.1*em}, Point{j + 0.6*h, p.groundA + 0.1*em})
		}
		p.take(j-h*0.6, p.groundA, j+h*0.6, y)
		if !shown {
			first, last = j, j
		}
		first, last = min(first, j), max(last, j)
	} else if !shown {
		return
	}
	size := 0.85 * em
	base := y + 0.3*em
	for _, t := range p.windowWords() {
		if p.place(Text{Str: t, Size: size, Role: Ink}, spot{last + 0.7*em, base, AtStart}, spot{first - 0.7*em, base, AtEnd}) {
			return
		}
	}
}

// windowWords says which delays are safe, the longest way first.
func (p *pen) windowWords() []string {
	if len(p.s.Window) == 0 {
		return []string{"no delay is safe"}
	}
	list, n := "", 0
	for _, w := range p.s.Window {
		if n++; n > 4 {
			list += ", …"
			break
		}
		if list != "" {
			list += ", "
		}
		list += strconv.Itoa(w.From)
		if w.To > w.From {
			list += " to " + strconv.Itoa(w.To)
		}
	}
	return []string{"safe at delay " + list, "safe at " + list, list}
}
