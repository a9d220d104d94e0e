package ui

import (
	"slices"
	"time"

	"wakeline/timeline/odds"
)

// drillState is what a drill is at.
type drillState uint8

// The states.
const (
	drillIdle    drillState = iota // not begun, or ended
	drillRuns                      // a round runs: the count, then the sheet
	drillBetween                   // before the next round
	drillRests                     // a pause is offered
)

const (
	betweenRounds = 700 * time.Millisecond
	drillStretch  = 5 * time.Minute // of drilling, after which a pause is offered
)

// drillPress is one press, and what it was meant for.
type drillPress struct {
	odds.Press
	what   string // as the record names it
	called string // as it is called in words
}

// The names of the record.
const (
	pressOfJump   = "jump"
	pressOfAttack = "attack"
)

// drillClock runs the rounds of one drill by a clock, and judges its presses.
// It knows no widget.
type drillClock struct {
	now   func() time.Time // monotonic
	drill *odds.Drill
	both  bool // the attack is pressed too
	want  int  // rounds

	onRound func() // when one starts; nil: nothing

	state   drillState
	began   time.Time // of the round, or of the wait for the next
	first   time.Time // of the drill
	round   int       // from 0
	spent   time.Duration
	start   int  // the frame on which the jump started
	jumped  bool // in this round
	hit     bool // the attack was pressed in this round
	presses []drillPress
	idle    int // rounds without a press

	seen     time.Time // the last picture
	pictures []time.Duration
}

// begin starts a drill.
func (c *drillClock) begin() {
	c.presses, c.round, c.idle, c.pictures = nil, 0, 0, nil
	c.first = c.now()
	c.next()
}

// next starts a round.
func (c *drillClock) next() {
	c.state, c.began, c.seen = drillRuns, c.now(), time.Time{}
	c.jumped, c.hit = false, false
	if c.onRound != nil {
		c.onRound()
	}
}

// since is how long the round has run, in nanoseconds.
func (c *drillClock) since() int64 { return c.now().Sub(c.began).Nanoseconds() }

// moment is where the line stands; ok is false where no round runs.
func (c *drillClock) moment() (m float64, ok bool) {
	if c.state != drillRuns {
		return 0, false
	}
	return c.drill.Moment(c.since()), true
}

// target is what the next press is meant for; ok is false where none is asked
// for any more in this round.
func (c *drillClock) target() (t odds.Target, what, called string, ok bool) {
	switch {
	case !c.jumped:
		return c.drill.Jump, pressOfJump, c.drill.What, true
	case c.both && !c.hit:
		t, ok = c.drill.Attack(c.start)
		return t, pressOfAttack, "attack", ok
	}
	return odds.Target{}, "", "", false
}

// press judges a press of now. ok is false where it is meant for nothing.
func (c *drillClock) press() (p drillPress, ok bool) {
	if c.state != drillRuns {
		return p, false
	}
	ns := c.since()
	t, what, called, ok := c.target()
	if !ok || !c.drill.Counts(t, ns) {
		return p, false
	}
	p = drillPress{c.drill.Press(t, ns), what, called}
	if c.presses = append(c.presses, p); what == pressOfAttack {
		c.hit = true
		return p, true
	}
	// After a press that does nothing there is no jump to attack from.
	c.jumped, c.start, c.hit = true, p.Acts, p.Acts < 0
	return p, true
}

// tick is called with each picture. It ends rounds and starts them, and
// reports whether the state is another.
func (c *drillClock) tick() bool {
	now, was := c.now(), c.state
	switch c.state {
	case drillRuns:
		if !c.seen.IsZero() && len(c.pictures) < 4096 {
			c.pictures = append(c.pictures, now.Sub(c.seen))
		}
		c.seen = now
		if c.drill.Over(c.since()) {
			c.endRound(now)
		}
	case drillBetween:
		if now.Sub(c.began) >= betweenRounds {
			c.next()
		}
	}
	return c.state != was
}

func (c *drillClock) endRound(now time.Time) {
	c.round++
	c.spent += now.Sub(c.began)
	if !c.jumped {
		c.idle++
	}
	c.began = now
	switch {
	case c.round >= c.want:
		c.state = drillIdle
	case c.spent >= drillStretch:
		c.state = drillRests
	default:
		c.state = drillBetween
	}
}

// goOn ends a pause.
func (c *drillClock) goOn() {
	if c.state == drillRests {
		c.spent = 0
		c.next()
	}
}

// stop ends the drill where it is.
func (c *drillClock) stop() { c.state = drillIdle }

// late is by how many milliseconds the presses came late.
func (c *drillClock) late() (out []float64) {
	for i := range c.presses {
		out = append(out, c.presses[i].Late)
	}
	return out
}

// landed counts the presses that land.
func (c *drillClock) landed() (n int) {
	for i := range c.presses {
		if c.presses[i].Off == 0 {
			n++
		}
	}
	return n
}

// picture is the usual time from one picture to the next, in milliseconds, 0
// where it is not known yet: the median.
func (c *drillClock) picture() float64 {
	if len(c.pictures) < 10 {
		return 0
	}
	s := slices.Sorted(slices.Values(c.pictures))
	return float64(s[len(s)/2].Microseconds()) / 1000
}
