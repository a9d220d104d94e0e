package sheet

import (
	"math"
	"strings"
)

// header draws the answer and what it is about: the stamp, the setup's name,
// who meets whom, and the verdict's sentence.
func (p *pen) header() {
	switch {
	case p.o.Band:
		p.column()
		return
	case p.o.Tight:
		p.shortHead()
		return
	}
	em := p.em
	x, y := p.margin, p.headTop
	p.stamp(p.s.Verdict.Judgement(), x, y, p.stampW, p.stampH)
	tx := x + p.stampW + 1.0*em
	room := p.o.W - p.margin - tx
	title, sub := 1.35*em, 0.92*em
	p.write(Text{At: Point{tx, y + 1.1*em}, Str: fit(clean(p.s.Setup), title, true, room), Size: title, Bold: true, Role: Ink})
	if !p.narrow {
		p.write(Text{At: Point{tx, y + 2.55*em}, Str: p.subtitle(sub, room, true, true), Size: sub, Role: Soft})
		p.sentence(tx, y+3.1*em, room, y+p.stampH+0.3*em)
		return
	}
	p.write(Text{At: Point{tx, y + 2.3*em}, Str: p.subtitle(sub, room, true, false), Size: sub, Role: Soft})
	p.write(Text{At: Point{tx, y + 3.4*em}, Str: p.subtitle(sub, room, false, true), Size: sub, Role: Soft})
	p.sentence(x, y+p.stampH+0.25*em, p.o.W-2*p.margin, p.headEnd-0.2*em)
}

// subtitle says who meets whom and where, and in which exchange, with every
// part shortened fairly to the room there is.
func (p *pen) subtitle(size, room float64, who, what bool) string {
	parts := make([]string, 0, 8)
	join := func(sep string, texts ...string) {
		if len(parts) > 0 {
			parts = append(parts, sep)
		}
		for _, t := range texts {
			parts = append(parts, clean(t))
		}
	}
	if who {
		join("", p.s.Attacker)
		join(" vs ", p.s.Rival)
		if p.o.Position != "" {
			join(" · ", p.o.Position)
		}
	}
	if what {
		join(" · ", p.s.Rise+" rise")
		join(" · ", "against "+p.s.Reply)
	}
	share(parts, size, false, room)
	return fit(strings.Join(parts, ""), size, false, room)
}

// sentence wraps the verdict's sentence between two heights, in the largest
// of its sizes that holds it; where none does it ends with an ellipsis.
func (p *pen) sentence(x, top, room, end float64) {
	if p.o.Sentence == "" {
		return
	}
	var lines []string
	var size, lead float64
	for _, ems := range [...]float64{1.15, 1.0, leastSentence} {
		size = ems * p.em
		lead = 1.22 * size
		most := int(math.Floor((end - top) / lead))
		var whole bool
		if lines, whole = wrap(p.o.Sentence, size, false, room, max(1, most)); whole {
			break
		}
	}
	for i, l := range lines {
		p.write(Text{At: Point{x, top + size + float64(i)*lead}, Str: l, Size: size, Role: Ink})
	}
}

// describe writes the drawing's title and description for readers who can't
// see it.
func (p *pen) describe() {
	s := p.s
	p.d.Title = clean(s.Setup) + ": " + string(s.Verdict)
	d := clean(s.Attacker) + " vs " + clean(s.Rival) + ", " + clean(s.Rise) + " rise, " + clean(s.Reply) +
		": " + s.Judgement.String() + ", " + s.Cell.Outcome.String() + "."
	if p.o.Sentence != "" {
		d += " " + p.o.Sentence
	}
	if own := clean(s.Sentence); own != "" && !strings.HasPrefix(p.o.Sentence, own) {
		d += " " + own
	}
	if s.Beside != "" {
		d += " " + clean(s.Beside)
	}
	if s.Then != "" {
		d += " " + clean(s.Then)
	}
	p.d.Desc = d
}

// gutter names the two sides and the lanes, left of the tracks.
func (p *pen) gutter() {
	if p.o.Band {
		return
	}
	x := p.margin
	room := p.left - x - 0.8*p.em
	if room < 3*p.em {
		return
	}
	size := small(0.8 * p.em)
	side := func(name, what string, y0, y1 float64) {
		mid := (y0 + y1) / 2
		p.write(Text{At: Point{x, mid - 0.05*p.em}, Str: fit(clean(name), p.em, true, room), Size: p.em, Bold: true, Role: Ink})
		p.write(Text{At: Point{x, mid + 0.95*p.em}, Str: what, Size: size, Role: Soft})
	}
	side(p.s.Attacker, "attacker", p.barA, p.groundA)
	side(p.s.Rival, "rival", p.barB, p.groundB)
	p.inMargin("frame", p.rulerEnd-0.62*p.em)
	if !p.s.Hidden {
		p.inMargin("meeting", (p.flagTop+p.flagEnd)/2+0.3*p.em)
	}
	p.inMargin("knockdown", p.kY+0.28*p.em)
}

// inMargin names the lane at y, where the margin has room for it.
func (p *pen) inMargin(what string, y float64) {
	size, room := small(0.8*p.em), p.left-p.margin-0.3*p.em
	if TextWidth(what, size, false) <= room {
		p.write(Text{At: Point{p.margin, y}, Str: what, Size: size, Role: Soft})
	}
}
