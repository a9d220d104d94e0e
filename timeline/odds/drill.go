package odds

import (
	"fmt"
	"math"
	"slices"
	"time"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// Lead is how many frames a drill's round counts down before frame 0, in Beats
// equal steps.
const (
	Lead  = 90
	Beats = 3
)

// Drill is a setup as a timing exercise, on the clock of frames from the
// ender: each round begins Lead frames before frame 0.
type Drill struct {
	Jump Target // what starts on J: the jump, or without one the landing action
	What string // "jump", or the landing action's name
	Good bool   // Jump's window is the setup's; else no timing is good, and it is the set frame alone
	Air  bool   // there is an attack to press in the jump
	End  int    // the frame on which a round is over

	rules   timeline.Ruleset
	prejump int
	presses timeline.Set // air frames on which the attack may be pressed
	press   int          // the air frame to aim at
}

// Target is what one press of a drill aims at.
type Target struct {
	Window Window
	Aim    float64 // moment
}

// Press is one press of a drill, judged.
type Press struct {
	Frame  int     // that it fell on
	Acts   int     // that it acts on, later by the buffer; -1: too early to do anything
	Off    int     // frames that it acts late against the window, negative: early; 0: it lands
	From   int     // the first frame on which a press would act
	Moment float64 // of the press
	Late   float64 // milliseconds after the moment aimed at; negative: early
}

// NewDrill makes an exercise of s, which must pass Check. Errors are those of
// timeline.Compile.
func NewDrill(p *timeline.Project, s timeline.Setup) (*Drill, error) {
	ix := timeline.NewIndex(p)
	plan, err := ix.Compile(s)
	if err != nil {
		return nil, err
	}
	scene := plan.Scene(s.Delay, 0, 0)
	d := &Drill{What: "jump", rules: p.Ruleset, End: scene.Span.To}
	if s.Jump == "" {
		d.What = s.Landing
	}
	first := scene.Delay.From
	good := plan.SafeDelays()
	if d.Good = !good.Empty(); !d.Good {
		good = frame(s.Delay)
	}
	starts, err := good.Shift(first)
	if err != nil {
		return nil, err
	}
	d.Jump = target(Window{starts, first, p.Ruleset.Buffer}, scene.Delay.To)
	if scene.Arc == nil || s.Attack == "" {
		return d, nil
	}
	d.Air = true
	d.prejump = scene.Arc.Air.From - scene.Delay.To
	d.press = scene.Arc.Attack.From - scene.Arc.Air.From
	never := plan.Verdict(s.Delay).Uncovered
	for at := range scene.Arc.Air.Len() {
		one := s
		one.Press = timeline.Some(at)
		if plan, err := ix.Compile(one); err == nil && plan.SafeDelays().Has(s.Delay) && !adds(plan.Verdict(s.Delay).Uncovered, never) {
			d.presses = d.presses.Or(frame(at))
		}
	}
	if d.presses.Empty() {
		d.presses = frame(d.press)
	}
	return d, nil
}

// adds reports whether more has a reply that never lacks: one that the set
// press covers, and this press doesn't.
func adds(more, never []string) bool {
	return slices.ContainsFunc(more, func(reply string) bool { return !slices.Contains(never, reply) })
}

// frame is the set of one frame.
func frame(f int) timeline.Set {
	s, _ := timeline.Range(f, f+1)
	return s
}

// target aims at the middle of frame set where it is good, else where a hand
// that never errs has the best chance.
func target(w Window, set int) Target {
	t := Target{w, float64(set) + 0.5}
	if !w.Good.Has(set) {
		if aim, _, ok := (Hand{}).Best(w); ok {
			t.Aim = aim
		}
	}
	return t
}

// Attack is what the press of the attack aims at, where the jump started on
// frame start. ok is false where there is none, or it lies past the width.
func (d *Drill) Attack(start int) (t Target, ok bool) {
	if !d.Air {
		return Target{}, false
	}
	air := start + d.prejump
	good, err := d.presses.Shift(air)
	if err != nil {
		return Target{}, false
	}
	return target(Window{good, air, d.rules.Buffer}, air+d.press), true
}

// Frame is the frame that shows ns nanoseconds after a round began: the floor
// of time by rate, from -Lead.
func (d *Drill) Frame(ns int64) int { return d.rules.Rate.Played(-Lead, ns, 1) }

// Moment is the moment ns nanoseconds after a round began; it lies in
// Frame(ns).
func (d *Drill) Moment(ns int64) float64 {
	f := float64(d.Frame(ns))
	m := float64(ns)/1e6/d.rules.Rate.Milliseconds(1) - Lead
	return math.Min(math.Max(m, f), math.Nextafter(f+1, f))
}

// Beat is the number to count at a moment: Beats down to 1 before frame 0,
// and 0 from there.
func Beat(moment float64) int {
	return max(0, int(math.Ceil(-moment*Beats/Lead)))
}

// Over reports whether a round is over ns nanoseconds after it began.
func (d *Drill) Over(ns int64) bool { return d.Frame(ns) >= d.End }

// Beats are the times from a round's start at which the count has its beats,
// the last on frame 0.
func (d *Drill) Beats() (out []time.Duration) {
	for k := range Beats + 1 {
		out = append(out, time.Duration(d.rules.Rate.Milliseconds(k*Lead/Beats)*float64(time.Millisecond)))
	}
	return out
}

// Counts reports whether a press ns nanoseconds after a round began is meant
// for t: one that acts, or not before the last beat of the count before its aim.
func (d *Drill) Counts(t Target, ns int64) bool {
	return d.Frame(ns) >= t.Window.acts() || d.Moment(ns) >= t.Aim-Lead/Beats
}

// Around lists where a press for t lands, in milliseconds after its aim: from
// and to of each run.
func (d *Drill) Around(t Target) (out [][2]float64) {
	frame := d.rules.Rate.Milliseconds(1)
	for _, s := range t.Window.Spans() {
		out = append(out, [2]float64{(float64(s.From) - t.Aim) * frame, (float64(s.To) - t.Aim) * frame})
	}
	return out
}

// Press judges a press ns nanoseconds after a round began.
func (d *Drill) Press(t Target, ns int64) Press {
	p := Press{Frame: d.Frame(ns), Acts: -1, From: t.Window.acts(), Moment: d.Moment(ns)}
	p.Late = (p.Moment - t.Aim) * d.rules.Rate.Milliseconds(1)
	p.Off = t.Window.Off(p.Frame)
	if p.Frame >= p.From {
		p.Acts = max(p.Frame, t.Window.First)
		p.Off = t.Window.Off(p.Acts)
	}
	return p
}

// acts is the first frame on which a press does anything.
func (w Window) acts() int { return w.First - w.Buffer }

// Off is by how many frames a press on frame f is late against w, negative
// where it is early, by its nearest end; 0 where it lands, and where nothing
// is good.
func (w Window) Off(f int) (off int) {
	for i, s := range w.Spans() {
		by := 0
		switch {
		case f < s.From:
			by = f - s.From
		case f >= s.To:
			by = f - (s.To - 1)
		}
		if i == 0 || max(by, -by) < max(off, -off) {
			off = by
		}
	}
	return off
}

// Words says how a press of what came: "The jump comes in time, on 12.", "The
// jump comes 2 frames late, on 15."
func (p Press) Words(what string) string {
	on := fmt.Sprintf(", on %d.", p.Acts)
	if p.Acts > p.Frame {
		on = fmt.Sprintf(", on %d: pressed on %d, the buffer holds it until %d.", p.Acts, p.Frame, p.Acts)
	}
	switch {
	case p.Acts < 0:
		return fmt.Sprintf("The %s does not come: it was pressed on %d, and a press acts from %d on.", what, p.Frame, p.From)
	case p.Off == 0:
		return "The " + what + " comes in time" + on
	case p.Off > 0:
		return fmt.Sprintf("The %s comes %s late%s", what, words.Frames(p.Off), on)
	}
	return fmt.Sprintf("The %s comes %s early%s", what, words.Frames(-p.Off), on)
}
