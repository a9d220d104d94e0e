package output

import (
	"fmt"
	"unicode/utf8"

	"wakeline/timeline"
	"wakeline/timeline/handout"
	"wakeline/timeline/value"
	"wakeline/timeline/words"
	"wakeline/ui/sheet"
)

// film is a setup, or several one after another, as a moving picture.
type film struct {
	rate        timeline.Rate // pictures a second, exactly
	shown       timeline.Rate // pictures a second of a video of it
	title, desc string
	shots       []shot
}

// shot is a drawing that is shown for some of a film's pictures.
type shot struct {
	base     *sheet.Drawing // that others may share
	over     []sheet.Shape  // laid over it
	pictures int
	section  string // of several setups: the one whose title it is
	name     string // of the part that it begins; empty: it goes on with the one before
	say      string // what is said of that part
}

// leastShown is how many pictures a second a video has at least.
const leastShown = 24

// filmed is the setup as what is asked for: a lesson step by step, the exchange
// played, or the delay swept through the window.
func filmed(o *Order, p *timeline.Plan) *film {
	var f *film
	switch {
	case o.Neighbours >= 0:
		f = stepping(o, p)
	case o.Slow > 0:
		f = playing(o, p)
	default:
		f = sweeping(o, p)
	}
	f.shown = f.rate // as many times as often as players expect, so that each picture lasts equally long
	for k := 2; f.shown.Num < leastShown*f.shown.Den; k++ {
		f.shown.Num = k * f.rate.Num
	}
	return f
}

// parts are what is said, each part for as long as its shots are shown.
func (f *film) parts() (out []handout.Part) {
	for _, s := range f.shots {
		if s.name != "" || len(out) == 0 {
			out = append(out, handout.Part{Section: s.section, Title: s.name, Text: s.say})
		}
		out[len(out)-1].Pictures += s.pictures
	}
	return out
}

// SpokenFormats are the endings of what is said to a film: captions, and a
// script for the voice.
var SpokenFormats = []string{"vtt", "srt", "txt"}

// sayings makes what is said to a film, in one of SpokenFormats.
func sayings(o *Order, f *film, format string) (*Made, error) {
	if format == "txt" {
		return written(format, handout.Script(f.title, f.parts(), f.rate)), nil
	}
	return captioned(format, handout.Timed(f.parts(), f.rate, o.Chapters))
}

// captioned makes captions as vtt or srt.
func captioned(format string, cues []handout.Cue) (*Made, error) {
	text, err := "", error(nil)
	switch format {
	case "vtt":
		text, err = handout.WebVTT(cues)
	case "srt":
		text, err = handout.SRT(cues)
	default:
		err = fmt.Errorf("expected vtt or srt, got %q", format)
	}
	return written(format, text), err
}

// A lesson's clock, and how long a step is shown: what is said of it is spoken
// at a calm pace, and then there is a rest.
const (
	stepRate      = 2  // pictures a second
	spokenLetters = 14 // a second
	stepRest      = 1  // pictures
	stepLeast     = 6  // pictures
)

// spokenFor is how many of a lesson's pictures it takes to say something.
func spokenFor(say string) int {
	return max(stepLeast, (utf8.RuneCountInString(say)*stepRate+spokenLetters-1)/spokenLetters+stepRest)
}

// stepping is a lesson: what it is about on the setup as it is, then each step.
func stepping(o *Order, p *timeline.Plan) *film {
	l := words.LessonAt(p, p.Setup.Delay, o.Neighbours, o.Rise, o.Line)
	value.TellLesson(&l, p)
	if o.Stage {
		l.Stage(p)
	}
	f := &film{rate: timeline.Rate{Num: stepRate, Den: 1}, title: p.Setup.Name + ": lesson"}
	about := l.Answer
	if l.GivesUp != "" {
		about += " " + l.GivesUp
	}
	steps := append([]words.Step{l.Steps[l.Own]}, l.Steps...)
	var scenes []words.Scene
	var say []string
	for i := range steps {
		s := &steps[i]
		one := shot{name: fmt.Sprintf("%s, delay %d", s.Title, s.Delay), say: s.Sentence}
		if s.Worth != "" {
			one.say += " " + s.Worth
		}
		if i == 0 {
			one.name, one.say = p.Setup.Name, about
		}
		one.pictures = spokenFor(one.name + one.say)
		f.shots = append(f.shots, one)
		f.desc += one.name + ": " + one.say + "\n"
		scenes, say = append(scenes, s.Scene), append(say, one.name+". "+one.say)
	}
	say[0] = about // the name stands over it
	for i, d := range sheet.Sweep(scenes, say, o.options(p, p.Setup.Delay)) {
		f.shots[i].base = d
	}
	var sides []words.SideView
	if o.Stage {
		for i := range steps {
			sides = append(sides, *steps[i].Side)
		}
	}
	finish(o, f, sides)
	return f
}

// finish lays a side view to each shot, where there are some, and puts it in
// the picture of its shape.
func finish(o *Order, f *film, sides []words.SideView) {
	if len(sides) > 0 {
		for i, d := range sheet.SideSweep(sides, o.side(&sides[0], 0)) {
			f.shots[i].base = joined(o, f.shots[i].base, d)
		}
	}
	for i := range f.shots {
		f.shots[i].base = finished(o, f.shots[i].base)
	}
}

// finished is a drawing as it stands in the film: in its shape, and without the
// ground where that is asked for.
func finished(o *Order, d *sheet.Drawing) *sheet.Drawing {
	if d = o.framed(d); o.Clear {
		return d.Clear()
	}
	return d
}

// laid are shapes of a sheet as they are laid over a finished one.
func laid(o *Order, shapes []sheet.Shape) []sheet.Shape {
	if v := o.shape(); v != nil {
		shapes = v.Moved(shapes)
	}
	if o.Clear {
		return sheet.Cleared(shapes)
	}
	return shapes
}

// Bounds of a sweep: how far past the window's ends it goes, and how many
// pictures it has, about.
const (
	past       = 2
	mostDelays = 60
)

// sweeping is the delay swept through the window and past both its ends;
// the set delay is shown longer. Its pictures are as long as a delay is held.
func sweeping(o *Order, p *timeline.Plan) *film {
	f := &film{rate: timeline.Rate{Num: 100, Den: o.Hold}}
	var scenes []words.Scene
	var say []string
	var sides []words.SideView
	for _, d := range timeline.Sweep(p, p.Setup.Delay, past, mostDelays) {
		rise, line := o.exchange(p, d)
		s := o.scene(p, d, rise, line)
		if o.Stage {
			sides = append(sides, words.SideViewAt(p, d, rise, line))
		}
		one := shot{name: fmt.Sprintf("Delay %d, %s", d, s.Verdict), say: words.VerdictAt(p, d).Because, pictures: 1}
		if d == p.Setup.Delay {
			one.pictures = 2
		}
		f.shots = append(f.shots, one)
		f.desc += one.name + ": " + one.say + "\n"
		scenes, say = append(scenes, s), append(say, one.say)
	}
	for i, d := range sheet.Sweep(scenes, say, o.options(p, p.Setup.Delay)) {
		f.shots[i].base = d
	}
	finish(o, f, sides)
	f.title = fmt.Sprintf("%s: delay %d to %d", p.Setup.Name, scenes[0].Delay.Len(), scenes[len(scenes)-1].Delay.Len())
	return f
}

// playing is the scrub line, from frame 0 to the scene's end, a picture a
// frame; then it rests for about a second.
func playing(o *Order, p *timeline.Plan) *film {
	rise, line := o.exchange(p, p.Setup.Delay)
	scene := o.scene(p, p.Setup.Delay, rise, line)
	d := sheet.Draw(&scene, o.options(p, p.Setup.Delay))
	v := words.SideViewAt(p, p.Setup.Delay, rise, line)
	rate := p.Rules().Rate
	rate.Den *= o.Slow
	f := &film{rate: rate, title: d.Title, desc: d.Desc}
	n, base := len(d.Shapes), d
	if o.Stage { // its room: it changes with each frame
		side := o.side(&v, 0)
		base = joined(o, d, empty(side.W, side.H))
	}
	base = finished(o, base)
	for at := range scene.Span.To {
		over := sheet.Scrubbed(d, at).Shapes[n:]
		if o.Stage {
			over = append(over, joined(o, empty(d.W, d.H), sheet.DrawSide(&v, o.side(&v, at))).Shapes[1:]...)
		}
		f.shots = append(f.shots, shot{base: base, over: laid(o, over), pictures: 1})
	}
	f.shots[0].name, f.shots[0].say = d.Title, words.LessonAt(p, p.Setup.Delay, 0, rise, line).Steps[0].Sentence
	f.shots[len(f.shots)-1].pictures += (rate.Num + rate.Den - 1) / rate.Den
	return f
}

// empty is a drawing of nothing, of that size.
func empty(w, h float64) *sheet.Drawing {
	return &sheet.Drawing{W: w, H: h, Shapes: []sheet.Shape{sheet.Box{}}}
}
