package timeline

import "slices"

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
	Airborne bool
	Height   Height // 0/1 on the ground

	Strikes   bool // strikes touch it, guarded or not
	Throws    bool // throws touch it: throws on the ground, air throws in the air
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
	Top, Bottom     []Block // the attacker's blocks and the rival's that hold the frame
	Meeting         Maybe   // the frame of the deciding touch
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
	m.Top, m.Bottom = p.attackerBlocks(d, &a), p.rivalBlocks(rise, line, body)
	ends := func(b Block) bool { return !b.Span.Has(f) }
	m.Top, m.Bottom = slices.DeleteFunc(m.Top, ends), slices.DeleteFunc(m.Bottom, ends)
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
	for i := range t.hits[:t.nhits] {
		b := &t.hits[i]
		for k := range b.spans {
			if b.span(k).Has(f) {
				s.Level, s.InReach = b.move.Level, b.Active.Has(f)
			}
		}
	}
	return s
}
