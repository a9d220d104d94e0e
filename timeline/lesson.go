package timeline

import (
	"fmt"
	"slices"
	"strings"
)

// Breaking asks Lesson for the reply that decides each step: the one that
// breaks it, where one does.
const Breaking = -1

// Lesson is one setup and its neighbours, for a page that teaches it: the same
// setup some frames earlier, as it is, and some frames later.
type Lesson struct {
	Setup, Attacker, Rival string
	Position               Position
	Answer                 string // where the setup is safe, and why, in a sentence
	GivesUp                string // the replies that win though nothing is demanded of them, and how; empty where there are none
	Steps                  []Step // by delay, the earliest first
	Own                    int    // the step that is the setup as it is
	Span                   Span   // the frames worth drawing of all steps: one ruler
	Missing                string // why there are fewer steps than were asked for; empty where there aren't
}

// Step is the setup at one delay of a lesson.
type Step struct {
	Scene    Scene
	Delay    int
	Later    int       // frames later than the setup as it is; below 0: earlier
	Title    string    // "2 frames earlier", "As it is"
	Against  string    // the reply that is shown, and the rise where several are claimed
	Changed  string    // in a sentence, that the step before shows another reply; empty where it doesn't
	Moved    []Shifted // what stands on another frame than in the setup as it is
	Contacts []Contact // what the attacker does on the rival's frames that matter
	Sentence string    // for a student who has never counted frames

	exchange breach
}

// Shifted is something that stands on another frame than in the setup as it
// is.
type Shifted struct {
	What     string // "jump", "touchdown", "guard", "meeting"
	From, To int
}

// Lesson lays out delay d and up to n neighbours each way, as far as delays go
// (0 to LastDelay(), and d itself), and the delays also, 0 to Fits(). rise and
// line choose the exchange; with line Breaking each step shows the one that
// decides there. d must be from 0 to Fits(), n below 0 counts as 0.
func (p *Plan) Lesson(d, n, rise, line int, also ...int) Lesson {
	l := Lesson{
		Setup: p.Setup.Name, Attacker: p.Setup.Attacker, Rival: p.Setup.Rival, Position: p.Setup.Position,
		Answer: p.answer(d), GivesUp: p.GivesUp(d),
	}
	n = max(n, 0)
	delays := slices.Clone(also)
	for at := max(d-n, 0); at <= max(d, min(d+n, p.last)); at++ {
		delays = append(delays, at)
	}
	slices.Sort(delays)
	own := p.step(d, d, rise, line)
	for i, at := range slices.Compact(delays) {
		s := own
		if at != d {
			s = p.step(at, d, rise, line)
			s.compare(&own)
		} else {
			l.Own = i
		}
		if i == 0 {
			l.Span = s.Scene.Span
		} else if last := &l.Steps[i-1]; last.exchange != s.exchange {
			s.Changed = fmt.Sprintf("What decides here is %s; in the step above it was %s.", s.Against, last.Against)
		}
		l.Span = Span{min(l.Span.From, s.Scene.Span.From), max(l.Span.To, s.Scene.Span.To)}
		l.Steps = append(l.Steps, s)
	}
	if d < n {
		l.Missing = "There is no earlier step than delay 0."
	}
	for i := range l.Steps { // what never ends, ends with the page
		l.Steps[i].Scene.Stretch(l.Span.To)
	}
	return l
}

// Stretch lets the scene's last frame be to, where it is later: what never
// ends goes on up to there. It is for scenes that are shown in turn.
func (s *Scene) Stretch(to int) {
	for _, blocks := range [][]Block{s.Top, s.Bottom} {
		if last := &blocks[len(blocks)-1]; last.Span.To == s.Span.To && !last.Length().Given {
			last.Span.To = max(last.Span.To, to)
			last.Pieces[len(last.Pieces)-1].Span.To = last.Span.To
		}
	}
	s.Span.To = max(s.Span.To, to)
}

// step is the setup at delay at, where d is its own.
func (p *Plan) step(at, d, rise, line int) Step {
	if line == Breaking {
		rise, line = p.Deciding(at)
	}
	s := Step{Scene: p.Scene(at, rise, line), Delay: at, Later: at - d, Against: inSentence(p.subject(rise, line)), exchange: breach{rise, line}}
	switch {
	case at < d:
		s.Title = frames(d-at) + " earlier"
	case at > d:
		s.Title = frames(at-d) + " later"
	default:
		s.Title = "As it is"
	}
	s.Contacts = p.contacts(at, d, rise, line)
	s.Sentence = p.taught(&s, rise, line)
	return s
}

// compare notes what stands elsewhere than in the setup as it is. The meetings
// of two replies are two things: neither has moved.
func (s *Step) compare(own *Step) {
	moved := func(what string, from, to int) {
		if from != to {
			s.Moved = append(s.Moved, Shifted{what, from, to})
		}
	}
	a, b := &own.Scene, &s.Scene
	if a.JumpOn.Given {
		moved("jump", a.JumpOn.N, b.JumpOn.N)
		moved("touchdown", a.Touchdown.N, b.Touchdown.N)
		if a.GuardsFrom != a.Touchdown.N {
			moved("guard", a.GuardsFrom, b.GuardsFrom)
		}
	} else {
		moved("start", a.ActsFrom, b.ActsFrom)
	}
	if own.exchange == s.exchange && a.Cell.Meeting.Given && b.Cell.Meeting.Given {
		moved("meeting", a.Cell.Meeting.N, b.Cell.Meeting.N)
	}
}

// answer says in a sentence at which delays the setup is safe, and why it is
// or is not at delay d.
func (p *Plan) answer(d int) string {
	cells := make([]Cell, len(p.bodies))
	p.Fill(d, cells)
	a, good := p.base.later(d), p.SafeDelays()
	why := func() string { return inSentence(p.whyUnsafe(d, &a, cells)[0]) }
	switch {
	case p.Blank():
		return p.because(d, cells)
	case p.meaty.Empty():
		return p.noMeeting() + "."
	case good.Empty():
		return "No delay is safe: " + why() + "."
	}
	lead := "Safe at " + delays(good)
	if len(p.uncovered) > 0 {
		lead += ", but for " + p.uncoveredList() + ", which no timing covers"
	}
	if !good.Has(d) {
		return fmt.Sprintf("%s; unsafe at delay %d: %s.", lead, d, why())
	}
	at := ""
	if good.Count() > 1 {
		at = fmt.Sprintf(" (here at delay %d)", d)
	}
	return lead + at + ": " + inSentence(p.whySafe(d, &a, cells)) + "."
}

// inSentence writes a clause's own first word small; a name stays as it is.
func inSentence(s string) string {
	for _, word := range []string{"Meets ", "A bait", "A rival that ", "A high guard", "A low guard", "Delay "} {
		if strings.HasPrefix(s, word) {
			return strings.ToLower(s[:1]) + s[1:]
		}
	}
	return s
}
