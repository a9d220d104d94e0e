package timeline

// A second reading of frames.md, to hold the core against: frame by frame,
// in loops over plain booleans. It uses the data of a project and nothing
// that the core computes: no Set, no Move.Total, no method of Jump, no
// Claimed, no K. It is slow, and as close to the page's sentences as it can
// be made.

// slowBody is one side on one frame.
type slowBody struct {
	here        bool // risen: before that nothing touches
	strikeProof bool
	throwProof  bool
	air         bool
	tall        bool // the height is known
	up, per     int  // the height is up/per
	high, low   bool // guards
	parry       bool
	into        int // the frame of the armoured move, from 1; 0 outside of it
}

// slowSwing is one strike or throw in use, on the clock.
type slowSwing struct {
	m       *Move
	theirs  bool // the rival's
	throw   bool
	air     bool   // a jump attack
	on      []int  // by frame: 1 + the number of the active span, 0 where none
	tooHigh []bool // by frame: a jump attack not low enough
	begins  []int  // the first frame of each span
	free    int    // the first free frame after it
}

// slowSide is one side of an exchange.
type slowSide struct {
	body   []slowBody // by frame
	swings []*slowSwing
	armour []Armour // of the move whose windows the body shows
}

// slowTouch is the frame on which a swing touches, with what it finds.
type slowTouch struct {
	ok    bool
	frame int
	span  int
	swing *slowSwing
	finds string // "guard", "parry", "armour" or "nothing"
}

// slowOpen says why a body is not open to that swing's level, "" where it is.
func slowOpen(sw *slowSwing, b *slowBody) string {
	switch {
	case !b.here:
		return "not risen"
	case sw.throw && b.throwProof:
		return "throw-proof"
	case sw.throw && sw.m.Level == LevelAirThr && !b.air:
		return "air throw at the ground"
	case sw.throw && sw.m.Level == LevelThrow && b.air:
		return "throw at the air"
	case sw.throw:
		return ""
	case b.strikeProof:
		return "strike-proof"
	case b.air && sw.m.Level == Low:
		return "low at the air"
	case b.air && sw.m.MissesAir:
		return "misses air"
	case b.air && sw.m.Top.Given && b.tall && b.up > sw.m.Top.N*b.per:
		return "over the top"
	}
	return ""
}

// touches reports whether sw touches body b on frame f.
func (g *slowGo) touches(sw *slowSwing, f int, b *slowBody) bool {
	if sw.on[f] == 0 {
		return false
	}
	why := slowOpen(sw, b)
	if why == "" && sw.tooHigh[f] {
		why = "too high"
	}
	if why == "" && !g.axis.reaches(sw.m, sw.theirs, f) {
		why = "out of reach"
	}
	if why != "" {
		g.note(why)
	}
	return why == ""
}

// slowFinds says what a touch meets; worn counts the spans each armour
// window has taken. It returns the armour window too.
func slowFinds(sw *slowSwing, b *slowBody, armour []Armour, worn []int) (string, int) {
	if sw.throw {
		return "nothing", -1
	}
	switch {
	case sw.m.Level == Mid && (b.high || b.low), sw.m.Level == Low && b.low, sw.m.Level == Overhead && b.high:
		return "guard", -1
	case b.parry:
		return "parry", -1
	}
	for i, w := range armour {
		if w.From <= b.into && b.into <= w.To && worn[i] < w.Hits {
			return "armour", i
		}
	}
	return "nothing", -1
}

// first is the first touch of one side on the other. Where swallow is
// true, the armour of the touched side takes its spans out of the question.
func (g *slowGo) first(from, on *slowSide, swallow bool) slowTouch {
	worn := make([]int, len(on.armour))
	gone := map[int]bool{}
	for f := range from.body {
		for _, sw := range from.swings {
			if gone[sw.on[f]] || !g.touches(sw, f, &on.body[f]) {
				continue
			}
			finds, plate := slowFinds(sw, &on.body[f], on.armour, worn)
			if swallow && finds == "armour" {
				worn[plate]++
				gone[sw.on[f]] = true
				g.note("the attacker's armour swallows")
				continue
			}
			return slowTouch{true, f, sw.on[f] - 1, sw, finds}
		}
	}
	return slowTouch{}
}

// slowGo is one exchange, and what it needs to know beyond the two sides.
type slowGo struct {
	att, def   *slowSide
	trades     bool
	wake       int
	grace      int
	guardsFrom int   // L+G, or J without a jump
	acts       int   // the attacker's first free frame where nothing touches
	replyEnds  Maybe // absent for a guard and for nothing
	waits      bool  // the landing action is guard or parry
	axis       *slowAxis
	touch      slowTouch // the attacker's that decided, where one did

	seen map[string]int // counts what happened, nil where nobody asks
}

func (g *slowGo) note(what string) {
	if g.seen != nil {
		g.seen[what]++
	}
}

func (g *slowGo) play() Cell {
	c := g.meet()
	g.axis.tell(&c)
	return c
}

func (g *slowGo) meet() Cell {
	mine := g.first(g.att, g.def, false)
	theirs := g.first(g.def, g.att, true)
	if !mine.ok && !theirs.ok {
		if !g.replyEnds.Given {
			return Cell{Outcome: AttackWhiffs}
		}
		return Cell{Outcome: NoContact, ToPunish: Some(g.replyEnds.N - g.acts)}
	}
	switch {
	case !theirs.ok || mine.ok && mine.frame < theirs.frame:
		return g.mineFirst(mine, theirs)
	case !mine.ok || theirs.frame < mine.frame:
		return g.theirsFirst(theirs)
	case mine.finds == "parry" || mine.finds == "armour":
		g.note("one frame: " + mine.finds + " goes first")
		return g.mineFirst(mine, theirs)
	case theirs.swing.throw && !mine.swing.throw:
		g.note("one frame: strike beats the reply's throw")
		return g.mineFirst(mine, theirs)
	case mine.swing.throw && !theirs.swing.throw:
		g.note("one frame: the reply's strike beats a throw")
		return g.theirsFirst(theirs)
	case mine.swing.throw:
		g.note("one frame: two throws")
		g.touch = mine
		return Cell{Outcome: Trade, Meeting: Some(mine.frame)}
	case g.trades:
		g.note("one frame: two strikes")
		g.touch = mine
		return Cell{Outcome: Trade, Meeting: Some(mine.frame)}
	}
	g.note("one frame: no trades")
	return g.mineFirst(mine, theirs)
}

func (g *slowGo) mineFirst(mine, theirs slowTouch) Cell {
	g.note("the attacker's " + string(mine.swing.m.Level))
	g.touch = mine
	switch mine.finds {
	case "guard":
		return Cell{
			Outcome: AttackBlocked, Meeting: Some(mine.frame), AfterWake: g.gap(mine),
			Advantage: g.stun(mine, mine.swing.m.OnGuard, mine.swing.m.Guardstun),
		}
	case "parry":
		return Cell{Outcome: AttackParried, Meeting: Some(mine.frame)}
	case "armour":
		broke := g.breaks(mine, theirs)
		if !broke.ok {
			g.note("armour absorbs")
			return Cell{Outcome: AttackAbsorbed, Meeting: Some(mine.frame)}
		}
		g.note("armour broken")
		mine = broke
	}
	c := Cell{
		Outcome: AttackHits, Meeting: Some(mine.frame), AfterWake: g.gap(mine),
		Advantage: g.stun(mine, mine.swing.m.OnHit, mine.swing.m.Hitstun),
	}
	if theirs.ok {
		c.Spare = Some(max(0, theirs.frame-1-mine.frame))
	}
	return c
}

// breaks finds the span that breaks the armour which took the first touch.
func (g *slowGo) breaks(mine, theirs slowTouch) slowTouch {
	worn := make([]int, len(g.def.armour))
	gone := map[int]bool{}
	taken := 0
	for f := mine.frame; f < len(mine.swing.on); f++ {
		if theirs.ok && f >= theirs.frame && f > mine.frame {
			break
		}
		k := mine.swing.on[f]
		if gone[k] || !g.touches(mine.swing, f, &g.def.body[f]) {
			continue
		}
		switch finds, plate := slowFinds(mine.swing, &g.def.body[f], g.def.armour, worn); finds {
		case "armour":
			worn[plate]++
			gone[k] = true
			if taken++; taken == 2 {
				g.note("armour takes two spans")
			}
		case "guard", "parry":
			g.note("a " + finds + " stops a span after armour")
			gone[k] = true
		default:
			return slowTouch{true, f, k - 1, mine.swing, finds}
		}
	}
	return slowTouch{}
}

func (g *slowGo) gap(t slowTouch) Maybe {
	if t.swing.throw {
		return Some(t.frame - g.wake - g.grace)
	}
	return Some(t.frame - g.wake)
}

func (g *slowGo) theirsFirst(t slowTouch) Cell {
	g.note("the reply's " + string(t.swing.m.Level))
	c := Cell{Meeting: Some(t.frame)}
	switch {
	case t.swing.throw:
		c.Outcome = ReplyThrows
	case t.finds == "guard":
		c.Outcome = ReplyBlocked
		c.Spare = g.held(t.frame, func(b *slowBody) bool { return b.high && b.low })
		if a := g.stun(t, t.swing.m.OnGuard, t.swing.m.Guardstun); a.Given {
			c.ToPunish = Some(-a.N)
		}
	case t.finds == "parry":
		g.note("the attacker parries")
		c.Outcome = ReplyParried
		c.Spare = g.held(t.frame, func(b *slowBody) bool { return b.parry })
	default:
		c.Outcome = ReplyHits
		if g.waits {
			c.Spare = Some(t.frame - g.guardsFrom)
		}
	}
	return c
}

// held counts back from frame f for how long the attacker has stood as stands
// asks, without a break.
func (g *slowGo) held(f int, stands func(b *slowBody) bool) Maybe {
	from := f
	for from > 0 && stands(&g.att.body[from-1]) {
		from--
	}
	if from != g.guardsFrom {
		g.note("to spare from a later guard or parry")
	}
	return Some(f - from)
}

// stun is the advantage that a touch gives: the listed one, or the one
// that the stun makes.
func (g *slowGo) stun(t slowTouch, listed, stun Maybe) Maybe {
	if listed.Given && !t.swing.air {
		if t.frame > t.swing.begins[t.span] {
			g.note("a listed advantage, frames into a span")
		}
		return Some(listed.N + t.frame - t.swing.begins[t.span])
	}
	if !stun.Given {
		return Maybe{}
	}
	c, last := t.frame, t.span
	for f := t.frame; f < len(t.swing.on); f++ {
		if k := t.swing.on[f] - 1; k > last && !t.swing.tooHigh[f] && g.axis.reachesStunned(t.swing.m, t.swing.theirs, f, t.frame) {
			last, c = k, f
		}
	}
	if last > t.span {
		g.note("stun from a later span")
	}
	return Some(c + 1 + stun.N - t.swing.free)
}
