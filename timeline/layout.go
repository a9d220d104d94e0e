package timeline

// What a layout tells of itself.

// Rise is the claimed rise of that index.
func (p *Layout) Rise(r int) Rise { return p.rises[r] }

// Wake is the wake-up frame of the claimed rise of that index.
func (p *Layout) Wake(r int) int { return p.wakes[r] }

// Reply is the reply of that line; those always judged demand nothing.
func (p *Layout) Reply(line int) Reply {
	l := &p.lines[line]
	return Reply{Move: l.name, Demand: l.demand, Late: l.late}
}

// ReplyMove is the move of the reply of that line, nil for a jump and for those
// always judged.
func (p *Layout) ReplyMove(line int) *Move { return p.lines[line].move }

// Asked are the replies of the lines from FirstReply on.
func (p *Layout) Asked() []Reply { return p.Setup.Asked(p.rival.Fighter) }

// Times are the frames of a plan at one delay. Without a jump all are the
// frame on which the landing action begins.
type Times struct{ JumpOn, Touchdown, GuardsFrom, ActsFrom int }

// Times are the plan's frames at delay d.
func (p *Layout) Times(d int) Times {
	return Times{p.jumpOn + d, p.touchdown + d, p.guardsOn + d, p.actsOn + d}
}

// Bait reports whether the plan has no strike or throw.
func (p *Layout) Bait() bool { return p.bait }

// Rules is the ruleset that the plan is judged by.
func (p *Layout) Rules() Ruleset { return p.rules }

// Fighters are the two sides.
func (p *Layout) Fighters() (attacker, rival *Fighter) { return p.attacker.Fighter, p.rival.Fighter }

// Due is the frame on which the plan's first strike or throw can touch first on
// that rise; the wake-up where it has none.
func (p *Layout) Due(rise int) int {
	if p.base.nhits == 0 {
		return p.wakes[rise]
	}
	return p.due(rise, &p.base.hits[0])
}

// FirstActive is the first active frame of that reply on that rise, and
// whether it throws; absent where it has none.
func (p *Layout) FirstActive(e Exchange) (frame Maybe, throws bool) {
	body := &p.bodies[e.Rise*len(p.lines)+e.Line]
	if body.nhits == 0 || body.hits[0].Active.Empty() {
		return Maybe{}, false
	}
	return Some(body.hits[0].Active.First()), body.hits[0].throws()
}

// Lines is how many replies the plan judges a rise: those always judged, then
// the setup's.
func (p *Layout) Lines() int { return len(p.lines) }

// Rises is how many rises the plan claims.
func (p *Layout) Rises() int { return len(p.rises) }

// Fits is the last delay whose plan fits the width.
func (p *Layout) Fits() int { return p.fits }

// LastDelay is the last delay of the range the window is looked for in.
func (p *Layout) LastDelay() int { return p.last }

// Press is the air frame on which the attack is pressed: the setup's own, or
// what auto comes to.
func (p *Layout) Press() int { return p.press }

// Distance is D, absent where it isn't known.
func (p *Layout) Distance() Maybe { return Maybe{p.ground.d, p.ground.known} }

// Room is how far behind the rival the wall is on frame 0, absent without one
// and where the distance isn't known.
func (p *Layout) Room() Maybe { return p.room }

// due is the frame on which b can touch first on rise r.
func (p *Layout) due(r int, b *hit) int {
	if b.throws() {
		return p.wakes[r] + p.rules.ThrowGraceRise
	}
	return p.wakes[r]
}
