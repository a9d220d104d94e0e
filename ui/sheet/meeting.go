package sheet

import (
	"math"
	"strconv"

	"wakeline/timeline"
)

// meets returns the frames that the meeting takes on the sheet: where both
// sides touch, else the one wake-up frame.
func (p *pen) meets() (s timeline.Span, real bool) {
	if p.s.Overlap.Len() > 0 {
		return p.s.Overlap, true
	}
	return timeline.Span{From: p.s.Wake, To: p.s.Wake + 1}, false
}

// meetingWash draws the region in which the two sides meet, across both
// tracks: a wash, with edges that say the judgement by their shape.
func (p *pen) meetingWash() {
	span, real := p.meets()
	x0, x1, openL, openR, ok := p.clip(float64(span.From), float64(span.To))
	if !ok {
		return
	}
	j := p.s.Judgement
	role := RoleOf(j)
	y0, y1 := p.rulerEnd, p.groundB
	p.box(Box{Min: Point{x0, y0}, Max: Point{x1, y1}, Fill: role, Texture: Tint})
	if j == timeline.JudgedLimited {
		p.box(Box{Min: Point{x0, y0}, Max: Point{x1, y1}, Fill: role, Texture: Hatch})
	}
	edge := func(x float64) {
		switch {
		case !real || j == timeline.JudgedEven:
			p.dash(x, y0, x, y1, thin, role)
		case j == timeline.JudgedUnsafe:
			p.d.Shapes = append(p.d.Shapes, Path{Points: zigzag(x, y0, y1, math.Min(0.28*p.em, (x1-x0)/3), 0.55*p.em), Stroke: role, Width: medium * p.em})
		default:
			p.line(x, y0, x, y1, medium, role)
		}
		p.edges[p.nedges] = rect{x - 0.12*p.em, y0, x + 0.12*p.em, y1}
		p.nedges++
	}
	if !openL {
		edge(x0)
	}
	if !openR {
		edge(x1)
	}
	if p.inView(p.x(span.From)) {
		p.pointer(p.x(span.From), y0, role, true)
	}
}

// zigzag is a broken line downwards from y0 to y1.
func zigzag(x, y0, y1, half, pitch float64) []Point {
	n := max(2, int((y1-y0)/pitch))
	out := make([]Point, 0, n+1)
	for i := 0; i <= n; i++ {
		dx := 0.0
		if i > 0 && i < n {
			dx = half * float64(i%2*2-1) * 0.5
		}
		out = append(out, Point{x + dx, y0 + (y1-y0)*float64(i)/float64(n)})
	}
	return out
}

// meetingFlag draws the exchange's judgement at the meeting: a stamp with
// mark and word, and beside it what happened on which frame.
func (p *pen) meetingFlag() {
	span, _ := p.meets()
	x0, x1, _, _, ok := p.clip(float64(span.From), float64(span.To))
	if !ok {
		return
	}
	j := p.s.Judgement
	h := math.Min(p.flagEnd-p.flagTop, 2.7*p.em)
	w := stampWidth(j, h)
	x := clamp((x0+x1)/2-w/2, p.left, p.right-w)
	y := (p.flagTop + p.flagEnd - h) / 2
	p.stamp(j, x, y, w, h)
	p.take(x, y, x+w, y+h)
	p.d.Flag = Area{Point{x, y}, Point{x + w, y + h}}

	size := 1.0 * p.em
	base := y + h/2 + 0.36*size
	gap := 0.6 * p.em
	words := p.outcomeWords()
	for i, t := range words {
		if p.insist(Text{Str: t, Size: size, Bold: i == 0 || len(words) == 1, Role: Ink}, spot{x + w + gap, base, AtStart}, spot{x - gap, base, AtEnd},
			spot{x1 + gap, base, AtStart}, spot{x0 - gap, base, AtEnd}) {
			break
		}
	}
	if m := p.s.Cell.Meeting; m.Given && p.inView(p.x(m.N)) {
		p.number(m.N, RoleOf(j))
	} else if !m.Given && p.inView(p.x(p.s.Wake)) {
		p.number(p.s.Wake, RoleOf(j))
	}
}

// number writes frame f on the ruler, in bold.
func (p *pen) number(f int, role Role) {
	y, size := p.rulerEnd-0.62*p.em, 1.08*p.numberSize()
	x := p.x(f)
	p.place(Text{Str: strconv.Itoa(f), Size: size, Bold: true, Role: role}, spot{x, y, AtMiddle}, spot{p.left, y, AtStart}, spot{p.right, y, AtEnd})
}

// outcomeWords says what happened, the longest way first.
func (p *pen) outcomeWords() []string {
	c := &p.s.Cell
	what := c.Outcome.String()
	if !c.Meeting.Given {
		return []string{what}
	}
	on := "on " + strconv.Itoa(c.Meeting.N)
	out := []string{what + " " + on, on}
	if c.Advantage.Given {
		return append([]string{what + " " + on + ", then " + signed(c.Advantage.N)}, out...)
	}
	return out
}

func signed(n int) string {
	if n > 0 {
		return "+" + strconv.Itoa(n)
	}
	if n < 0 {
		return strconv.Itoa(n)
	}
	return "±0"
}
