package brush

import (
	"math"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"wakeline/ui/sheet"
	"wakeline/ui/sheet/lettering"
)

// How a stroke goes around a corner, and how it ends.
const (
	flat  = false // ends where its line ends
	sharp = false // goes on to where its sides meet, as SVG and PDF do, but no further than miterLimit
	round = true
)

const (
	miterLimit = 4.0  // of a corner, in widths of its stroke
	fineness   = 0.05 // how far a round piece may be off, in units
)

// around is the rectangle from a to c with so much around it.
func around(a, c sheet.Point, much float64) Rect {
	return Rect{sheet.Point{X: a.X - much, Y: a.Y - much}, sheet.Point{X: c.X + much, Y: c.Y + much}}
}

// Outline is the rectangle by its corners, all rectangles the same way round.
func (r Rect) Outline() []sheet.Point {
	return []sheet.Point{r.Min, {X: r.Min.X, Y: r.Max.Y}, r.Max, {X: r.Max.X, Y: r.Min.Y}}
}

// bar is a straight stroke with flat ends: four corners, all bars the same way
// round.
func bar(a, b sheet.Point, width float64) []sheet.Point {
	n := normal(a, b, width/2)
	return []sheet.Point{plus(a, n, 1), plus(b, n, 1), plus(b, n, -1), plus(a, n, -1)}
}

// stroke is what a line through points covers: its one outline, or of a closed
// line the two.
func stroke(points []sheet.Point, closed bool, width float64, joins, ends bool) Figure {
	points = distinct(points, closed)
	if len(points) < 2 {
		return nil
	}
	s := sideways{width / 2, joins}
	there, back := s.along(points, closed), s.along(backwards(points), closed)
	if closed {
		return Figure{there, back}
	}
	last := len(points) - 1
	if ends {
		there = s.arc(there, points[last], normal(points[last-1], points[last], s.by), -math.Pi)
		back = s.arc(back, points[0], normal(points[1], points[0], s.by), -math.Pi)
	}
	return Figure{append(there, back...)}
}

// sideways is a line moved to its side by so much.
type sideways struct {
	by    float64
	round bool // at outer corners
}

func (s sideways) along(points []sheet.Point, closed bool) (out []sheet.Point) {
	n := len(points)
	for i, at := range points {
		before, after := points[(i+n-1)%n], points[(i+1)%n]
		switch {
		case i == 0 && !closed:
			out = append(out, plus(at, normal(at, after, s.by), 1))
		case i == n-1 && !closed:
			out = append(out, plus(at, normal(before, at, s.by), 1))
		default:
			out = s.corner(out, before, at, after)
		}
	}
	return out
}

// corner goes around the corner at.
func (s sideways) corner(out []sheet.Point, before, at, after sheet.Point) []sheet.Point {
	n0, n1 := normal(before, at, 1), normal(at, after, 1)
	cos, sin := n0.X*n1.X+n0.Y*n1.Y, n0.X*n1.Y-n0.Y*n1.X
	from, to := plus(at, n0, s.by), plus(at, n1, s.by)
	meet := plus(plus(at, n0, s.by/(1+cos)), n1, s.by/(1+cos)) // where the two sides meet
	if outer := sin < 0; outer {
		switch {
		case s.round:
			return s.arc(out, at, sheet.Point{X: n0.X * s.by, Y: n0.Y * s.by}, -math.Acos(max(cos, -1)))
		case (1+cos)*miterLimit*miterLimit >= 2:
			return append(out, meet)
		}
		return append(out, from, to)
	}
	if cut := s.by * math.Sqrt((1-cos)/(1+cos)); cut <= min(distance(before, at), distance(at, after)) {
		return append(out, meet)
	}
	return append(out, from, at, to)
}

// arc goes around a point by an angle, from where the arm points on.
func (s sideways) arc(out []sheet.Point, around, arm sheet.Point, angle float64) []sheet.Point {
	steps := max(1, math.Ceil(math.Abs(angle)/(2*math.Acos(max(0, 1-fineness/s.by)))))
	for i := 0.0; i <= steps; i++ {
		sin, cos := math.Sincos(angle * i / steps)
		out = append(out, plus(around, sheet.Point{X: arm.X*cos - arm.Y*sin, Y: arm.X*sin + arm.Y*cos}, 1))
	}
	return out
}

// Outline is the outline of a glyph of a line that begins at from, its curves made
// of straight pieces.
func Outline(face *lettering.Face, g lettering.Glyph, from sheet.Point, size float64) (out Figure) {
	scale := size / lettering.UnitsPerEm
	point := func(p fixed.Point26_6) sheet.Point {
		return sheet.Point{X: from.X + (float64(g.X)+float64(p.X)/64)*scale, Y: from.Y + (float64(p.Y)/64-float64(g.Y))*scale}
	}
	for _, s := range face.Outline(g.ID) {
		if s.Op == sfnt.SegmentOpMoveTo {
			out = append(out, []sheet.Point{point(s.Args[0])})
			continue
		}
		last := &out[len(out)-1]
		a := (*last)[len(*last)-1]
		if s.Op == sfnt.SegmentOpQuadTo { // the only curves of a TrueType font
			b, c := point(s.Args[0]), point(s.Args[1])
			steps := math.Ceil(math.Sqrt(math.Hypot(a.X-2*b.X+c.X, a.Y-2*b.Y+c.Y) / (4 * fineness)))
			for i := 1.0; i < steps; i++ {
				t, u := i/steps, 1-i/steps
				*last = append(*last, sheet.Point{X: u*u*a.X + 2*t*u*b.X + t*t*c.X, Y: u*u*a.Y + 2*t*u*b.Y + t*t*c.Y})
			}
			*last = append(*last, c)
			continue
		}
		*last = append(*last, point(s.Args[0]))
	}
	return out
}

// distinct are points without those that repeat the one before.
func distinct(points []sheet.Point, closed bool) (out []sheet.Point) {
	for _, p := range points {
		if n := len(out); n == 0 || distance(out[n-1], p) > 1e-9 {
			out = append(out, p)
		}
	}
	if n := len(out); closed && n > 1 && distance(out[0], out[n-1]) <= 1e-9 {
		out = out[:n-1]
	}
	return out
}

func backwards(points []sheet.Point) []sheet.Point {
	out := make([]sheet.Point, len(points))
	for i, p := range points {
		out[len(points)-1-i] = p
	}
	return out
}

// normal points from the line from a to b to its side, so far.
func normal(a, b sheet.Point, far float64) sheet.Point {
	n := distance(a, b)
	return sheet.Point{X: (a.Y - b.Y) / n * far, Y: (b.X - a.X) / n * far}
}

func distance(a, b sheet.Point) float64 { return math.Hypot(b.X-a.X, b.Y-a.Y) }

func plus(p, v sheet.Point, times float64) sheet.Point {
	return sheet.Point{X: p.X + v.X*times, Y: p.Y + v.Y*times}
}
