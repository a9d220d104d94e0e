package sheet

import (
	"strconv"

	"wakeline/timeline"
)

// delayWindow draws the lane under the attacker's ground: where the jump's
// start may stand so that the setup is good, and where it stands now.
func (p *pen) delayWindow() {
	em, y := p.em, p.windowY
	j0 := p.s.Delay.From
	defer func() {
		if x0, x1, _, _, ok := p.clip(float64(j0), float64(j0+p.s.LastDelay)); ok {
			p.lane(x0, x1, y, hair, Soft)
		}
	}()
	first, last := p.left, p.left
	shown := false
	for _, w := range p.s.Window { // half a frame on both sides: where a hand's drop comes to that delay
		x0, x1, openL, openR, ok := p.clip(float64(j0+w.From)-0.5, float64(j0+w.To)+0.5)
		if !ok {
			continue
		}
		h := 0.26 * em
		p.box(Box{Min: Point{x0, y - h*0.6}, Max: Point{x1, y + h*0.6}, Fill: Safe, Texture: Solid})
		if !openL {
			p.line(x0, y-h*1.4, x0, y+h*1.4, medium, Safe)
		}
		if !openR {
			p.line(x1, y-h*1.4, x1, y+h*1.4, medium, Safe)
		}
		p.take(x0, y-h, x1, y+h)
		if !shown {
			first, shown = x0, true
		}
		last = x1
	}
	j := p.x(p.s.Delay.To)
	if p.inView(j) {
		p.line(j, p.barA, j, y, thin, Ink)
		h := 0.4 * em
		if j-h*0.6 >= p.frame && j+h*0.6 <= p.d.W-p.frame {
			p.fill(Ink, Point{j, p.groundA + 0.1*em + h}, Point{j - 0.6*h, p.groundA + 0.1*em}, Point{j + 0.6*h, p.groundA + 0.1*em})
		}
		p.take(j-h*0.6, p.groundA, j+h*0.6, y)
		if !shown {
			first, last = j, j
		}
		first, last = min(first, j), max(last, j)
	} else if !shown {
		return
	}
	size := small(0.85 * em)
	base := y + 0.3*em
	for _, t := range p.windowWords() {
		if p.place(Text{Str: t, Size: size, Role: Ink}, spot{last + 0.7*em, base, AtStart}, spot{first - 0.7*em, base, AtEnd}) {
			return
		}
	}
}

// windowWords says which delays are the window, the longest way first; of a
// hidden scene, and where nothing is judged yet, nothing.
func (p *pen) windowWords() []string {
	if p.s.Hidden || p.s.Verdict == timeline.Blank {
		return nil
	}
	if len(p.s.Window) == 0 {
		return []string{"no delay is safe"}
	}
	list, n := "", 0
	for _, w := range p.s.Window {
		if n++; n > 4 {
			list += ", …"
			break
		}
		if list != "" {
			list += ", "
		}
		list += strconv.Itoa(w.From)
		if w.To > w.From {
			list += " to " + strconv.Itoa(w.To)
		}
	}
	return []string{"window: delay " + list, "window " + list, list}
}
