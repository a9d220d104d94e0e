package webpage

import (
	"fmt"
	"strings"

	"wakeline/timeline"
	"wakeline/timeline/value"
	"wakeline/timeline/words"
	"wakeline/ui/sheet"
)

// The widths that each picture is drawn in, in units: for a phone, and for
// what is wider.
const (
	narrow = 360
	wide   = 1040
)

// Bounds of a sweep.
const (
	// Past is how many frames a sweep goes past both ends of the window, where
	// nothing else is asked for.
	Past       = 8
	mostDelays = 60
)

// lesson is one setup as the page's script has it.
type lesson struct {
	Name      string     `json:"name"`
	Answer    string     `json:"answer"`
	GivesUp   string     `json:"givesUp,omitempty"`
	Note      string     `json:"note,omitempty"`
	Own       int        `json:"own"` // the step that is the setup as it is
	Exchanges []exchange `json:"exchanges"`
	Steps     []step     `json:"steps"`
	Strips    [2]size    `json:"strips"`          // narrow, wide
	Sides     [2]size    `json:"sides"`           // of a height of 0 where there are none
	From      int        `json:"from"`            // the first frame of the strips
	Frames    int        `json:"frames"`          // and how many they show
	Tenth     float64    `json:"tenth"`           // how long a frame is, in milliseconds, at a tenth of the game's speed
	Hints     []string   `json:"hints,omitempty"` // of an exercise
	None      guess      `json:"none,omitzero"`   // of an exercise: the answer that no delay is safe
	First     int        `json:"first"`           // the exchange that an exercise begins with

	Who, Both, Asked string `json:"-"` // Both says which side is which
}

// size is that of a picture, from which corner on it is shown, and where its
// frames lie.
type size struct {
	X    float64 `json:"x"`
	Y    float64 `json:"y"`
	W    float64 `json:"w"`
	H    float64 `json:"h"`
	Left float64 `json:"left"` // of the first frame
	Unit float64 `json:"unit"` // the width of a frame
	Top  float64 `json:"top"`  // of the line through a frame
	End  float64 `json:"end"`
}

// exchange is one reply on one rise.
type exchange struct {
	Name string `json:"name"`

	rise, line int
}

// step is the setup at one delay.
type step struct {
	Delay   int      `json:"delay"`
	Title   string   `json:"title"`
	Word    string   `json:"word"`
	Mark    int      `json:"mark"` // the verdict's judgement
	Because string   `json:"because"`
	Decides int      `json:"decides"`        // the exchange
	Guess   guess    `json:"guess,omitzero"` // of an exercise
	Each    []detail `json:"each"`           // by exchange
}

// guess is what a student's answer comes to.
type guess struct {
	Right bool   `json:"right"`
	Short string `json:"short"`
	Words string `json:"words"`
}

// detail is one exchange at one delay.
type detail struct {
	Outcome int       `json:"outcome"`         // its place among the page's texts
	Say     int       `json:"say"`             // the sentence's place among the page's texts
	Found   []int     `json:"found,omitempty"` // those of what the attacker does on the frames that matter
	Strip   [2]string `json:"strip"`
	Side    [2]string `json:"side,omitzero"`
	Covered [2]string `json:"covered,omitzero"` // the strip without the answer, in an exercise
	Where   int       `json:"where,omitempty"`  // the sentence of the side view
}

// layOut lays a plan out: its sweep goes past frames past both ends of its
// window.
func (p *Page) layOut(plan *timeline.Plan, past int) *lesson {
	s := &plan.Setup
	l := &lesson{
		Name: s.Name, Note: strings.TrimSpace(s.Note), Who: fmt.Sprintf("%s vs %s, %s", s.Attacker, s.Rival, s.Position),
		Both: s.Attacker + " above, " + s.Rival + " below", Asked: words.Asked(plan), Tenth: tenth(plan.Rules().Rate),
	}
	if p.Exercise {
		l.Hints, l.None = words.Hints(plan), guessOf(words.GuessNone(plan))
	}
	delays := timeline.Sweep(plan, s.Delay, past, mostDelays)
	decides := map[int][2]int{}
	for _, d := range delays {
		rise, line := plan.Deciding(d)
		decides[d] = [2]int{rise, line}
	}
	var taught []words.Lesson
	for rise := range plan.Rises() {
		for line := range plan.Lines() {
			e := exchange{Name: plan.Reply(line).Title(), rise: rise, line: line}
			if plan.Rises() > 1 {
				e.Name += ", " + plan.Rise(rise).Name + " rise"
			}
			if line >= timeline.FirstReply && rise == 0 && l.First == 0 && plan.Reply(line).Demand != timeline.DemandNone {
				l.First = len(l.Exchanges)
			}
			l.Exchanges = append(l.Exchanges, e)
			one := words.LessonAt(plan, s.Delay, 0, rise, line, delays...)
			one.Stage(plan)
			value.TellLesson(&one, plan)
			taught = append(taught, one)
		}
	}
	l.Answer, l.GivesUp, l.Own = taught[0].Answer, taught[0].GivesUp, taught[0].Own
	for i, d := range delays {
		m := plan.Meetings(d, nil)
		st := step{
			Delay: d, Title: taught[0].Steps[i].Title, Word: string(plan.Called(d)), Mark: int(plan.Called(d).Judgement()),
			Because: words.Because(&m),
		}
		if p.Exercise {
			st.Guess = guessOf(words.GuessAt(plan, min(d, plan.LastDelay())))
		}
		for k := range l.Exchanges {
			if e := &l.Exchanges[k]; decides[d] == [2]int{e.rise, e.line} {
				st.Decides = k
			}
		}
		l.Steps = append(l.Steps, st)
	}
	p.draw(l, taught)
	return l
}

// guessOf is what an answer comes to, for the page.
func guessOf(g words.Guess) guess { return guess{g.Right, g.Short, g.Words} }

// tenth is how long a frame is in milliseconds, ten times slower than the
// game.
func tenth(r timeline.Rate) float64 { return 10 * 1000 * float64(r.Den) / float64(r.Num) }

// draw draws each exchange of each step, on one ruler and one ground.
func (p *Page) draw(l *lesson, taught []words.Lesson) {
	o := sheet.TracksOptions{Span: taught[0].Span}
	side, known := sheet.SideOptions{}, true
	low, high := 0, 0
	for i := range taught {
		t := &taught[i]
		o.Span = timeline.Span{From: min(o.Span.From, t.Span.From), To: max(o.Span.To, t.Span.To)}
		for k := range t.Steps {
			v := t.Steps[k].Side
			for _, b := range t.Steps[k].Scene.Bottom {
				o.MarkRows = max(o.MarkRows, len(b.Marks))
			}
			low, high, side.Rows, known = min(low, v.Low), max(high, v.High), max(side.Rows, v.Blows()), known && v.Known
		}
	}
	l.From, l.Frames = o.Span.From, o.Span.Len()
	for k := range l.Steps {
		for i := range taught {
			s := &taught[i].Steps[k]
			s.Scene.Stretch(o.Span.To)
			c := detail{Outcome: p.texts.place(s.Scene.Cell.Outcome.String()), Say: p.texts.place(s.Sentence)}
			if s.Worth != "" {
				c.Found = append(c.Found, p.texts.place(s.Worth))
			}
			for n := range s.Contacts {
				c.Found = append(c.Found, p.texts.place(s.Contacts[n].Words(l.Steps[l.Own].Delay)))
			}
			s.Side.Low, s.Side.High = low, high
			for n, w := range [...]float64{narrow, wide} {
				o.W = w
				d := sheet.Tracks(&s.Scene, o)
				c.Strip[n] = p.parts.picture(d)
				l.Strips[n] = size{0, 0, d.W, d.H, d.Left, d.View.Scale, d.Ruler.From, d.Bottom.To}
				if p.Exercise {
					hidden := s.Scene.Covered()
					c.Covered[n] = p.parts.picture(sheet.Tracks(&hidden, o))
				}
				if known {
					side.W, side.H, side.Frame = w, sheet.SideHeight(s.Side, w), s.Side.Frame
					v := sheet.DrawSide(s.Side, side)
					c.Side[n] = p.parts.picture(v)
					l.Sides[n] = framed(v)
				}
			}
			if known {
				c.Where = p.texts.place(s.Side.On(s.Side.Frame))
			}
			l.Steps[k].Each = append(l.Steps[k].Each, c)
		}
	}
}

// framed is the size of a side view up to its border: the page has its own air.
func framed(v *sheet.Drawing) size {
	for _, s := range v.Shapes[1:] {
		if b, ok := s.(sheet.Box); ok && b.Stroke != sheet.None {
			air := b.Width / 2
			return size{X: b.Min.X - air, Y: b.Min.Y - air, W: b.Max.X - b.Min.X + 2*air, H: b.Max.Y - b.Min.Y + 2*air}
		}
	}
	return size{W: v.W, H: v.H}
}
