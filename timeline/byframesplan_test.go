package timeline

// slowPlan lays a setup out on the clock for the slow reading.
type slowPlan struct {
	p          *Project
	s          *Setup
	att, riv   *Fighter
	k          int
	rises      []Rise
	burnt      int // frames of the fillers
	jump       *Jump
	attack     *Move
	landing    *Move // nil for guard and parry
	recovery   int   // R and G of the plan's landing
	guardAfter int
	frames     int // how many frames of the clock are looked at

	seen map[string]int // counts what happened, nil where nobody asks
}

func slowMove(f *Fighter, name string) *Move {
	for i := range f.Moves {
		if f.Moves[i].Name == name {
			return &f.Moves[i]
		}
	}
	return nil
}

func slowJump(f *Fighter, name string) *Jump {
	for i := range f.Jumps {
		if f.Jumps[i].Name == name {
			return &f.Jumps[i]
		}
	}
	return nil
}

func (x *slowPlan) firstActive(m *Move) int {
	if x.p.Ruleset.StartupCountsFirstActive {
		return m.Startup - 1
	}
	return m.Startup
}

func (x *slowPlan) total(m *Move) int {
	if m.Kind != Strike && m.Kind != Throw {
		return m.Length
	}
	n := x.firstActive(m) + m.Recovery
	for _, a := range m.Active {
		n += a
	}
	return n
}

func newSlowPlan(p *Project, s *Setup) *slowPlan {
	x := &slowPlan{p: p, s: s}
	for i := range p.Fighters {
		if p.Fighters[i].Name == s.Attacker {
			x.att = &p.Fighters[i]
		}
		if p.Fighters[i].Name == s.Rival {
			x.riv = &p.Fighters[i]
		}
	}
	switch {
	case s.Advantage.Given:
		x.k = s.Advantage.N
	case s.Position == Wall:
		x.k = slowMove(x.att, s.Ender).Knockdown.Wall.N
	default:
		x.k = slowMove(x.att, s.Ender).Knockdown.Midscreen.N
	}
	for _, r := range x.riv.Rises {
		claimed := len(s.Rises) == 0
		for _, name := range s.Rises {
			claimed = claimed || name == r.Name
		}
		if claimed {
			x.rises = append(x.rises, r)
		}
	}
	for _, name := range s.Fillers {
		if j := slowJump(x.att, name); j != nil {
			x.burnt += j.Prejump + j.Airborne + j.Landing
		} else {
			x.burnt += x.total(slowMove(x.att, name))
		}
	}
	if s.Jump != "" {
		x.jump = slowJump(x.att, s.Jump)
		x.recovery, x.guardAfter = x.jump.Landing, x.jump.GuardAfter
		if s.Attack != "" {
			x.attack = slowMove(x.att, s.Attack)
			if x.attack.Landing != nil {
				x.recovery, x.guardAfter = x.attack.Landing.Recovery, x.attack.Landing.GuardAfter
			}
		}
	}
	if s.Landing != "guard" && s.Landing != "parry" {
		x.landing = slowMove(x.att, s.Landing)
	}
	return x
}

// swing puts a strike or throw on the clock from frame start; nil for other
// moves.
func (x *slowPlan) swing(m *Move, start int) *slowSwing {
	if m.Kind != Strike && m.Kind != Throw {
		return nil
	}
	sw := &slowSwing{m: m, throw: m.Kind == Throw, on: make([]int, x.frames), tooHigh: make([]bool, x.frames)}
	for f := start; f < min(x.frames, start+x.total(m)); f++ {
		sw.on[f] = x.activeAt(m, f-start)
	}
	at := start + x.firstActive(m)
	for i, n := range m.Active {
		if i%2 == 0 {
			sw.begins = append(sw.begins, at)
		}
		at += n
	}
	sw.free = start + x.total(m)
	return sw
}

// activeAt is 1 + the number of the active span that the move's frame n
// (from 0) lies in, 0 where it lies in none.
func (x *slowPlan) activeAt(m *Move, n int) int {
	at := x.firstActive(m)
	for i, long := range m.Active {
		if i%2 == 0 && at <= n && n < at+long {
			return i/2 + 1
		}
		at += long
	}
	return 0
}

// windows puts the windows of m, started on frame start, on a side.
func (x *slowPlan) windows(side *slowSide, m *Move, start int) {
	side.armour = m.Armour
	for n := 1; n <= x.total(m) && start+n-1 < x.frames; n++ {
		b := &side.body[start+n-1]
		for _, w := range m.Immune {
			if w.From <= n && n <= w.To {
				b.strikeProof = b.strikeProof || w.Strikes
				b.throwProof = b.throwProof || w.Throws
			}
		}
		b.into = n
		for _, w := range m.Parry {
			b.parry = b.parry || w.From <= n && n <= w.To
		}
		b.air = b.air || m.AirborneFrom.Given && n >= m.AirborneFrom.N
	}
}

// fly puts a jump started on frame j on a side, and returns its touchdown.
func (x *slowPlan) fly(side *slowSide, jump *Jump, j int) int {
	up := j + jump.Prejump
	down := up + jump.Airborne
	for f := range x.frames {
		b := &side.body[f]
		if j <= f && f < up && x.p.Ruleset.PrejumpThrowProof {
			b.throwProof = true
		}
		if up <= f && f < down {
			b.air = true
			if jump.Apex.Given {
				i := f - up
				b.tall = true
				b.up = 4 * jump.Apex.N * (i + 1) * (jump.Airborne - i)
				b.per = (jump.Airborne + 1) * (jump.Airborne + 1)
			}
		}
		if down <= f && f < down+x.p.Ruleset.ThrowGraceLanding {
			b.throwProof = true
		}
	}
	return down
}

// press is the air frame on which the attack is pressed.
func (x *slowPlan) press() int {
	if x.s.Press.Given {
		return x.s.Press.N
	}
	press := 0
	for n, try := x.jump.Airborne, x.jump.Airborne-1; try >= 0; try-- {
		if x.activeAt(x.attack, n-1-try) > 0 {
			press = try
		}
	}
	return press
}

// attackSwing puts the jump attack on the clock, the jump started on frame j.
func (x *slowPlan) attackSwing(j int) *slowSwing {
	n := x.jump.Airborne
	up := j + x.jump.Prejump
	down := up + n
	if x.attack.Kind != Strike && x.attack.Kind != Throw {
		return nil
	}
	sw := x.swing(x.attack, up+x.press())
	sw.air = true
	sw.free = down + x.recovery
	for f := down; f < x.frames; f++ {
		sw.on[f] = 0
	}
	deep := 0
	for _, n := range x.attack.Active {
		deep += n
	}
	if x.attack.Deep.Given {
		deep = x.attack.Deep.N
	}
	for f := up; f < min(down, x.frames); f++ {
		i := f - up
		if x.attack.Drop.Given && x.jump.Apex.Given && x.riv.Body.Given {
			sw.tooHigh[f] = 4*x.jump.Apex.N*(i+1)*(n-i) > (x.riv.Body.N+x.attack.Drop.N)*(n+1)*(n+1)
		} else {
			sw.tooHigh[f] = f < down-deep
		}
	}
	return sw
}

// frames on which the attacker's plan turns, at delay d.
func (x *slowPlan) clock(d int) (jumpOn, guards, acts, ends int) {
	jumpOn = x.burnt + d
	guards, acts = jumpOn, jumpOn
	if x.jump != nil {
		down := jumpOn + x.jump.Prejump + x.jump.Airborne
		guards, acts = down+x.guardAfter, down+x.recovery
	}
	ends = acts
	if x.landing != nil {
		ends += x.total(x.landing)
	}
	return jumpOn, guards, acts, ends
}

// attacker is the attacker's side at delay d.
func (x *slowPlan) attacker(d int) *slowSide {
	side := &slowSide{body: make([]slowBody, x.frames)}
	jumpOn, guards, acts, ends := x.clock(d)
	for f := range x.frames {
		side.body[f].here = true
	}
	if x.jump != nil {
		x.fly(side, x.jump, jumpOn)
	}
	if x.attack != nil {
		if sw := x.attackSwing(jumpOn); sw != nil {
			side.swings = append(side.swings, sw)
		}
	}
	if x.landing != nil {
		x.windows(side, x.landing, acts)
		if sw := x.swing(x.landing, acts); sw != nil {
			side.swings = append(side.swings, sw)
		}
	}
	for f := guards; f < x.frames; f++ {
		b := &side.body[f]
		switch {
		case x.s.Landing == "parry":
			b.parry = true
		case x.landing == nil || f < acts || f >= ends:
			b.high, b.low = true, true
		}
	}
	return side
}

// defender is the rival's side on that rise: reply i of the setup's, or -3
// guard high, -2 guard low, -1 nothing. It returns the reply's end too.
func (x *slowPlan) defender(r Rise, i int) (*slowSide, Maybe) {
	side := &slowSide{body: make([]slowBody, x.frames)}
	wake := x.k + r.Extra
	for f := range x.frames {
		side.body[f].here = f >= wake
		side.body[f].throwProof = f < wake+x.p.Ruleset.ThrowGraceRise
	}
	guardsFrom := wake
	var end Maybe
	if i >= 0 {
		start := wake + x.s.Replies[i].Late
		if j := slowJump(x.riv, x.s.Replies[i].Move); j != nil {
			down := x.fly(side, j, start)
			guardsFrom = down + j.GuardAfter
			end = Some(down + j.Landing)
		} else {
			m := slowMove(x.riv, x.s.Replies[i].Move)
			x.windows(side, m, start)
			if sw := x.swing(m, start); sw != nil {
				sw.theirs = true
				side.swings = append(side.swings, sw)
			}
			guardsFrom = start + x.total(m)
			end = Some(guardsFrom)
		}
	}
	for f := guardsFrom; f < x.frames; f++ {
		side.body[f].high = i != -1 && i != -2
		side.body[f].low = i != -1 && i != -3
	}
	return side, end
}
