package drill

import (
	"slices"
	"time"

	"wakeline/timeline/odds"
)

// state is what a drill is at.
type state uint8

// The states.
const (
	idle    state = iota // not begun, or ended
	runs                 // a round runs: the count, then the sheet
	between              // before the next round
	rests                // a pause is offered
)

const (
	betweenRounds = 700 * time.Millisecond
	stretch       = 5 * time.Minute // of drilling, after which a pause is offered
)

// press is one press, and what it was meant for.
type press struct {
	odds.Press
	what   string // as the record names it
	called string // as it is called in words
}

// The names of the record.
const (
	pressOfJump   = "jump"
	pressOfAttack = "attack"
)

// clock runs the rounds of one drill by a clock, and judges its presses.
// It knows no widget.
type clock struct {
	now   func() time.Time // monotonic
	drill *odds.Drill
	both  bool // the attack is pressed too
	want  int  // rounds

	onRound func() // when one starts; nil: nothing

	state   state
	began   time.Time // of the round, or of the wait for the next
	first   time.Time // of the drill
	round   int       // from 0
	spent   time.Duration
	start   int  // the frame on which the jump started
	jumped  bool // in this round
	hit     bool // the attack was pressed in this round
	presses []press
	idle    int // rounds without a press

	seen     time.Time // the last picture
	pictures []time.Duration
}

// begin starts a drill.
func (c *clock) begin() {
	c.forget()
	c.round, c.pictures = 0, nil
	c.first = c.now()
	c.next()
}

// next starts a round.
func (c *clock) next() {
	c.state, c.began, c.seen = runs, c.now(), time.Time{}
	c.jumped, c.hit = false, false
	if c.onRound != nil {
		c.onRound()
	}
}

// since is how long the round has run, in nanoseconds.
func (c *clock) since() int64 { return c.now().Sub(c.began).Nanoseconds() }

// moment is where the line stands; ok is false where no round runs.
func (c *clock) moment() (m float64, ok bool) {
	if c.state != runs {
		return 0, false
	}
	return c.drill.Moment(c.since()), true
}

// target is what the next press is meant for; ok is false where none is asked
// for any more in this round.
func (c *clock) target() (t odds.Target, what, called string, ok bool) {
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
func (c *clock) press() (p press, ok bool) {
	if c.state != runs {
		return p, false
	}
	ns := c.since()
	t, what, called, ok := c.target()
	if !ok || !c.drill.Counts(t, ns) {
		return p, false
	}
	p = press{c.drill.Press(t, ns), what, called}
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
func (c *clock) tick() bool {
	now, was := c.now(), c.state
	switch c.state {
	case runs:
		if !c.seen.IsZero() && len(c.pictures) < 4096 {
			c.pictures = append(c.pictures, now.Sub(c.seen))
		}
		c.seen = now
		if c.drill.Over(c.since()) {
			c.endRound(now)
		}
	case between:
		if now.Sub(c.began) >= betweenRounds {
			c.next()
		}
	}
	return c.state != was
}

func (c *clock) endRound(now time.Time) {
	c.round++
	c.spent += now.Sub(c.began)
	if !c.jumped {
		c.idle++
	}
	c.began = now
	switch {
	case c.round >= c.want:
		c.state = idle
	case c.spent >= stretch:
		c.state = rests
	default:
		c.state = between
	}
}

// goOn ends a pause.
func (c *clock) goOn() {
	if c.state == rests {
		c.spent = 0
		c.next()
	}
}

// running reports whether a drill is under way.
func (c *clock) running() bool { return c.state != idle }

// forget drops the presses.
func (c *clock) forget() { c.presses, c.idle = nil, 0 }

// stop ends the drill where it is.
func (c *clock) stop() { c.state = idle }

// late is by how many milliseconds the presses came late.
func (c *clock) late() (out []float64) {
	for i := range c.presses {
		out = append(out, c.presses[i].Late)
	}
	return out
}

// landed counts the presses that land.
func (c *clock) landed() (n int) {
	for i := range c.presses {
		if c.presses[i].Off == 0 {
			n++
		}
	}
	return n
}

// picture is the usual time from one picture to the next, in milliseconds, 0
// where it is not known yet: the median.
func (c *clock) picture() float64 {
	if len(c.pictures) < 10 {
		return 0
	}
	s := slices.Sorted(slices.Values(c.pictures))
	return float64(s[len(s)/2].Microseconds()) / 1000
}
