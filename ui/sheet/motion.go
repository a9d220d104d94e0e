package sheet

import (
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
