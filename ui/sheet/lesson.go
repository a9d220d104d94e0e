package sheet

import (
	"math"
	"strconv"
	"strings"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// A lesson's width, in units: narrower, its texts have no room.
const (
	MinLessonW = 480
	stepsMost  = 41 // steps of one page
)

// lessonPen lays the steps of a lesson out, one under the other.
type lessonPen struct {
	l    *words.Lesson
	d    *Drawing
	em   float64
	w    float64
	left float64 // where the tracks begin
	room float64 // of texts
	x    float64 // where texts begin
	text []Shape
}

// DrawLesson draws a setup and its neighbours one over the other on one
// ruler: of each step what happens, what stands elsewhere than in the setup
// as it is, which frame meets what, and a sentence. w is the page's width in
// units, at least MinLessonW; its height follows from what there is to say.
// Steps past the 41st are left out.
func DrawLesson(l *words.Lesson, w float64) *Drawing {
	w = math.Min(atLeast(w, MinLessonW), 1e5)
	em := clamp(7+w/190, 10.5, 22)
	p := &lessonPen{l: l, w: w, em: em, x: em, room: w - 2*em}
	p.left = p.x
	if w >= 640 {
		p.left += 7 * em
	}
	scale := (w - p.x - p.left) / float64(max(1, l.Span.Len()))
	p.d = &Drawing{W: w, Em: em, Left: p.left, Right: w - p.x, View: View{float64(l.Span.From), scale}}
	ground := Box{Fill: Paper, Texture: Solid}
	p.d.Shapes = append(p.d.Shapes, ground)

	y := p.head()
	steps := l.Steps[:min(len(l.Steps), stepsMost)]
	first := p.pen(&steps[0].Scene)
	first.rulerTop, first.rulerEnd = y, y+1.7*em
	y = first.rulerEnd
	first.barA, first.groundA, first.groundB = y, y, y // the tracks are the steps'
	first.ruler()
	first.numbers()
	for i := range steps {
		y = p.step(&steps[i], i == l.Own, y)
	}
	p.d.Shapes = append(append(p.d.Shapes, p.text...), first.texts...)
	p.d.H = math.Ceil(y + 0.4*em)
	ground.Max = Point{w, p.d.H}
	p.d.Shapes[0] = ground
	p.d.Ruler = Band{first.rulerTop, first.rulerEnd}
	p.describe()
	return p.d
}

// pen is a pen for one strip of the page.
func (p *lessonPen) pen(s *words.Scene) *pen {
	q := &pen{d: p.d, s: s}
	q.em, q.margin, q.left, q.right = p.em, p.x, p.left, p.w-p.x
	q.o.W = p.w
	return q
}

// write puts a text that has its room.
func (p *lessonPen) write(t Text) {
	if t.Str != "" {
		p.text = append(p.text, t)
	}
}

// lines writes s in at most most lines and returns where the next may stand.
func (p *lessonPen) lines(s string, x, y, size, room float64, most int, role Role) float64 {
	lines, _ := wrap(clean(s), size, false, room, most)
	for _, l := range lines {
		p.write(Text{At: Point{x, y + size}, Str: l, Size: size, Role: role})
		y += 1.28 * size
	}
	return y
}

// head is what the page is about.
func (p *lessonPen) head() float64 {
	em, l := p.em, p.l
	y := 0.9 * em
	size := 1.7 * em
	name, _ := wrap(clean(l.Setup), size, true, p.room, 3)
	for _, line := range name {
		p.write(Text{At: Point{p.x, y + size*0.85}, Str: line, Size: size, Bold: true, Role: Ink})
		y += 1.25 * size
	}
	parts := []string{clean(l.Attacker), " vs ", clean(l.Rival)}
	if l.Position != "" {
		parts = append(parts, " · ", string(l.Position))
	}
	share(parts, 0.95*em, false, p.room)
	y = p.lines(strings.Join(parts, ""), p.x, y-0.15*em, 0.95*em, p.room, 1, Soft) + 0.25*em
	y = p.lines(l.Answer, p.x, y, 1.2*em, p.room, 6, Ink) + 0.1*em
	y = p.lines(l.GivesUp, p.x, y, 1.05*em, p.room, 4, Ink)
	y = p.lines(l.Inputs, p.x, y, 1.05*em, p.room, 4, Ink)
	y = p.lines(noteLine(l.Note), p.x, y, 0.95*em, p.room, 6, Soft) + 0.1*em
	y = p.lines(l.Missing, p.x, y, 0.95*em, p.room, 2, Soft) + 0.1*em
	y = p.lines("One frame is one tick of the game. Every step stands on the same ruler.", p.x, y, 0.95*em, p.room, 2, Soft)
	return p.key(y+0.1*em) + 0.2*em
}

// noteLine is a note with what it is before it; empty where there is none.
func noteLine(note string) string {
	if note == "" {
		return ""
	}
	return "Note: " + note
}

// DrawCaption says under a strip what its picture doesn't: each line, the note,
// and what its textures and marks mean. w is the width of the strip.
func DrawCaption(s *words.Scene, lines []string, note string, w float64) *Drawing {
	w = math.Min(atLeast(w, MinLessonW), 1e5)
	em := clamp(7+w/190, 10.5, 22)
	p := &lessonPen{l: &words.Lesson{Steps: []words.Step{{Scene: *s}}}, w: w, em: em, x: em, left: em, room: w - 2*em}
	p.d = &Drawing{W: w, Em: em, Shapes: []Shape{Box{}}}
	y := 0.2 * em
	for _, l := range lines {
		y = p.lines(l, p.x, y, em, p.room, 3, Ink)
	}
	y = p.lines(noteLine(note), p.x, y, 0.95*em, p.room, 4, Soft)
	y = p.key(y+0.2*em) + 0.2*em
	p.d.Shapes = append(p.d.Shapes, p.text...)
	p.d.end(math.Ceil(y))
	return p.d
}

// step draws one step from height y down and returns where it ends.
func (p *lessonPen) step(s *words.Step, own bool, y float64) float64 {
	em := p.em
	q := p.pen(&s.Scene)
	if y += 0.5 * em; !own || s.Later != 0 || len(p.l.Steps) > 1 {
		q.line(p.x, y, p.w-p.x, y, hair, Soft)
	}
	y = p.title(q, s, y+0.45*em)

	q.strip(y, func() { p.elsewhere(q, s) })
	p.sides(q)
	p.d.Hots = nil // a page is not taken hold of
	p.text = append(p.text, q.texts...)

	y = q.kY + 0.9*em
	if v := s.Side; v != nil {
		d := DrawSide(v, SideOptions{W: p.w, H: SideHeight(v, p.w), Frame: v.Frame})
		for _, shape := range d.Shapes[1:] {
			p.text = append(p.text, moved(shape, 0, y))
		}
		y += d.H + 0.2*em
	}
	y = p.lines(s.Changed, p.x, y, 1.12*em, p.room, 3, Ink)
	y = p.lines(s.Sentence, p.x, y, 1.12*em, p.room, 10, Ink)
	y = p.lines(s.Worth, p.x, y, 1.12*em, p.room, 3, Ink)
	y = p.lines(s.Scene.Then, p.x, y, 1.12*em, p.room, 4, Ink) + 0.15*em
	for i := range s.Contacts {
		y = p.lines(s.Contacts[i].Words(p.l.Steps[p.l.Own].Delay), p.x+0.9*em, y, 0.95*em, p.room-0.9*em, 4, Soft)
	}
	return y + 0.3*em
}

// strip lays both tracks out from height y down, and draws them; behind is
// drawn under the tracks.
func (q *pen) strip(y float64, behind func()) {
	q.lanes(y, 0)
	q.tracks(behind)
}

// lanes says where the lanes of both tracks lie, from height y down, with at
// least so many rows of brackets, where there may be two.
func (q *pen) lanes(y float64, rows int) {
	em := q.em
	air := 0.4 * em
	if q.s.Arc != nil {
		air = clamp(0.06*(q.right-q.left), 3.4*em, 7*em)
	}
	if q.s.After != nil { // for the names of its steps, and of the route over them
		air = math.Max(air, 4.6*em)
	}
	q.rulerEnd = y + 1.35*em // the meeting's frame stands over it
	q.airTop = q.rulerEnd + 0.5*em
	q.barA = q.airTop + air
	q.groundA = q.barA + 1.6*em
	q.windowY = q.groundA + 0.8*em
	q.flagTop = q.groundA + 1.5*em
	q.flagEnd = q.flagTop + 1.9*em
	q.dimY = q.flagEnd + 0.7*em
	q.barB = q.flagEnd + 1.65*em
	q.groundB = q.barB + 1.6*em
	q.nameB = q.groundB + 1.1*em
	q.markTop, q.markRow, q.markRows = q.groundB+1.35*em, 1.35*em, min(2, max(rows, markCount(q.s.Bottom)))
	q.kY = q.markTop + float64(q.markRows)*q.markRow + 0.75*em
}

// tracks draws both tracks in their lanes; of a hidden scene without the
// meeting.
func (q *pen) tracks(behind func()) {
	q.grid()
	if !q.s.Hidden {
		q.meetingWash()
	}
	behind()
	q.flight()
	q.attackerTrack()
	q.rivalTrack()
	if !q.s.Hidden {
		q.meetingFlag()
	}
	q.trueStrings()
	q.dimensions()
	q.firstTouch()
	q.labels()
	q.routeLine()
	q.delayWindow()
	q.touchLine()
}

// title is a step's judgement, what it is, and what moved, in one row where it
// has room.
func (p *lessonPen) title(q *pen, s *words.Step, y float64) float64 {
	em := p.em
	h := 1.75 * em
	j := s.Scene.Verdict.Judgement()
	w := stampWidth(j, h)
	q.stamp(j, p.x, y, w, h)
	x, base, size := p.x+w+0.8*em, y+h/2+0.42*em, 1.2*em
	name := s.Title + " · delay " + strconv.Itoa(s.Delay) + " · against " + clean(s.Against)
	p.write(Text{At: Point{x, base}, Str: fit(name, size, true, p.w-p.x-x), Size: size, Bold: true, Role: Ink})
	x += math.Min(TextWidth(name, size, true), p.w-p.x-x) + 1.2*em
	var moved []string
	for _, m := range s.Moved {
		moved = append(moved, m.What+" "+strconv.Itoa(m.From)+" to "+strconv.Itoa(m.To))
	}
	say := strings.Join(moved, ", ")
	if TextWidth(say, em, false) > p.w-p.x-x { // under the row: a number that is cut is another number
		return p.lines(say, p.x, y+h+0.2*em, em, p.room, 3, Ink)
	}
	p.write(Text{At: Point{x, base}, Str: say, Size: em, Role: Ink})
	return y + h
}

// elsewhere marks where the setup as it is has its jump and its touchdown, and
// by how much this step's stand beside it.
func (p *lessonPen) elsewhere(q *pen, s *words.Step) {
	em := p.em
	for _, m := range s.Moved {
		if m.What == "meeting" || m.What == "guard" {
			continue
		}
		x0, x1 := q.x(m.From), q.x(m.To)
		if !q.inView(x0) || !q.inView(x1) {
			continue
		}
		top := q.airTop - 0.2*em
		q.dash(x0, top, x0, q.groundA, thin, Soft)
		y := top + 0.35*em
		q.arrow(x0, x1, y)
		q.take(math.Min(x0, x1)-1, top, math.Max(x0, x1)+1, y+0.3*em)
	}
}

// sides names the two sides, left of the tracks.
func (p *lessonPen) sides(q *pen) {
	room := p.left - p.x - 0.8*p.em
	if room < 3*p.em {
		return
	}
	for _, side := range [...]struct {
		name, what string
		y          float64
	}{{p.l.Attacker, "attacker", (q.barA + q.groundA) / 2}, {p.l.Rival, "rival", (q.barB + q.groundB) / 2}} {
		p.write(Text{At: Point{p.x, side.y - 0.05*p.em}, Str: fit(clean(side.name), p.em, true, room), Size: p.em, Bold: true, Role: Ink})
		p.write(Text{At: Point{p.x, side.y + 0.9*p.em}, Str: side.what, Size: small(0.8 * p.em), Role: Soft})
	}
}

// describe writes the page's title and description.
func (p *lessonPen) describe() {
	l := p.l
	p.d.Title = clean(l.Setup) + ": lesson"
	say := []string{clean(l.Answer)}
	if l.GivesUp != "" {
		say = append(say, clean(l.GivesUp))
	}
	for i := range l.Steps {
		s := &l.Steps[i]
		word := ", the setup is " + string(s.Scene.Verdict)
		if s.Scene.Verdict == timeline.Blank {
			word = ", " + string(timeline.Blank)
		}
		say = append(say, s.Title+", delay "+strconv.Itoa(s.Delay)+word+": "+clean(s.Sentence))
		if s.Worth != "" {
			say = append(say, clean(s.Worth))
		}
		if s.Scene.Then != "" {
			say = append(say, clean(s.Scene.Then))
		}
	}
	p.d.Desc = strings.Join(say, " ")
}
