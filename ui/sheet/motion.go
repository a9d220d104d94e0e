package sheet

import (
	"math"
	"strconv"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// Sweep draws the scenes of one setup, one after another, on sheets that stand
// still: one ruler, and lanes in one place. say is what is said on each. The
// scenes are stretched to one end.
func Sweep(scenes []words.Scene, say []string, o Options) []*Drawing {
	span := timeline.Span{}
	for i := range scenes {
		if i == 0 {
			span = scenes[i].Span
		}
		span = timeline.Span{From: min(span.From, scenes[i].Span.From), To: max(span.To, scenes[i].Span.To)}
		o.MarkRows = max(o.MarkRows, markCount(scenes[i].Bottom))
		o.also = append(o.also, said(&scenes[i], say[i]))
	}
	out := make([]*Drawing, len(scenes))
	for i := range scenes {
		s := scenes[i]
		s.Stretch(span.To)
		s.Span = span
		o.Sentence = say[i]
		out[i] = Draw(&s, o)
	}
	return out
}

// Scrubbed is d with a line over both tracks where frame f begins, and its
// number on the ruler. d stays as it is.
func Scrubbed(d *Drawing, f int) *Drawing {
	out := *d
	x, em := d.X(float64(f)), d.Em
	size := 0.95 * em
	text := strconv.Itoa(f)
	w := TextWidth(text, size, true) + 0.8*em
	left := clamp(x-w/2, 0, d.W-w)
	top, end := d.Ruler.From, d.Ruler.From+1.35*em
	out.Shapes = append(d.Shapes[:len(d.Shapes):len(d.Shapes)],
		Line{From: Point{x, end}, To: Point{x, d.Bottom.To}, Stroke: Ink, Width: 0.12 * em},
		Box{Min: Point{left, top}, Max: Point{left + w, end}, Fill: Ink, Texture: Solid},
		Text{At: Point{left + w/2, top + 1.02*em}, Str: text, Size: size, Bold: true, Role: Paper, Anchor: AtMiddle})
	return &out
}

// titleSizes are the sizes of a title's name that are tried, in ems.
var titleSizes = [...]float64{2.6, 2.2, 1.8, 1.5, 1.25}

// Title is a sheet that stands before what it names: the name, as large as it
// can be, and lines about it, on a sheet of a strip's size. A name without room
// ends with an ellipsis.
func Title(name string, about []string, o Options) *Drawing {
	name = clean(name)
	em := clamp(math.Min(8+o.W/190, o.H/28), 10.5, 22)
	if o.Em > 0 {
		em = o.Em
	}
	frame := math.Round(0.4 * em)
	d := &Drawing{W: o.W, H: o.H, Em: em, Title: name}
	d.Shapes = append(d.Shapes, Box{Max: Point{o.W, o.H}, Fill: Paper, Texture: Solid},
		Box{Min: Point{frame, frame}, Max: Point{o.W - frame, o.H - frame}, Stroke: Ink, Width: medium * em})
	const lead, gap, row = 1.25, 0.6, 1.4 // of a name's line, and in ems
	room, most := o.W-4*em, 3
	high := o.H - 2*frame - (1.2+gap+row*float64(len(about)))*em
	var lines []string
	size := em
	for _, ems := range titleSizes {
		size = ems * em
		fits := max(1, min(most, int(high/(lead*size))))
		var whole bool
		if lines, whole = wrap(name, size, true, room, fits); whole {
			break
		}
	}
	y := (o.H - float64(len(lines))*lead*size - (gap+row*float64(len(about)))*em) / 2
	for _, l := range lines {
		y += lead * size
		d.Shapes = append(d.Shapes, Text{At: Point{o.W / 2, y - 0.2*size}, Str: l, Size: size, Bold: true, Role: Ink, Anchor: AtMiddle})
	}
	y += gap * em
	for _, l := range about {
		y += row * em
		d.Shapes = append(d.Shapes, Text{At: Point{o.W / 2, y - 0.2*em}, Str: fit(clean(l), em, false, room), Size: em, Role: Soft, Anchor: AtMiddle})
		d.Desc += clean(l) + ". "
	}
	return d
}
