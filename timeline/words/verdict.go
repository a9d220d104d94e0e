package words

import (
	"fmt"
	"slices"
	"strings"

	"wakeline/timeline"
)

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
func VerdictAt(p *timeline.Plan, d int) Verdict {
	m := p.Meetings(d, nil)
	v := VerdictOf(&m)
	v.Holds = p.Holds(d)
	return v
}

// Judge compiles s and tells the whole verdict at its own delay. Over many
// setups it is quicker than Compile and VerdictAt. It may be called from
// several goroutines at once.
func Judge(ix *timeline.Index, s timeline.Setup) (v Verdict, err error) {
	return JudgeAnd(ix, s, func(*timeline.Meetings) {})
}

// JudgeAnd is Judge that first hands the exchanges to look, which must not
// keep them.
func JudgeAnd(ix *timeline.Index, s timeline.Setup, look func(m *timeline.Meetings)) (v Verdict, err error) {
	err = ix.With(s, func(p *timeline.Plan, into []timeline.Cell) {
		m := p.Meetings(s.Delay, into)
		look(&m)
		v = verdict(&m, &m)
		v.Holds = p.Holds(s.Delay)
	})
	return v, err
}

// VerdictOf tells the verdict of exchanges that have met, all but what
// Plan.Holds tells.
func VerdictOf(m *timeline.Meetings) Verdict {
	other := timeline.Meetings{Plan: m.Plan}
	return verdict(m, &other)
}

// verdict leaves other, which may be m, at a delay beside that of m.
func verdict(m, other *timeline.Meetings) Verdict {
	p, d := m.Plan, m.Delay
	v := Verdict{Verdict: m.Verdict(), Because: Because(m)}
	if d > 0 {
		v.Earlier = neighbour(other, d-1)
	}
	if d+1 <= p.LastDelay() {
		v.Later = neighbour(other, d+1)
	}
	return v
}

// neighbour tells delay d, and leaves m at it.
func neighbour(m *timeline.Meetings, d int) *Neighbour {
	m.To(d)
	return &Neighbour{d, m.Plan.Word(d), reason(m)}
}

// becauseAt says why the verdict at delay d is what it is.
func becauseAt(p *timeline.Plan, d int) string {
	m := p.Meetings(d, nil)
	return Because(&m)
}

// Because says in a sentence or more why the verdict is what it is, and what
// was not judged for it.
func Because(m *timeline.Meetings) string {
	return strings.Join(append([]string{strings.TrimSuffix(reason(m), ".")}, aboutDistance(m)...), ". ") + "."
}

// reason says why the verdict is what it is.
func reason(m *timeline.Meetings) string {
	p := m.Plan
	var say []string
	switch word := p.Word(m.Delay); {
	case p.Blank():
		return "Nothing is demanded yet: no attack follows the ender, and no reply must be survived or beaten."
	case p.MeatyDelays().Empty():
		say = append(say, noMeeting(m))
	case word == timeline.Unsafe:
		say = append(say, whyUnsafe(m)...)
	case word == timeline.Limited:
		say = append(say, "Safe but for "+List(p.Uncovered())+", which no timing covers", whySafe(m))
	default:
		say = append(say, whySafe(m))
	}
	if p.Demanded() == 0 {
		say = append(say, "No reply is demanded, so only the wake-up is judged")
	}
	return strings.Join(say, ". ") + "."
}

// whyUnsafe names what breaks.
func whyUnsafe(m *timeline.Meetings) (say []string) {
	for _, e := range m.Broken() {
		say = append(say, clause(m, e))
	}
	if len(say) == 0 {
		return []string{fmt.Sprintf("Delay %d is past the last one looked at, %d", m.Delay, m.Plan.LastDelay())}
	}
	if uncovered := m.Plan.Uncovered(); len(uncovered) > 0 {
		say = append(say, "No timing covers "+List(uncovered))
	}
	return say
}

// whySafe says where the setup meets, lands and guards, and what it has to
// spare against the reply that comes nearest.
func whySafe(m *timeline.Meetings) string {
	p := m.Plan
	out := "Meets " + wakeUps(p)
	if p.Bait() {
		out = "A bait, which has no attack"
	}
	if p.Setup.Jump != "" {
		out += fmt.Sprintf(", lands on %d and %s", p.Times(m.Delay).Touchdown, afterLanding(m))
	}
	if e, ok := m.Closest(); ok {
		out += "; " + clause(m, e)
	}
	return out
}

// afterLanding says what the attacker does once it has landed.
func afterLanding(m *timeline.Meetings) string {
	at, from := m.Plan.Times(m.Delay), ""
	if at.GuardsFrom > at.Touchdown {
		from = fmt.Sprintf(" from %d", at.GuardsFrom)
	}
	switch landing := m.Plan.Setup.Landing; landing {
	case timeline.DoGuard:
		return "guards" + from
	case timeline.DoParry:
		return "parries" + from
	default:
		return fmt.Sprintf("does %s from %d", landing, at.ActsFrom)
	}
}

// wakeUps names the wake-up frames of all rises.
func wakeUps(p *timeline.Plan) string {
	var wakes []int
	for r := range p.Rises() {
		wakes = append(wakes, p.Wake(r))
	}
	if on := numbers(wakes); len(on) > 1 {
		return "every wake-up, on " + List(on)
	}
	return fmt.Sprintf("the wake-up on %d", wakes[0])
}

// numbers writes numbers in order, each once.
func numbers(of []int) (out []string) {
	slices.Sort(of)
	for _, n := range slices.Compact(of) {
		out = append(out, fmt.Sprint(n))
	}
	return out
}

// NoMeeting says why no delay meets the wake-up, as a sentence of its own; it is
// empty where one does.
func NoMeeting(p *timeline.Plan) string {
	if !p.MeatyDelays().Empty() {
		return ""
	}
	m := p.Meetings(min(p.Setup.Delay, p.Fits()), nil)
	return noMeeting(&m) + "."
}

const airThrow = "an air throw can't touch a body on the ground"

// noMeeting says that no delay meets the wake-up, and by how many frames the
// nearest one misses.
func noMeeting(at *timeline.Meetings) string {
	p := at.Plan
	d, rise, by := p.NearestMiss()
	for r := 0; r < p.Rises() && by == timeline.Width; r++ {
		if gap, ok := at.AttackGap(timeline.Exchange{Rise: r, Line: timeline.LineNothing}); ok {
			return "No delay meets the wake-up: " + outOfReach(gap)
		}
	}
	switch {
	case by == timeline.Width && p.AirThrowsOnly():
		return "No delay meets the wake-up: " + airThrow
	case by == timeline.Width:
		return "No delay meets the wake-up: the plan never touches a rival that stands"
	}
	every := "the wake-up"
	if p.Rises() > 1 {
		every = "every wake-up"
	}
	m := p.Meetings(d, nil)
	return fmt.Sprintf("No delay meets %s: the nearest, delay %d, misses it by %s (%s)", every, d, Frames(by), missed(&m, rise))
}

// missed says how the attack misses that rise.
func missed(m *timeline.Meetings, rise int) string {
	if gap, ok := m.AttackGap(timeline.Exchange{Rise: rise, Line: timeline.LineNothing}); ok {
		return outOfReach(gap)
	}
	miss := m.Miss(rise)
	mark := fmt.Sprintf("the wake-up on %d", miss.Due)
	if miss.Due != m.Plan.Wake(rise) {
		mark = fmt.Sprintf("the first frame on which it can be thrown, %d", miss.Due)
	}
	switch {
	case miss.By == timeline.Width && m.Plan.AirThrowsOnly():
		return airThrow
	case miss.By == timeline.Width:
		return "the attack never touches a rival that does nothing"
	case miss.Frame >= miss.Due:
		return fmt.Sprintf("the attack touches on %d, %s after %s", miss.Frame, Frames(miss.By), mark)
	}
	return fmt.Sprintf("the attack's last active frame that can touch is %d, %s before %s", miss.Frame, Frames(miss.By), mark)
}
