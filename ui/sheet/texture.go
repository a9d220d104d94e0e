package sheet

import "math"

// How textures are laid, in units. Every renderer takes them from here.
const (
	hatchStep  = 8.0 // between two lines of a hatch, measured along an edge
	HatchWidth = 0.9 // of a line of Hatch
	DotStep    = 5.0 // between two dots of a row; rows are half as far apart, and staggered
	DotSide    = 1.3 // of a dot of Dots
)

// HatchLines are the diagonals of a hatched box, rising to the right, cut to
// the box, as pairs of points.
func HatchLines(b *Box) [][2]Point {
	w, h := b.Max.X-b.Min.X, b.Max.Y-b.Min.Y
	if w <= 0 || h <= 0 {
		return nil
	}
	out := make([][2]Point, 0, int((w+h)/hatchStep)+1)
	for t := hatchStep / 2; t < w+h; t += hatchStep { // the line x + y = t, from the left or lower edge
		from := Point{math.Max(0, t-h), math.Min(t, h)}
		to := Point{math.Min(t, w), math.Max(0, t-w)}
		out = append(out, [2]Point{{b.Min.X + from.X, b.Min.Y + from.Y}, {b.Min.X + to.X, b.Min.Y + to.Y}})
	}
	return out
}

// DotCentres are the middles of a dotted box's dots.
func DotCentres(b *Box) []Point {
	w, h := b.Max.X-b.Min.X, b.Max.Y-b.Min.Y
	const row = DotStep / 2
	rows := int((h - row) / row)
	if w <= 0 || rows < 1 {
		return nil
	}
	top := b.Min.Y + (h-float64(rows-1)*row)/2
	out := make([]Point, 0, rows*(int(w/DotStep)+1))
	for i := range rows {
		for x := row + float64(i%2)*row; x < w-DotSide; x += DotStep {
			out = append(out, Point{b.Min.X + x, top + float64(i)*row})
		}
	}
	return out
}

// Dashes are the lengths of a dashed line's strokes and gaps, in units.
func Dashes(width float64) (on, off float64) {
	return math.Max(5, 4*width), math.Max(3.5, 3*width)
}

// Strokes are those of a dashed line.
func (l *Line) Strokes() [][2]Point {
	dx, dy := l.To.X-l.From.X, l.To.Y-l.From.Y
	n := math.Hypot(dx, dy)
	if n == 0 {
		return nil
	}
	on, off := Dashes(l.Width)
	var out [][2]Point
	for t := 0.0; t < n; t += on + off {
		u, v := t/n, math.Min(t+on, n)/n
		out = append(out, [2]Point{{l.From.X + u*dx, l.From.Y + u*dy}, {l.From.X + v*dx, l.From.Y + v*dy}})
	}
	return out
}

// Edges are a box's four sides as lines.
func (b *Box) Edges() [4]Line {
	a, c := b.Min, b.Max
	side := func(from, to Point) Line { return Line{from, to, b.Stroke, b.Width, b.Dashed} }
	return [4]Line{side(a, Point{c.X, a.Y}), side(Point{c.X, a.Y}, c), side(c, Point{a.X, c.Y}), side(Point{a.X, c.Y}, a)}
}

// Longer is a straight stroke that goes on by so much at both ends.
func Longer(a, b Point, by float64) (Point, Point) {
	n := math.Hypot(b.X-a.X, b.Y-a.Y)
	if n == 0 {
		return a, b
	}
	dx, dy := (b.X-a.X)/n*by, (b.Y-a.Y)/n*by
	return Point{a.X - dx, a.Y - dy}, Point{b.X + dx, b.Y + dy}
}

// TextureHalo is how far the halo of that width goes around the lines of a hatch
// or around dots: not so far that they run into a slab.
func TextureHalo(halo float64, t Texture) float64 {
	if t == Dots {
		return math.Min(halo, 0.7)
	}
	return math.Min(halo, 1.2)
}
