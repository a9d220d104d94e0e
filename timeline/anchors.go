package timeline

// AnchorKind says which frame an anchor marks.
type AnchorKind uint8

// The anchors, in the order that Anchors gives them.
const (
	AnchorZero       AnchorKind = iota // frame 0 of the ruler
	AnchorWake                         // the wake-up
	AnchorThrowable                    // the first frame a throw touches the risen; only where the landing move throws, and later than the wake-up
	AnchorReply                        // the reply's first active frame
	AnchorWindowFrom                   // the jump's first frame at the earliest delay of a stretch of the window
	AnchorWindowTo                     // and at its latest
	AnchorStart                        // the jump's first frame; the landing action's without one
	AnchorTouchdown
	AnchorGuard // L+G
	AnchorActs  // L+R
	AnchorFirst // the attack's first active frame in reach
	AnchorLast  // and its last
	AnchorLandingFirst
	AnchorLandingLast
	AnchorLastAir // the last air frame; only for a drag of the press
)

// Anchor is a frame that matters, at which a drag may stop.
type Anchor struct {
	Frame int
	Kind  AnchorKind
	Moves bool // it moves with what is dragged
}

// Snap is where a drag comes to rest: an anchor that moves falls on one that
// doesn't.
type Snap struct {
	Value         int // the delay, press or advantage
	Moving, Fixed Anchor
}

// held is what a hand drags.
type held uint8

const (
	heldDelay held = iota
	heldPress
	heldAdvantage
)

// drag is what a hand drags in one exchange of a plan, at one delay.
type drag struct {
	*Plan
	what  held
	delay int
	at    Exchange
}

// Anchors returns the frames that matter in the exchange of that rise and
// line at delay d, 0 to Fits(), in the order of their kinds. Moves marks those
// that move with the delay. What a plan doesn't have is left out.
func (p *Plan) Anchors(d, rise, line int) []Anchor {
	return drag{p, heldDelay, d, Exchange{rise, line}}.anchors(nil, d)
}

// SnapDelay returns the nearest delay to d, at most reach frames away and
// within 0 to Fits(), at which a moving anchor of that exchange falls on a
// fixed one; the smaller of two as near. ok is false where there is none.
func (p *Plan) SnapDelay(d, rise, line, reach int) (s Snap, ok bool) {
	return drag{p, heldDelay, 0, Exchange{rise, line}}.snap(d, p.fits, reach)
}

// SnapPress is SnapDelay for the air frame of the attack's press, at delay d;
// never ok without an attack that strikes or throws. Only the attack's active
// frames move with it.
func (p *Plan) SnapPress(press, d, rise, line, reach int) (s Snap, ok bool) {
	if p.base.jumpAttack() == nil {
		return s, false
	}
	return drag{p, heldPress, d, Exchange{rise, line}}.snap(press, p.attacker.Jump(p.Setup.Jump).Airborne-1, reach)
}

// SnapAdvantage is SnapDelay for the advantage, at delay d: the wake-up and
// the reply move with it. It stays where the rival's plans fit the width.
func (p *Plan) SnapAdvantage(k, d, rise, line, reach int) (s Snap, ok bool) {
	most := Width - 1
	for _, w := range p.wakes {
		most = min(most, Width-1-(w-p.K))
		for _, l := range p.lines {
			most = min(most, Width-(w-p.K)-l.late-l.end)
		}
	}
	return drag{p, heldAdvantage, d, Exchange{rise, line}}.snap(k, most, reach)
}

// snap tries the values v, v-1, v+1, v-2, ... that lie from 0 to most.
func (p drag) snap(v, most, reach int) (Snap, bool) {
	var scratch [32]Anchor
	for n := range reach + 1 {
		for _, q := range [2]int{v - n, v + n} {
			if q < 0 || q > most {
				continue
			}
			all := p.anchors(scratch[:0], q)
			for _, m := range all {
				for _, f := range all {
					if m.Moves && !f.Moves && m.Frame == f.Frame && maySnap(m.Kind, f.Kind) {
						return Snap{q, m, f}, true
					}
				}
			}
		}
	}
	return Snap{}, false
}

// maySnap reports whether a drag should stop where anchor m falls on f. A start
// stops at the ends of the window alone; at the last air frame only active
// frames stop, and where throws begin to touch only a throw does.
func maySnap(m, f AnchorKind) bool {
	switch {
	case m == AnchorStart || f == AnchorStart:
		return f == AnchorWindowFrom || f == AnchorWindowTo
	case f == AnchorWindowFrom || f == AnchorWindowTo:
		return false
	case f == AnchorLastAir:
		return m == AnchorLast
	case f == AnchorThrowable: // and it takes a throw alone
		return m >= AnchorLandingFirst
	case m == AnchorThrowable:
		return f >= AnchorLandingFirst
	}
	return true
}

// anchors appends the anchors with v in place of what is dragged.
func (p drag) anchors(out []Anchor, v int) []Anchor {
	h, d := p.what, p.delay
	add := func(frame int, kind AnchorKind, moves bool) {
		out = append(out, Anchor{frame, kind, moves})
	}
	later := 0 // of the rival's side
	switch h {
	case heldDelay:
		d = v
	case heldAdvantage:
		later = v - p.K
	}
	add(0, AnchorZero, false)
	wake := p.wakes[p.at.Rise] + later
	add(wake, AnchorWake, h == heldAdvantage)
	if n := p.base.nhits; p.rules.ThrowGraceRise > 0 && n > 0 && !p.base.hits[n-1].move.Air && p.base.hits[n-1].throws() {
		add(wake+p.rules.ThrowGraceRise, AnchorThrowable, h == heldAdvantage)
	}
	if body := &p.bodies[p.at.Rise*len(p.lines)+p.at.Line]; body.nhits > 0 {
		add(body.hits[0].Active.First()+later, AnchorReply, h == heldAdvantage)
	}
	if h == heldDelay { // each press and advantage has a window of its own
		for _, run := range p.window.Spans() {
			add(p.jumpOn+run.From, AnchorWindowFrom, false)
			add(p.jumpOn+run.To-1, AnchorWindowTo, false)
		}
	}
	add(p.jumpOn+d, AnchorStart, h == heldDelay)
	if p.Setup.Jump != "" {
		add(p.touchdown+d, AnchorTouchdown, h == heldDelay)
		add(p.guardsOn+d, AnchorGuard, h == heldDelay)
		add(p.actsOn+d, AnchorActs, h == heldDelay)
	}
	for i := range p.base.hits[:p.base.nhits] {
		b := &p.base.hits[i]
		first, moves := AnchorLandingFirst, h == heldDelay
		active := b.Active
		if b.move.Air {
			first, moves = AnchorFirst, h != heldAdvantage
			if h == heldPress {
				active = p.pressed(b.move, v)
			}
		}
		if !active.Empty() {
			add(active.First()+d, first, moves)
			add(active.Last()+d, first+1, moves)
		}
	}
	if h == heldPress {
		add(p.touchdown-1+d, AnchorLastAir, false)
	}
	return out
}

// pressed returns the frames, at delay 0, on which the jump attack m pressed
// on that air frame is active and in reach.
func (p *Layout) pressed(m *Move, press int) Set {
	j := p.attacker.Jump(p.Setup.Jump)
	start := p.touchdown - j.Airborne + press
	var t Track
	t.addHit(m, start, Span{start, p.touchdown}, p.reach(m, j), p.actsOn, p.rules)
	return t.hits[0].Active
}
