package timeline

// SequelKind says what a sequel is.
type SequelKind uint8

// The kinds of sequels.
const (
	Punish  SequelKind = iota // the attacker's route after a blocked reply, or one that touched nothing
	HitOn                     // the attacker's route after its attack hit
	Guarded                   // the attacker's string after its attack was blocked
)

// Sequel is what follows the meeting of one exchange, in frames: the moves that
// the attacker does, and when the rival is free again. Package value works it
// out; Scene.Follow draws it beside the rest.
type Sequel struct {
	Kind  SequelKind
	Steps []SequelStep

	// Of the exchange.
	Setup, Reply string // Reply as verdicts title it
	Outcome      Outcome
	Meeting      Maybe // absent where neither side touches
	ToPunish     Maybe
	Rival        Maybe // the rival's first free frame after the meeting; absent where it isn't known, and for a punish

	// Of a route.
	Name   string
	Points int    // its damage
	Ends   string // the ender that it leads to; empty: none
	Again  bool   // that is the setup's own

	// Of a string.
	Advantage  Maybe  // in the end; absent where it isn't known, or the string stops before
	PunishedBy string // the rival's move that punishes it; empty: none
}

// SequelStep is one move of a sequel.
type SequelStep struct {
	Block
	By       By
	Touch    Maybe // the frame of its first touch; absent where it doesn't touch
	Rival    Maybe // the rival's first free frame after it; absent where that isn't known
	Gap      Maybe // of a string: the frames in which the rival can act before the touch
	BeatenBy string
}

// StepOf is a move that starts on that frame, as a step.
func StepOf(m *Move, by By, start int, r Ruleset) SequelStep {
	s := SequelStep{Block: Block{Part: PartStep, Name: m.Name}, By: by}
	s.move(m, start, r)
	return s
}

// From is the first frame of the sequel's first step.
func (q *Sequel) From() int { return q.Steps[0].Span.From }

// Free is the attacker's first free frame after the last step.
func (q *Sequel) Free() int { return q.Steps[len(q.Steps)-1].Span.To }

// At is the same after a meeting on another frame; nil where one of the two has
// none.
func (q *Sequel) At(meeting Maybe) *Sequel {
	switch {
	case meeting == q.Meeting:
		return q
	case !meeting.Given || !q.Meeting.Given:
		return nil
	}
	return q.later(meeting.N - q.Meeting.N)
}

// later is the sequel n frames later.
func (q *Sequel) later(n int) *Sequel {
	later := func(m Maybe) Maybe { return Maybe{m.N + n, m.Given} }
	out := *q
	out.Meeting, out.Rival = later(q.Meeting), later(q.Rival)
	out.Steps = nil
	for _, s := range q.Steps {
		pieces, marks := s.Pieces, s.Marks
		s.Span, s.Pieces, s.Marks = s.Span.Later(n), nil, nil
		for _, p := range pieces {
			s.Pieces = append(s.Pieces, Piece{p.Phase, p.Span.Later(n)})
		}
		for _, m := range marks {
			s.Marks = append(s.Marks, Mark{m.What, m.Span.Later(n)})
		}
		s.Touch, s.Rival = later(s.Touch), later(s.Rival)
		out.Steps = append(out.Steps, s)
	}
	return &out
}

// firstTouch is the frame from which the rival does no more what it had planned:
// the one after the first touch of a sequel or of the meeting before it.
func (q *Sequel) firstTouch() Maybe {
	if q.Kind != Punish {
		return q.Meeting
	}
	for i := range q.Steps {
		if q.Steps[i].Touch.Given {
			return q.Steps[i].Touch
		}
	}
	return Maybe{}
}

// last is the frame on which the last of it ends.
func (q *Sequel) last() int {
	end := q.Free()
	for i := range q.Steps {
		end = max(end, q.Steps[i].Rival.Or(0))
	}
	return end
}

// Follow draws on from the meeting with what follows it: both sides' blocks
// give way to it, and the scene's last frame is later where it needs that. Nil
// changes nothing.
func (s *Scene) Follow(q *Sequel) {
	if q == nil || s.Hidden {
		return
	}
	s.After = q
	s.Span.To = max(s.Span.To, min(q.last()+enderStub, Width))
	s.Top = cutOff(s.Top, q.From())
	for i := range q.Steps {
		b := q.Steps[i].Block
		if i+1 < len(q.Steps) { // a cancel ends it early
			b = b.until(q.Steps[i+1].Span.From)
		}
		s.Top = append(s.Top, b)
	}
	if f := q.firstTouch(); f.Given {
		s.Bottom = append(cutOff(s.Bottom, f.N+1), q.suffers(s.Span.To)...)
	}
	s.Dimensions = append(s.Dimensions, q.dimensions()...)
}

// cutOff are the blocks before frame f, and what of the others is before it.
func cutOff(blocks []Block, f int) (out []Block) {
	for _, b := range blocks {
		if b.Span.From < f || b.Span.Len() == 0 && b.Span.From == f {
			out = append(out, b.until(f))
		}
	}
	return out
}

// until is what of the block is before frame f.
func (b Block) until(f int) Block {
	if b.Span.To <= f {
		return b
	}
	pieces, marks := b.Pieces, b.Marks
	b.Span.To, b.Pieces, b.Marks = f, nil, nil
	for _, p := range pieces { // an empty one stays: a jump has three
		p.Span = Span{min(p.Span.From, f), min(p.Span.To, f)}
		b.Pieces = append(b.Pieces, p)
	}
	for _, m := range marks {
		if m.Span.To = min(m.Span.To, f); m.Span.Len() > 0 {
			b.Marks = append(b.Marks, m)
		}
	}
	return b
}

// suffers are the rival's blocks from its first touch on, up to frame end: in
// stun, free and guarding in the gaps of a string, at last on the ground or free
// again.
func (q *Sequel) suffers(end int) (out []Block) {
	type touch struct{ at, free Maybe }
	var touches []touch
	if q.Kind != Punish {
		touches = append(touches, touch{q.Meeting, q.Rival})
	}
	for i := range q.Steps {
		if s := &q.Steps[i]; s.Touch.Given {
			touches = append(touches, touch{s.Touch, s.Rival})
		}
	}
	add := func(part Part, name string, phase Phase, from, to int) {
		if to > from {
			span := Span{from, to}
			out = append(out, Block{Part: part, Name: name, Span: span, Pieces: []Piece{{phase, span}}})
		}
	}
	stun := "hitstun"
	if q.Kind == Guarded {
		stun = "guardstun"
	}
	for i, t := range touches {
		from, next := t.at.N+1, end
		if i+1 < len(touches) {
			next = touches[i+1].at.N + 1
		} else if q.Ends != "" {
			add(PartDown, "knocked down", Lying, from, end)
			break
		}
		free := min(t.free.Or(next), next)
		if q.Kind != Guarded && i+1 < len(touches) { // a route that counts leaves no gap
			free = next
		}
		if !t.free.Given && i+1 == len(touches) {
			free = min(q.Free(), next) // not known: as long as the attacker
		}
		add(PartStun, stun, Recovery, from, free)
		if t.free.Given {
			add(PartAfter, "guard", Guarding, max(from, free), next)
		}
	}
	return out
}

// dimensions are the gaps of a string, and who has the turn at its end.
func (q *Sequel) dimensions() (out []Dimension) {
	for i := range q.Steps {
		if s := &q.Steps[i]; s.Gap.N > 0 {
			out = append(out, Dimension{DimGap, s.Touch.N + 1 - s.Gap.N, s.Touch.N + 1, s.Gap.N})
		}
	}
	if a := q.Advantage; a.Given {
		free := q.Free()
		out = append(out, Dimension{DimTurn, min(free, free+a.N), max(free, free+a.N), a.N})
	}
	return out
}
