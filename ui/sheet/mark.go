package sheet

import (
	"math"

	"wakeline/timeline"
)

// judged is the one colour, mark and word of a judgement. Shape and word
// always go with the colour: see stamp.
type judged struct {
	role Role
	word string // on a stamp
	mark []Point
}

// judgements, by timeline.Judgement. A mark is a stroke in a square of side 1.
var judgements = [...]judged{
	timeline.JudgedSafe:    {Safe, "SAFE", []Point{{0.02, 0.55}, {0.36, 0.90}, {0.98, 0.10}}},                                           // a tick
	timeline.JudgedLimited: {Limited, "LIMITED", []Point{{0, 0.24}, {0.24, 0.24}, {0.24, 0.82}, {0.76, 0.82}, {0.76, 0.24}, {1, 0.24}}}, // a notch
	timeline.JudgedUnsafe:  {Unsafe, "UNSAFE", []Point{{0, 0.62}, {0.2, 0.2}, {0.42, 0.84}, {0.62, 0.16}, {0.82, 0.8}, {1, 0.38}}},      // a break
	timeline.JudgedEven:    {Even, "EVEN", []Point{{0.08, 0.5}, {0.92, 0.5}}},                                                           // a dash
	timeline.JudgedNothing: {Soft, "NOTHING TO JUDGE YET", ring},
}

// ring is the mark of a setup with nothing to judge yet.
var ring = []Point{{0.92, 0.5}, {0.8, 0.8}, {0.5, 0.92}, {0.2, 0.8}, {0.08, 0.5}, {0.2, 0.2}, {0.5, 0.08}, {0.8, 0.2}, {0.92, 0.5}}

// RoleOf is the role whose colour says j.
func RoleOf(j timeline.Judgement) Role { return judgements[j].role }

// mark draws j's mark in a square with its top left corner at (x, y).
func (p *pen) mark(j timeline.Judgement, x, y, side, width float64, role Role) {
	in := judgements[j].mark
	out := make([]Point, len(in))
	for i, q := range in {
		out[i] = Point{x + q.X*side, y + q.Y*side}
	}
	p.d.Shapes = append(p.d.Shapes, Path{Points: out, Stroke: role, Width: width})
}

// stamp draws a filled label, w wide and h high at (x, y), with j's mark and
// word. Its silhouette says the judgement too: safe is whole, unsafe is torn
// on the right, limited has a notch and a hatched end, even has a bare end;
// where nothing is judged yet it is a dashed outline. Of a scene that is hidden
// it is an empty place.
func (p *pen) stamp(j timeline.Judgement, x, y, w, h float64) {
	if p.s != nil && p.s.Hidden { // the place of one
		p.outline(x, y, x+w, y+h, false, false, true)
		p.write(Text{At: Point{x + w/2, y + h/2 + 0.2*h}, Str: "?", Size: 0.56 * h, Bold: true, Role: Ink, Anchor: AtMiddle})
		return
	}
	k := &judgements[j]
	end, on := 0.0, OnMark // what the silhouette takes on the right; what is written on it
	lines := []string{k.word}
	switch j {
	case timeline.JudgedUnsafe:
		end = 0.15 * h
		p.fill(k.role, tear(x, y, w, h, end)...)
	case timeline.JudgedLimited:
		end = 0.34 * h
		n := 0.2 * h
		p.fill(k.role, Point{x, y}, Point{x + w - end - 2*n, y}, Point{x + w - end - 2*n, y + n}, Point{x + w - end - n, y + n},
			Point{x + w - end - n, y}, Point{x + w - end, y}, Point{x + w - end, y + h}, Point{x, y + h})
		p.box(Box{Min: Point{x + w - end, y}, Max: Point{x + w, y + h}, Fill: k.role, Texture: Hatch, Stroke: k.role, Width: thin * p.em})
	case timeline.JudgedEven:
		end = 0.2 * h
		p.box(Box{Min: Point{x, y}, Max: Point{x + w - end, y + h}, Fill: k.role, Texture: Solid})
		p.box(Box{Min: Point{x, y}, Max: Point{x + w, y + h}, Stroke: k.role, Width: thin * p.em})
	case timeline.JudgedNothing:
		on = k.role
		p.box(Box{Min: Point{x, y}, Max: Point{x + w, y + h}, Stroke: on, Width: thin * p.em, Dashed: true})
		if w < 0.8*stampWidth(j, h) {
			lines = []string{"NOTHING TO", "JUDGE YET"}
		}
	default:
		p.box(Box{Min: Point{x, y}, Max: Point{x + w, y + h}, Fill: k.role, Texture: Solid})
	}
	n := float64(len(lines))
	side, size := stampSizes(lines[0], w-end, h/n)
	pad := 0.3 * side
	text := TextWidth(lines[0], size, true)
	x += (w - end - side - pad - text) / 2
	p.mark(j, x, y+(h-side)/2, side, 0.17*side, on)
	for i, line := range lines {
		mid := y + h/2 + (float64(i)-(n-1)/2)*1.15*size
		p.write(Text{At: Point{x + side + pad, mid + 0.357*size}, Str: line, Size: size, Bold: true, Role: on})
	}
}

// stampSizes are the sides of the mark and the size of the word that fill a
// label of that room.
func stampSizes(word string, w, h float64) (side, size float64) {
	size = 0.62 * h
	unit := TextWidth(word, 1, true) + 1.3*0.75 // the mark is 0.75 of the word's size, and 0.3 of it is air
	size = math.Min(size, (w-0.44*h)/unit)
	return 0.75 * size, size
}

// stampWidth is how wide a label of height h is, so that its word fills it.
func stampWidth(j timeline.Judgement, h float64) float64 {
	end := [...]float64{timeline.JudgedSafe: 0, timeline.JudgedLimited: 0.34, timeline.JudgedUnsafe: 0.15, timeline.JudgedEven: 0.2, timeline.JudgedNothing: 0}
	unit := TextWidth(judgements[j].word, 1, true) + 1.3*0.75
	return 0.62*h*unit + 0.44*h + end[j]*h
}

// tear is a rectangle whose right edge is torn, at most end units deep.
func tear(x, y, w, h, end float64) []Point {
	out := []Point{{x, y}}
	depths := [...]float64{0, 0.75, 0.2, 1, 0.1, 0.7, 0.3, 0.95, 0.05, 0.8, 0}
	for i, d := range depths {
		out = append(out, Point{x + w - end*d, y + h*float64(i)/float64(len(depths)-1)})
	}
	return append(out, Point{x, y + h})
}
