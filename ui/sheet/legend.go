package sheet

import "wakeline/timeline"

// legend says what the textures mean, beside the advantage, where a wide sheet
// has room for it.
func (p *pen) legend() {
	size, em := small(0.8*p.em), p.em
	items := [...]struct {
		phase timeline.Phase
		word  string
	}{{timeline.Startup, "startup"}, {timeline.Active, "active"}, {timeline.Recovery, "recovery"}}
	const side, gap, next = 1.7, 0.4, 1.1 // in ems
	w := 0.0
	for _, it := range items {
		w += (side+gap)*em + TextWidth(it.word, size, false) + next*em
	}
	w -= next * em
	x, y := p.right-w, p.kY
	if w > 0.4*(p.right-p.left) || !p.free(rect{x - em, y - 0.5*em, p.right, y + 0.5*em}) {
		return
	}
	for _, it := range items {
		b := Box{Min: Point{x, y - 0.4*em}, Max: Point{x + side*em, y + 0.4*em}, Fill: Ink, Stroke: Ink, Width: thin * em}
		b.Texture = [...]Texture{timeline.Startup: Hatch, timeline.Active: Solid, timeline.Between: Blank, timeline.Recovery: Dots}[it.phase]
		p.box(b)
		x += (side + gap) * em
		p.write(Text{At: Point{x, y + 0.36*size}, Str: it.word, Size: size, Role: Soft})
		x += TextWidth(it.word, size, false) + next*em
	}
}
