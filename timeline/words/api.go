package words

import "wakeline/timeline"

// Verdict is a verdict with its sentences.
type Verdict struct {
	timeline.Verdict
	Because string     `json:"because"`
	Earlier *Neighbour `json:"earlier"` // nil at delay 0
	Later   *Neighbour `json:"later"`   // nil past the last delay
}

// Neighbour is the same setup one frame earlier or later.
type Neighbour struct {
	Delay   int           `json:"delay"`
	Word    timeline.Word `json:"verdict"`
	Because string        `json:"because"`
}

// VerdictAt tells the whole verdict of p at delay d, from 0 to Fits().
func VerdictAt(p *timeline.Plan, d int) Verdict { return told(p.Verdict(d)) }

func told(v timeline.Verdict) Verdict {
	out := Verdict{Verdict: v, Because: v.Because}
	if v.Earlier != nil {
		out.Earlier = &Neighbour{v.Earlier.Delay, v.Earlier.Word, v.Earlier.Because}
	}
	if v.Later != nil {
		out.Later = &Neighbour{v.Later.Delay, v.Later.Word, v.Later.Because}
	}
	return out
}

// Judge compiles s and tells the whole verdict at its own delay. It may be
// called from several goroutines at once.
func Judge(ix *timeline.Index, s timeline.Setup) (Verdict, error) {
	v, err := ix.Judge(s)
	return told(v), err
}

// Scene is a scene with its sentences.
type Scene struct {
	timeline.Scene
	Sentence string // of this exchange
	GivesUp  string // the replies that win though nothing is demanded of them; empty where there are none
}

// SceneAt lays out the exchange of that rise and line (indexes of the verdict)
// at delay d, 0 to Fits().
func SceneAt(p *timeline.Plan, d, rise, line int) Scene { return sceneOf(p.Scene(d, rise, line)) }

func sceneOf(s timeline.Scene) Scene { return Scene{s, s.Sentence, s.GivesUp} }

// Covered is the scene without what tells how the exchange ends.
func (s Scene) Covered() Scene { return sceneOf(s.Scene.Covered()) }

// ExchangeAt says in one sentence what one exchange does at delay d.
func ExchangeAt(p *timeline.Plan, d, rise, line int) string { return p.Exchange(d, rise, line) }

// NoMeeting says why no delay meets the wake-up, as a sentence of its own; it is
// empty where one does.
func NoMeeting(p *timeline.Plan) string { return p.NoMeeting() }

// GivesUpAt tells, in a sentence, the replies that win at delay d, 0 to Fits(),
// though nothing is demanded of them, and how; empty where there are none.
func GivesUpAt(p *timeline.Plan, d int) string { return p.GivesUp(d) }

// Moment is both sides of one exchange on one frame, in words.
type Moment = timeline.Moment

// Stance is what one side is doing on one frame, in words.
type Stance = timeline.Stance

// MomentAt tells what each side does on a frame of the exchange of that rise
// and line, at delay d.
func MomentAt(p *timeline.Plan, d, rise, line, frame int) Moment {
	return p.Moment(d, rise, line, frame)
}

// Breaking asks LessonAt for the reply that decides each step.
const Breaking = timeline.Breaking

// Lesson is one setup and its neighbours, for a page that teaches it.
type Lesson struct {
	Setup, Attacker, Rival string
	Position               timeline.Position
	Answer                 string
	GivesUp                string
	Steps                  []Step
	Own                    int
	Span                   timeline.Span
	Missing                string
}

// Step is the setup at one delay of a lesson.
type Step struct {
	Scene    Scene
	Delay    int
	Later    int
	Title    string
	Against  string
	Changed  string
	Moved    []Shifted
	Contacts []Contact
	Sentence string
}

type (
	// Shifted is something that stands on another frame than in the setup as it is.
	Shifted = timeline.Shifted
	// Contact says what the attacker does on a frame of the rival's that matters.
	Contact = timeline.Contact
	// Guess is what a student's answer comes to.
	Guess = timeline.Guess
	// Fact is one number or property in words.
	Fact = timeline.Fact
	// Side is which side of a scene something stands on.
	Side = timeline.Side
)

// The sides.
const (
	BothSides    = timeline.BothSides
	AttackerSide = timeline.AttackerSide
	RivalSide    = timeline.RivalSide
)

// LessonAt lays out delay d and up to n neighbours each way.
func LessonAt(p *timeline.Plan, d, n, rise, line int, also ...int) Lesson {
	l := p.Lesson(d, n, rise, line, also...)
	out := Lesson{l.Setup, l.Attacker, l.Rival, l.Position, l.Answer, l.GivesUp, nil, l.Own, l.Span, l.Missing}
	for _, s := range l.Steps {
		out.Steps = append(out.Steps, Step{sceneOf(s.Scene), s.Delay, s.Later, s.Title, s.Against, s.Changed, s.Moved, s.Contacts, s.Sentence})
	}
	return out
}

// GuessAt weighs the delay d, from 0 to LastDelay(), as the answer.
func GuessAt(p *timeline.Plan, d int) Guess { return p.Guess(d) }

// GuessNone weighs the answer that no delay is safe.
func GuessNone(p *timeline.Plan) Guess { return p.GuessNone() }

// Hints say what to look at, one after the other.
func Hints(p *timeline.Plan) []string { return p.Hints() }

// Asked says what the setup must do, for a student who looks for its delay.
func Asked(p *timeline.Plan) string { return p.Asked() }

// About tells a block of the plan's scenes.
func About(p *timeline.Plan, b *timeline.Block) []Fact { return p.About(b) }

// AboutMove tells the move in words and numbers.
func AboutMove(m *timeline.Move, r timeline.Ruleset) []Fact { return m.About(r) }

// AboutJump tells the jump in words and numbers.
func AboutJump(j *timeline.Jump) []Fact { return j.About() }

// AboutRise tells the rise in words and numbers.
func AboutRise(r *timeline.Rise) []Fact { return r.About() }

// MovePhases writes the move's frames in one line.
func MovePhases(m *timeline.Move, r timeline.Ruleset) string { return m.Phases(r) }

// JumpPhases writes the jump's frames in one line.
func JumpPhases(j *timeline.Jump) string { return j.Phases() }

// Term is one of the words in use, with the place in a scene that shows it.
type Term struct {
	Word  string
	Also  string
	Means string
	Scene *Scene
	Spot  timeline.Span
	Side  Side
}

// Glossary tells the words in use.
func Glossary() (out []Term) {
	for _, t := range timeline.Glossary() {
		term := Term{t.Word, t.Also, t.Means, nil, t.Spot, t.Side}
		if t.Scene != nil {
			s := sceneOf(*t.Scene)
			term.Scene = &s
		}
		out = append(out, term)
	}
	return out
}

// Snap says what meets what, and on which frame.
func Snap(s *timeline.Snap) string { return s.Words() }
