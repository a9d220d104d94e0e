package sheet

import (
	"math"
	"strconv"

	"wakeline/timeline"
)

// Entry is one sheet of a booklet, as its contents name it.
type Entry struct {
	Name, About string        // About: who meets whom, and where
	Answer      string        // in a sentence, under them; empty: none
	Word        timeline.Word // empty: nothing is judged
	Pages       int           // that it takes; 0: one
}

// Contents are the pages, w by h units, that a booklet begins with: its title
// and, in order, each entry with its verdict and the page that it stands on, a
// page each after these. w and h are at least MinW and MinH.
func Contents(title string, entries []Entry, w, h float64) []*Drawing {
	w, h = atLeast(w, MinW), atLeast(h, MinH)
	em := clamp(7+w/190, 10.5, 22)
	head, row := 5.2*em, 2.1*em
	for i := range entries {
		if entries[i].Answer != "" {
			row = 3.5 * em
		}
	}
	rows := max(1, int((h-head-em)/row))
	pages := max(1, (len(entries)+rows-1)/rows)
	out, on := make([]*Drawing, pages), pages+1
	for i := range out {
		p := &pen{d: &Drawing{W: w, H: h, Em: em, Title: clean(title) + ": contents"}}
		p.em, p.left, p.right = em, em, w-em
		p.box(Box{Max: Point{w, h}, Fill: Paper, Texture: Solid})
		size := 1.8 * em
		p.write(Text{At: Point{p.left, 2.3 * em}, Str: fit(clean(title), size, true, w-2*em), Size: size, Bold: true, Role: Ink})
		p.write(Text{At: Point{p.left, 4.1 * em}, Str: "Contents", Size: em, Role: Soft})
		p.line(p.left, 4.6*em, p.right, 4.6*em, thin, Ink)
		for k, e := range entries[i*rows : min(len(entries), (i+1)*rows)] {
			p.entry(&e, on, head+float64(k)*row)
			on += max(1, e.Pages)
		}
		p.d.Shapes = append(p.d.Shapes, p.texts...)
		out[i] = p.d
	}
	return out
}

// entry writes one line of the contents: verdict, name, what it is about, a
// leader and the page.
func (p *pen) entry(e *Entry, page int, y float64) {
	em := p.em
	base := y + 1.15*em
	p.d.Links = append(p.d.Links, Link{Point{p.left, y}, Point{p.right, y + 1.6*em}, page})
	if e.Answer != "" {
		x := p.left + stampWidth(timeline.JudgedLimited, 1.5*em) + em
		p.write(Text{At: Point{x, y + 2.6*em}, Str: fit(clean(e.Answer), 0.9*em, false, p.right-x-3*em), Size: 0.9 * em, Role: Ink})
	}
	if e.Word != "" {
		p.stamp(e.Word.Judgement(), p.left, y, stampWidth(timeline.JudgedLimited, 1.5*em), 1.5*em)
	}
	x := p.left + stampWidth(timeline.JudgedLimited, 1.5*em) + em
	n := strconv.Itoa(page)
	end := p.right - math.Max(3*em, TextWidth(n, em, true)+em)
	parts := []string{clean(e.Name), "  ", clean(e.About)}
	share(parts[:1], em, true, 0.62*(end-x))
	p.write(Text{At: Point{x, base}, Str: parts[0], Size: em, Bold: true, Role: Ink})
	x += TextWidth(parts[0], em, true) + 0.9*em
	about := fit(parts[2], 0.9*em, false, end-x)
	p.write(Text{At: Point{x, base}, Str: about, Size: 0.9 * em, Role: Soft})
	if x += TextWidth(about, 0.9*em, false) + 0.6*em; about == "" {
		x -= 0.6 * em
	}
	if end-x > em {
		p.dash(x, base-0.1*em, end, base-0.1*em, hair, Soft)
	}
	p.write(Text{At: Point{p.right, base}, Str: n, Size: em, Bold: true, Role: Ink, Anchor: AtEnd})
}
