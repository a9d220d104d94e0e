package sheet

import "math"

// Clear is the drawing without its ground, to be laid over footage: what lies
// behind it shows through, and around every ink goes a halo of the ground's
// colour, so that it is read on light and dark alike. Washes, grounds of parts
// and the lines of the grid are left out.
func (d *Drawing) Clear() *Drawing {
	out := *d
	out.Halo = math.Max(1.6, 0.14*d.Em)
	out.Shapes = Cleared(d.Shapes)
	return &out
}

// Cleared are shapes as they stand on a Clear drawing.
func Cleared(shapes []Shape) []Shape {
	out := make([]Shape, 0, len(shapes))
	for _, s := range shapes {
		switch v := s.(type) {
		case Box:
			if v.Texture == Tint || v.Fill == Paper && v.Texture == Solid {
				v.Fill = None
			}
			if v.Fill != None || v.Stroke != None {
				out = append(out, v)
			}
			continue
		case Line:
			if v.Stroke == Rule {
				continue
			}
		}
		out = append(out, s)
	}
	return out
}
