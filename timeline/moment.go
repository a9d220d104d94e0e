package timeline

import (
	"fmt"
	"strings"
)

// Height is an exact height, Num/Den units. Den is 0 where the height is not
// known: in the air without an apex.
type Height struct{ Num, Den int }

// Known reports whether the height is known.
func (h Height) Known() bool { return h.Den > 0 }

// Units is the height in units, rounded down; 0 where it is not known.
func (h Height) Units() int {
	if h.Den == 0 {
		return 0
	}
	return h.Num / h.Den
}

// Stance is what one side is doing on one frame. The flags are those of the
// side's track, which the verdict is made from.
type Stance struct {
	Name     string // the fighter's; in a mirror match with its side
	Doing    string // "Sweep startup 2 of 4": counted from 1 over the drawn phase; "3 left" counts this frame too
	Airborne bool
	Height   Height // 0/1 on the ground

	Strikes   bool // strikes touch it, guarded or not
	Throws    bool // throws touch it: on the ground plain ones, in the air air throws
	High, Low bool // guards high, guards low
	Parries   bool
	Armoured  bool

	Level   Level // of what is active on this frame, empty where nothing is
	InReach bool  // and it is low enough to touch a grounded rival
}

// Moment is both sides of one exchange on one frame. It tells the plans as
// they are laid, also past the meeting, where one side's touch has decided.
type Moment struct {
	Frame           int
	Attacker, Rival Stance
	Meeting         Maybe // the frame of the deciding touch
}

// Meets reports whether the deciding touch falls on this frame.
func (m *Moment) Meets() bool { return m.Meeting == Some(m.Frame) }

// Moment tells what each side does on a frame of the exchange of that rise
// and line (indexes of the verdict), at delay d, 0 to Fits(). Before frame 0
// the ender still ends and nothing touches; past the width all stays as on
// its last frame.
func (p *Plan) Moment(d, rise, line, frame int) Moment {
	a := p.base.later(d)
	body := &p.bodies[rise*len(p.lines)+line]
	c := p.exchange(&a, rise, line)
	f := min(frame, Width-1)
	m := Moment{Frame: frame, Attacker: a.stance(f), Rival: body.stance(f), Meeting: c.Meeting}
	m.Attacker.Name, m.Rival.Name = p.Setup.Attacker, p.Setup.Rival
	if m.Attacker.Name == m.Rival.Name {
		m.Attacker.Name += " attacking"
		m.Rival.Name += " rising"
	}
	m.Attacker.Doing = doing(p.attackerBlocks(d, &a), f, &m.Attacker)
	m.Rival.Doing = doing(p.rivalBlocks(rise, line, body), f, &m.Rival)
	return m
}

// stance reads the properties of t on frame f off its sets.
func (t *Track) stance(f int) Stance {
	s := Stance{
		Airborne: t.Air.Has(f), Height: Height{0, 1},
		Strikes: f >= 0 && !t.NoStrike.Has(f), Throws: f >= 0 && !t.NoThrow.Has(f),
		High: t.High.Has(f), Low: t.Low.Has(f), Parries: t.Parry.Has(f), Armoured: t.Armour.Has(f),
	}
	if s.Airborne {
		s.Height = Height{}
		if j := t.flight.jump; j != nil && j.Apex.Given {
			if i, n := f-t.flight.from, j.Airborne; i >= 0 && i < n {
				s.Height = Height{4 * j.Apex.N * (i + 1) * (n - i), (n + 1) * (n + 1)}
			}
		}
	}
	for i := range t.blows[:t.nblows] {
		b := &t.blows[i]
		for k := range b.spans {
			if b.span(k).Has(f) {
				s.Level, s.InReach = b.move.Level, b.Active.Has(f)
			}
		}
	}
	return s
}

// doing says what the blocks of one side do on frame f.
func doing(blocks []Block, f int, s *Stance) string {
	say := ""
	for i := range blocks {
		b := &blocks[i]
		if !b.Span.Has(f) {
			continue
		}
		if say == "" {
			say = b.doing(f)
		} else if b.Part == PartAttack {
			say += ", " + b.doing(f)
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

// doing says what block b does on frame f of its span.
func (b *Block) doing(f int) string {
	nth := func(s Span) string { return fmt.Sprintf("%d of %d", f-s.From+1, s.Len()) }
	left := fmt.Sprintf("%d left", b.Span.To-f)
	switch b.Part {
	case PartEnder:
		return strings.TrimSuffix("ends the combo with "+b.Name, " with ")
	case PartFiller:
		return fmt.Sprintf("filler %s, frame %s", b.Name, nth(b.Span))
	case PartDelay:
		return "waits, frame " + nth(b.Span)
	case PartRise:
		return fmt.Sprintf("lies on the ground, wake-up in %d", b.Span.To-f)
	case PartLate:
		return fmt.Sprintf("stands open, replies in %d", b.Span.To-f)
	}
	for _, piece := range b.Pieces {
		if !piece.Span.Has(f) {
			continue
		}
		leaps := len(b.Pieces) == 3 && b.Pieces[1].Phase == Airborne
		switch {
		case piece.Phase == Startup && leaps:
			return fmt.Sprintf("prejump of %s, frame %s", b.Name, nth(piece.Span))
		case piece.Phase == Airborne:
			return "in the air, frame " + nth(piece.Span)
		case piece.Phase == Recovery && leaps:
			return "lands, " + left
		case piece.Phase == Startup:
			return b.Name + " startup " + nth(piece.Span)
		case piece.Phase == Active:
			return b.Name + " active " + nth(piece.Span)
		case piece.Phase == Between:
			return b.Name + " between hits " + nth(piece.Span)
		case piece.Phase == Recovery:
			return b.Name + " recovers, " + left
		case piece.Phase == Motion:
			return b.Name + " frame " + nth(piece.Span)
		case piece.Phase == Parrying:
			return "holds the parry"
		case piece.Phase == Idle:
			return "stands and does nothing"
		case b.Part == PartReply: // a guard of one level
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
	return strings.Join(append(say, "open to "+list(open)), ", ")
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
