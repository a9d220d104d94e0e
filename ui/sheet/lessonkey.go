package sheet

import "math"

// key says what a lesson's textures and marks mean, from height y down, in as
// many rows as it takes. It returns where the next thing may stand.
func (p *lessonPen) key(y float64) float64 {
	em, size := p.em, small(0.85*p.em)
	q := p.pen(&p.l.Steps[0].Scene)
	x, row := p.x, y+0.6*em
	next := func(w float64) { // to the next row, where this one has no room of w
		if x > p.x && x+w > p.w-p.x {
			x, row = p.x, row+1.4*em
		}
	}
	next(keyWidth(size, em))
	x = q.key(x, row, size)
	for _, it := range [...]struct {
		word string
		draw func(mid float64)
	}{
		{"attack meets wake-up", func(mid float64) { q.pointer(mid, row+0.25*em, Ink, false) }},
		{"meeting that decides", func(mid float64) { q.pointer(mid, row+0.25*em, Ink, true) }},
		{"where it stands as it is, and how far it moved", func(mid float64) {
			q.dash(mid-0.8*em, row-0.5*em, mid-0.8*em, row+0.5*em, thin, Soft)
			q.arrow(mid-0.8*em, mid+0.8*em, row)
		}},
	} {
		if it.word[0] == 'w' && len(p.l.Steps) < 2 {
			continue
		}
		w := (keySide+keyGap)*em + TextWidth(it.word, size, false)
		next(w)
		it.draw(x + keySide*em/2)
		p.write(Text{At: Point{x + (keySide+keyGap)*em, row + 0.36*size}, Str: fit(it.word, size, false, p.w-p.x-x-(keySide+keyGap)*em), Size: size, Role: Soft})
		x += w + keyNext*em
	}
	p.text = append(p.text, q.texts...)
	return row + 0.8*em
}

// pointer draws a small mark that points down at (x, y): filled for the
// meeting that decides, open for the attack's first touch.
func (p *pen) pointer(x, y float64, role Role, filled bool) {
	h := 0.42 * p.em
	if x-h*0.7 < 0 || x+h*0.7 > p.d.W {
		return
	}
	a, b, c := Point{x, y}, Point{x - 0.6*h, y - h}, Point{x + 0.6*h, y - h}
	if filled {
		p.fill(role, a, b, c)
	} else {
		p.path(thin, role, a, b, c, a)
	}
}

// arrow draws an arrow from x0 to x1 on the line y.
func (p *pen) arrow(x0, x1, y float64) {
	em := p.em
	tip := math.Min(0.5*em, math.Abs(x1-x0))
	if x1 < x0 {
		tip = -tip
	}
	p.line(x0, y, x1, y, thin, Ink)
	p.fill(Ink, Point{x1, y}, Point{x1 - tip, y - 0.28*em}, Point{x1 - tip, y + 0.28*em})
}
