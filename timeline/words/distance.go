package words

import (
	"fmt"

	"wakeline/timeline"
)

// outOfReach says by how far an attack doesn't reach.
func outOfReach(g timeline.Gap) string {
	if g.Short > 0 {
		return fmt.Sprintf("%s is %s short on frame %d", g.Move.Name, Count(g.Short, "unit"), g.Frame)
	}
	if !g.Behind {
		return fmt.Sprintf("%s is %s too near on frame %d", g.Move.Name, Count(g.Passed, "unit"), g.Frame)
	}
	return fmt.Sprintf("%s passes over: it has passed its reach by %s on frame %d", g.Move.Name, Count(g.Passed, "unit"), g.Frame)
}

// outOfRange says by how far a reply doesn't reach the attacker.
func outOfRange(g timeline.Gap) string {
	of := "its reach"
	if g.Move.Kind == timeline.Throw {
		of = "the throw's range"
	}
	return fmt.Sprintf("the attacker is out of %s by %s on frame %d", of, Count(max(g.Short, g.Passed), "unit"), g.Frame)
}

// keptByReach says of a meeting that it comes about only because the reply
// doesn't reach the attacker earlier. Where there is none, the sentence has
// said so.
func keptByReach(m *timeline.Meetings, e timeline.Exchange) string {
	if !m.Cell(e).Meeting.Given || !m.ByReachAlone(e) {
		return ""
	}
	if gap, ok := m.ReplyGap(e); ok {
		return "; " + outOfRange(gap)
	}
	return "; before that the attacker is out of its reach"
}

// Place says how far apart both stand on the meeting of an exchange, and where
// the rival is if not in front; or that the reply is answered only because it
// is out of reach. It is empty where there is nothing to say.
func Place(got *timeline.ReplyVerdict) string {
	if got.OutOfReach {
		return "out of reach"
	}
	n := max(got.Apart.N, -got.Apart.N)
	switch got.Side {
	case timeline.InFront, timeline.Over:
		return fmt.Sprintf("%d apart", n)
	case timeline.Behind:
		return fmt.Sprintf("%d behind", n)
	}
	return ""
}

// aboutDistance says what of distance was judged, and what was not.
func aboutDistance(m *timeline.Meetings) (say []string) {
	p := m.Plan
	if !p.Distance().Given {
		return []string{"Distance was not judged"}
	}
	var kept []string
	for _, e := range m.OnlyOutOfReach() {
		kept = append(kept, p.Reply(e.Line).Title())
	}
	if len(kept) > 0 {
		say = append(say, "Answered only because it is out of reach: "+List(kept))
	}
	if without := p.Unreached(); len(without) > 0 {
		has := "has"
		if len(without) > 1 {
			has = "have"
		}
		say = append(say, List(without)+" "+has+" no reach: distance not judged there")
	}
	if len(m.FromBehind()) > 0 {
		say = append(say, "A touch from behind counts as guarded the other way round")
	}
	if m.Pushed() {
		say = append(say, "A game would push the bodies apart")
	}
	return say
}
