package words

import (
	"fmt"

	"wakeline/timeline"
)

// offWords says by how much a touch misses: "14 units short on frame 44".
func offWords(off timeline.Off) string {
	units := Count(off.Units, "unit")
	switch {
	case off.Passed && off.Near:
		return fmt.Sprintf("it has passed over, by %s more than it reaches back, on frame %d", units, off.Frame)
	case off.Near:
		return fmt.Sprintf("%s too near on frame %d", units, off.Frame)
	}
	return fmt.Sprintf("%s short on frame %d", units, off.Frame)
}

// neverReaches is by how much a plan that never touches a rival that stands
// misses it on the first wake-up that it could meet by its frames.
func neverReaches(p *timeline.Plan) timeline.Off {
	if d := p.MayMeet().First(); d >= 0 {
		m := p.Meetings(d, nil)
		for r := range p.Rises() {
			if off, _ := m.OutOfReach(timeline.Exchange{Rise: r, Line: timeline.LineNothing}); off.Given {
				return off
			}
		}
	}
	return timeline.Off{}
}

// replyOff says how the reply's reach keeps it from touching, empty where
// something else does.
func replyOff(off timeline.Off) string {
	switch {
	case !off.Given:
		return ""
	case off.Throw && !off.Near:
		return fmt.Sprintf(": out of the throw's range by %d on %d", off.Units, off.Frame)
	}
	return ": " + offWords(off)
}

// behind says that a touch comes from behind, empty where it doesn't.
func (x *exchange) behind() string {
	if x.Side == timeline.Behind {
		return ", passes over: touches from behind"
	}
	return ""
}

// spaceNotes are what a verdict says of distance beside the exchanges.
func spaceNotes(m *timeline.Meetings) (say []string) {
	p := m.Plan
	if p.IgnoresDistance() {
		return []string{"Distance isn't judged: the setup gives none"}
	}
	if !p.Distance().Given {
		return nil
	}
	var out []string
	for _, e := range m.OnlyOutOfReach() {
		out = append(out, p.Reply(e.Line).Title())
	}
	if len(out) > 0 {
		say = append(say, "Answered only because out of reach: "+List(out))
	}
	behind := false
	for r := range p.Rises() {
		for i := range p.Lines() {
			behind = behind || m.Cell(timeline.Exchange{Rise: r, Line: i}).Side == timeline.Behind
		}
	}
	if behind {
		say = append(say, "A touch from behind is taken to be guarded the other way round, as it must be")
	}
	if of := p.WithoutReach(); len(of) > 0 {
		say = append(say, "No reach is given for "+List(of)+": its distance isn't judged")
		if len(of) > 1 {
			say[len(say)-1] = "No reach is given for " + List(of) + ": their distance isn't judged"
		}
	}
	if name := p.Passes(); name != "" {
		say = append(say, "A game would push the two apart where "+name+" passes the rival")
	} else if e, ok := m.Crowded(); ok {
		say = append(say, fmt.Sprintf("On frame %d the two stand so near that a game would push them apart", m.Cell(e).Meeting.N))
	}
	return say
}

// HoldsFor says for which advantage, distance and reversal a setup holds, a
// sentence each; nothing of what it doesn't hold for.
func HoldsFor(v *timeline.Verdict) (say []string) {
	if v.Called == timeline.Blank {
		return nil
	}
	if len(v.HoldsAdvantage) > 0 {
		least := max(0, v.Advantage-timeline.AdvantageTried)
		say = append(say, "Holds while the game shows an advantage of "+spans(v.HoldsAdvantage, least, v.Advantage+timeline.AdvantageTried)+".")
	}
	if len(v.HoldsDistance) > 0 {
		of := spans(v.HoldsDistance, 0, v.Distance.N+timeline.DistanceTried)
		from := "from "
		if b := v.HoldsDistance[0]; b.From == b.To {
			from = "at "
		}
		say = append(say, "Holds "+from+of+" units.")
	}
	if v.HoldsStartup.Given {
		say = append(say, fmt.Sprintf("Holds against reversals of %s or slower.", Frames(v.HoldsStartup.N)))
	}
	return say
}

// spans writes runs of numbers, of which least to most were tried: "47 to 48",
// "95 to 140 or more".
func spans(of []timeline.Bounds, least, most int) string {
	var out []string
	for _, b := range of {
		text := fmt.Sprintf("%d to %d", b.From, b.To)
		if b.From == b.To {
			text = fmt.Sprint(b.From)
		}
		less, more := b.From == least && least > 0, b.To == most
		switch {
		case less && more:
			text += " or less or more"
		case less:
			text += " or less"
		case more:
			text += " or more"
		}
		out = append(out, text)
	}
	return List(out)
}
