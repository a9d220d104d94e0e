package sheet

import (
	"math"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// Widths of lines, in ems of text, so that a big sheet is not drawn thin.
const (
	hair   = 0.05  // grid, ticks, extension lines
	thin   = 0.07  // dimension lines, grounds
	medium = 0.105 // blocks, the border
	thick  = 0.2   // the attack's stretch, the body that lies and rises
)

// The views that can be drawn: units a frame, and frames from frame 0.
const (
	minScale = 0.01
	maxScale = 1000
	farthest = 1e6
)

// rect is a place that something takes.
type rect struct{ x0, y0, x1, y1 float64 }

func (r rect) hits(o rect) bool { return r.x0 < o.x1 && o.x0 < r.x1 && r.y0 < o.y1 && o.y0 < r.y1 }

// pen draws one sheet. Texts are kept apart so that they lie over all lines.
type pen struct {
	layout
	d     *Drawing
	s     *words.Scene
	o     Options
	texts []Shape
	taken []rect // where texts and what they must not touch lie

	ceiling float64 // texts are placed under it

	edges  [2]rect // of the meeting's wash
	nedges int
}

// said is a verdict's sentence, and what is given up for it.
func said(s *words.Scene, sentence string) string {
	sentence = clean(sentence)
	if sentence != "" && s.GivesUp != "" {
		sentence += " " + clean(s.GivesUp)
	}
	return sentence
}

// Draw draws scene s as a sheet. Sizes below MinW and MinH count as these, a
// view without a positive scale as none, and one that is out of all proportion
// as the nearest that isn't; the scene's texts may be of any length. The same scene and options give the same drawing.
func Draw(s *words.Scene, o Options) *Drawing {
	if o.low() {
		o.W, o.H = atLeast(o.W, o.leastLowW()), atLeast(o.H, minLowH)
	} else {
		o.W, o.H = atLeast(o.W, MinW), atLeast(o.H, MinH)
	}
	o.Sentence = said(s, o.Sentence)
	p := &pen{s: s, o: o, layout: layOut(&o, max(o.MarkRows, markCount(s.Bottom)), s.Arc != nil)}
	p.d = &Drawing{
		W: o.W, H: o.H, Left: p.left, Right: p.right, Em: p.em,
		Ruler: Band{p.rulerTop, p.rulerEnd}, Top: Band{p.rulerEnd, p.groundA}, Bars: Band{p.barA, p.groundA}, Bottom: Band{p.barB, p.groundB},
		Shapes: make([]Shape, 0, 192), Hots: make([]Hot, 0, 16),
		View: fitView(s, &p.layout),
	}
	if v := o.View; v != nil && v.Scale > 0 && !math.IsNaN(v.From) {
		p.d.View = View{clamp(v.From, -farthest, farthest), clamp(v.Scale, minScale, maxScale)}
	}
	p.texts, p.taken = make([]Shape, 0, 48), make([]rect, 0, 96)
	p.describe()
	if s.Hidden {
		p.d.Title, p.d.Desc = "", ""
	}

	p.box(Box{Max: Point{o.W, o.H}, Fill: Paper, Texture: Solid})
	p.grid()
	p.ruler()
	if !s.Hidden {
		p.meetingWash()
	}
	p.border()
	p.header()
	p.flight()
	p.attackerTrack()
	p.rivalTrack()
	if !s.Hidden {
		p.meetingFlag()
	}
	p.trueStrings()
	p.dimensions()
	p.firstTouch()
	p.labels()
	p.routeLine()
	p.delayWindow()
	p.oddsCurve()
	p.touchLine()
	p.gutter()
	p.numbers()
	p.legend()
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
func (p *pen) place(t Text, spots ...spot) bool { return p.try(t, spots, true) }

// insist is place, but where every spot is taken it lets the text cross an
// edge of the meeting's wash.
func (p *pen) insist(t Text, spots ...spot) bool {
	return p.try(t, spots, true) || p.try(t, spots, false)
}

func (p *pen) try(t Text, spots []spot, edges bool) bool {
	if t.Str == "" {
		return false
	}
	w := TextWidth(t.Str, t.Size, t.Bold)
	air := 0.25 * t.Size
	for _, s := range spots {
		r := textRect(s.x, s.y, w, t.Size, s.a)
		wide := rect{r.x0 - air, r.y0, r.x1 + air, r.y1}
		if r.y0 < p.ceiling || p.o.low() && r.y0 < p.rulerEnd && r.y1 > p.rulerEnd { // it has no room over the bars
			continue
		}
		if r.x0 < p.left-0.01 || r.x1 > p.right+0.01 || !p.free(wide) || edges && p.crosses(r) {
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

// crosses reports whether r lies on an edge of the meeting's wash.
func (p *pen) crosses(r rect) bool {
	for _, o := range p.edges[:p.nedges] {
		if r.hits(o) {
			return true
		}
	}
	return false
}

// lane draws a thin line from x0 to x1 that gives way to the texts on it.
func (p *pen) lane(x0, x1, y, width float64, role Role) {
	air := 0.3 * p.em
	for x0 < x1 {
		next, after := x1, x1
		for _, r := range p.taken { // the first thing on the line
			if r.y0 < y && y < r.y1 && r.x1+air > x0 && r.x0-air < next {
				next, after = math.Max(x0, r.x0-air), r.x1+air
			}
		}
		if next > x0 {
			p.line(x0, y, next, y, width, role)
		}
		x0 = after
	}
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
	if !p.o.Band {
		p.line(f, p.headEnd, p.d.W-f, p.headEnd, thin, Ink)
	}
}
