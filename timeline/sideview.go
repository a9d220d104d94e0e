package timeline

// PerUnit is how many parts of a unit a place or a height of a side view is
// counted in: it is rounded down to one, for drawing.
const PerUnit = 1000

// Post is where a fighter is on one frame.
type Post struct {
	X, Height int // along the axis, and over the ground, in parts of a unit
	Facing    int // 1: up the axis; -1: down
	Phase     Phase
}

// Blow is a strike or throw that has a reach.
type Blow struct {
	Name    string
	Reach   Interval
	Span    Span   // from its first frame up to its owner's first free one
	Active  []Span // its active frames
	Touches []Span // those of them on which it would touch: low enough and in reach
}

// Figure is one fighter of a side view.
type Figure struct {
	Name        string
	Width, Tall int    // of the body, in units; a usual one where it isn't given
	Posts       []Post // by frame, from 0 on; after the last nothing moves
	Blows       []Blow
}

// At is where the figure is on frame f.
func (g *Figure) At(f int) Post { return g.Posts[min(max(f, 0), len(g.Posts)-1)] }

// SideView is where both stand on each frame of one exchange: all that a
// drawing from the side needs, and no pixel. Where the distance isn't known it
// tells nothing but that.
type SideView struct {
	Known    bool
	Distance int   // D
	Wall     Maybe // its place; absent without one
	Rises    int   // R: the rival's place from the wake-up on
	Wake     int
	Reply    string // as verdicts title it
	Frame    int    // the frame that tells most: the meeting, else the first that could be one

	Attacker, Rival Figure
	Path            []Post // of the jump: take-off, each air frame, touchdown; empty without one
	Air             Span   // its air frames
	Attack          Span   // from the press to touchdown; empty without an attack
	Active, Touches []Span // of the attack, as a Blow's
	Low, High       int    // units: the stretch of the axis that any frame needs

	Cell      Cell
	Judgement Judgement // of the exchange

	gaps []gap
}

// gap is how far the rival is from the attacker on one frame.
type gap struct {
	units int
	side  Bearing
}

// Apart is the rival's place less the attacker's on frame f, rounded as the
// verdict's is, and where that is by the attacker's facing.
func (v *SideView) Apart(f int) (units int, side Bearing) {
	g := v.gaps[min(max(f, 0), len(v.gaps)-1)]
	return g.units, g.side
}

// Travel is how far the jump goes along its facing, as far as the wall lets it,
// in whole units; 0 without one.
func (v *SideView) Travel() int {
	if len(v.Path) == 0 {
		return 0
	}
	return v.Toward() * (v.Path[len(v.Path)-1].X - v.Path[0].X) / PerUnit
}

// Toward is the facing of the jump: 1 up the axis, which also counts without
// one; -1 down.
func (v *SideView) Toward() int {
	if len(v.Path) == 0 {
		return 1
	}
	return v.Path[0].Facing
}

// Blows is how many blows both sides have.
func (v *SideView) Blows() int { return len(v.Attacker.Blows) + len(v.Rival.Blows) }

// Top is the height, in units, that no head of any frame is over.
func (v *SideView) Top() int {
	top := 0
	for _, g := range [...]*Figure{&v.Attacker, &v.Rival} {
		for i := range g.Posts {
			top = max(top, g.Posts[i].Height/PerUnit+1+g.Tall)
		}
	}
	return top
}

// The body that is drawn where a fighter's isn't given, in units, and how high
// a jump is drawn whose apex isn't.
const (
	usualTall  = 100
	usualWidth = 40
	usualApex  = 160
)

// SideView lays the exchange of that rise and line (indexes of the verdict)
// out in space at delay d, 0 to Fits().
func (p *Plan) SideView(d, rise, line int) SideView {
	if !p.ground.known {
		return SideView{}
	}
	a := p.base.later(d)
	body := &p.bodies[rise*len(p.lines)+line]
	c := p.exchange(&a, rise, line)
	w := &walk{whole: true}
	p.lay(w, &p.ground, &a, rise, line)
	v := SideView{
		Known: true, Distance: p.ground.d, Rises: w.rises, Wake: w.wake, Reply: p.lines[line].title,
		Frame: c.Meeting.Or(p.Due(rise)), Cell: c, Judgement: p.Mark(line, &c),
		Attacker: p.attacker.figure(), Rival: p.rival.figure(),
	}
	if p.room.Given {
		v.Wall = Some(p.ground.wall)
	}
	sp := p.spotOf(&a, rise, line)
	for k := range a.hits[:a.nhits] {
		v.Attacker.blow(&a.hits[k], sp.mine[k].Or(between(0, w.wake)))
	}
	if body.nhits > 0 {
		v.Rival.blow(&body.hits[0], sp.theirs)
	}
	top, bottom := p.attackerBlocks(d, &a), p.rivalBlocks(rise, line, body)
	last := max(w.wake, p.actsOn+d)
	for _, blocks := range [][]Block{top, bottom} {
		for i := range blocks {
			if to := blocks[i].Span.To; to < Width {
				last = max(last, to)
			}
		}
	}
	v.walk(w, min(last, Width-1))
	v.Attacker.phases(top)
	v.Rival.phases(bottom)
	if p.Setup.Jump != "" {
		v.jump(p, &a, w, d)
	}
	for i, name := range p.Setup.Fillers {
		v.Attacker.lift(p.attacker.Jump(name), p.fillers[i].begin)
	}
	v.Rival.lift(p.lines[line].jump, w.begins)
	v.bound()
	return v
}

// figure is the fighter, who stands nowhere yet.
func (r *roster) figure() Figure {
	return Figure{Name: r.Name, Width: r.Width.Or(usualWidth), Tall: r.Body.Or(usualTall)}
}

// blow adds one where it has a reach; far are the frames on which it touches
// nobody.
func (g *Figure) blow(b *hit, far Set) {
	if b.move.Reach == nil {
		return
	}
	s := Blow{Name: b.move.Name, Reach: *b.move.Reach, Span: Span{b.start, b.free}, Touches: b.Active.Minus(far).Spans()}
	for _, on := range b.spans {
		s.Active = append(s.Active, on.Later(b.start))
	}
	g.Blows = append(g.Blows, s)
}

// walk fills in where both are, from frame 0 to last.
func (v *SideView) walk(w *walk, last int) {
	for f := 0; f <= last; f++ {
		here, there, faces := w.attacker(f), standing(v.Distance, 1, never), -1
		if f >= w.wake {
			there = w.rival(f)
		}
		if f >= w.begins && w.reply.facing != 0 {
			faces = w.reply.facing
		}
		l, _ := w.under(f)
		v.Attacker.Posts = append(v.Attacker.Posts, Post{X: here.inParts(f), Facing: l.facing, Phase: Idle})
		v.Rival.Posts = append(v.Rival.Posts, Post{X: there.inParts(f), Facing: faces, Phase: Idle})
		units, side := gapOf(&here, &there, f, l.facing)
		v.gaps = append(v.gaps, gap{units, side})
	}
}

// inParts is the place on frame f in parts of a unit.
func (s *stretch) inParts(f int) int { return floorDiv(s.over(f)*PerUnit, s.parts) }

// phases notes what the figure does, by its blocks.
func (g *Figure) phases(blocks []Block) {
	for i := range blocks {
		for _, q := range blocks[i].Pieces {
			for f := max(0, q.Span.From); f < min(q.Span.To, len(g.Posts)); f++ {
				g.Posts[f].Phase = q.Phase
			}
		}
	}
}

// drawn is the jump with an apex.
func (j *Jump) drawn() Jump {
	out := *j
	out.Apex = Some(j.Apex.Or(usualApex))
	return out
}

// heightOf is the height on air frame i in parts of a unit.
func (j *Jump) heightOf(i int) int {
	n := j.Airborne
	return 4 * j.Apex.N * PerUnit * (i + 1) * (n - i) / ((n + 1) * (n + 1))
}

// lift raises the figure over a jump that begins on that frame; nil is none.
func (g *Figure) lift(j *Jump, begin int) {
	if j == nil {
		return
	}
	shape := j.drawn()
	for i := range j.Airborne {
		if f := begin + j.Prejump + i; f < len(g.Posts) {
			g.Posts[f].Height = shape.heightOf(i)
		}
	}
}

// jump fills in the way of the attacker's jump.
func (v *SideView) jump(p *Plan, a *Track, w *walk, d int) {
	j := p.attacker.Jump(p.Setup.Jump)
	shape, l := j.drawn(), &w.own[0]
	v.Attacker.lift(j, l.begin)
	v.Air = Span{p.touchdown - j.Airborne, p.touchdown}.Later(d)
	at := func(f, height int) {
		s := l.on(f)
		v.Path = append(v.Path, Post{X: s.inParts(f), Height: height, Facing: l.facing, Phase: Airborne})
	}
	at(l.begin-1, 0)
	v.Path[0].X = l.from * PerUnit
	for i := range j.Airborne {
		at(v.Air.From+i, shape.heightOf(i))
	}
	at(v.Air.To, 0)
	if b := a.jumpAttack(); b != nil {
		v.Attack = Span{b.start, v.Air.To}
		for _, s := range b.spans {
			v.Active = append(v.Active, s.Later(b.start))
		}
		v.Touches = b.Active.Spans()
		if len(v.Attacker.Blows) > 0 && b.move.Reach != nil {
			v.Touches = v.Attacker.Blows[0].Touches
		}
	}
}

// bound finds the stretch of the axis that is worth drawing: all places, with
// the bodies on them, and what the blows reach while they are active.
func (v *SideView) bound() {
	v.Low, v.High = 0, max(0, v.Distance, v.Rises)
	take := func(from, to int) { v.Low, v.High = min(v.Low, from), max(v.High, to) }
	for _, g := range [...]*Figure{&v.Attacker, &v.Rival} {
		half := (g.Width + 1) / 2
		for i := range g.Posts {
			take(floorDiv(g.Posts[i].X, PerUnit)-half, ceilDiv(g.Posts[i].X, PerUnit)+half)
		}
		for k := range g.Blows {
			s := &g.Blows[k]
			for _, on := range s.Active {
				for f := on.From; f < min(on.To, len(g.Posts)); f++ {
					at := g.At(f)
					tip := floorDiv(at.X, PerUnit) + at.Facing*s.Reach.Far
					take(tip, tip)
				}
			}
		}
	}
}
