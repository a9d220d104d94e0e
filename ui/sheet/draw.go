package sheet

import (
	"math"

	"wakeline/timeline"
)

// Widths of lines, in ems of text, so that a big sheet is not drawn thin.
const (
	hair   = 0.05
	thin   = 0.075
	medium = 0.11
	thick  = 0.2
)

// rect is a place that something takes.
type rect struct{ x0, y0, x1, y1 float64 }

func (r rect) hits(o rect) bool { return r.x0 < o.x1 && o.x0 < r.x1 && r.y0 < o.y1 && o.y0 < r.y1 }

// pen draws one sheet. Texts are kept apart so that they lie over all lines.
type pen struct {
	layout
	d     *Drawing
	s     *timeline.Scene
	o     Options
	texts []Shape
	taken []rect // where texts and what they must not touch lie
}

// Draw draws scene s as a sheet. Sizes below MinW and MinH count as these, a
// view without a positive scale as none; the scene's texts may be of any
// length. The same scene and options give the same drawing.
func Draw(s *timeline.Scene, o Options) *Drawing {
	o.W, o.H = atLeast(o.W, MinW), atLeast(o.H, MinH)
	o.Sentence = clean(o.Sentence)
	p := &pen{s: s, o: o, layout: layOut(&o, markCount(s.Bottom))}
	p.d = &Drawing{
		W: o.W, H: o.H, Left: p.left,
		Shapes: make([]Shape, 0, 192), Hots: make([]Hot, 0, 16),
		View: fitView(s, &p.layout),
	}
	if v := o.View; v != nil && v.Scale > 0 && !math.IsInf(v.Scale, 0) && !math.IsNaN(v.From) && !math.IsInf(v.From, 0) {
		p.d.View = *v
	}
	p.texts, p.taken = make([]Shape, 0, 48), make([]rect, 0, 96)
	p.describe()

	p.box(Box{Max: Point{o.W, o.H}, Fill: Paper, Texture: Solid})
	p.ruler()
	p.meetingWash()
	p.border()
	p.header()
	p.flight()
	p.attackerTrack()
	p.rivalTrack()
	p.meetingFlag()
	p.dimensions()
	p.delayWindow()
	p.labels()
	p.gutter()
	p.numbers()
	p.d.Shapes = append(p.d.Shapes, p.texts...)
	return p.d
}

func atLeast(v, least float64) float64 {
	if v >= least && !math.IsInf(v, 0) {
		return v
	}
	return least
}

func (p *pen) box(b Box) { p.d.Shapes = append(p.d.Shapes, b) }

func (p *pen) path(width float64, role Role, points ...Point) {
	p.d.Shapes = append(p.d.Shapes, Path{Points: points, Stroke: role, Width: width * p.em})
}

func (p *pen) fill(role Role, points ...Point) {
	p.d.Shapes = append(p.d.Shapes, Path{Points: points, Closed: true, Fill: role})
}

func (p *pen) line(x0, y0, x1, y1, width float64, role Role) {
	p.d.Shapes = append(p.d.Shapes, Line{From: Point{x0, y0}, To: Point{x1, y1}, Stroke: role, Width: width * p.em})
}

func (p *pen) dash(x0, y0, x1, y1, width float64, role Role) {
	p.d.Shapes = append(p.d.Shapes, Line{From: Point{x0, y0}, To: Point{x1, y1}, Stroke: role, Width: width * p.em, Dashed: true})
}

// x is where frame f begins, unclipped.
func (p *pen) x(f int) float64 { return p.d.X(float64(f)) }

// clip cuts frames [from, to) to the tracks. Open ends are those cut off; ok
// is false where nothing of it is in view.
func (p *pen) clip(from, to float64) (x0, x1 float64, openL, openR, ok bool) {
	x0, x1 = p.d.X(from), p.d.X(to)
	openL, openR = x0 < p.left-0.01, x1 > p.right+0.01
	x0, x1 = math.Max(x0, p.left), math.Min(x1, p.right)
	return x0, x1, openL, openR, x1-x0 > 0.01
}

// inView reports whether x lies in the tracks.
func (p *pen) inView(x float64) bool { return x >= p.left-0.01 && x <= p.right+0.01 }

// textRect is what a text takes.
func textRect(x, y, w, size float64, a Anchor) rect {
	switch a {
	case AtMiddle:
		x -= w / 2
	case AtEnd:
		x -= w
	}
	return rect{x, y - ascent*size, x + w, y + descent*size}
}

// write puts a text where it is known to have room, and takes the place.
func (p *pen) write(t Text) {
	if t.Str == "" {
		return
	}
	p.taken = append(p.taken, textRect(t.At.X, t.At.Y, TextWidth(t.Str, t.Size, t.Bold), t.Size, t.Anchor))
	p.texts = append(p.texts, t)
}

// spot is a place that a text may stand.
type spot struct {
	x, y float64
	a    Anchor
}

// place writes t on the first of spots that is free and within the tracks,
// with a little air around it. It reports whether there was one.
func (p *pen) place(t Text, spots ...spot) bool {
	if t.Str == "" {
		return false
	}
	w := TextWidth(t.Str, t.Size, t.Bold)
	air := 0.25 * t.Size
	for _, s := range spots {
		r := textRect(s.x, s.y, w, t.Size, s.a)
		if r.x0 < p.left-0.01 || r.x1 > p.right+0.01 || !p.free(rect{r.x0 - air, r.y0, r.x1 + air, r.y1}) {
			continue
		}
		t.At, t.Anchor = Point{s.x, s.y}, s.a
		p.taken = append(p.taken, r)
		p.texts = append(p.texts, t)
		return true
	}
	return false
}

func (p *pen) free(r rect) bool {
	for _, o := range p.taken {
		if r.hits(o) {
			return false
		}
	}
	return true
}

func (p *pen) take(x0, y0, x1, y1 float64) { p.taken = append(p.taken, rect{x0, y0, x1, y1}) }

// hot makes frames [from, to), between two heights, a place to take hold of;
// it is at least wide units wide, about its middle.
func (p *pen) hot(part timeline.Part, index int, from, to, y0, y1, wide float64) {
	x0, x1 := p.d.X(from), p.d.X(to)
	if more := (wide - (x1 - x0)) / 2; more > 0 {
		x0, x1 = x0-more, x1+more
	}
	x0, x1 = math.Max(x0, p.left), math.Min(x1, p.right)
	if x1 > x0 {
		p.d.Hots = append(p.d.Hots, Hot{part, index, Point{x0, y0}, Point{x1, y1}})
	}
}

// border is the sheet's frame and the line under its head.
func (p *pen) border() {
	f := p.frame
	p.box(Box{Min: Point{f, f}, Max: Point{p.d.W - f, p.d.H - f}, Stroke: Ink, Width: medium * p.em})
	p.line(f, p.headEnd, p.d.W-f, p.headEnd, thin, Ink)
}
