package timeline

// Phase is a stretch of a block, as a drawing tells them apart.
type Phase uint8

// The phases.
const (
	Startup    Phase = iota // before the first active frame, and prejump
	Active                  // it can hit
	Between                 // the gap between two active spans
	Recovery                // after the last active frame, and landing
	Airborne                // a jump's stretch in the air
	Waiting                 // a counted delay, or a late reply's wait
	Lying                   // not yet risen
	Idle                    // standing and doing nothing
	Guarding                // a guard is up
	Parrying                // the common parry is held
	Motion                  // the frames of a move that never hits
	EnderPhase              // the ender's end, before frame 0
)

// Part says what a block is, and so what a hand may do with it.
type Part uint8

// The parts of a scene.
const (
	PartEnder   Part = iota
	PartFiller       // Index is its place among the fillers
	PartDelay        // present also when the delay is 0: its span is then empty
	PartJump         // prejump, air and landing
	PartAttack       // from its press to touchdown
	PartLanding      // the landing action
	PartRise         // lying, up to the wake-up
	PartLate         // the wait of a late reply
	PartReply        // the reply
	PartAfter        // the guard after the reply
	PartStep         // of what follows the meeting: a move of the attacker
	PartStun         // the rival's stun
	PartDown         // the rival on the ground again, up to the end of the drawing

	// Those of a side view.
	PartPlace     // where the rival lies
	PartWall      // the wall behind it
	PartTouchdown // where the jump comes down
)

// Piece is one phase of a block.
type Piece struct {
	Phase Phase
	Span  Span
}

// Mark is a window inside a block: immunity, armour or a parry.
type Mark struct {
	What string // "immune to strikes", "armour 2", "parry", ...
	Span Span
}

// Block is a run of frames with a name on one side's track.
type Block struct {
	Part   Part
	Index  int
	Name   string
	Span   Span
	Pieces []Piece
	Marks  []Mark
}

// Length is the block's frames; absent where it has no end or no beginning of
// its own: the ender, a guard, a held parry, standing idle.
func (b *Block) Length() Maybe {
	if b.Part == PartDown {
		return Maybe{}
	}
	if len(b.Pieces) == 1 {
		switch b.Pieces[0].Phase {
		case EnderPhase, Guarding, Parrying, Idle:
			return Maybe{}
		}
	}
	return Some(b.Span.Len())
}

// Arc is the attacker's flight, for drawing.
type Arc struct {
	Air    Span   // the frames in the air
	Height []int  // of each air frame, in thousandths of the apex
	Attack Span   // from the press to touchdown; empty without an attack
	Active []Span // the attack's active frames
	Reach  []Span // those of them that are in reach
}

// DimensionKind says what a dimension measures.
type DimensionKind uint8

// The dimensions of a scene.
const (
	DimAdvantage DimensionKind = iota // K: frame 0 to the wake-up of the quickest rise
	DimRise                           // the frames that a rise adds, from K to its wake-up
	DimAfterWake                      // the wake-up to the meeting
	DimSpare                          // how many frames were to spare, or were missing
	DimDelay                          // the counted delay
	DimGap                            // of a string: the frames in which the rival can act
	DimTurn                           // at its end: from who is free first to who is free next
)

// Dimension is a length that matters, from frame From to frame To, with the
// number that is written on it (Value may be negative; From <= To always).
type Dimension struct {
	Kind     DimensionKind
	From, To int
	Value    int
}

// Judgement is how an exchange or a setup is marked.
type Judgement uint8

// The judgements of words.md.
const (
	JudgedSafe Judgement = iota
	JudgedLimited
	JudgedUnsafe
	JudgedEven
	JudgedNothing // there is nothing to judge yet
)

// String is the judgement's word.
func (j Judgement) String() string {
	return [...]string{"safe", "limited", "unsafe", "even", string(Blank)}[j]
}

// Judgement is the word's mark.
func (w Word) Judgement() Judgement {
	switch w {
	case Safe:
		return JudgedSafe
	case Limited:
		return JudgedLimited
	case Blank:
		return JudgedNothing
	}
	return JudgedUnsafe
}

// Scene is one exchange laid out in frames: all that a drawing needs, and no
// pixel. Blocks are in order; a block's span may reach below frame 0 only for
// the ender.
type Scene struct {
	Setup, Attacker, Rival string
	Rise, Reply            string // Reply as verdicts title it
	Demand                 Demand
	Span                   Span // the frames worth drawing
	Top                    []Block
	Bottom                 []Block
	Arc                    *Arc // nil without a jump
	Wake                   int
	JumpOn, Touchdown      Maybe // absent without a jump
	GuardsFrom             int   // J without a jump
	ActsFrom               int
	Delay                  Span     // where the delay lies
	Window                 []Bounds // delays
	LastDelay              int

	Cell       Cell
	FirstTouch Maybe // the frame on which the attack touches a rival that does nothing; absent where it never does
	TouchLate  int   // by how many frames that is after the first frame on which it can
	Overlap    Span  // the frames where the two sides meet; empty where they don't
	Dimensions []Dimension
	Judgement  Judgement // of this exchange
	Verdict    Word      // of the setup at this delay, or Blank
	Hidden     bool      // nothing of the scene tells how it ends: see Covered
	After      *Sequel   // what follows the meeting, where it is drawn: see Follow
}

// enderStub is how many frames before 0 the end of the ender is drawn.
const enderStub = 8

// Mark returns how cell c of line i is marked, for itself and whatever the
// setup's verdict is: unsafe where it breaks the setup or hurts the attacker,
// even where neither side touches, else safe.
func (p *Plan) Mark(i int, c *Cell) Judgement {
	switch {
	case p.breaks(i, c), !c.Outcome.Survived():
		return JudgedUnsafe
	case c.Outcome == NoContact, c.Outcome == AttackWhiffs:
		return JudgedEven
	}
	return JudgedSafe
}

// Scene lays out the exchange of that rise and line (indexes of the verdict)
// at delay d, 0 to Fits().
func (p *Plan) Scene(d, rise, line int) Scene {
	a := p.base.later(d)
	body := &p.bodies[rise*len(p.lines)+line]
	c := p.exchange(&a, rise, line)
	s := Scene{
		Setup: p.Setup.Name, Attacker: p.Setup.Attacker, Rival: p.Setup.Rival,
		Rise: p.rises[rise].Name, Reply: p.lines[line].title, Demand: p.lines[line].demand,
		Wake: p.wakes[rise], GuardsFrom: p.guardsOn + d, ActsFrom: p.actsOn + d,
		Delay: Span{p.jumpOn, p.jumpOn + d}, LastDelay: p.last,
		Cell: c, Judgement: p.Mark(line, &c), Verdict: p.Called(d),
	}
	if !p.Blank() && !p.window.Empty() { // of a blank setup pages show none yet
		s.Window = Runs(p.window)
	}
	if p.Setup.Jump != "" {
		s.JumpOn, s.Touchdown = Some(p.jumpOn+d), Some(p.touchdown+d)
		s.Arc = p.arc(&a, d)
	}
	if t := p.firstTouch(&a, rise, LineNothing); t.frame >= 0 {
		s.FirstTouch, s.TouchLate = Some(t.frame), t.frame-p.due(rise, t.hit)
	}
	s.Overlap = overlap(&a, body, p.spotOf(&a, rise, line), c)
	s.Top = p.attackerBlocks(d, &a)
	s.Bottom = p.rivalBlocks(rise, line, body)
	s.Dimensions = s.measure(p.K)
	s.Span = s.extent()
	for side, blocks := range [][]Block{s.Top, s.Bottom} { // what never ends, ends with the drawing
		last := &blocks[len(blocks)-1]
		if side == 1 || last.Part == PartAfter || p.Setup.Landing == DoGuard || p.Setup.Landing == DoParry {
			last.close(s.Span.To)
		}
	}
	return s
}

// close ends a block that has no end of its own on frame f.
func (b *Block) close(f int) {
	if b.Span.To < Width {
		return
	}
	b.Span.To = max(f, b.Span.From)
	for i := range b.Pieces {
		b.Pieces[i].Span.To = min(b.Pieces[i].Span.To, b.Span.To)
	}
}

// overlap is the run of frames around the meeting on which the two sides
// meet: the deciding touch's run.
func overlap(a, body *Track, sp *spot, c Cell) Span {
	if !c.Meeting.Given {
		return Span{}
	}
	both := between(c.Meeting.N, c.Meeting.N+1)
	for i := range a.hits[:a.nhits] {
		both = both.Or(a.hits[i].touches(body).Minus(sp.mine[i]))
	}
	switch c.Outcome {
	case ReplyBlocked, ReplyParried, ReplyHits, ReplyThrows:
		both = body.hits[0].touches(a).Minus(sp.theirs)
	}
	for _, s := range both.Spans() {
		if s.Has(c.Meeting.N) {
			return s
		}
	}
	return Span{}
}

// Stretch lets the scene's last frame be to, where it is later: what never
// ends goes on up to there. It is for scenes that are shown in turn.
func (s *Scene) Stretch(to int) {
	for _, blocks := range [][]Block{s.Top, s.Bottom} {
		if last := &blocks[len(blocks)-1]; last.Span.To == s.Span.To && !last.Length().Given {
			last.Span.To = max(last.Span.To, to)
			last.Pieces[len(last.Pieces)-1].Span.To = last.Span.To
		}
	}
	s.Span.To = max(s.Span.To, to)
}

// measure is the scene's dimensions; k is the knockdown advantage.
func (s *Scene) measure(k int) []Dimension {
	out := []Dimension{{DimAdvantage, 0, k, k}}
	if extra := s.Wake - k; extra > 0 {
		out = append(out, Dimension{DimRise, k, s.Wake, extra})
	}
	if d := s.Delay.Len(); d > 0 {
		out = append(out, Dimension{DimDelay, s.Delay.From, s.Delay.To, d})
	}
	c := &s.Cell
	m := c.Meeting.N
	if c.AfterWake.Given {
		out = append(out, Dimension{DimAfterWake, m - c.AfterWake.N, m, c.AfterWake.N})
	}
	if c.Spare.Given {
		from, to := m-c.Spare.N, m // from where the guard or parry stands
		if c.Outcome == AttackHits {
			from, to = m, m+c.Spare.N
		}
		out = append(out, Dimension{DimSpare, min(from, to), max(from, to), c.Spare.N})
	}
	return out
}

// extent is what is worth drawing: from the ender's stub to a little past the
// last thing that happens.
func (s *Scene) extent() Span {
	end := max(s.ActsFrom, s.Wake)
	for _, blocks := range [][]Block{s.Top, s.Bottom} {
		for _, b := range blocks {
			if b.Span.To < Width {
				end = max(end, b.Span.To)
			}
		}
	}
	return Span{-enderStub, min(end+enderStub, Width)}
}

// Covered is the scene without what tells how the exchange ends: no meeting,
// no judgement, no safe delays, and no name, which may tell them too. What the
// two sides do stays as it is. It is for a scene that hasn't been followed.
func (s Scene) Covered() Scene {
	var plain []Dimension
	for _, d := range s.Dimensions {
		switch d.Kind {
		case DimAdvantage, DimRise, DimDelay:
			plain = append(plain, d)
		}
	}
	s.Hidden, s.Dimensions = true, plain
	s.Setup, s.Window = "", nil
	s.Cell, s.Overlap, s.Judgement, s.Verdict = Cell{}, Span{}, JudgedEven, ""
	s.FirstTouch, s.TouchLate = Maybe{}, 0
	return s
}

// Touches are the spans of frames on which the attacker is active, those in
// reach where that is told.
func (s *Scene) Touches() []Span {
	var out []Span
	if s.Arc != nil {
		out = s.Arc.Reach
	}
	for i := range s.Top {
		if s.Top[i].Part != PartLanding {
			continue
		}
		for _, q := range s.Top[i].Pieces {
			if q.Phase == Active {
				out = append(out[:len(out):len(out)], q.Span)
			}
		}
	}
	return out
}
