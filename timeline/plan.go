package timeline

// Rise is the claimed rise of that index.
func (p *Plan) Rise(r int) Rise { return p.rises[r] }

// Wake is the wake-up frame of the claimed rise of that index.
func (p *Plan) Wake(r int) int { return p.wakes[r] }

// Reply is the reply of that line; those always judged demand nothing.
func (p *Plan) Reply(line int) Reply {
	l := &p.lines[line]
	return Reply{Move: p.replyName(line), Demand: l.demand, Late: l.late}
}

// Times are the frames of a plan at one delay. Without a jump all are the
// frame on which the landing action begins.
type Times struct{ JumpOn, Touchdown, GuardsFrom, ActsFrom int }

// Times are the plan's frames at delay d.
func (p *Plan) Times(d int) Times {
	return Times{p.jumpOn + d, p.touchdown + d, p.guardsOn + d, p.actsOn + d}
}

// Bait reports whether the plan has no strike or throw.
func (p *Plan) Bait() bool { return p.bait }

// Demanded is how many replies demand something.
func (p *Plan) Demanded() int { return p.demanded }

// MeatyDelays are the delays of the window's range that meet every wake-up.
func (p *Plan) MeatyDelays() Set { return p.meaty }

// Rules is the ruleset that the plan is judged by.
func (p *Plan) Rules() Ruleset { return p.rules }

// Rate is how many frames of the plan's game a second has.
func (p *Plan) Rate() Rate { return p.rules.Rate }

// Fighters are the two sides.
func (p *Plan) Fighters() (attacker, rival *Fighter) { return p.attacker.Fighter, p.rival.Fighter }

// Due is the frame on which the plan's first strike or throw can touch first on
// that rise; the wake-up where it has none.
func (p *Plan) Due(rise int) int {
	if p.base.nblows == 0 {
		return p.wakes[rise]
	}
	return p.due(rise, &p.base.blows[0])
}

// FirstActive is the first active frame of that reply on that rise, and
// whether it throws; absent where it has none.
func (p *Plan) FirstActive(e Exchange) (frame Maybe, throws bool) {
	body := &p.bodies[e.Rise*len(p.lines)+e.Line]
	if body.nblows == 0 || body.blows[0].Active.Empty() {
		return Maybe{}, false
	}
	return Some(body.blows[0].Active.First()), body.blows[0].throws()
}

// IgnoresDistance reports whether the setup's data speak of distance, which
// is kept but not judged.
func (p *Plan) IgnoresDistance() bool {
	s := &p.Setup
	if s.Ender != "" && p.attacker.Move(s.Ender).Distance.At(s.Position).Given {
		return true
	}
	if s.Attack != "" && p.attacker.Move(s.Attack).Reach != nil {
		return true
	}
	if m := p.attacker.Move(s.Landing); m != nil && m.Reach != nil {
		return true
	}
	for i := range p.lines {
		if m := p.lines[i].move; m != nil && m.Reach != nil {
			return true
		}
	}
	return false
}
