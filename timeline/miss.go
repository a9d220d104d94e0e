package timeline

// Miss is how far an attack misses the wake-up of a rise.
type Miss struct {
	By    int // frames; 0 where it meets it, Width where it never touches a rival that does nothing
	Frame int // where it first touches that rival, or, where it is too early, is active last
	Due   int // where it should touch
}

// Miss returns by how many frames the attack misses the wake-up of that rise.
func (m *Meetings) Miss(rise int) Miss { return m.Plan.miss(&m.track, rise) }

func (p *Plan) miss(a *Track, r int) Miss {
	if t := p.firstTouch(a, r, LineNothing); t.frame >= 0 {
		due := p.due(r, t.blow)
		return Miss{t.frame - due, t.frame, due}
	}
	last, due := a.lastActive(), p.wakes[r]
	if a.nblows > 0 {
		due = p.due(r, &a.blows[a.nblows-1])
	}
	if last < 0 || last >= due {
		return Miss{Width, last, due}
	}
	return Miss{due - last, last, due}
}

// NearestMiss is the delay that comes nearest to meeting every wake-up, by how
// many frames it misses, and the rise that it misses by most. By is Width where
// none comes near.
func (p *Plan) NearestMiss() (d, rise, by int) {
	by = Width
	for at := 0; at <= p.last && by > 1; at++ {
		a := p.base.later(at)
		most, worst := 0, 0
		for r := range p.rises {
			if n := p.miss(&a, r).By; n > most {
				most, worst = n, r
			}
		}
		if most < by {
			by, d, rise = most, at, worst
		}
	}
	return d, rise, by
}

// AirThrowsOnly reports whether the plan has no strike or throw but air throws.
func (p *Plan) AirThrowsOnly() bool {
	for i := range p.base.blows[:p.base.nblows] {
		if p.base.blows[i].class != classAirThrow {
			return false
		}
	}
	return p.base.nblows > 0
}

// lastActive is the last active frame in reach of a body on the ground, -1
// without one.
func (t *Track) lastActive() int {
	last := -1
	for i := range t.blows[:t.nblows] {
		if b := &t.blows[i]; b.class != classAirThrow {
			last = max(last, b.Active.Last())
		}
	}
	return last
}
