package sheet

import (
	"math"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// HoldBarHeight is the height of a bar that HoldBar draws, in units.
const HoldBarHeight = 16

// HoldBar draws where a setup holds by one of its numbers, from x0 to x1 and
// from y down: the spans in the ink of j, which is safe or limited, an arrow
// where one may go on past what was tried, the mark of what breaks on the side
// that is nearest to it, and a line where the setup stands. Where it isn't known
// the spans are those known before, in dashes.
func HoldBar(h *words.Holding, j timeline.Judgement, known bool, x0, x1, y float64) []Shape {
	const arrow = 6
	b := holdBar{lo: min(h.Tried.From, h.At), mid: y + HoldBarHeight/2, left: x0 + arrow, right: x1 - arrow}
	b.scale = (b.right - b.left) / float64(max(h.Tried.To, h.At)-b.lo+1)
	b.add(Line{From: Point{b.left, b.mid}, To: Point{b.right, b.mid}, Stroke: Soft, Width: 1})
	for _, x := range [...]float64{b.left, b.right} {
		b.add(Line{From: Point{x, b.mid - 3}, To: Point{x, b.mid + 3}, Stroke: Soft, Width: 1})
	}
	for _, s := range h.Spans {
		b.span(h, s, j, known)
	}
	if known && h.Here() {
		b.breaks(h)
	}
	b.stands(h.At, known && h.Here() && j == timeline.JudgedSafe)
	return b.shapes
}

// holdBar is a bar in the making.
type holdBar struct {
	lo               int // the number at its left end
	left, right, mid float64
	scale            float64 // units of the drawing for a number
	shapes           []Shape
}

func (b *holdBar) add(s Shape) { b.shapes = append(b.shapes, s) }

// x is where a number begins on the bar.
func (b *holdBar) x(n int) float64 {
	return clamp(b.left+float64(n-b.lo)*b.scale, b.left, b.right)
}

func (b *holdBar) span(h *words.Holding, s timeline.Bounds, j timeline.Judgement, known bool) {
	const half = 4
	x0, x1 := b.x(s.From), math.Max(b.x(s.To+1), b.x(s.From)+2)
	box := Box{Min: Point{x0, b.mid - half}, Max: Point{x1, b.mid + half}, Stroke: RoleOf(j), Width: 1}
	tip := RoleOf(j)
	switch {
	case !known:
		box.Fill, box.Texture, box.Stroke, box.Dashed, tip = Paper, Solid, Soft, true, Soft
	case j == timeline.JudgedSafe:
		box.Fill, box.Texture = RoleOf(j), Solid
	default:
		b.add(Box{Min: box.Min, Max: box.Max, Fill: Paper, Texture: Solid})
		box.Fill, box.Texture = RoleOf(j), Hatch
	}
	b.add(box)
	for _, end := range [...]struct {
		open  bool
		x, to float64
	}{{h.OrLess(s), b.left, -5}, {h.OrMore(s), b.right, 5}} {
		if end.open {
			b.add(Path{Points: []Point{{end.x, b.mid - half - 1}, {end.x + end.to, b.mid}, {end.x, b.mid + half + 1}}, Closed: true, Fill: tip})
		}
	}
}

// breaks marks the ends of what is good on which the setup comes nearest to
// break.
func (b *holdBar) breaks(h *words.Holding) {
	const side = 9
	less, more := h.Slack()
	mark := func(x float64) {
		in := MarkOf(timeline.JudgedUnsafe)
		out := make([]Point, len(in))
		for i, q := range in {
			out[i] = Point{x + q.X*side, b.mid - side/2 + q.Y*side}
		}
		b.add(Path{Points: out, Stroke: RoleOf(timeline.JudgedUnsafe), Width: 1.8})
	}
	if less.Given && (!more.Given || less.N <= more.N) {
		mark(math.Max(b.x(h.At-less.N+1)-side-3, b.left-6))
	}
	if more.Given && (!less.Given || more.N <= less.N) {
		mark(math.Min(b.x(h.At+more.N)+3, b.right+6-side))
	}
}

// stands draws a line where the setup stands, with a head; over a solid span in
// the ground's colour.
func (b *holdBar) stands(at int, over bool) {
	x := (b.x(at) + b.x(at+1)) / 2
	top, low := b.mid-HoldBarHeight/2, b.mid+HoldBarHeight/2
	b.add(Line{From: Point{x, top}, To: Point{x, low}, Stroke: Ink, Width: 2})
	if over {
		b.add(Line{From: Point{x, b.mid - 4}, To: Point{x, b.mid + 4}, Stroke: Paper, Width: 2})
	}
	b.add(Path{Points: []Point{{x - 4, top}, {x + 4, top}, {x, top + 4}}, Closed: true, Fill: Ink})
}
