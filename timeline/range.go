package timeline

// Gap is by how far what would have touched was out of reach. One of Short and
// Passed is above 0: units, part of one counted whole.
type Gap struct {
	Frame  int   // on which it would have touched first, were distance no matter
	Short  int   // how far the other stood beyond its reach
	Passed int   // how far the other stood within its near end, or behind it
	Behind bool  // the other was behind it
	Move   *Move // what it is
}

// AttackGap is by how far the attacker's first touch was out of reach; ok is
// false where it touches, would not touch anyway, or no distance is known.
func (m *Meetings) AttackGap(e Exchange) (g Gap, ok bool) {
	p := m.Plan
	if !p.ground.known {
		return g, false
	}
	var st stage
	var sp spot
	p.stage(&st, &p.ground, &m.track, e.Rise)
	p.spot(&sp, &st, &m.track, e.Rise, e.Line)
	body, within := &p.bodies[e.Rise*len(p.lines)+e.Line], [2]Set{}
	if m.track.first(body, &sp.mine).frame >= 0 {
		return g, false
	}
	t := m.track.first(body, &within)
	if t.frame < 0 || t.hit.move.Reach == nil {
		return g, false
	}
	w := sp.on(&st)
	l := &w.own[w.nown-1]
	if t.hit.move.Air {
		l = &w.own[0]
	}
	a, b := l.on(t.frame), w.rival(t.frame)
	return t.hit.move.gap(t.frame, l.facing, &a, &b), true
}

// ReplyGap is by how far the reply's touch was out of reach; ok is false where
// it touches, would not touch anyway, or no distance is known.
func (m *Meetings) ReplyGap(e Exchange) (g Gap, ok bool) {
	p := m.Plan
	if !p.ground.known {
		return g, false
	}
	var st stage
	var sp spot
	p.stage(&st, &p.ground, &m.track, e.Rise)
	p.spot(&sp, &st, &m.track, e.Rise, e.Line)
	body, within := &p.bodies[e.Rise*len(p.lines)+e.Line], Set{}
	if body.answer(&m.track, &sp.theirs).frame >= 0 {
		return g, false
	}
	t := body.answer(&m.track, &within)
	if t.frame < 0 || t.hit.move.Reach == nil {
		return g, false
	}
	w := sp.on(&st)
	a, b := w.attacker(t.frame), w.rival(t.frame)
	return t.hit.move.gap(t.frame, w.reply.facing, &b, &a), true
}

// gap is by how far other stands out of the move's reach on frame f, seen from
// own with that facing.
func (m *Move) gap(f, facing int, own, other *stretch) Gap {
	q := own.parts * other.parts
	n := facing * (other.over(f)*own.parts - own.over(f)*other.parts)
	return Gap{f, max(0, ceilDiv(n-m.Reach.Far*q, q)), max(0, ceilDiv(m.Reach.Near*q-n, q)), n < 0, m}
}

// Unreached are the moves of the plan that touch and have no reach, in the
// order attack, landing move, replies, each once: their distance isn't judged.
// It is empty where no distance is known.
func (p *Layout) Unreached() (out []string) {
	if !p.ground.known {
		return nil
	}
	seen := map[*Move]bool{}
	add := func(m *Move) {
		if m != nil && (m.Kind == Strike || m.Kind == Throw) && m.Reach == nil && !seen[m] {
			seen[m] = true
			out = append(out, m.Name)
		}
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

// FromBehind are the exchanges in which one side touches the other's back: a
// touch that must be guarded the other way round.
func (m *Meetings) FromBehind() (out []Exchange) {
	for r := range m.Plan.rises {
		for i := range m.Plan.lines {
			e := Exchange{r, i}
			if m.Cell(e).Side == Behind {
				out = append(out, e)
			}
		}
	}
	return out
}

// Pushed reports whether bodies would push each other apart: two on the ground
// that meet nearer than half their widths together, or a filler done on the
// ground that passes where the rival lies.
func (m *Meetings) Pushed() bool {
	p := m.Plan
	mine, theirs := p.attacker.Width, p.rival.Width
	if !p.ground.known || !mine.Given || !theirs.Given {
		return false
	}
	for r := range p.rises {
		var st stage
		p.stage(&st, &p.ground, &m.track, r)
		for i := range p.lines {
			f := m.Cell(Exchange{r, i}).Meeting
			if !f.Given || m.track.Air.Has(f.N) || p.bodies[r*len(p.lines)+i].Air.Has(f.N) {
				continue
			}
			var sp spot
			p.spot(&sp, &st, &m.track, r, i)
			w := sp.on(&st)
			a, b := w.attacker(f.N), w.rival(f.N)
			n := b.over(f.N)*a.parts - a.over(f.N)*b.parts
			if 2*max(n, -n) < (mine.N+theirs.N)*a.parts*b.parts {
				return true
			}
		}
	}
	return p.fillersPass()
}

// fillersPass reports whether a filler done on the ground passes where the
// rival lies: ending there is not passing.
func (p *meeter) fillersPass() bool {
	w := walk{g: &p.ground, wake: p.wakes[0], rises: p.ground.d, begins: never}
	w.start = leg{done: -never, facing: 1}
	last := w.start
	for k, f := range p.fillers {
		w.lead = append(w.lead[:0], last)
		last = w.next(f.begin, f.pace)
		jumps := p.attacker.Jump(p.Setup.Fillers[k]) != nil
		from, to := last.from-p.ground.d, last.to-p.ground.d
		if !jumps && (from < 0 && to > 0 || from > 0 && to < 0) {
			return true
		}
	}
	return false
}

// OnlyOutOfReach are the demanded replies that meet their demand, on some rise,
// only because what they would touch is out of their reach.
func (m *Meetings) OnlyOutOfReach() (out []Exchange) {
	p := m.Plan
	if !p.ground.known {
		return nil
	}
	for i := FirstReply; i < len(p.lines); i++ {
		for r := range p.rises {
			if e := (Exchange{r, i}); m.ByReachAlone(e) {
				out = append(out, e)
				break
			}
		}
	}
	return out
}

// ByReachAlone reports whether the exchange meets a demand that it would not
// meet if the reply reached everywhere.
func (m *Meetings) ByReachAlone(e Exchange) bool {
	p := m.Plan
	l := &p.lines[e.Line]
	if !p.ground.known || l.demand == DemandNone || l.move == nil || l.move.Reach == nil || !m.Cell(e).meets(l.demand) {
		return false
	}
	sp := p.spotOf(&m.track, e.Rise, e.Line)
	if sp.theirs.Empty() {
		return false
	}
	sp.theirs = Set{}
	c := p.meet(&m.track, &p.bodies[e.Rise*len(p.lines)+e.Line], sp, e.Line, p.wakes[e.Rise])
	return !c.meets(l.demand)
}
