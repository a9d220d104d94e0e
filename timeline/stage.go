package timeline

// stage is what the exchanges of one rise share at one delay: where both stand
// while the rival stays where it rises, and the frames on which the attacker's
// hits don't reach it there.
type stage struct {
	walk walk
	far  [2]Set
}

// spot is one exchange on its ground: the frames on which what is touched lies
// out of reach.
type spot struct {
	mine   [2]Set // of the attacker's hits
	theirs Set    // of the reply's
	parts  bool   // the walk isn't the stage's
	walk   walk
}

// on is the walk of the exchange, which stands on that stage.
func (sp *spot) on(st *stage) *walk {
	if sp.parts {
		return &sp.walk
	}
	return &st.walk
}

// lay lays the walk of rise r and line i with attacker track a, on that
// ground; -1 is a rival that stays where it rises.
func (p *meeter) lay(w *walk, g *ground, a *Track, r, i int) {
	*w = walk{g: g, wake: p.wakes[r], spare: w.spare, begins: never, whole: w.whole}
	w.rises = min(g.d+p.rises[r].Shift, g.wall)
	w.start = leg{done: -never, facing: 1}
	if g.wall < 0 { // an ender may leave the rival behind the attacker
		w.start.to, w.start.endRides = g.wall, 1
	}
	if i >= 0 {
		l := &p.lines[i]
		w.begins, w.pace, w.asks = w.wake+l.late, l.pace, l.asks || w.whole && !l.shown
	}
	if g == &p.ground && a.ahead == 0 && !w.whole && len(p.leads) > 0 {
		w.lead = p.leads[0]
		if len(p.leads) > 1 {
			w.lead = p.leads[r*len(p.lines)+max(i, 0)]
		}
	} else {
		p.layFillers(w, a.ahead)
	}
	for k := range p.own[:p.nown] {
		w.own[k] = w.next(p.own[k].begin+a.wait, p.own[k].pace)
		w.nown++
	}
	if w.asks {
		w.answer()
	}
}

// layFillers lays the fillers' legs, all ahead frames later. Of those that
// begin before the wake-up only the last matters from there on.
func (p *meeter) layFillers(w *walk, ahead int) {
	w.lead = w.spare[:0]
	for _, f := range p.fillers {
		l := w.next(f.begin+ahead, f.pace)
		if l.begin < w.wake && !w.whole {
			w.lead = w.lead[:0]
		}
		w.lead = append(w.lead, l)
	}
	w.spare = w.lead
}

// layLeads lays the fillers' legs on the plan's own ground, once for all
// delays: one lead for all exchanges where all fillers begin before the
// wake-up, else one for each exchange.
func (p *meeter) layLeads() {
	late := false
	for _, f := range p.fillers {
		for _, wake := range p.wakes {
			late = late || f.begin >= wake
		}
	}
	exchanges := 1
	if late {
		exchanges = len(p.bodies)
	}
	leads := make([][]leg, exchanges)
	for n := range leads {
		var w walk
		p.lay(&w, &p.ground, &p.base, n/len(p.lines), n%len(p.lines))
		leads[n] = w.lead
	}
	p.leads = leads
}

// stage lays the stage of rise r with attacker track a.
func (p *meeter) stage(st *stage, g *ground, a *Track, r int) {
	p.lay(&st.walk, g, a, r, -1)
	for k := range a.hits[:a.nhits] {
		st.far[k] = Set{}
		a.hits[k].outside(&st.far[k], &st.walk, st.walk.wake)
	}
}

// outside leaves in far the frames on which one of the attacker's hits
// doesn't reach the rival, of the active ones from a frame on. A jump attack
// has its jump's leg and facing.
func (b *hit) outside(far *Set, w *walk, from int) {
	if b.move.Reach == nil || b.Active.Empty() {
		return
	}
	w.outside(far, b.move.Reach, w.legOf(b), max(from, b.Active.First()), b.Active.Last()+1)
}

// legOf is the leg of one of the attacker's hits: its jump's or its landing
// move's.
func (w *walk) legOf(b *hit) *leg {
	if b.move.Air {
		return &w.own[0]
	}
	return &w.own[w.nown-1]
}

// stunned leaves in far the active frames from touch t on, the reply's where
// theirs is set, on which it doesn't reach the other side, who stands in stun
// where t found it.
func (sp *spot) stunned(far *Set, t touch, theirs bool) {
	w, reach := &sp.walk, t.hit.move.Reach
	for f := t.frame; f <= t.hit.Active.Last(); f++ {
		if theirs {
			a, b := w.attacker(t.frame), w.rival(f)
			a.zero += f - t.frame // the place of the touch, asked of frame f
			w.g.outside(far, reach, -w.reply.facing, f, f+1, &a, &b)
			continue
		}
		l := w.legOf(t.hit)
		a, b := l.on(f), w.rival(t.frame)
		b.zero += f - t.frame
		w.g.outside(far, reach, l.facing, f, f+1, &a, &b)
	}
}

// spot lays the exchange of line i on the stage of rise r.
func (p *meeter) spot(sp *spot, st *stage, a *Track, r, i int) {
	l := &p.lines[i]
	sp.mine, sp.theirs, sp.parts = st.far, Set{}, l.asks
	if !l.asks {
		return
	}
	w := &sp.walk
	*w = st.walk
	w.begins, w.pace, w.asks = w.wake+l.late, l.pace, true
	if n := w.legs(); l.pace.travel != 0 && n > 0 && w.leg(n-1).begin > w.begins {
		w.spare = nil
		p.lay(w, st.walk.g, a, r, i)
	} else {
		w.answer()
	}
	if l.pace.travel != 0 {
		for k := range a.hits[:a.nhits] {
			sp.mine[k] = Set{}
			a.hits[k].outside(&sp.mine[k], w, w.wake)
		}
	}
	body := &p.bodies[r*len(p.lines)+i]
	if body.nhits == 0 || l.move.Reach == nil {
		return
	}
	if b := &body.hits[0]; !b.Active.Empty() {
		w.beyond(&sp.theirs, b.move.Reach, b.Active.First(), b.Active.Last()+1)
	}
}

// spotOf lays the exchange of rise r and line i with attacker track a.
func (p *meeter) spotOf(a *Track, r, i int) *spot {
	sp, st := &spot{}, &stage{}
	if p.ground.known {
		p.stage(st, &p.ground, a, r)
		p.spot(sp, st, a, r, i)
	}
	return sp
}

// firstTouch is the first touch of attacker track a in the exchange of rise r
// and line i.
func (p *meeter) firstTouch(a *Track, r, i int) touch {
	if !p.ground.known {
		return a.first(&p.bodies[r*len(p.lines)+i], &[2]Set{})
	}
	return a.first(&p.bodies[r*len(p.lines)+i], &p.spotOf(a, r, i).mine)
}

// apart is the rival's place less the attacker's on frame f, rounded half away
// from zero, and where that is by the attacker's facing.
func (w *walk) apart(f int) (units int, side Bearing) {
	a, b := w.attacker(f), w.rival(f)
	l, _ := w.under(f)
	return gapOf(&a, &b, f, l.facing)
}

// gapOf is apart for the attacker's stretch a and the rival's b.
func gapOf(a, b *stretch, f, facing int) (units int, side Bearing) {
	n, q := b.over(f)*a.parts-a.over(f)*b.parts, a.parts*b.parts
	switch {
	case n*facing > 0:
		side = InFront
	case n*facing < 0:
		side = Behind
	default:
		side = Over
	}
	if n < 0 {
		return -((-2*n + q) / (2 * q)), side
	}
	return (2*n + q) / (2 * q), side
}
