package sheet

import "wakeline/timeline"

// keyed are the textures that a key explains. Of a lesson there is room for
// more than of a strip.
var keyed = [...]struct {
	phase   timeline.Phase
	texture Texture
	word    string
}{
	{timeline.Startup, Hatch, "startup"}, {timeline.Active, Solid, "active"}, {timeline.Recovery, Dots, "recovery"},
}

// Of one item of a key, in ems: its sample, the air after that, and to the next.
const keySide, keyGap, keyNext = 1.7, 0.4, 1.1

// keyWidth is how wide a key with texts of that size is.
func keyWidth(size, em float64) (w float64) {
	for _, it := range keyed {
		w += (keySide+keyGap+keyNext)*em + TextWidth(it.word, size, false)
	}
	return w - keyNext*em
}

// key draws what the textures mean from x on, on the line y. It returns where
// the next item may stand.
func (p *pen) key(x, y, size float64) float64 {
	em := p.em
	for _, it := range keyed {
		p.box(Box{Min: Point{x, y - 0.4*em}, Max: Point{x + keySide*em, y + 0.4*em}, Fill: Ink, Texture: it.texture, Stroke: Ink, Width: thin * em})
		x += (keySide + keyGap) * em
		p.write(Text{At: Point{x, y + 0.36*size}, Str: it.word, Size: size, Role: Soft})
		x += TextWidth(it.word, size, false) + keyNext*em
	}
	return x
}

// legend says what the textures mean, beside the knockdown advantage, where a
// wide sheet has room for it.
func (p *pen) legend() {
	size, em := small(0.8*p.em), p.em
	w := keyWidth(size, em)
	x, y := p.right-w, p.kY
	if w > 0.4*(p.right-p.left) || !p.free(rect{x - em, y - 0.5*em, p.right, y + 0.5*em}) {
		return
	}
	p.key(x, y, size)
}
