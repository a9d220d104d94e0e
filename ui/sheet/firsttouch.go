package sheet

import (
	"cmp"
	"slices"
	"strconv"
)

// touches reports whether the attack's first touch is in view.
func (p *pen) touches() bool { return p.s.FirstTouch.Given && p.inView(p.x(p.s.FirstTouch.N)) }

// firstTouch marks the frame on which the attack meets the wake-up, or comes
// late to it, beside the meeting that decides: an open pointer on the ruler,
// and words. touchLine draws its line.
func (p *pen) firstTouch() {
	if !p.touches() {
		return
	}
	f := p.s.FirstTouch
	em, x := p.em, p.x(f.N)
	if p.s.Cell.Meeting != f {
		p.pointer(x, p.rulerEnd, Ink, false)
		y, at := p.rulerEnd-0.62*em, strconv.Itoa(f.N)
		p.place(Text{Str: at, Size: 1.08 * p.numberSize(), Bold: true, Role: Ink}, spot{x, y, AtMiddle}, spot{x + 0.3*em, y, AtEnd}, spot{x - 0.3*em, y, AtStart})
	} else if p.s.Cell.AfterWake.Given { // a dimension says it
		return
	}
	size := small(0.92 * em)
	gap := 0.5 * em
	flag, dim := (p.flagTop+p.flagEnd)/2+0.36*size, p.dimY+0.36*size
	for _, t := range p.firstTouchWords() {
		if p.place(Text{Str: t, Size: size, Role: Ink}, spot{x - gap, dim, AtEnd}, spot{x - gap, flag, AtEnd}, spot{p.d.Flag.Min.X - gap, flag, AtEnd}, spot{x + gap, dim, AtStart}) {
			return
		}
	}
}

// touchLine draws a broken line from the first touch's pointer down to the
// rival, where no meeting is drawn on that frame. It gives way to texts.
func (p *pen) touchLine() {
	if !p.touches() || p.s.Cell.Meeting == p.s.FirstTouch {
		return
	}
	x, air := p.x(p.s.FirstTouch.N), 0.2*p.em
	in := []rect{{p.d.Flag.Min.X, p.d.Flag.Min.Y, p.d.Flag.Max.X, p.d.Flag.Max.Y}}
	for _, s := range p.texts {
		if t, ok := s.(Text); ok {
			in = append(in, textRect(t.At.X, t.At.Y, TextWidth(t.Str, t.Size, t.Bold), t.Size, t.Anchor))
		}
	}
	slices.SortFunc(in, func(a, b rect) int { return cmp.Compare(a.y0, b.y0) })
	y := p.rulerEnd
	for _, r := range in {
		if x < r.x0-air || x > r.x1+air || r.y1 <= y || r.y0 >= p.groundB {
			continue
		}
		if r.y0 > y {
			p.dash(x, y, x, r.y0, thin, Ink)
		}
		y = r.y1
	}
	if y < p.groundB {
		p.dash(x, y, x, p.groundB, thin, Ink)
	}
}

// firstTouchWords says how the attack comes to the wake-up, the longest way
// first.
func (p *pen) firstTouchWords() []string {
	on := " on " + strconv.Itoa(p.s.FirstTouch.N)
	switch n := p.s.TouchLate; {
	case n > 0:
		return []string{"attack reaches wake-up" + on + ", " + strconv.Itoa(n) + " late", strconv.Itoa(n) + " after wake-up"}
	case p.s.FirstTouch.N != p.s.Wake: // a throw, which throw immunity has wait
		return []string{"throw meets its first frame" + on, "meets" + on}
	}
	return []string{"attack meets wake-up" + on, "meets wake-up" + on, "meets" + on}
}
