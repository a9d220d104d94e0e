package sheet

import (
	"fmt"
	"math"
	"strconv"

	"wakeline/timeline/words"
)

// Mix is a mix as it is drawn: what a round is worth, and the table of points.
type Mix struct {
	Heading string // whose setups, after what
	Answer  string
	Notes   []string // what is never worth doing, and the proof
	Setups  []MixSetup
	Replies []MixReply
}

// MixSetup is one setup of a mix, with its share.
type MixSetup struct {
	Name  string
	Share float64
	Never bool // no best shares have it
}

// MixReply is what the rival may do, with its share, and what it costs as a
// habit.
type MixReply struct {
	Rise, Name string
	Share      float64
	Never      bool
	Points     []MixPoints // setup by setup
	Gain, With string      // what the attacker gains where it is a habit, and by which setup
}

// MixPoints is what one setup makes against one reply.
type MixPoints struct {
	Text string
	Most bool // no other setup makes more
}

// The most setups and replies of a mix that one file takes.
const (
	MixSetups  = 60
	MixReplies = 600
)

// The sizes of a mix, in ems.
const (
	mixName  = 15 // of a reply
	mixShare = 8
	mixCell  = 6.4
	mixGain  = 6
	mixWith  = 13
	mixRow   = 1.9
	mixHead  = 5.6
)

// mixPen lays a mix out on one or several pages.
type mixPen struct {
	pager
	m *Mix
}

// DrawMix draws a mix as a table with a row a reply and a column a setup, and
// over it what a round is worth. w is the width in units, more where the
// columns need it; high is the height of a page, on which a long table ends and
// goes on on the next, or 0: there is one, as high as it must be. More than a
// file takes is an error.
func DrawMix(m *Mix, w, high float64) ([]*Drawing, error) {
	if len(m.Setups) > MixSetups || len(m.Replies) > MixReplies {
		return nil, fmt.Errorf("mix: expected at most %d setups and %d replies in one picture, got %d and %d", MixSetups, MixReplies, len(m.Setups), len(m.Replies))
	}
	em := clamp(7+atLeast(w, MinW)/190, 10.5, 22)
	wide := math.Max(atLeast(w, MinW), em*MixWidth(len(m.Setups)))
	p := &mixPen{m: m, pager: pager{w: wide, em: em, high: high * wide / atLeast(w, MinW)}}
	p.page()
	p.heading()
	p.heads()
	rise := ""
	for j := range m.Replies {
		r := &m.Replies[j]
		need := mixRow * em
		if r.Rise != rise {
			need *= 2
		}
		if p.high > 0 && p.y+need > p.high-1.5*em {
			p.page()
			p.heads()
			rise = ""
		}
		if r.Rise != rise {
			rise = r.Rise
			p.rise(rise)
		}
		p.reply(r)
	}
	p.key()
	p.done()
	for i, d := range p.out {
		d.Title = clean(m.Heading) + ": mix"
		if len(p.out) > 1 {
			d.Title += ", page " + strconv.Itoa(i+1)
		}
		d.Desc = clean(m.Answer)
	}
	return p.out, nil
}

// MixWidth is how many ems a mix of so many setups takes.
func MixWidth(setups int) float64 {
	return 2 + mixName + mixShare + mixCell*float64(setups) + mixGain + mixWith
}

// lines writes a text that is broken into lines.
func (p *mixPen) lines(s string, size float64, bold bool, most int, role Role) {
	lines, _ := wrap(clean(s), size, bold, p.w-2*p.em, most)
	for _, l := range lines {
		p.p.write(Text{At: Point{p.em, p.y + 0.85*size}, Str: l, Size: size, Bold: bold, Role: role})
		p.y += 1.28 * size
	}
}

func (p *mixPen) heading() {
	p.lines(p.m.Answer, 1.5*p.em, true, 4, Ink)
	p.y += 0.3 * p.em
	for _, n := range p.m.Notes {
		p.lines(n, 0.95*p.em, false, 6, Soft)
		p.y += 0.15 * p.em
	}
	p.y += 0.6 * p.em
}

// column is where the points of setup i end.
func (p *mixPen) column(i int) float64 { return p.cells() + p.cell()*float64(i+1) - 0.5*p.em }

// cells is where the first setup's points begin, cell how wide a setup's are:
// what is left over goes to the columns of words.
func (p *mixPen) cells() float64 { return p.em + p.name() + mixShare*p.em }

func (p *mixPen) cell() float64 {
	n := float64(max(1, len(p.m.Setups)))
	return clamp(mixCell*p.em+p.over()*0.5/n, mixCell*p.em, 11*p.em)
}

func (p *mixPen) name() float64 { return mixName*p.em + 0.25*p.over() }

// over is the room that is left over.
func (p *mixPen) over() float64 {
	return math.Max(0, p.w-p.em*MixWidth(len(p.m.Setups)))
}

// gain is where what the attacker gains ends.
func (p *mixPen) gain() float64 {
	return p.cells() + p.cell()*float64(len(p.m.Setups)) + (mixGain-0.5)*p.em
}

// heads writes the setups and their shares.
func (p *mixPen) heads() {
	em, size := p.em, 0.95*p.em
	foot := p.y + mixHead*em
	for i := range p.m.Setups {
		s := &p.m.Setups[i]
		role := Ink
		if s.Never {
			role = Soft
		}
		lines, _ := wrap(clean(s.Name), size, true, p.cell()-0.9*em, 3)
		for k, l := range lines {
			p.p.write(Text{At: Point{p.column(i), foot - 2.1*em - 1.15*size*float64(len(lines)-1-k)}, Str: l, Size: size, Bold: true, Role: role, Anchor: AtEnd})
		}
		p.share(s.Share, s.Never, p.column(i), foot-0.6*em, p.cell()-em)
	}
	for _, c := range []struct {
		x  float64
		s  string
		at Anchor
	}{{em, "The rival does", AtStart}, {p.gain(), "You gain", AtEnd}, {p.gain() + em, "from that habit, with", AtStart}} {
		room := mixWith * em
		p.p.write(Text{At: Point{c.x, foot - 0.6*em}, Str: fit(c.s, 0.9*em, false, room), Size: 0.9 * em, Role: Soft, Anchor: c.at})
	}
	p.p.line(em, foot, p.w-em, foot, thin, Soft)
	p.y = foot
}

// share draws a share as a bar that ends, with its number, at x.
func (p *mixPen) share(share float64, never bool, x, base, room float64) {
	em := p.em
	said, role := words.Percent(share), Ink
	if never {
		said, role = "never", Soft
	}
	size := 0.9 * em
	p.p.write(Text{At: Point{x, base}, Str: said, Size: size, Role: role, Anchor: AtEnd})
	wide := math.Min(room-TextWidth("over 99 %", size, false)-0.4*em, 4*em)
	if wide < 0.8*em {
		return
	}
	from := x - TextWidth("over 99 %", size, false) - 0.4*em - wide
	top := base - 0.65*em
	p.p.box(Box{Min: Point{from, top}, Max: Point{from + wide, base}, Stroke: Rule, Width: hair * em})
	if share > 0 {
		p.p.box(Box{Min: Point{from, top}, Max: Point{from + math.Max(wide*share, hair*em), base}, Fill: Ink, Texture: Solid})
	}
}

// rise heads the replies of one rise.
func (p *mixPen) rise(name string) {
	em := p.em
	p.p.write(Text{At: Point{em, p.y + 1.3*em}, Str: fit(clean(name)+" rise", 0.9*em, false, p.w-2*em), Size: 0.9 * em, Role: Soft})
	p.y += mixRow * em
	p.p.line(em, p.y, p.w-em, p.y, hair, Soft)
}

// reply writes one row.
func (p *mixPen) reply(r *MixReply) {
	em := p.em
	base := p.y + 1.3*em
	role := Ink
	if r.Never {
		role = Soft
	}
	p.p.write(Text{At: Point{1.6 * em, base}, Str: fit(clean(r.Name), em, false, p.name()-em), Size: em, Role: role})
	p.share(r.Share, r.Never, p.cells()-0.3*em, base, mixShare*em-0.3*em)
	for i, n := range r.Points {
		role := Soft
		if p.m.Setups[i].Share > 0 && r.Share > 0 {
			role = Ink
		}
		p.p.write(Text{At: Point{p.column(i), base}, Str: fit(n.Text, em, n.Most, p.cell()-0.6*em), Size: em, Bold: n.Most, Role: role, Anchor: AtEnd})
	}
	p.p.write(Text{At: Point{p.gain(), base}, Str: r.Gain, Size: em, Role: Ink, Anchor: AtEnd})
	p.p.write(Text{At: Point{p.gain() + em, base}, Str: fit(clean(r.With), em, false, p.w-em-p.gain()-em), Size: em, Role: Ink})
	p.y += mixRow * em
	p.p.line(em, p.y, p.w-em, p.y, hair, Rule)
}

// key says what the signs mean.
func (p *mixPen) key() {
	p.y += 0.6 * p.em
	p.lines("Bold: no other setup makes more against that reply. Ink: both sides take it in the best shares. Never: no best shares have it.", 0.9*p.em, false, 3, Soft)
}
