package timeline

// Off is a touch that only the reach keeps from being one: by the frames, one
// side would touch the other on that frame.
type Off struct {
	Given  bool
	Frame  int
	Units  int  // rounded up to whole ones
	Near   bool // what it would touch is nearer than its reach, or passed; else it falls short
	Passed bool // what it would touch is behind it
	Throw  bool
	Move   string // whose reach it is
}

// OutOfReach returns for one exchange the first frame on which the attacker
// would touch the rival but for its reach, and likewise the reply.
func (m *Meetings) OutOfReach(e Exchange) (mine, theirs Off) {
	p := m.Plan
	if !p.ground.known {
		return mine, theirs
	}
	var st stage
	var sp spot
	p.stage(&st, &p.ground, &m.track, e.Rise)
	p.spot(&sp, &st, &m.track, e.Rise, e.Line)
	w := sp.on(&st)
	body := &p.bodies[e.Rise*len(p.lines)+e.Line]
	for k := range m.track.hits[:m.track.nhits] {
		h := &m.track.hits[k]
		if f := h.Active.firstOutside(&body.missed[k]); f >= 0 {
			if sp.mine[k].Has(f) {
				l, _ := w.under(f)
				mine = w.off(h, l.facing, f)
			}
			break
		}
	}
	if body.nhits > 0 {
		h := &body.hits[0]
		misses := h.misses(&m.track)
		if f := h.Active.firstOutside(&misses); f >= 0 && sp.theirs.Has(f) {
			theirs = w.off(h, -w.reply.facing, f)
		}
	}
	return mine, theirs
}

// off is by how much h misses on frame f, on which the other side lies out of
// its reach.
func (w *walk) off(h *hit, toward, f int) Off {
	a, b := w.attacker(f), w.rival(f)
	q := a.parts * b.parts
	gap := toward * (b.over(f)*a.parts - a.over(f)*b.parts)
	off := Off{Given: true, Frame: f, Passed: gap < 0, Throw: h.throws(), Move: h.move.Name}
	if reach := h.move.Reach; gap > reach.Far*q {
		off.Units = ceilDiv(gap-reach.Far*q, q)
	} else {
		off.Units, off.Near = ceilDiv(reach.Near*q-gap, q), true
	}
	return off
}

// OnlyOutOfReach are the demanded replies that meet their demand only because
// they are out of reach on some rise, with where that is first so.
func (m *Meetings) OnlyOutOfReach() (out []Exchange) {
	p := m.Plan
	if !p.ground.known {
		return nil
	}
	for i := FirstReply; i < len(p.lines); i++ {
		for r := range p.rises {
			e := Exchange{r, i}
			demand := p.lines[i].demand
			if demand == DemandNone || !m.Cell(e).meets(demand) {
				continue
			}
			if _, theirs := m.OutOfReach(e); !theirs.Given {
				continue
			}
			sp := p.spotOf(&m.track, r, i)
			sp.theirs = Set{}
			if c := p.meet(&m.track, &p.bodies[r*len(p.lines)+i], sp, i, p.wakes[r]); !c.meets(demand) {
				out = append(out, e)
				break
			}
		}
	}
	return out
}

// Crowded is the first exchange on whose meeting both stand on the ground
// nearer than half their widths together: a game would push them apart. ok is
// false where there is none.
func (m *Meetings) Crowded() (e Exchange, ok bool) {
	p := m.Plan
	mine, theirs := p.attacker.Width, p.rival.Width
	if !p.ground.known || !mine.Given || !theirs.Given {
		return e, false
	}
	for i := range p.lines {
		for r := range p.rises {
			e := Exchange{r, i}
			c := m.Cell(e)
			f := c.Meeting.N
			body := &p.bodies[r*len(p.lines)+i]
			if !c.Meeting.Given || 2*max(c.Apart.N, -c.Apart.N) > mine.N+theirs.N+1 || m.track.Air.Has(f) || body.Air.Has(f) {
				continue
			}
			var st stage
			var sp spot
			p.stage(&st, &p.ground, &m.track, r)
			p.spot(&sp, &st, &m.track, r, i)
			a, b := sp.on(&st).attacker(f), sp.on(&st).rival(f)
			gap := b.over(f)*a.parts - a.over(f)*b.parts
			if 2*max(gap, -gap) < (mine.N+theirs.N)*a.parts*b.parts {
				return e, true
			}
		}
	}
	return e, false
}

// Passes is the first filler done on the ground that takes the attacker past
// where the rival lies, empty where none does.
func (p *Layout) Passes() string {
	if !p.ground.known {
		return ""
	}
	w := walk{g: &p.ground, wake: never, start: leg{done: -never, facing: 1}}
	for k, f := range p.fillers {
		name := p.Setup.Fillers[k]
		l := w.next(f.begin, f.pace)
		w.lead = append(w.lead[:0], l)
		if before, after := p.ground.d-l.from, p.ground.d-l.to; p.attacker.Jump(name) == nil && (before >= 0 && after < 0 || before <= 0 && after > 0) {
			return name
		}
	}
	return ""
}

// WithoutReach names the moves of the setup that touch at every distance, as
// they give no reach: the attack, the landing move, the replies. It is empty
// where the distance isn't known.
func (p *Layout) WithoutReach() (out []string) {
	if !p.ground.known {
		return nil
	}
	add := func(m *Move) {
		if m == nil || !m.Hits() || m.Reach != nil {
			return
		}
		for _, name := range out {
			if name == m.Name {
				return
			}
		}
		out = append(out, m.Name)
	}
	if p.Setup.Attack != "" {
		add(p.attacker.Move(p.Setup.Attack))
	}
	add(p.attacker.Move(p.Setup.Landing))
	for i := range p.lines {
		add(p.lines[i].move)
	}
	return out
}
