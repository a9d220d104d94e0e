package sheet

import (
	"math"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// DrawGlossary draws words with what they mean, each that has one with the strip
// that shows it: the place that is meant lies in a dashed frame. Cards stand
// side by side as w, the width in units, has room for. The title says what the
// page is.
func DrawGlossary(terms []words.Term, title string, w float64) *Drawing {
	w = math.Min(atLeast(w, MinLessonW), 1e5)
	em := clamp(9+w/700, 10.5, 16)
	columns := max(1, int(w/(38*em)))
	p := &pen{d: &Drawing{W: w, Em: em, Title: clean(title)}}
	p.em = em
	ground := Box{Fill: Paper, Texture: Solid}
	p.box(ground)
	p.write(Text{At: Point{em, 2.3 * em}, Str: fit(clean(title), 1.7*em, true, w-2*em), Size: 1.7 * em, Bold: true, Role: Ink})
	wide := (w - em) / float64(columns)
	y := 3.6 * em
	for i := 0; i < len(terms); i += columns {
		row := terms[i:min(len(terms), i+columns)]
		lines := 0
		for k := range row {
			lines = max(lines, len(p.meaning(&row[k], wide-em)))
		}
		end := y
		for k := range row {
			end = math.Max(end, p.card(&row[k], em+float64(k)*wide, y, wide-em, lines))
		}
		y = end
	}
	p.d.H = math.Ceil(y + 0.4*em)
	ground.Max = Point{w, p.d.H}
	p.d.Shapes[0] = ground
	p.d.Shapes = append(p.d.Shapes, p.texts...)
	return p.d
}

// meaning is what a card says, in lines.
func (p *pen) meaning(t *words.Term, w float64) []string {
	lines, _ := wrap(clean(t.Means), p.em, false, w, 5)
	return lines
}

// card draws one term in a row of so many lines, and returns where it ends.
func (p *pen) card(t *words.Term, x, y, w float64, lines int) float64 {
	em := p.em
	p.line(x, y, x+w, y, hair, Soft)
	size := 1.3 * em
	word := fit(t.Word, size, true, w)
	p.write(Text{At: Point{x, y + 1.7*em}, Str: word, Size: size, Bold: true, Role: Ink})
	if t.Also != "" {
		at := x + TextWidth(word, size, true) + 0.8*em
		p.write(Text{At: Point{at, y + 1.7*em}, Str: fit("also: "+t.Also, em, false, x+w-at), Size: em, Role: Soft})
	}
	for i, l := range p.meaning(t, w) {
		p.write(Text{At: Point{x, y + (3.1+1.3*float64(i))*em}, Str: l, Size: em, Role: Ink})
	}
	p.d.Desc += t.Word + ": " + t.Means + " "
	under := y + (2.3+1.3*float64(lines))*em
	if t.Scene == nil {
		return under + 1.2*em
	}
	return p.shown(t, x, under, w)
}

// shown draws the strip that shows a term, from y on, and returns where it
// ends.
func (p *pen) shown(t *words.Term, x, y, w float64) float64 {
	small := math.Max(10, 0.85*p.em)
	near := vicinity(t)
	q := &pen{d: p.d, s: t.Scene}
	q.em, q.left, q.right, q.o.W = small, x, x+w, x+w
	q.d.Left, q.d.View = x, View{float64(near.From), w / float64(near.Len())}
	q.strip(y, func() {})
	q.d.Hots = nil
	top, end := q.airTop, q.groundB
	switch t.Side {
	case words.AttackerSide:
		end = q.windowY + 0.35*small
	case words.RivalSide:
		top = q.barB
	}
	pad := 0.35 * small
	if x0, x1, _, _, ok := q.clip(float64(t.Spot.From), float64(t.Spot.To)); ok {
		b := Box{Min: Point{math.Max(x0-pad, x), top - pad}, Max: Point{math.Min(x1+pad, x+w), end + pad}, Stroke: Ink, Width: 0.18 * small, Dashed: true}
		p.d.Shapes = append(p.d.Shapes, b)
	}
	p.texts = append(p.texts, q.texts...)
	return q.kY + 1.2*p.em
}

// vicinity is what is shown of a term's scene: its spot and what is around it.
func vicinity(t *words.Term) timeline.Span {
	const least, around = 34, 7 // frames
	pad := max(around, (least-t.Spot.Len()+1)/2)
	return timeline.Span{From: max(t.Scene.Span.From, t.Spot.From-pad), To: min(t.Scene.Span.To, t.Spot.To+pad)}
}
