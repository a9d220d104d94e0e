package sheet

import (
	"math"
	"strconv"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// Rounds is a chain of rounds: setups played one after the other.
type Rounds struct {
	Heading, Answer string // over all of it; empty: said elsewhere
	Attacker, Rival string
	Health          int // of the rival before the first
	Of              []Round
	Stopped         string // why the chain ends before the fight does; empty: it ends it
}

// Round is one setup of a chain.
type Round struct {
	Setup, What, Left string // its name, what happens in it, and what is left
	Health            int    // after it
	Scene             words.Scene
}

// The measures of a chain: the least width of one round, in units, and the gap
// between two, in ems.
const (
	roundLeast = 520
	roundsMost = 3 // in a row
	roundGap   = 1.2
)

// DrawRounds draws a chain of rounds, each as a small strip with what happens in
// it, and the rival's health as a bar. All strips have one scale. w is the
// width in units; the height follows.
func DrawRounds(c *Rounds, w float64) *Drawing { return DrawRoundsOn(c, w, 0)[0] }

// DrawRoundsOn is DrawRounds on pages that are high units high, each with as many
// rows of rounds as it has room for; 0: on one, as high as it must be.
func DrawRoundsOn(c *Rounds, w, high float64) (pages []*Drawing) {
	w = math.Min(atLeast(w, MinLessonW), 1e5)
	count := len(c.Of)
	if c.Stopped != "" {
		count++
	}
	columns := int(clamp(math.Floor(w/roundLeast), 1, roundsMost))
	columns = max(1, min(columns, count))
	em := clamp(7+w/float64(columns)/190, 10, 13)
	gap := roundGap * em
	wide := (w - gap*float64(columns+1)) / float64(columns)
	span, before := c.span(), c.Health
	out, y := c.page(w, em, gap)
	pages = append(pages, out)
	for i := 0; i < max(1, count); i += columns {
		var row []*Drawing
		tall := 0.0
		for k := i; k < min(i+columns, count); k++ {
			d := c.stop(wide, em)
			if k < len(c.Of) {
				d = c.round(k, before, wide, em, span)
				before = c.Of[k].Health
			}
			row, tall = append(row, d), math.Max(tall, d.H)
		}
		if high > 0 && i > 0 && y+tall+gap > high {
			out.end(math.Max(high, y))
			out, y = c.page(w, em, gap)
			pages = append(pages, out)
		}
		for k, d := range row {
			x := gap + float64(k)*(wide+gap)
			for _, s := range d.Shapes {
				out.Shapes = append(out.Shapes, moved(s, x, y))
			}
			if i+k+1 < count && k+1 < columns { // on to the next
				mid := Point{x + wide + gap/2, y + 0.9*em}
				out.Shapes = append(out.Shapes, Path{Points: []Point{{mid.X - 0.3*em, mid.Y - 0.4*em}, {mid.X + 0.3*em, mid.Y}, {mid.X - 0.3*em, mid.Y + 0.4*em}}, Stroke: Soft, Width: medium * em})
			}
		}
		y += tall + gap
	}
	out.end(math.Max(high, math.Ceil(y)))
	for i, d := range pages {
		d.Title = clean(c.Attacker) + " vs " + clean(c.Rival) + ": rounds to the finish"
		if len(pages) > 1 {
			d.Title += ", page " + strconv.Itoa(i+1)
		}
	}
	for i := range c.Of {
		r := &c.Of[i]
		pages[0].Desc += strconv.Itoa(i+1) + ". " + clean(r.Setup) + ": " + clean(r.What) + ". " + clean(r.Left) + " "
	}
	pages[0].Desc += clean(c.Stopped)
	return pages
}

// page begins a page, and says where its rounds begin.
func (c *Rounds) page(w, em, gap float64) (d *Drawing, y float64) {
	p := &lessonPen{w: w, em: em, x: gap, room: w - 2*gap}
	p.d = &Drawing{W: w, Em: em, Shapes: []Shape{Box{}}}
	y = gap
	if c.Heading != "" {
		for i, said := range []string{c.Heading, c.Answer} {
			size := []float64{1.6, 1.1}[i] * em
			lines, _ := wrap(clean(said), size, i == 0, p.room, 3)
			for _, l := range lines {
				p.write(Text{At: Point{p.x, y + 0.85*size}, Str: l, Size: size, Bold: i == 0, Role: Ink})
				y += 1.28 * size
			}
		}
		y += 0.5 * gap
	}
	p.d.Shapes = append(p.d.Shapes, p.text...)
	return p.d, y
}

// end gives a page its height and its ground.
func (d *Drawing) end(high float64) {
	d.H = high
	d.Shapes[0] = Box{Max: Point{d.W, high}, Fill: Paper, Texture: Solid}
}

// span is all frames of all rounds.
func (c *Rounds) span() (out timeline.Span) {
	for i := range c.Of {
		s := c.Of[i].Scene.Span
		if i == 0 {
			out = s
			continue
		}
		out = timeline.Span{From: min(out.From, s.From), To: max(out.To, s.To)}
	}
	return out
}

// round draws round i, at the left top of its own sheet.
func (c *Rounds) round(i, before int, w, em float64, span timeline.Span) *Drawing {
	r := &c.Of[i]
	p := &lessonPen{l: &words.Lesson{}, w: w, em: em, x: 0.3 * em, left: 0.3 * em, room: w - 0.6*em}
	p.d = &Drawing{W: w, Em: em, Left: p.left, Right: w - p.x, View: View{float64(span.From), (w - p.x - p.left) / float64(max(1, span.Len()))}}
	p.write(Text{At: Point{p.x, 1.25 * em}, Str: fit(strconv.Itoa(i+1)+". "+clean(r.Setup), 1.25*em, true, p.room), Size: 1.25 * em, Bold: true, Role: Ink})
	y := p.lines(r.What, p.x, 1.75*em, em, p.room, 2, Ink) + 0.2*em

	q := p.pen(&r.Scene)
	q.rulerTop, q.rulerEnd = y, y+1.7*em
	q.barA, q.groundA, q.groundB = q.rulerEnd, q.rulerEnd, q.rulerEnd
	q.ruler()
	q.numbers()
	q.strip(q.rulerEnd, func() {})
	p.d.Hots = nil
	p.text = append(p.text, q.texts...)
	y = q.kY + 0.9*em

	p.health(before, r.Health, c.Health, y)
	y = p.lines(r.Left, p.x, y+1.15*em, em, p.room, 2, Ink)
	p.d.Shapes = append(p.d.Shapes, p.text...)
	p.d.H = y + 0.4*em
	return p.d
}

// health draws the rival's health as a bar: what is left in ink, what the round
// takes hatched.
func (p *lessonPen) health(before, after, full int, y float64) {
	em, x, wide := p.em, p.x, p.room
	at := func(n int) float64 { return x + wide*clamp(float64(n)/float64(max(1, full)), 0, 1) }
	top, foot := y, y+0.75*em
	p.d.Shapes = append(p.d.Shapes,
		Box{Min: Point{at(after), top}, Max: Point{at(before), foot}, Fill: Ink, Texture: Hatch},
		Box{Min: Point{x, top}, Max: Point{at(after), foot}, Fill: Ink, Texture: Solid},
		Box{Min: Point{x, top}, Max: Point{x + wide, foot}, Stroke: Soft, Width: thin * em})
}

// stop says why the chain ends, in place of a round.
func (c *Rounds) stop(w, em float64) *Drawing {
	p := &lessonPen{w: w, em: em, x: 0.3 * em, room: w - 0.6*em}
	p.d = &Drawing{W: w, Em: em}
	p.write(Text{At: Point{p.x, 1.25 * em}, Str: "It stops here", Size: 1.25 * em, Bold: true, Role: Ink})
	y := p.lines(c.Stopped, p.x, 1.75*em, em, p.room, 8, Ink)
	p.d.Shapes, p.d.H = p.text, y+0.4*em
	return p.d
}
