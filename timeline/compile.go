package timeline

import (
	"fmt"
	"slices"
)

// rangeAfter is how far past the latest wake-up a window is looked for.
const rangeAfter = 64

// PlanError is a setup whose frames don't fit the width. Field is the part of
// the setup that passes it, as its JSON path below the setup.
type PlanError struct {
	Setup string
	Field string
	End   int // the frame it would end on
}

// Error says which part ends where, and what fits.
func (e *PlanError) Error() string {
	return fmt.Sprintf("%s: setup %q: expected a plan that ends by frame %d, got one that ends on %d", e.Field, e.Setup, Width, e.End)
}

// line is one reply of a plan, in the verdict's order.
type line struct {
	name   string // without its lateness
	title  string
	late   int
	demand Demand
	shown  bool  // always judged, never demanded
	move   *Move // what the rival does; nil for a jump, and where it is always judged
	jump   *Jump
	end    int  // frames from its start to its last, 0 where it has no end
	pace   pace // how it moves the rival
	asks   bool // it moves the rival, or has a reach: where both stand matters
}

// Layout is a setup laid out: both sides as tracks, the attacker's at delay 0,
// and the ground that they stand on.
type Layout struct {
	Setup Setup
	K     int // advantage, frames

	rules           Ruleset
	attacker, rival *roster
	rises           []Rise
	wakes           []int // W of each claimed rise
	lines           []line
	bodies          []Track // of the rival: rise by rise, line by line

	base      Track // the attacker at delay 0
	jumpOn    int   // J at delay 0
	touchdown int   // L at delay 0; J without a jump
	guardsOn  int   // L+G at delay 0; J without a jump
	actsOn    int   // L+R at delay 0; J without a jump
	ground    ground
	room      Maybe   // to the wall
	fillers   []act   // where the distance is known
	own       [2]act  // its jump, its landing move
	nown      int     // how many of own there are
	leads     [][]leg // the fillers' legs, one for all exchanges or one for each
	press     int     // air frame of the attack's press
	bait      bool    // no strike or throw in it
	fits      int     // the last delay that fits the width
	last      int     // the last delay of the window's range
}

// meeter meets the two sides of a layout: one exchange at a time, at any delay.
type meeter struct{ Layout }

// Plan is a setup compiled: laid out, met at each delay, and judged. It is made
// by Compile and not changed after; its methods may be called from several
// goroutines at once.
type Plan struct {
	meeter

	meaty, window Set   // delays
	uncovered     []int // lines that no delay satisfies
	demanded      int   // how many lines demand something
}

// Compile turns setup s of project p into a plan. p and s must pass Check;
// what Check can't see is that the frames fit the width: a *PlanError.
func Compile(p *Project, s Setup) (*Plan, error) { return compile(p.Ruleset, p.roster, s, &scratch{}) }

// scratch is the memory that a plan and its exchanges are worked out in. It
// serves one plan after another.
type scratch struct {
	lines  []line
	bodies []Track
	cells  []Cell
	met    []Set
}

func compile(rules Ruleset, find finder, s Setup, in *scratch) (*Plan, error) {
	plan := &Plan{meeter: meeter{Layout{Setup: s, rules: rules, attacker: find(s.Attacker), rival: find(s.Rival)}}}
	plan.K = s.k(plan.attacker).N
	if d := s.distance(plan.attacker); d.Given {
		plan.room = s.room(plan.attacker)
		plan.ground = groundAt(d.N, plan.room)
	}
	plan.compileAttacker()
	if plan.base.free > Width {
		return nil, &PlanError{s.Name, "fillers", plan.base.free}
	}
	plan.fits = min(Width-plan.base.free, Width-1)
	if s.Delay > plan.fits { // a plan without a length takes the frame that it guards on
		return nil, &PlanError{s.Name, "delay", max(plan.base.free, 1) + s.Delay}
	}
	if err := plan.compileRival(in); err != nil {
		return nil, err
	}
	for _, w := range plan.wakes {
		plan.last = max(plan.last, min(w+rangeAfter, plan.fits))
	}
	if plan.ground.known {
		plan.layLeads()
	}
	plan.weigh(in)
	return plan, nil
}

// compileAttacker lays the attacker's track at delay 0. Fillers are lengths
// only: the attacker stands open until J. In the air it is open too; windows
// of a jump attack (immunity, armour, parry) are not counted, as frames.md
// has the attacker open "through prejump and air".
func (p *Layout) compileAttacker() {
	s, t := &p.Setup, &p.base
	if p.ground.known {
		p.fillers = make([]act, 0, len(s.Fillers))
	}
	for _, name := range s.Fillers {
		begin := p.jumpOn
		p.jumpOn += p.attacker.length(name, p.rules)
		if !p.ground.known {
			continue
		}
		if j := p.attacker.Jump(name); j != nil {
			p.fillers = append(p.fillers, act{begin, j.pace()})
		} else {
			p.fillers = append(p.fillers, act{begin, p.attacker.Move(name).pace(p.jumpOn - begin)})
		}
	}
	p.touchdown, p.guardsOn, p.actsOn = p.jumpOn, p.jumpOn, p.jumpOn
	if s.Jump != "" {
		p.compileJump(p.attacker.Jump(s.Jump))
	}
	t.free = p.actsOn
	switch s.Landing {
	case DoGuard:
		t.guard(since(p.guardsOn))
	case DoParry:
		t.Parry = since(p.guardsOn)
	default:
		m := p.attacker.Move(s.Landing)
		t.guard(between(p.guardsOn, p.actsOn))
		t.addMove(m, p.actsOn, p.rules)
		t.guard(since(t.free))
		p.owns(p.actsOn, m.pace(t.free-p.actsOn))
	}
	p.bait = t.nhits == 0
}

// owns adds an action that moves with the delay.
func (p *Layout) owns(begin int, pace pace) {
	p.own[p.nown] = act{begin, pace}
	p.nown++
}

func (p *Layout) compileJump(j *Jump) {
	t := &p.base
	p.owns(p.jumpOn, j.pace())
	p.touchdown = t.addJump(j, p.jumpOn, p.rules)
	landing := Landing{j.Landing, j.GuardAfter}
	var attack *Move
	if p.Setup.Attack != "" {
		attack = p.attacker.Move(p.Setup.Attack)
		if attack.Landing != nil {
			landing = *attack.Landing
		}
	}
	p.guardsOn = p.touchdown + landing.GuardAfter
	p.actsOn = p.touchdown + landing.Recovery
	if attack == nil {
		return
	}
	p.press = p.Setup.Press.Or(j.autoPress(attack, p.rules))
	if !attack.Hits() {
		return
	}
	start := p.touchdown - j.Airborne + p.press
	t.addHit(attack, start, Span{start, p.touchdown}, p.reach(attack, j), p.actsOn, p.rules)
}

// reach returns the frames on which the jump attack is low enough, at delay
// 0: by heights where drop, apex and the rival's body are given, else the
// last deep air frames.
func (p *Layout) reach(m *Move, j *Jump) Set {
	if m.Drop.Given && j.Apex.Given && p.rival.Body.Given {
		return since(0).Minus(p.base.above(p.rival.Body.N + m.Drop.N))
	}
	deep := m.Deep.Or(m.activeLen())
	return between(p.touchdown-deep, p.touchdown)
}

// compileRival lays one track a claimed rise and reply.
func (p *Layout) compileRival(in *scratch) error {
	s := &p.Setup
	asked := s.Asked(p.rival.Fighter)
	p.lines = slices.Grow(in.lines[:0], FirstReply+len(asked))
	for _, name := range alwaysJudged {
		p.lines = append(p.lines, line{name: name, title: name, demand: DemandNone, shown: true})
	}
	for _, r := range asked {
		l := line{name: r.Move, title: r.Title(), late: r.Late, demand: r.Demand, jump: p.rival.Jump(r.Move)}
		if l.jump != nil {
			l.end, l.pace = l.jump.Total(), l.jump.pace()
			l.asks = l.pace.travel != 0
		} else {
			l.move = p.rival.Move(r.Move)
			l.end = l.move.Total(p.rules)
			l.pace = l.move.pace(l.end)
			l.asks = l.pace.travel != 0 || l.move.Reach != nil && l.move.Hits()
		}
		p.lines = append(p.lines, l)
	}
	in.lines = p.lines
	p.rises = s.Claimed(p.rival.Fighter)
	in.bodies = slices.Grow(in.bodies[:0], len(p.rises)*len(p.lines))
	p.bodies = in.bodies
	for _, rise := range p.rises {
		w := p.K + rise.Extra
		if w >= Width {
			return &PlanError{s.Name, "rises", w + 1} // the first free frame is the least that it takes
		}
		p.wakes = append(p.wakes, w)
		for i, l := range p.lines {
			if end := w + l.late + l.end; end > Width {
				return &PlanError{s.Name, fmt.Sprintf("replies[%d]", i-FirstReply), end}
			}
			p.bodies = p.bodies[:len(p.bodies)+1]
			t := &p.bodies[len(p.bodies)-1]
			*t = Track{}
			p.layRival(t, w, i)
			for k := range p.base.hits[:p.base.nhits] {
				t.missed[k] = p.base.hits[k].misses(t)
			}
		}
	}
	return nil
}

// layRival lays the rival's track t, which is empty: down until w, open until the
// reply, then the reply of line i, then a guard at every level.
func (p *Layout) layRival(t *Track, w, i int) {
	t.NoStrike, t.NoThrow, t.free = between(0, w), between(0, w+p.rules.ThrowGraceRise), Width
	start := w + p.lines[i].late
	switch i {
	case 0:
		t.High = since(w)
		return
	case 1:
		t.Low = since(w)
		return
	case 2:
		return
	}
	if j := p.lines[i].jump; j != nil {
		down := t.addJump(j, start, p.rules)
		t.guard(since(down + j.GuardAfter))
		t.free = down + j.Landing
		return
	}
	t.addMove(p.lines[i].move, start, p.rules)
	t.guard(since(t.free))
}
