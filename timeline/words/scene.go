package words

import (
	"fmt"
	"strings"

	"wakeline/timeline"
)

// Scene is a scene with its sentences.
type Scene struct {
	timeline.Scene
	Sentence string // of this exchange
	Beside   string // the verdicts one frame earlier and one frame later, which another reply may decide
	GivesUp  string // the replies that win though nothing is demanded of them; empty where there are none
	Then     string // what follows the meeting; empty where nothing is drawn of it
}

// Follow draws on from the meeting with what follows it, and says it. Nil
// changes nothing.
func (s *Scene) Follow(q *timeline.Sequel) {
	if s.Scene.Follow(q); s.After != nil {
		s.Then = Then(q)
	}
}

// SceneAt lays out the exchange of that rise and line (indexes of the verdict)
// at delay d, 0 to Fits().
func SceneAt(p *timeline.Plan, d, rise, line int) Scene {
	m := p.Meetings(d, nil)
	v := VerdictOf(&m)
	return SceneOf(&m, &v, timeline.Exchange{Rise: rise, Line: line})
}

// SceneOf lays out one of the exchanges that have met, whose verdict is v.
func SceneOf(m *timeline.Meetings, v *Verdict, e timeline.Exchange) Scene {
	s := Scene{Scene: m.Plan.Scene(m.Delay, e.Rise, e.Line), GivesUp: givesUp(m, false)}
	s.Sentence = clause(m, e) + "."
	if !m.Plan.Blank() {
		s.Beside = neighbours(v)
	}
	return s
}

// Covered is the scene without what tells how the exchange ends.
func (s Scene) Covered() Scene { return Scene{Scene: s.Scene.Covered()} }

// neighbours tells the verdicts one frame earlier and later to someone who
// can't see the drawing.
func neighbours(v *Verdict) string {
	var say []string
	if n := v.Earlier; n != nil {
		say = append(say, fmt.Sprintf("One frame earlier the setup is %s: %s", n.Word, n.Because))
	}
	if n := v.Later; n != nil {
		say = append(say, fmt.Sprintf("One frame later the setup is %s: %s", n.Word, n.Because))
	}
	return strings.Join(say, " ")
}

// mostGivenUp is how many replies are named that a plan gives up.
const mostGivenUp = 3

// GivesUpAt tells, in a sentence, the replies that win at delay d, 0 to Fits(),
// though nothing is demanded of them, and how; empty where there are none.
func GivesUpAt(p *timeline.Plan, d int) string {
	m := p.Meetings(d, nil)
	return givesUp(&m, true)
}

// givesUp is GivesUpAt; only at length it says how each reply wins, on the
// first rise on which it does.
func givesUp(m *timeline.Meetings, atLength bool) string {
	var lost []string
	p := m.Plan
	for i := timeline.FirstReply; i < p.Lines(); i++ {
		reply := p.Reply(i)
		if reply.Demand != timeline.DemandNone {
			continue
		}
		for r := range p.Rises() {
			c := m.Cell(timeline.Exchange{Rise: r, Line: i})
			if c.Outcome.Survived() {
				continue
			}
			who := reply.Title()
			switch {
			case atLength && p.Rises() > 1:
				who += fmt.Sprintf(" (%s rise, %s on %d)", p.Rise(r).Name, c.Outcome, c.Meeting.N)
			case atLength:
				who += fmt.Sprintf(" (%s on %d)", c.Outcome, c.Meeting.N)
			}
			lost = append(lost, who)
			break
		}
	}
	of := "them"
	switch n := len(lost); {
	case n == 0:
		return ""
	case n == 1:
		of = "it"
	case n > mostGivenUp:
		lost = append(lost[:mostGivenUp], fmt.Sprintf("%d more", n-mostGivenUp))
	}
	return fmt.Sprintf("Loses to %s: nothing is demanded of %s.", List(lost), of)
}
