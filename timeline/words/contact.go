package words

import (
	"fmt"

	"wakeline/timeline"
)

// Contact says what the attacker does on a frame of the rival's that matters.
type Contact struct {
	Frame int
	Rival string // "the wake-up of Ishka", "the first active frame of Millrace"
	Finds string // what the attacker does on it: "Brenno guards"
	Was   string // what it does there in the setup as it is; empty where that is the same
}

// contacts are those of an exchange in scene s, beside the scene own of the
// setup at its own delay.
func contacts(p *timeline.Plan, e timeline.Exchange, s, own *Scene) (out []Contact) {
	add := func(frame int, of string) {
		c := Contact{Frame: frame, Rival: of, Finds: finds(p, s, e, frame)}
		if was := finds(p, own, e, frame); was != c.Finds {
			c.Was = was
		}
		out = append(out, c)
	}
	add(p.Wake(e.Rise), "the wake-up of "+rivalName(p))
	if first, _ := p.FirstActive(e); first.Given {
		add(first.N, "the first active frame of "+p.Reply(e.Line).Title())
	}
	return out
}

// finds says what the attacker does on frame f of a scene of that exchange.
func finds(p *timeline.Plan, s *Scene, e timeline.Exchange, f int) string {
	me, d := attackerName(p), s.Delay.Len()
	is := p.Moment(d, e.Rise, e.Line, f)
	a, at, attack := &is.Attacker, p.Times(d), p.Setup.Attack
	reaches := s.Arc != nil && len(s.Arc.Reach) > 0
	switch {
	case a.Level != "":
		return activeWords(p, s, f, a.InReach)
	case a.Airborne && reaches && f >= s.Arc.Attack.From && f < s.Arc.Reach[0].From:
		return attack + " is not active yet"
	case a.Airborne && reaches && f >= s.Arc.Reach[len(s.Arc.Reach)-1].To:
		return attack + " is no longer active"
	case a.Airborne:
		return me + " is in the air"
	case a.High && a.Low:
		return me + " guards"
	case a.Parries:
		return me + " parries"
	case f < at.JumpOn:
		return me + " has not started yet"
	case f < at.Touchdown:
		return me + " is in prejump"
	case f < at.ActsFrom:
		return me + " has landed but can't guard yet"
	}
	if name, spans := landingSpans(s); len(spans) > 0 {
		switch end := spans[len(spans)-1].To; {
		case f < spans[0].From:
			return name + " is not active yet"
		case f >= end && f < s.Top[len(s.Top)-1].Span.To:
			return name + " is no longer active"
		}
	}
	return me + ": " + doing(is.Top, f, a)
}

// landingSpans are the active frames of the landing move, and its name.
func landingSpans(s *Scene) (name string, spans []timeline.Span) {
	b := &s.Top[len(s.Top)-1]
	for _, piece := range b.Pieces {
		if piece.Phase == timeline.Active {
			spans = append(spans, piece.Span)
		}
	}
	return b.Name, spans
}

// activeWords names the attacker's active frame on frame f.
func activeWords(p *timeline.Plan, s *Scene, f int, inReach bool) string {
	name, spans := landingSpans(s)
	if s.Arc != nil && s.Arc.Attack.Has(f) {
		name, spans = p.Setup.Attack, s.Arc.Active
	}
	nth, all := 0, 0
	for _, span := range spans {
		if span.Has(f) {
			nth = all + f - span.From + 1
		}
		all += span.Len()
	}
	if inReach {
		return fmt.Sprintf("%s is active, frame %d of %d", name, nth, all)
	}
	return name + " is active, but too high to touch"
}

// Words tells the contact in a sentence; as is the setup's own delay.
func (c *Contact) Words(as int) string {
	say := fmt.Sprintf("On frame %d, %s, %s", c.Frame, c.Rival, c.Finds)
	if c.Was != "" {
		say += fmt.Sprintf(" (at delay %d: %s)", as, c.Was)
	}
	return say + "."
}
