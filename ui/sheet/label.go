package sheet

import (
	"math"
	"strconv"
	"strings"

	"wakeline/timeline"
)

// labels writes the names of what is drawn, the important ones first.
func (p *pen) labels() {
	if p.o.low() { // its ruler lies close over the tracks
		p.ceiling = p.rulerEnd
		defer func() { p.ceiling = 0 }()
	}
	p.touchdownLabel()
	p.attackLabel()
	p.names(p.s.Bottom, p.barB, p.groundB, p.nameB)
	p.names(p.s.Top, p.barA, p.groundA, p.barA-0.42*p.em)
	p.marks(p.s.Bottom, p.markTop, p.markRow, p.markRows)
	p.marks(p.s.Top, p.barA-1.6*p.em, -1.35*p.em, 2)
	p.wakeLabel()
}

// touchdownLabel says on which frame the attacker lands: beside the touchdown,
// and off the meeting's wash where there is room.
func (p *pen) touchdownLabel() {
	if !p.s.Touchdown.Given || !p.inView(p.x(p.s.Touchdown.N)) {
		return
	}
	x, y := p.x(p.s.Touchdown.N), p.groundA+0.95*p.em
	n := strconv.Itoa(p.s.Touchdown.N)
	s, _ := p.meets()
	from, to := p.x(s.From), p.x(s.To)
	before := x // of the wash, where the touchdown lies in it
	if s.Has(p.s.Touchdown.N) {
		before = math.Min(x, from)
	}
	for _, str := range [...]string{"lands on " + n, n} {
		t := Text{Str: str, Size: 0.92 * p.em, Role: Ink}
		w, gap := TextWidth(t.Str, t.Size, false), 0.4*p.em
		var off, over []spot // the wash
		for _, at := range [...]spot{{x - gap, y, AtEnd}, {x + gap, y, AtStart}, {before - gap, y, AtEnd}} {
			if r := textRect(at.x, at.y, w, t.Size, at.a); r.x1 <= from || r.x0 >= to {
				off = append(off, at)
			} else {
				over = append(over, at)
			}
		}
		if p.insist(t, append(off, over...)...) {
			return
		}
	}
}

// attackLabel names the attack beside its stretch, and the jump under its arc.
func (p *pen) attackLabel() {
	a := p.s.Arc
	if a == nil {
		return
	}
	var attack string
	var jump *timeline.Block
	for i := range p.s.Top {
		switch b := &p.s.Top[i]; b.Part {
		case timeline.PartJump:
			jump = b
		case timeline.PartAttack:
			attack = b.Name
		}
	}
	em := p.em
	if attack != "" && a.Attack.Len() > 0 {
		f := float64(a.Attack.From) + 0.4*float64(a.Attack.Len())
		if x := p.d.X(f); p.inView(x) {
			y := p.airY(f) - 0.3*em
			name := clean(attack)
			for _, most := range [...]float64{18, 9, 5} {
				t := Text{Str: fit(name, em, true, most*em), Size: em, Bold: true, Role: Ink}
				spots := []spot{{x + 0.9*em, y, AtStart}, {x + 1.8*em, y - 0.4*em, AtStart}, {x + 3*em, y - em, AtStart}, {x - 1.4*em, y + 1.6*em, AtEnd}}
				if p.o.Em > 0 { // in a picture of a video the arc is steep; elsewhere the jump's name stands there
					spots = append(spots, spot{x - 1.8*em, y + 3*em, AtEnd})
				}
				if p.place(t, spots...) {
					break
				}
			}
		}
	}
	x0, x1, _, _, ok := p.clip(float64(a.Air.From), float64(a.Air.To))
	if !ok {
		return
	}
	mid := (x0 + x1) / 2
	y := p.airTop + 0.45*(p.groundA-p.airTop)
	name := clean(jump.Name)
	for _, part := range [...]float64{0.6, 0.35} {
		t := Text{Str: named(jump, name, em, false, part*(x1-x0)), Size: em, Role: Ink}
		if p.place(t, spot{mid, y, AtMiddle}, spot{mid, y - 1.2*em, AtMiddle}, spot{mid, p.groundA - 0.8*em, AtMiddle}) {
			return
		}
	}
}

// names writes the blocks' names: inside where a block is blank and has the
// room, else in a row at height base, each shortened to the next one's start.
// The reply comes before what stands beside it.
func (p *pen) names(blocks []timeline.Block, y0, y1, base float64) {
	for i := range blocks {
		if blocks[i].Part == timeline.PartReply {
			p.name(blocks, i, y0, y1, base)
		}
	}
	for i := range blocks {
		switch blocks[i].Part {
		case timeline.PartJump, timeline.PartAttack, timeline.PartDelay, timeline.PartRise, timeline.PartReply:
		default:
			p.name(blocks, i, y0, y1, base)
		}
	}
}

func (p *pen) name(blocks []timeline.Block, i int, y0, y1, base float64) {
	b, size := &blocks[i], p.em
	x0, x1, _, _, ok := p.clip(float64(b.Span.From), float64(b.Span.To))
	if !ok {
		return
	}
	if b.Part == timeline.PartLate { // the reply's own name tells it too
		t := Text{Str: "late " + strconv.Itoa(b.Span.Len()), Size: 0.92 * size, Role: Ink}
		if mid := (x0 + x1) / 2; TextWidth(t.Str, t.Size, false) < x1-x0 {
			p.place(t, spot{mid, (y0+y1)/2 + 0.34*size, AtMiddle}, spot{mid, base, AtMiddle})
		}
		return
	}
	name, bold := clean(b.Name), b.Part == timeline.PartReply
	if blank(b) {
		pad := 0.6 * size
		s, _ := p.meets() // else past the meeting's wash, else past the landing
		past := math.Max(x0, p.x(s.To))
		for _, x := range [...]float64{x0, past, math.Max(past, p.x(p.s.ActsFrom))} {
			x += pad
			t := Text{Str: named(b, name, size, bold, x1-pad-x), Size: size, Bold: bold, Role: Ink}
			if n := len(t.Str); n > 0 && (strings.HasPrefix(t.Str, name) || n > 12) && p.place(t, spot{x, (y0+y1)/2 + 0.36*size, AtStart}) {
				return
			}
		}
	}
	end := p.right
	for k := i + 1; k < len(blocks); k++ {
		q := &blocks[k]
		if q.Span.Len() == 0 || q.Part == timeline.PartAttack || blank(q) {
			continue
		}
		from := q.Span.From
		if q.Part == timeline.PartJump { // above the prejump there is room
			from = q.Pieces[0].Span.To
		}
		if p.x(from) > x0 {
			end = math.Min(end, p.x(from)-0.5*size)
			break
		}
	}
	ender := b.Part == timeline.PartEnder
	if ender && TextWidth(name, small(0.85*p.em), false) > end-x0 && p.above(name, x0, base) {
		return
	}
	for _, room := range [...]float64{end - x0, x1 - x0} {
		t := Text{Str: named(b, name, size, bold, math.Min(room, 18*size)), Size: size, Bold: bold, Role: Ink}
		if less := small(0.85 * size); t.Str != name && !strings.HasPrefix(t.Str, name) && TextWidth(name, less, bold) <= room { // smaller, but whole
			t.Str, t.Size = name, less
		}
		if (b.Part == timeline.PartAfter || p.s.After != nil) && !strings.HasPrefix(t.Str, name) { // whole or not at all
			continue
		}
		if p.place(t, spot{x0, base, AtStart}) || ender && p.above(name, x0, base) {
			return
		}
	}
	if p.s.After != nil && p.rowAway(b, name, x0, base) {
		return
	}
	if s, ok := p.meets(); ok && b.Part == timeline.PartLanding { // up to the meeting's line, a little before its block
		t := Text{Str: name, Size: size, Role: Ink}
		if to := p.x(s.From) - 0.4*size; to > x0 && TextWidth(name, size, false) < to-x0+3*size && p.place(t, spot{to, base, AtEnd}) {
			return
		}
	}
	if bold { // the reply is named wherever there is room
		t := Text{Str: named(b, name, size, bold, math.Min(p.right-p.left, 18*size)), Size: size, Bold: bold, Role: Ink}
		ends := [...]spot{{p.right, base, AtEnd}, {x1, base, AtEnd}}
		if p.s.After != nil { // at the right another block stands
			ends[0] = spot{x0, base, AtEnd}
		}
		p.place(t, ends[:]...)
	}
}

// above writes the ender's name a row or two above the other names, where
// those leave it no room and the arc of the jump does.
func (p *pen) above(name string, x0, base float64) bool {
	less := small(0.85 * p.em)
	for _, at := range [...]struct{ up, size float64 }{{1.2, p.em}, {2.4, p.em}, {1.2, less}, {2.25, less}} {
		y, end, w := base-at.up*p.em, p.right, TextWidth(name, at.size, false)
		if a := p.s.Arc; a != nil { // up to where it rises to the row
			for f := a.Air.From; f <= a.Air.To; f++ {
				if end = p.x(f) - 0.3*p.em; p.airY(float64(f)) < y+0.3*p.em {
					break
				}
			}
		}
		if y-0.9*at.size > p.rulerEnd && x0+w <= end && p.place(Text{Str: name, Size: at.size, Role: Ink}, spot{x0, y, AtStart}) {
			return true
		}
	}
	return false
}

// named is a block's name with its length, where both have room, else the name
// shortened to the room.
func named(b *timeline.Block, name string, size float64, bold bool, room float64) string {
	if n := b.Length(); n.Given && name != "" {
		if long := name + " · " + frameCount(n.N); TextWidth(long, size, bold) <= room {
			return long
		}
	}
	return fit(name, size, bold, room)
}

// frameCount writes a count of frames.
func frameCount(n int) string {
	if n == 1 {
		return "1 frame"
	}
	return strconv.Itoa(n) + " frames"
}

func markCount(blocks []timeline.Block) (n int) {
	for i := range blocks {
		n += len(blocks[i].Marks)
	}
	return n
}

// marks draws windows as thin brackets in rows away from the bar, each with
// its word; what finds no room in the rows is left out.
func (p *pen) marks(blocks []timeline.Block, top, row float64, rows int) {
	size := small(0.85 * p.em)
	for i := range blocks {
		for _, m := range blocks[i].Marks {
			x0, x1, openL, openR, ok := p.clip(float64(m.Span.From), float64(m.Span.To))
			if !ok {
				continue
			}
			w := TextWidth(m.What, size, false)
			for k := range rows {
				y := top + float64(k)*row + 0.5*max(row, -row)
				h := 0.3 * p.em
				up := -h // the bracket opens towards its bar
				if row < 0 {
					up = h
				}
				inside := x1-x0 >= w+1.4*p.em
				r := rect{x0 - 0.2*p.em, y - 0.5*p.em, x1 + 0.2*p.em, y + 0.5*p.em}
				if !p.free(r) {
					continue
				}
				t := Text{Str: m.What, Size: size, Role: Ink}
				base := y + 0.36*size
				switch {
				case inside && p.place(t, spot{(x0 + x1) / 2, base, AtMiddle}):
					mid := (x0 + x1) / 2
					p.line(x0, y, mid-w/2-0.3*p.em, y, thin, Ink)
					p.line(mid+w/2+0.3*p.em, y, x1, y, thin, Ink)
				case !inside && p.place(t, spot{x1 + 0.5*p.em, base, AtStart}, spot{x0 - 0.5*p.em, base, AtEnd}):
					p.line(x0, y, x1, y, thin, Ink)
				default:
					continue
				}
				if !openL {
					p.line(x0, y+up, x0, y, thin, Ink)
				}
				if !openR {
					p.line(x1, y+up, x1, y, thin, Ink)
				}
				p.take(x0, y-0.4*p.em, x1, y+0.4*p.em)
				break
			}
		}
	}
}

// wakeLabel says when the rival is up and which rise it is.
func (p *pen) wakeLabel() {
	em := p.em
	w := p.x(p.s.Wake)
	mid := (p.barB+p.groundB)/2 + 0.2*em
	n := strconv.Itoa(p.s.Wake)
	if p.inView(w) {
		for _, t := range [...]string{"wake-up " + n, n} {
			if p.place(Text{Str: t, Size: 0.92 * em, Role: Ink}, spot{w - 1.4*em, mid, AtEnd}, spot{w + 0.5*em, p.barB - 0.4*em, AtStart}) {
				break
			}
		}
	}
	if x0, x1, _, _, ok := p.clip(0, float64(p.s.Wake)); ok {
		t := Text{Str: fit(clean(p.s.Rise)+" rise", 0.92*em, false, min(x1-x0-2*em, 14*em)), Size: 0.92 * em, Role: Soft}
		p.place(t, spot{x0 + 0.5*em, mid, AtStart})
	}
}
