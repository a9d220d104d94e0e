package words

import (
	"fmt"
	"slices"
	"strings"

	"wakeline/timeline"
)

// Breaking asks LessonAt for the reply that decides each step: the one that
// breaks it, where one does.
const Breaking = -1

// Lesson is one setup and its neighbours, for a page that teaches it: the same
// setup some frames earlier, as it is, and some frames later.
type Lesson struct {
	Setup, Attacker, Rival string
	Position               timeline.Position
	Answer                 string        // where the setup is safe, and why, in a sentence
	Inputs                 string        // what the attacker does, with the frames on which it presses, in a sentence
	Note                   string        // of the setup, on one line
	GivesUp                string        // the replies that win though nothing is demanded of them, and how; empty where there are none
	Steps                  []Step        // by delay, the earliest first
	Own                    int           // the step that is the setup as it is
	Span                   timeline.Span // the frames worth drawing of all steps: one ruler
	Missing                string        // why there are fewer steps than were asked for; empty where there aren't
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
	Worth    string    // what the exchange comes to, in a sentence; empty where that isn't told
	Side     *SideView // where both stand; nil where that is not to be shown

	exchange timeline.Exchange
}

// Shifted is something that stands on another frame than in the setup as it
// is.
type Shifted struct {
	What     string // "jump", "lands on", "guard", "meeting"
	From, To int
}

// TellWorth has each step say what its exchange comes to.
func (l *Lesson) TellWorth(of func(delay int, e timeline.Exchange) Worth) {
	for i := range l.Steps {
		s := &l.Steps[i]
		if s.Worth = WorthSentence(of(s.Delay, s.exchange)); s.Worth != "" {
			s.Worth += "."
		}
	}
}

// Follow has each step draw on from its meeting with what of says follows it,
// and say it; nil changes nothing.
func (l *Lesson) Follow(of func(delay int, e timeline.Exchange) *timeline.Sequel) {
	for i := range l.Steps {
		s := &l.Steps[i]
		s.Scene.Follow(of(s.Delay, s.exchange))
		l.Span.To = max(l.Span.To, s.Scene.Span.To)
	}
	for i := range l.Steps {
		l.Steps[i].Scene.Stretch(l.Span.To)
	}
}

// LessonAt lays out delay d and up to n neighbours each way, as far as delays go
// (0 to LastDelay(), and d itself), and the delays also, 0 to Fits(). rise and
// line choose the exchange; with line Breaking each step shows the one that
// decides there. d must be from 0 to Fits(), n below 0 counts as 0.
func LessonAt(p *timeline.Plan, d, n, rise, line int, also ...int) Lesson {
	l := Lesson{
		Setup: p.Setup.Name, Attacker: p.Setup.Attacker, Rival: p.Setup.Rival, Position: p.Setup.Position,
		Answer: answer(p, d), GivesUp: GivesUpAt(p, d), Inputs: InputsSentence(p, d), Note: strings.Join(strings.Fields(p.Setup.Note), " "),
	}
	n = max(n, 0)
	delays := slices.Clone(also)
	for at := max(d-n, 0); at <= max(d, min(d+n, p.LastDelay())); at++ {
		delays = append(delays, at)
	}
	slices.Sort(delays)
	own := step(p, d, nil, d, rise, line)
	for i, at := range slices.Compact(delays) {
		s := own
		if at != d {
			s = step(p, at, &own, d, rise, line)
			s.compare(&own)
		} else {
			l.Own = i
		}
		if i == 0 {
			l.Span = s.Scene.Span
		} else if last := &l.Steps[i-1]; last.exchange != s.exchange {
			s.Changed = fmt.Sprintf("What decides here is %s; in the step above it was %s.", s.Against, last.Against)
		}
		l.Span = span(min(l.Span.From, s.Scene.Span.From), max(l.Span.To, s.Scene.Span.To))
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

// Stage adds to each step where both stand.
func (l *Lesson) Stage(p *timeline.Plan) {
	for i := range l.Steps {
		s := &l.Steps[i]
		v := SideViewAt(p, s.Delay, s.exchange.Rise, s.exchange.Line)
		s.Side = &v
	}
}

// step is the setup at delay at, where d is its own, and own its step there;
// nil for itself.
func step(p *timeline.Plan, at int, own *Step, d, rise, line int) Step {
	if line == Breaking {
		rise, line = p.Deciding(at)
	}
	e := timeline.Exchange{Rise: rise, Line: line}
	s := Step{Scene: SceneAt(p, at, rise, line), Delay: at, Later: at - d, Against: inSentence(subject(p, e)), exchange: e}
	switch {
	case at < d:
		s.Title = Frames(d-at) + " earlier"
	case at > d:
		s.Title = Frames(at-d) + " later"
	default:
		s.Title = "As it is"
	}
	if own == nil {
		own = &s
	}
	s.Contacts = contacts(p, e, &s.Scene, &own.Scene)
	m := p.Meetings(at, nil)
	s.Sentence = lessonText(&m, &s)
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
		moved("lands on", a.Touchdown.N, b.Touchdown.N)
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
func answer(p *timeline.Plan, d int) string {
	m, good := p.Meetings(d, nil), p.SafeDelays()
	switch {
	case p.Blank():
		return Because(&m)
	case p.MeatyDelays().Empty():
		return noMeeting(&m) + "."
	case good.Empty():
		return "No delay is safe: " + inSentence(whyUnsafe(&m)[0]) + "."
	}
	lead := "Safe at " + delays(good)
	if uncovered := p.Uncovered(); len(uncovered) > 0 {
		lead += ", but for " + List(uncovered) + ", which no timing covers"
	}
	if !good.Has(d) {
		return fmt.Sprintf("%s; unsafe at delay %d: %s.", lead, d, inSentence(whyUnsafe(&m)[0]))
	}
	at := ""
	if good.Count() > 1 {
		at = fmt.Sprintf(" (here at delay %d)", d)
	}
	return lead + at + ": " + inSentence(whySafe(&m)) + "."
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
