package timeline

import "slices"

// Word is the verdict in one word.
type Word string

// The words of frames.md, "Verdict".
const (
	Safe    Word = "safe"
	Limited Word = "limited" // safe but for replies that no timing mends
	Unsafe  Word = "unsafe"
)

// Blank is what pages call a setup in place of its verdict while there is
// nothing to judge: no strike or throw follows the ender, and no reply is
// demanded. By frames.md such a setup is safe.
const Blank Word = "nothing to judge yet"

// Bounds is a run of delays, both ends in it.
type Bounds struct {
	From int `json:"from"`
	To   int `json:"to"`
}

// Runs are the delays of s as runs, not nil where there are none.
func Runs(s Set) []Bounds {
	out := []Bounds{}
	for _, run := range s.Spans() {
		out = append(out, Bounds{run.From, run.To - 1})
	}
	return out
}

// Verdict is what becomes of a setup at one delay, with every number that a
// page shows of it; package words adds the sentences. Its JSON is that of
// interfaces.md's `judge --json`. Frames are frames of the clock, delays counts
// of frames.
type Verdict struct {
	Setup      string   `json:"setup"`
	Advantage  int      `json:"advantage"`
	Distance   Maybe    `json:"distance"` // D; absent where it isn't known
	Room       Maybe    `json:"room"`     // absent without a wall, or where D isn't known
	Delay      int      `json:"delay"`
	Word       Word     `json:"verdict"`
	Called     Word     `json:"-"`       // on a page: the word, or Blank
	JumpOn     Maybe    `json:"jump_on"` // absent without a jump
	Touchdown  Maybe    `json:"touchdown"`
	GuardsFrom Maybe    `json:"guards_from"`
	ActsFrom   int      `json:"acts_from"`
	Window     []Bounds `json:"window"`
	Uncovered  []string `json:"uncovered"`
	Holds
	Rises []RiseVerdict `json:"rises"`
}

// RiseVerdict holds the exchanges of one claimed rise.
type RiseVerdict struct {
	Rise    string         `json:"rise"`
	Wake    int            `json:"wake"`
	Replies []ReplyVerdict `json:"replies"`
}

// ReplyVerdict is one exchange as a page shows it.
type ReplyVerdict struct {
	Reply     string  `json:"reply"`
	Late      int     `json:"late"`
	Demand    Demand  `json:"demand"`
	Outcome   Outcome `json:"outcome"`
	Meeting   Maybe   `json:"meeting"`
	Spare     Maybe   `json:"spare"`
	AfterWake Maybe   `json:"after_wake"`
	Advantage Maybe   `json:"advantage"`
	ToPunish  Maybe   `json:"to_punish"`
	Apart     Maybe   `json:"apart"` // on the meeting, where the distance is known
	Side      Bearing `json:"side"`

	// What is demanded is met only because what the reply would touch is out of
	// its reach.
	OutOfReach bool `json:"-"`
}

// Fill meets every reply on every rise at delay d and writes the cells, rise
// by rise, line by line. cells must hold Rises()*Lines(); d must be from 0 to
// Fits(). It allocates nothing.
func (p *Plan) Fill(d int, cells []Cell) {
	a := p.base.later(d)
	var st stage
	var sp spot
	for r := range p.wakes {
		if p.ground.known {
			p.stage(&st, &p.ground, &a, r)
		}
		for i := range p.lines {
			cells[r*len(p.lines)+i] = p.meetOn(&sp, &st, &a, r, i)
		}
	}
}

// Demanded is how many replies demand something.
func (p *Plan) Demanded() int { return p.demanded }

// MeatyDelays are the delays of the window's range that meet every wake-up.
func (p *Plan) MeatyDelays() Set { return p.meaty }

// WindowSet returns the delays that are good when the uncovered replies are
// left out, as a set.
func (p *Plan) WindowSet() Set { return p.window }

// weigh finds the meaty delays, the replies that no meaty delay satisfies,
// and the window. A reply's delays are a set; the window is their AND.
func (p *Plan) weigh(in *scratch) {
	p.demanded = 0
	for i := range p.lines {
		if p.lines[i].demand != DemandNone {
			p.demanded++
		}
	}
	in.met = slices.Grow(in.met[:0], len(p.lines))
	met := in.met[:len(p.lines)]
	clear(met)
	stages := make([]stage, len(p.rises))
	var sp spot
	for d := 0; d <= p.last; d++ {
		if !p.nearlyMeaty(d) {
			continue
		}
		a := p.base.later(d)
		if !p.meatyOn(&a, &p.ground, stages) {
			continue
		}
		on := between(d, d+1)
		p.meaty = p.meaty.Or(on)
		for i := FirstReply; i < len(p.lines); i++ {
			if p.lines[i].demand != DemandNone && p.metOnAll(&a, &sp, stages, i) {
				met[i] = met[i].Or(on)
			}
		}
	}
	p.window = p.meaty
	if p.meaty.Empty() {
		return
	}
	for i := FirstReply; i < len(p.lines); i++ {
		switch {
		case p.lines[i].demand == DemandNone:
		case met[i].Empty():
			p.uncovered = append(p.uncovered, i)
		default:
			p.window = p.window.And(met[i])
		}
	}
}

// nearlyMeaty reports whether at delay d the attacker is active on the first
// frame on which it could touch a rival that does nothing, on every rise: so it
// is where it is meaty. A bait counts as meaty.
func (p *meeter) nearlyMeaty(d int) bool {
	if p.bait {
		return true
	}
	for r := range p.rises {
		body := &p.bodies[r*len(p.lines)+LineNothing]
		met := false
		for i := range p.base.hits[:p.base.nhits] {
			b := &p.base.hits[i]
			due := p.due(r, b)
			met = met || b.Active.Has(due-d) && !body.missed[i].Has(due)
		}
		if !met {
			return false
		}
	}
	return true
}

// meatyOn reports whether on that ground the attacker's track a meets a rival
// that does nothing on its first free frame, on every rise: it lays the rises'
// stages. Without a distance there is nothing to lay.
func (p *meeter) meatyOn(a *Track, g *ground, stages []stage) bool {
	for r := range stages {
		if g.known {
			p.stage(&stages[r], g, a, r)
		}
		if p.bait {
			continue
		}
		t := a.first(&p.bodies[r*len(p.lines)+LineNothing], &stages[r].far)
		if t.frame < 0 || t.frame != p.due(r, t.hit) {
			return false
		}
	}
	return true
}

// Meaty reports whether at delay d the attacker meets a rival that does
// nothing on its first free frame, on every rise. A bait counts as meaty.
func (p *Plan) Meaty(d int) bool {
	a := p.base.later(d)
	return p.meatyOn(&a, &p.ground, make([]stage, len(p.rises)))
}

// metOnAll reports whether track a meets the demand of line i on every rise,
// whose stages are laid; it leaves the spot.
func (p *meeter) metOnAll(a *Track, sp *spot, stages []stage, i int) bool {
	for r := range stages {
		if c := p.meetOn(sp, &stages[r], a, r, i); !c.meets(p.lines[i].demand) {
			return false
		}
	}
	return true
}

// SafeDelays are the delays whose verdict isn't unsafe: the window, or none
// where uncovered holds every demanded reply.
func (p *Plan) SafeDelays() Set {
	if p.demanded > 0 && len(p.uncovered) == p.demanded {
		return Set{}
	}
	return p.window
}

// Word returns the verdict at delay d, 0 to Fits(), in one word.
func (p *Plan) Word(d int) Word {
	switch {
	case !p.SafeDelays().Has(d):
		return Unsafe
	case len(p.uncovered) > 0:
		return Limited
	}
	return Safe
}

// Blank reports whether there is nothing to judge yet.
func (p *Plan) Blank() bool { return p.bait && p.demanded == 0 }

// Called is what pages call the setup at delay d, 0 to Fits(): its verdict in
// one word, or Blank.
func (p *Plan) Called(d int) Word {
	if p.Blank() {
		return Blank
	}
	return p.Word(d)
}

// Verdict returns the whole verdict at delay d, from 0 to Fits().
func (p *Plan) Verdict(d int) Verdict {
	m := p.Meetings(d, nil)
	v := m.Verdict()
	v.Holds = p.Holds(d)
	return v
}

// Verdict is the verdict at the delay of the meetings, all but what Plan.Holds
// tells: that takes longer than everything else.
func (m *Meetings) Verdict() Verdict {
	p, d := m.Plan, m.Delay
	v := Verdict{
		Setup: p.Setup.Name, Advantage: p.K, Delay: d, Word: p.Word(d), Called: p.Called(d),
		Distance: p.Distance(), Room: p.room,
		ActsFrom: p.actsOn + d, Window: Runs(p.window), Uncovered: p.Uncovered(),
	}
	if p.Setup.Jump != "" {
		v.JumpOn, v.Touchdown, v.GuardsFrom = Some(p.jumpOn+d), Some(p.touchdown+d), Some(p.guardsOn+d)
	}
	for r, rise := range p.rises {
		rv := RiseVerdict{Rise: rise.Name, Wake: p.wakes[r], Replies: make([]ReplyVerdict, 0, len(p.lines))}
		for i, l := range p.lines {
			e := Exchange{r, i}
			c := m.Cell(e)
			rv.Replies = append(rv.Replies, ReplyVerdict{p.lines[i].name, l.late, l.demand, c.Outcome, c.Meeting, c.Spare, c.AfterWake, c.Advantage, c.ToPunish, c.Apart, c.Side, m.ByReachAlone(e)})
		}
		v.Rises = append(v.Rises, rv)
	}
	return v
}

// Uncovered names the replies that no delay covers, not nil where there
// are none.
func (p *Plan) Uncovered() []string {
	out := []string{}
	for _, i := range p.uncovered {
		out = append(out, p.lines[i].title)
	}
	return out
}

// Spare is the least spare of the replies that a demand is on, over all rises
// claimed: how near the setup comes to break. It is absent where no exchange
// of them has one.
func (v *Verdict) Spare() (least Maybe) {
	for i := range v.Rises {
		for k := range v.Rises[i].Replies {
			r := &v.Rises[i].Replies[k]
			if r.Demand != DemandNone && r.Spare.Given && (!least.Given || r.Spare.N < least.N) {
				least = r.Spare
			}
		}
	}
	return least
}
