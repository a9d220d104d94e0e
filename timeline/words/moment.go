package words

import (
	"fmt"
	"strings"

	"wakeline/timeline"
)

// Stance is what one side is doing on one frame, in words.
type Stance struct {
	timeline.Stance
	Name  string // the fighter's; in a mirror match with its side
	Doing string // "Sweep startup 2 of 4": counted from 1 over the drawn phase; "3 left" counts this frame too
}

// Moment is both sides of one exchange on one frame, in words.
type Moment struct {
	Frame           int
	Attacker, Rival Stance
	Meeting         timeline.Maybe // the frame of the deciding touch
}

// Meets reports whether the deciding touch falls on this frame.
func (m *Moment) Meets() bool { return m.Meeting == timeline.Some(m.Frame) }

// MomentAt tells what each side does on a frame of the exchange of that rise
// and line (indexes of the verdict), at delay d, 0 to Fits(). Before frame 0
// the ender still ends and nothing touches; past the width all stays as on
// its last frame.
func MomentAt(p *timeline.Plan, d, rise, line, frame int) Moment {
	is := p.Moment(d, rise, line, frame)
	m := Moment{frame, Stance{Stance: is.Attacker, Name: p.Setup.Attacker}, Stance{Stance: is.Rival, Name: p.Setup.Rival}, is.Meeting}
	if m.Attacker.Name == m.Rival.Name {
		m.Attacker.Name += " attacking"
		m.Rival.Name += " rising"
	}
	f := min(frame, timeline.Width-1)
	m.Attacker.Doing, m.Rival.Doing = doing(is.Top, f, &is.Attacker), doing(is.Bottom, f, &is.Rival)
	return m
}

// doing says what the blocks of one side do on frame f.
func doing(blocks []timeline.Block, f int, s *timeline.Stance) string {
	say := ""
	for i := range blocks {
		b := &blocks[i]
		if !b.Span.Has(f) {
			continue
		}
		if say == "" {
			say = blockDoing(b, f)
		} else if b.Part == timeline.PartAttack {
			say += ", " + blockDoing(b, f)
		}
	}
	switch {
	case say != "":
		return say
	case f < 0:
		return "is knocked down"
	case s.Parries:
		return "holds the parry"
	}
	return "guards"
}

// blockDoing says what block b does on frame f of its span.
func blockDoing(b *timeline.Block, f int) string {
	nth := func(s timeline.Span) string { return fmt.Sprintf("%d of %d", f-s.From+1, s.Len()) }
	left := fmt.Sprintf("%d left", b.Span.To-f)
	switch b.Part {
	case timeline.PartEnder:
		return strings.TrimSuffix("ends the combo with "+b.Name, " with ")
	case timeline.PartFiller:
		return fmt.Sprintf("filler %s, frame %s", b.Name, nth(b.Span))
	case timeline.PartDelay:
		return "waits, frame " + nth(b.Span)
	case timeline.PartRise:
		return fmt.Sprintf("lies on the ground, wake-up in %d", b.Span.To-f)
	case timeline.PartLate:
		return fmt.Sprintf("stands open, replies in %d", b.Span.To-f)
	}
	for _, piece := range b.Pieces {
		if !piece.Span.Has(f) {
			continue
		}
		leaps := len(b.Pieces) == 3 && b.Pieces[1].Phase == timeline.Airborne
		switch {
		case piece.Phase == timeline.Startup && leaps:
			return fmt.Sprintf("prejump of %s, frame %s", b.Name, nth(piece.Span))
		case piece.Phase == timeline.Airborne:
			return "in the air, frame " + nth(piece.Span)
		case piece.Phase == timeline.Recovery && leaps:
			return "lands, " + left
		case piece.Phase == timeline.Startup:
			return b.Name + " startup " + nth(piece.Span)
		case piece.Phase == timeline.Active:
			return b.Name + " active " + nth(piece.Span)
		case piece.Phase == timeline.Between:
			return b.Name + " between hits " + nth(piece.Span)
		case piece.Phase == timeline.Recovery:
			return b.Name + " recovers, " + left
		case piece.Phase == timeline.Motion:
			return b.Name + " frame " + nth(piece.Span)
		case piece.Phase == timeline.Parrying:
			return "holds the parry"
		case piece.Phase == timeline.Idle:
			return "stands and does nothing"
		case b.Part == timeline.PartReply: // a guard of one level
			return strings.Replace(b.Name, "guard", "guards", 1)
		}
	}
	return "guards"
}

// Words tells the stance without the name: what it does, how high, what its
// guard, parry or armour takes, and what it is open to.
func (s *Stance) Words() string {
	say := []string{s.Doing}
	add := func(ok bool, words string) {
		if ok && words != s.Doing {
			say = append(say, words)
		}
	}
	add(s.Level != "", string(s.Level))
	add(s.Airborne && s.Height.Known(), fmt.Sprintf("at %d units", s.Height.Units()))
	add(s.Airborne && !strings.HasPrefix(s.Doing, "in the air"), "in the air")
	add(s.Level != "" && !s.InReach, "too high to touch")
	var open []string
	strikes := "strikes"
	switch {
	case !s.Strikes:
		strikes = ""
	case s.High && s.Low:
		add(true, "guards")
		strikes = ""
	case s.High:
		add(true, "guards high")
		strikes = "lows"
	case s.Low:
		add(true, "guards low")
		strikes = "overheads"
	case s.Parries:
		add(s.Doing != "holds the parry", "parries strikes")
		strikes = ""
	case s.Armoured:
		add(true, "armoured against strikes")
		strikes = ""
	}
	if strikes != "" {
		open = append(open, strikes)
	}
	if s.Throws {
		kind := "throws"
		if s.Airborne {
			kind = "air throws"
		}
		open = append(open, kind)
	}
	if len(open) == 0 {
		open = append(open, "nothing")
	}
	return strings.Join(append(say, "open to "+List(open)), ", ")
}

// Words tells the frame in one line, both sides by name.
func (m *Moment) Words() string {
	out := fmt.Sprintf("Frame %d: %s: %s. %s: %s.", m.Frame, m.Attacker.Name, m.Attacker.Words(), m.Rival.Name, m.Rival.Words())
	switch {
	case m.Meets():
		out += " Here they meet."
	case m.Meeting.Given && m.Frame > m.Meeting.N:
		out += fmt.Sprintf(" They met on %d: what follows is only the plan.", m.Meeting.N)
	}
	return out
}
