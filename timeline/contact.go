package timeline

import "fmt"

// Contact says what the attacker does on a frame of the rival's that matters.
type Contact struct {
	Frame int
	Rival string // "the wake-up of Ishka", "the first active frame of Millrace"
	Finds string // what the attacker does on it: "Brenno guards"
	Was   string // what it does there in the setup as it is; empty where that is the same
}

// contacts are those of the exchange of that rise and line at delay at, beside
// the setup's own delay d.
func (p *Plan) contacts(at, d, rise, line int) (out []Contact) {
	add := func(frame int, of string) {
		c := Contact{Frame: frame, Rival: of, Finds: p.finds(at, frame)}
		if was := p.finds(d, frame); was != c.Finds {
			c.Was = was
		}
		out = append(out, c)
	}
	add(p.wakes[rise], "the wake-up of "+p.rivalName())
	if body := &p.bodies[rise*len(p.lines)+line]; body.nblows > 0 && !body.blows[0].Active.Empty() {
		add(body.blows[0].Active.First(), "the first active frame of "+p.lines[line].title)
	}
	return out
}

// finds says what the attacker does on frame f at delay d.
func (p *Plan) finds(d, f int) string {
	me := p.attackerName()
	a := p.base.later(d)
	s := a.stance(min(f, Width-1))
	attack := p.attackBlow(&a)
	switch {
	case s.Level != "":
		return p.activeWords(&a, f, s.InReach)
	case s.Airborne && attack != nil && !attack.Active.Empty() && f >= attack.start && f < attack.Active.First():
		return attack.move.Name + " is not active yet"
	case s.Airborne && attack != nil && !attack.Active.Empty() && f > attack.Active.Last():
		return attack.move.Name + " is no longer active"
	case s.Airborne:
		return me + " is in the air"
	case s.High && s.Low:
		return me + " guards"
	case s.Parries:
		return me + " parries"
	case f < p.jumpOn+d:
		return me + " has not started yet"
	case f < p.touchdown+d:
		return me + " is in prejump"
	case f < p.actsOn+d:
		return me + " has landed but can't guard yet"
	}
	for i := range a.blows[:a.nblows] {
		switch b := &a.blows[i]; {
		case f < b.start || f >= b.free || b.Active.Empty():
		case f < b.Active.First():
			return b.move.Name + " is not active yet"
		case f > b.Active.Last():
			return b.move.Name + " is no longer active"
		}
	}
	return me + ": " + doing(p.attackerBlocks(d, &a), f, &s)
}

// activeWords names the active frame of track a on frame f.
func (p *Plan) activeWords(a *Track, f int, inReach bool) string {
	for i := range a.blows[:a.nblows] {
		b := &a.blows[i]
		nth, all := 0, 0
		for _, s := range b.spans {
			s = s.Later(b.start)
			if s.Has(f) {
				nth = all + f - s.From + 1
			}
			all += s.Len()
		}
		if nth > 0 && inReach {
			return fmt.Sprintf("%s is active, frame %d of %d", b.move.Name, nth, all)
		}
		if nth > 0 {
			return b.move.Name + " is active, but too high to touch"
		}
	}
	return ""
}

// Words tells the contact in a sentence; as is the setup's own delay.
func (c *Contact) Words(as int) string {
	say := fmt.Sprintf("On frame %d, %s, %s", c.Frame, c.Rival, c.Finds)
	if c.Was != "" {
		say += fmt.Sprintf(" (at delay %d: %s)", as, c.Was)
	}
	return say + "."
}
