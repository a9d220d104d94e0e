package sheet

import (
	"math"
	"strconv"
)

// steps are the distances between two numbers of the ruler, in frames, with
// the ticks between them.
var steps = [...]struct{ number, tick int }{
	{1, 1}, {2, 1}, {5, 1}, {10, 1}, {10, 5}, {20, 5}, {50, 10}, {100, 20}, {200, 50}, {500, 100},
}

// numberSize is the size of the ruler's numbers.
func (p *pen) numberSize() float64 { return small(0.82 * p.em) }

// step is the finest step at which neither numbers nor ticks crowd.
func (p *pen) step() (number, tick int) {
	room := TextWidth("-000", p.numberSize(), false) + 0.7*p.em
	for _, s := range steps {
		if float64(s.number)*p.d.View.Scale >= room && float64(s.tick)*p.d.View.Scale >= 0.3*p.em {
			return s.number, s.tick
		}
	}
	s := steps[len(steps)-1]
	n := s.number
	for float64(n)*p.d.View.Scale < room && n < 1<<40 {
		n *= 2
	}
	return n, n
}

// frames is the range of frames in view, both ends in it.
func (p *pen) frames() (from, to int) {
	const far = 1 << 40
	v := p.d.View
	a := clamp(math.Ceil(v.From-1e-9), -far, far)
	b := clamp(math.Floor(p.d.Frame(p.right)+1e-9), -far, far)
	return int(a), int(b)
}

// floorTo is the last multiple of step at or before f.
func floorTo(f, step int) int {
	r := f % step
	if r < 0 {
		r += step
	}
	return f - r
}

// grid draws a line down the tracks at every number of the ruler.
func (p *pen) grid() {
	number, _ := p.step()
	from, to := p.frames()
	for f := floorTo(from+number-1, number); f <= to; f += number {
		p.line(p.x(f), p.rulerEnd, p.x(f), p.groundB, hair, Rule)
	}
}

// ruler draws the line of frames with its ticks.
func (p *pen) ruler() {
	number, tick := p.step()
	from, to := p.frames()
	p.line(p.left, p.rulerEnd, p.right, p.rulerEnd, thin, Ink)
	for f := floorTo(from+tick-1, tick); f <= to; f += tick {
		long := 0.22
		if f%number == 0 {
			long = 0.42
		} else if number%2 == 0 && f%(number/2) == 0 {
			long = 0.32
		}
		p.line(p.x(f), p.rulerEnd-long*p.em, p.x(f), p.rulerEnd, hair, Ink)
	}
	if x := p.x(0); p.inView(x) { // the clock starts here
		p.line(x, p.rulerEnd-0.55*p.em, x, p.rulerEnd, thin, Ink)
		p.line(x, p.rulerEnd, x, p.barA, thin, Rule)
		p.line(x, p.groundA, x, p.groundB, hair, Soft)
	}
}

// numbers writes the ruler's numbers; the meeting's has the right of way.
func (p *pen) numbers() {
	y, size := p.rulerEnd-0.62*p.em, p.numberSize()
	number, _ := p.step()
	from, to := p.frames()
	for f := floorTo(from+number-1, number); f <= to; f += number {
		p.place(Text{Str: strconv.Itoa(f), Size: size, Role: Soft}, spot{p.x(f), y, AtMiddle})
	}
}
