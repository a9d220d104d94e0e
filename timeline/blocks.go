package timeline

import "fmt"

// arc is the attacker's flight on track a, at delay d.
func (p *Layout) arc(a *Track, d int) *Arc {
	j := p.attacker.Jump(p.Setup.Jump)
	arc := &Arc{Air: Span{p.touchdown - j.Airborne, p.touchdown}.Later(d)}
	shape := *j
	shape.Apex = Some(1000)
	for i := range j.Airborne {
		arc.Height = append(arc.Height, shape.HeightAt(i))
	}
	if b := a.jumpAttack(); b != nil {
		arc.Attack = Span{b.start, arc.Air.To}
		for _, s := range b.spans {
			arc.Active = append(arc.Active, s.Later(b.start))
		}
		arc.Reach = b.Active.Spans()
	}
	return arc
}

// jumpAttack is the jump attack on the track, nil without one.
func (t *Track) jumpAttack() *hit {
	if t.nhits == 0 || !t.hits[0].move.Air {
		return nil
	}
	return &t.hits[0]
}

// attackerBlocks are the blocks of attacker track a, at delay d.
func (p *Layout) attackerBlocks(d int, a *Track) []Block {
	s := &p.Setup
	name := s.Ender
	stub := Span{-enderStub, 0}
	out := []Block{{Part: PartEnder, Name: name, Span: stub, Pieces: []Piece{{EnderPhase, stub}}}}
	at := 0
	for i, f := range s.Fillers {
		b := Block{Part: PartFiller, Index: i, Name: f}
		if j := p.attacker.Jump(f); j != nil {
			b.jump(j, at)
		} else {
			b.move(p.attacker.Move(f), at, p.rules)
			b.Marks = nil // a filler is a length only
		}
		out, at = append(out, b), b.Span.To
	}
	wait := Span{at, at + d}
	out = append(out, Block{Part: PartDelay, Name: "delay", Span: wait, Pieces: []Piece{{Waiting, wait}}})
	if s.Jump != "" {
		b := Block{Part: PartJump, Name: s.Jump}
		b.jump(p.attacker.Jump(s.Jump), wait.To)
		b.Span.To = p.actsOn + d // an attack may bring a landing of its own
		b.Pieces[2].Span.To = b.Span.To
		out = append(out, b)
		if hit := a.jumpAttack(); hit != nil {
			out = append(out, attackBlock(hit, p.touchdown+d))
		}
	}
	return append(out, p.landingBlock(d))
}

func attackBlock(hit *hit, down int) Block {
	b := Block{Part: PartAttack, Name: hit.move.Name, Span: Span{hit.start, down}}
	at := hit.start
	for _, s := range hit.spans {
		s = s.Later(hit.start)
		b.add(phaseBefore(at, hit.start), Span{at, s.From})
		b.add(Active, s)
		at = s.To
	}
	if len(hit.spans) == 0 {
		b.add(Startup, b.Span)
	} else {
		b.add(Recovery, Span{at, down})
	}
	return b
}

// phaseBefore is the phase that leads to an active span: startup for the
// first, else the gap between two.
func phaseBefore(at, start int) Phase {
	if at == start {
		return Startup
	}
	return Between
}

func (p *Layout) landingBlock(d int) Block {
	b := Block{Part: PartLanding, Name: p.Setup.Landing}
	switch p.Setup.Landing {
	case DoGuard, DoParry:
		b.Span = Span{p.guardsOn + d, Width}
		phase := Guarding
		if p.Setup.Landing == DoParry {
			phase = Parrying
		}
		b.add(phase, b.Span)
	default:
		b.move(p.attacker.Move(p.Setup.Landing), p.actsOn+d, p.rules)
	}
	return b
}

// rivalBlocks are the blocks of the rival with line i on that rise.
func (p *Layout) rivalBlocks(rise, i int, body *Track) []Block {
	w := p.wakes[rise]
	lying := Span{0, w}
	out := []Block{{Part: PartRise, Index: rise, Name: p.rises[rise].Name, Span: lying, Pieces: []Piece{{Lying, lying}}}}
	if i < FirstReply {
		b := Block{Part: PartReply, Index: i, Name: alwaysJudged[i], Span: Span{w, Width}}
		phase := Guarding
		if alwaysJudged[i] == Nothing {
			phase = Idle
		}
		b.add(phase, b.Span)
		return append(out, b)
	}
	start := w + p.lines[i].late
	if p.lines[i].late > 0 {
		late := Span{w, start}
		out = append(out, Block{Part: PartLate, Index: i, Name: "late", Span: late, Pieces: []Piece{{Waiting, late}}})
	}
	b := Block{Part: PartReply, Index: i, Name: p.lines[i].title}
	name := p.lines[i].name
	if j := p.rival.Jump(name); j != nil {
		b.jump(j, start)
	} else {
		b.move(p.rival.Move(name), start, p.rules)
	}
	rest := Span{body.free, Width}
	return append(out, b, Block{Part: PartAfter, Index: i, Name: "guard", Span: rest, Pieces: []Piece{{Guarding, rest}}})
}

// add appends a piece, unless it is empty.
func (b *Block) add(phase Phase, s Span) {
	if s.Len() > 0 {
		b.Pieces = append(b.Pieces, Piece{phase, s})
	}
}

// jump fills b with a jump from frame at on: three pieces, some maybe empty.
func (b *Block) jump(j *Jump, at int) {
	up := at + j.Prejump
	down := up + j.Airborne
	b.Span = Span{at, down + j.Landing}
	b.Pieces = []Piece{{Startup, Span{at, up}}, {Airborne, Span{up, down}}, {Recovery, Span{down, b.Span.To}}}
}

// move fills b with a move from frame at on.
func (b *Block) move(m *Move, at int, r Ruleset) {
	end := at + m.Total(r)
	b.Span = Span{at, end}
	from := at
	for _, s := range m.Spans(r) {
		s = s.Later(at)
		b.add(phaseBefore(from, at), Span{from, s.From})
		b.add(Active, s)
		from = s.To
	}
	if m.Hits() {
		b.add(Recovery, Span{from, end})
	} else {
		b.add(Motion, b.Span)
	}
	for _, w := range m.Immune {
		what := "immune"
		if w.Strikes != w.Throws {
			what = "immune to strikes"
			if w.Throws {
				what = "immune to throws"
			}
		}
		b.Marks = append(b.Marks, Mark{what, w.offsets().Later(at)})
	}
	for _, w := range m.Armour {
		b.Marks = append(b.Marks, Mark{fmt.Sprintf("armour %d", w.Hits), w.offsets().Later(at)})
	}
	for _, w := range m.Parry {
		b.Marks = append(b.Marks, Mark{"parry", w.offsets().Later(at)})
	}
}
