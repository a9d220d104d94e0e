package timeline

// Outcome is what became of an exchange, in the attacker's view.
type Outcome uint8

// The outcomes of frames.md, "Meeting".
const (
	NoContact      Outcome = iota // neither side touches
	AttackWhiffs                  // the same where the reply is a guard or nothing
	AttackHits                    // the attacker touches first, nothing stops it
	AttackBlocked                 // a guard takes the attacker's touch
	ReplyBlocked                  // the reply's first touch finds the attacker guarding
	ReplyParried                  // the reply's first touch finds the attacker parrying
	Trade                         // both on one frame
	ReplyHits                     // the reply touches first and no guard takes it
	AttackParried                 // a parry takes the attacker's touch
	AttackAbsorbed                // armour takes the attacker's first touch
	ReplyThrows                   // a throw takes the attacker
)

// Outcomes is how many outcomes there are.
const Outcomes = len(outcomeNames)

var outcomeNames = [...]string{"no contact", "attack whiffs", "attack hits", "attack blocked", "reply blocked", "reply parried",
	"trade", "reply hits", "attack parried", "attack absorbed", "reply throws"}

// String is the outcome's name.
func (o Outcome) String() string { return outcomeNames[o] }

// MarshalText writes the outcome's name.
func (o Outcome) MarshalText() ([]byte, error) { return []byte(o.String()), nil }

// Survived reports whether the attacker came through unhurt.
func (o Outcome) Survived() bool { return o <= ReplyParried }

// Cell is one exchange: an outcome, and its numbers where they have a
// meaning. All are frames; Meeting is a frame of the clock, the others counts.
type Cell struct {
	Outcome   Outcome
	Meeting   Maybe
	Spare     Maybe
	AfterWake Maybe
	Advantage Maybe
	ToPunish  Maybe

	// On the meeting, where the distance is known: the rival's place less the
	// attacker's, in whole units, and where that is by the attacker's facing.
	Apart Maybe
	Side  Bearing
}

// Bearing is where the rival is on the meeting, by the attacker's facing. The
// zero value says nothing.
type Bearing uint8

// The bearings.
const (
	InFront Bearing = iota + 1
	Behind
	Over // both are on one spot
)

var bearingNames = [...]string{"", "front", "behind", "over"}

// String is the bearing's name, empty where it says nothing.
func (s Bearing) String() string { return bearingNames[s] }

// MarshalJSON writes the bearing's name, null where it says nothing.
func (s Bearing) MarshalJSON() ([]byte, error) {
	if s == 0 {
		return []byte("null"), nil
	}
	return []byte(`"` + s.String() + `"`), nil
}

// Beaten reports whether the reply was beaten.
func (c *Cell) Beaten() bool {
	switch c.Outcome {
	case AttackHits, AttackBlocked, ReplyParried:
		return true
	case ReplyBlocked:
		return c.ToPunish.Given && c.ToPunish.N > 0
	}
	return false
}

// meets reports whether the exchange meets demand d.
func (c *Cell) meets(d Demand) bool {
	switch d {
	case Survive:
		return c.Outcome.Survived()
	case Beat:
		return c.Beaten()
	}
	return true
}

// touch is the first frame on which one side touches the other.
type touch struct {
	frame int // -1: never
	hit   *hit
	nth   int // which of its side's
}

// first returns the first touch of t's hits on body, which knows the frames on
// which they miss it; far are those on which it lies out of their reach.
func (t *Track) first(body *Track, far *[2]Set) touch {
	for i := range t.hits[:t.nhits] {
		if f := t.hits[i].Active.firstOutsideBoth(&body.missed[i], &far[i]); f >= 0 {
			return touch{f, &t.hits[i], i}
		}
	}
	return touch{frame: -1}
}

// armourUsed counts the spans that a track's armour has taken.
type armourUsed [maxShield]int

// take reports whether armour takes a span that touches on frame f, and
// counts it.
func (w *armourUsed) take(t *Track, f int) bool {
	if !t.Armour.Has(f) {
		return false
	}
	for i, s := range t.shields {
		if s.Has(f-t.shieldStart) && w[i] < s.hits {
			w[i]++
			return true
		}
	}
	return false
}

// answer returns the first touch of t's one hit on body that body's own
// armour doesn't swallow; far are the frames on which that is out of reach.
func (t *Track) answer(body *Track, far *Set) touch {
	if t.nhits == 0 {
		return touch{frame: -1}
	}
	b := &t.hits[0]
	misses := b.misses(body).Or(*far)
	first := b.Active.firstOutside(&misses)
	if first < 0 || b.throws() || !body.Armour.Has(first) {
		return touch{first, b, 0}
	}
	on := b.Active.Minus(misses)
	var worn armourUsed
	for k := range b.spans {
		f := on.And(b.span(k)).First()
		if f >= 0 && (body.Parry.Has(f) || !worn.take(body, f)) {
			return touch{f, b, 0}
		}
	}
	return touch{frame: -1}
}

// exchange is the exchange of rise r and line i with the attacker's track a.
func (p *meeter) exchange(a *Track, r, i int) Cell {
	st := stage{}
	if p.ground.known {
		p.stage(&st, &p.ground, a, r)
	}
	sp := spot{}
	return p.meetOn(&sp, &st, a, r, i)
}

// meetOn is exchange where the stage of the rise is laid; it leaves the spot.
func (p *meeter) meetOn(sp *spot, st *stage, a *Track, r, i int) Cell {
	if st.walk.g != nil {
		p.spot(sp, st, a, r, i)
	}
	c := p.meet(a, &p.bodies[r*len(p.lines)+i], sp, i, p.wakes[r])
	if c.Meeting.Given && st.walk.g != nil {
		units, side := sp.on(st).apart(c.Meeting.N)
		c.Apart, c.Side = Some(units), side
	}
	return c
}

// meet meets the attacker's track a with body d of line i, up on frame wake,
// by the rules of frames.md, "Meeting".
func (p *meeter) meet(a, d *Track, sp *spot, i, wake int) Cell {
	mine, theirs := a.first(d, &sp.mine), d.answer(a, &sp.theirs)
	switch {
	case mine.frame < 0 && theirs.frame < 0:
		if p.lines[i].shown {
			return Cell{Outcome: AttackWhiffs}
		}
		return Cell{Outcome: NoContact, ToPunish: Some(d.free - a.free)}
	case theirs.frame < 0 || mine.frame >= 0 && mine.frame < theirs.frame:
		return p.attackerTouches(d, sp, mine, theirs, wake)
	case mine.frame < 0 || theirs.frame < mine.frame:
		return p.replyTouches(a, sp, theirs)
	}
	// Both on one frame: a parry or armour goes first, then a strike beats a
	// throw, then trades.
	switch {
	case !mine.hit.throws() && (d.Parry.Has(mine.frame) || d.Armour.Has(mine.frame)):
		return p.attackerTouches(d, sp, mine, theirs, wake)
	case mine.hit.throws() && !theirs.hit.throws():
		return p.replyTouches(a, sp, theirs)
	case mine.hit.throws() == theirs.hit.throws() && (p.rules.Trades || mine.hit.throws()):
		return Cell{Outcome: Trade, Meeting: Some(mine.frame)}
	}
	return p.attackerTouches(d, sp, mine, theirs, wake)
}

// attackerTouches is the exchange where the attacker's touch decides.
func (p *meeter) attackerTouches(d *Track, sp *spot, mine, theirs touch, wake int) Cell {
	b := mine.hit
	if b.throws() {
		return p.attackHits(sp, mine, theirs, wake)
	}
	switch {
	case d.guards(b.class, mine.frame):
		return Cell{Outcome: AttackBlocked, Meeting: Some(mine.frame), AfterWake: Some(mine.frame - wake),
			Advantage: sp.advantage(mine, false, b.move.OnGuard, b.move.Guardstun)}
	case d.Parry.Has(mine.frame):
		return Cell{Outcome: AttackParried, Meeting: Some(mine.frame)}
	case d.Armour.Has(mine.frame):
		if broke, ok := b.breaks(d, &sp.mine[mine.nth], theirs.frame); ok {
			return p.attackHits(sp, touch{broke, b, mine.nth}, theirs, wake)
		}
		return Cell{Outcome: AttackAbsorbed, Meeting: Some(mine.frame)}
	}
	return p.attackHits(sp, mine, theirs, wake)
}

// breaks returns the frame on which a span of b goes through d's armour: the
// first that touches, that no armour, guard or parry takes, before the reply
// touches (reply, -1 where it never does).
func (b *hit) breaks(d *Track, far *Set, reply int) (frame int, ok bool) {
	var worn armourUsed
	on := b.touches(d).Minus(*far)
	for k := range b.spans {
		f := on.And(b.span(k)).First()
		if f < 0 {
			continue
		}
		if reply >= 0 && f >= reply {
			return 0, false
		}
		if !d.guards(b.class, f) && !d.Parry.Has(f) && !worn.take(d, f) {
			return f, true
		}
	}
	return 0, false
}

// attackHits is the exchange won by the attacker's touch. Spare is by how many
// frames it came before the last frame that would still have won: had it not
// touched, the reply would have touched on theirs.frame, guarded or not.
func (p *meeter) attackHits(sp *spot, mine, theirs touch, wake int) Cell {
	m := mine.hit.move
	c := Cell{Outcome: AttackHits, Meeting: Some(mine.frame), AfterWake: Some(mine.frame - wake),
		Advantage: sp.advantage(mine, false, m.OnHit, m.Hitstun)}
	if mine.hit.throws() {
		c.AfterWake.N -= p.rules.ThrowGraceRise
	}
	if theirs.frame >= 0 {
		c.Spare = Some(max(0, theirs.frame-1-mine.frame))
	}
	return c
}

// replyTouches is the exchange where the reply's touch decides. Spare counts
// from the first frame of the unbroken stretch of guard or parry that takes it.
func (p *meeter) replyTouches(a *Track, sp *spot, theirs touch) Cell {
	f, b := theirs.frame, theirs.hit
	if b.throws() {
		return Cell{Outcome: ReplyThrows, Meeting: Some(f)}
	}
	if a.Parry.Has(f) {
		return Cell{Outcome: ReplyParried, Meeting: Some(f), Spare: Some(f - a.Parry.runFrom(f))}
	}
	if a.guards(b.class, f) {
		// The attacker guards every level alike: its two sets are one.
		c := Cell{Outcome: ReplyBlocked, Meeting: Some(f), Spare: Some(f - a.High.runFrom(f))}
		if adv := sp.advantage(theirs, true, b.move.OnGuard, b.move.Guardstun); adv.Given {
			c.ToPunish = Some(-adv.N)
		}
		return c
	}
	c := Cell{Outcome: ReplyHits, Meeting: Some(f)}
	if p.Setup.Landing == DoGuard || p.Setup.Landing == DoParry {
		c.Spare = Some(f - p.guardsOn - a.wait)
	}
	return c
}

// advantage returns how many frames the striker is free before the one it
// touched, by frames.md, "Moves": the listed number plus the frames into the
// span that touched first; or, from stun, (c + 1 + stun) - the striker's
// first free frame, c the touch of the last span that touches. A jump attack's
// listed numbers mean nothing. The touch is the reply's where theirs is set.
func (sp *spot) advantage(t touch, theirs bool, listed, stun Maybe) Maybe {
	b := t.hit
	k := b.spanAt(t.frame)
	switch {
	case listed.Given && !b.move.Air:
		return Some(listed.N + t.frame - b.start - b.spans[k].From)
	case stun.Given:
		c := t.frame
		if b.lastSpan > k {
			c = sp.lastFrame(t, k, theirs)
		}
		return Some(c + 1 + stun.N - b.free)
	}
	return Maybe{}
}

// lastFrame is the touch of the last span after the k-th that touches, t's own
// where there is none. From t on only reach lets a later span miss, and the
// touched side stands where t found it.
func (sp *spot) lastFrame(t touch, k int, theirs bool) int {
	b := t.hit
	far := Set{}
	switch {
	case sp.parts && b.move.Reach != nil:
		sp.stunned(&far, t, theirs)
	case !theirs:
		far = sp.mine[t.nth]
	}
	if far.Empty() {
		return b.start + b.lastTouch
	}
	on := b.Active.Minus(far)
	for j := len(b.spans) - 1; j > k; j-- {
		if f := on.And(b.span(j)).First(); f >= 0 {
			return f
		}
	}
	return t.frame
}
