package timeline

import "fmt"

// Breaking asks Lesson for the reply that decides each step: the one that
// breaks it, where one does.
const Breaking = -1

// Lesson is one setup and its neighbours, for a page that teaches it: the same
// setup some frames earlier, as it is, and some frames later.
type Lesson struct {
	Setup, Attacker, Rival string
	Position               Position
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
	Moved    []Shifted // what stands on another frame than in the setup as it is
	Contacts []Contact // which frame meets what
	Sentence string    // for a student who has never counted frames
}

// Shifted is something that stands on another frame than in the setup as it is.
type Shifted struct {
	What     string // "jump", "touchdown", "guard", "meeting"
	From, To int
}

// Contact says what a frame of the rival's that matters meets.
type Contact struct {
	Frame int
	Rival string // "the first free frame of Ishka", "the first active frame of Millrace"
	Finds string // what the attacker does on it
	Was   string // what it did in the setup as it is; empty where that is the same
}

// Lesson lays out delay d and up to n neighbours each way, as far as delays go
// (0 to LastDelay(), and d itself). rise and line choose the exchange; with
// line Breaking each step shows the one that decides there. d must be from 0
// to Fits(), n below 0 counts as 0.
func (p *Plan) Lesson(d, n, rise, line int) Lesson {
	l := Lesson{Setup: p.Setup.Name, Attacker: p.Setup.Attacker, Rival: p.Setup.Rival, Position: p.Setup.Position}
	n = max(n, 0)
	own := p.step(d, d, rise, line)
	for at := max(d-n, 0); at <= max(d, min(d+n, p.last)); at++ {
		s := own
		if at != d {
			s = p.step(at, d, rise, line)
			s.compare(&own)
		} else {
			l.Own = len(l.Steps)
		}
		if len(l.Steps) == 0 {
			l.Span = s.Scene.Span
		}
		l.Span = Span{min(l.Span.From, s.Scene.Span.From), max(l.Span.To, s.Scene.Span.To)}
		l.Steps = append(l.Steps, s)
	}
	if d < n {
		l.Missing = "There is no step before delay 0, where no wait is left to be shortened."
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
	s := Step{Scene: p.Scene(at, rise, line), Delay: at, Later: at - d}
	switch {
	case at < d:
		s.Title = frames(d-at) + " earlier"
	case at > d:
		s.Title = frames(at-d) + " later"
	default:
		s.Title = "As it is"
	}
	contact := func(frame int, of string) {
		c := Contact{Frame: frame, Rival: of, Finds: p.finds(at, frame)}
		if was := p.finds(d, frame); was != c.Finds {
			c.Was = was
		}
		s.Contacts = append(s.Contacts, c)
	}
	contact(p.wakes[rise], "the first free frame of "+p.rivalName())
	if body := &p.bodies[rise*len(p.lines)+line]; body.nblows > 0 && !body.blows[0].Active.Empty() {
		contact(body.blows[0].Active.First(), "the first active frame of "+p.lines[line].title)
	}
	s.Sentence = p.taught(&s, rise, line)
	return s
}

// compare notes what stands elsewhere than in the setup as it is.
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
	if a.Cell.Meeting.Given && b.Cell.Meeting.Given {
		moved("meeting", a.Cell.Meeting.N, b.Cell.Meeting.N)
	}
}

// finds says what the attacker does on frame f at delay d.
func (p *Plan) finds(d, f int) string {
	a := p.base.later(d)
	s := a.stance(min(f, Width-1))
	attack := p.attackBlow(&a)
	switch {
	case s.Level != "":
		return p.activeWords(&a, f, s.InReach)
	case s.Airborne && attack != nil && !attack.Active.Empty() && f >= attack.start && f < attack.Active.First():
		return attack.move.Name + ", not active yet"
	case s.Airborne && attack != nil && !attack.Active.Empty() && f > attack.Active.Last():
		return attack.move.Name + ", no longer active"
	case s.Airborne:
		return "in the air"
	case s.High && s.Low:
		return "a guard"
	case s.Parries:
		return "the parry, held"
	case f < p.jumpOn+d:
		return "not started yet"
	case f < p.touchdown+d:
		return "about to leave the ground"
	case f < p.actsOn+d:
		return "landing, with no guard yet"
	}
	for i := range a.blows[:a.nblows] {
		switch b := &a.blows[i]; {
		case f < b.start || f >= b.free || b.Active.Empty():
		case f < b.Active.First():
			return b.move.Name + ", not active yet"
		case f > b.Active.Last():
			return b.move.Name + ", no longer active"
		}
	}
	return doing(p.attackerBlocks(d, &a), f, &s)
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
			return fmt.Sprintf("%s, active frame %d of %d", b.move.Name, nth, all)
		}
		if nth > 0 {
			return b.move.Name + ", active but too high to touch"
		}
	}
	return ""
}
