package sheet

import (
	"fmt"
	"strings"

	"wakeline/ui/sheet/lettering"
)

// run is a piece of a text: letters that the font has, or one that it lacks.
type run struct {
	str     string
	x, w    float64 // where it begins, and its room
	lacking bool
}

// runs parts a text where the font lacks a letter; x is absolute.
func runs(t *Text) []run {
	f := lettering.Of(t.Bold)
	x := t.Start(TextWidth(t.Str, t.Size, t.Bold))
	var out []run
	for _, r := range t.Str {
		w, lacking := f.Advance(r)*t.Size, !f.Has(r)
		if n := len(out); lacking || n == 0 || out[n-1].lacking {
			out = append(out, run{x: x, lacking: lacking})
		}
		last := &out[len(out)-1]
		last.str += string(r)
		last.w += w
		x += w
	}
	return out
}

// codeBox is what stands for a letter that the font lacks: a box with the
// digits of its code point, in two rows.
func codeBox(q *run, t *Text) []Shape {
	code := fmt.Sprintf("%04X", []rune(q.str)[0])
	half := (len(code) + 1) / 2
	air := 0.06 * t.Size
	top, end := t.At.Y-0.76*t.Size, t.At.Y+0.12*t.Size
	out := []Shape{Box{Min: Point{q.x + air, top}, Max: Point{q.x + q.w - air, end}, Stroke: t.Role, Width: 0.05 * t.Size}}
	size := 0.38 * t.Size
	if half > 2 {
		size = 0.32 * t.Size
	}
	for i, row := range [...]string{code[:half], code[half:]} {
		y := top + (0.07+0.4*float64(i))*t.Size + 0.8*size
		out = append(out, Text{At: Point{q.x + q.w/2, y}, Str: row, Size: size, Bold: t.Bold, Role: t.Role, Anchor: AtMiddle})
	}
	return out
}

// Spelled is a text in shapes that the built-in font can draw: its pieces, and
// boxes for the letters that the font lacks.
func Spelled(t *Text) []Shape {
	var out []Shape
	for _, q := range runs(t) {
		if q.lacking {
			out = append(out, codeBox(&q, t)...)
			continue
		}
		if text := strings.TrimLeft(q.str, " "); strings.TrimSpace(text) != "" { // an SVG drops a space that a text begins with
			x := q.x + TextWidth(q.str[:len(q.str)-len(text)], t.Size, t.Bold)
			out = append(out, Text{At: Point{x, t.At.Y}, Str: strings.TrimRight(text, " "), Size: t.Size, Bold: t.Bold, Role: t.Role})
		}
	}
	return out
}
