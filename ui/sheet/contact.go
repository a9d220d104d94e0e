package sheet

import (
	"math"
	"strconv"
)

// Contact sheets show many strips small, some on a page.
const (
	ContactColumns = 4
	ContactRows    = 6
	ContactPage    = ContactColumns * ContactRows // strips on one page

	ContactW = 420 // of one strip, in units
	ContactH = 320
)

// DrawContact draws up to ContactPage drawings, ContactW by ContactH units
// each, side by side on one page of a contact sheet, each under the name of
// its file. page and of say which page it is.
func DrawContact(strips []*Drawing, names []string, title string, page, of int) *Drawing {
	const em, gap, under = 13.0, 16.0, 22.0
	strips = strips[:min(len(strips), ContactPage)]
	columns := min(len(strips), ContactColumns)
	rows := (len(strips) + ContactColumns - 1) / ContactColumns
	w := math.Max(MinLessonW, gap+float64(columns)*(ContactW+gap))
	d := &Drawing{W: w, H: 3.6*em + float64(rows)*(ContactH+under+gap), Em: em, Title: clean(title) + ": contact sheet"}
	d.Shapes = append(d.Shapes, Box{Max: Point{d.W, d.H}, Fill: Paper, Texture: Solid},
		Text{At: Point{gap, 2.2 * em}, Str: fit(clean(title), 1.4*em, true, d.W-2*gap-12*em), Size: 1.4 * em, Bold: true, Role: Ink},
		Text{At: Point{d.W - gap, 2.2 * em}, Str: "page " + strconv.Itoa(page) + " of " + strconv.Itoa(of), Size: em, Role: Soft, Anchor: AtEnd})
	for i, s := range strips {
		x, y := gap+float64(i%ContactColumns)*(ContactW+gap), 3.2*em+float64(i/ContactColumns)*(ContactH+under+gap)
		for _, shape := range s.Shapes {
			d.Shapes = append(d.Shapes, moved(shape, x, y))
		}
		d.Shapes = append(d.Shapes, Text{At: Point{x, y + ContactH + em}, Str: fit(clean(names[i]), em, false, ContactW), Size: em, Role: Ink})
		d.Desc += names[i] + ": " + s.Title + ". "
	}
	return d
}

// moved is a shape moved by x and y.
func moved(s Shape, x, y float64) Shape {
	by := func(p Point) Point { return Point{p.X + x, p.Y + y} }
	switch s := s.(type) {
	case Box:
		s.Min, s.Max = by(s.Min), by(s.Max)
		return s
	case Line:
		s.From, s.To = by(s.From), by(s.To)
		return s
	case Text:
		s.At = by(s.At)
		return s
	case Path:
		points := make([]Point, len(s.Points))
		for i, p := range s.Points {
			points[i] = by(p)
		}
		s.Points = points
		return s
	}
	return s
}
