package timeline

import (
	"fmt"
	"slices"
)

// Covered is the scene without what tells how the exchange ends: no meeting,
// no judgement, no safe delays, and no name, which may tell them too. What the
// two sides do stays as it is.
func (s Scene) Covered() Scene {
	var plain []Dimension
	for _, d := range s.Dimensions {
		switch d.Kind {
		case DimAdvantage, DimRise, DimDelay:
			plain = append(plain, d)
		}
	}
	s.Hidden, s.Dimensions = true, plain
	s.Setup, s.Sentence, s.Window = "", "", nil
	s.Cell, s.Overlap, s.Judgement, s.Verdict = Cell{}, Span{}, JudgedEven, ""
	s.FirstTouch, s.TouchLate, s.GivesUp = Maybe{}, 0, ""
	return s
}

// Guess is what a student's answer comes to who was asked where a setup is
// safe. It is told in steps: Short first, then the hints, then Words.
type Guess struct {
	Right bool
	Off   int    // frames from the nearest delay that is safe; below 0: too early. 0 where Right, and where none is safe
	Short string // right or wrong, and in which direction
	Words string // the whole answer, and why
}

// Guess weighs the delay d, from 0 to LastDelay(), as the answer.
func (p *Plan) Guess(d int) Guess {
	because := p.Verdict(d).Because
	good := p.SafeDelays()
	if good.Empty() {
		return Guess{
			Short: fmt.Sprintf("Delay %d is not safe.", d),
			Words: fmt.Sprintf("Delay %d is not safe, and no other delay is. %s", d, because),
		}
	}
	if good.Has(d) {
		only := "Safe at " + delays(good)
		if good.Count() == 1 {
			only = "No other delay is"
		}
		return Guess{Right: true, Short: fmt.Sprintf("Delay %d is safe.", d), Words: fmt.Sprintf("Delay %d is safe. %s. %s", d, only, because)}
	}
	off := 0
	for n := 1; off == 0; n++ {
		switch {
		case good.Has(d + n):
			off = -n
		case d >= n && good.Has(d-n):
			off = n
		}
	}
	how := "early"
	if off > 0 {
		how = "late"
	}
	return Guess{
		Off:   off,
		Short: fmt.Sprintf("Delay %d is too %s.", d, how),
		Words: fmt.Sprintf("Delay %d is %s too %s. Safe at %s. %s", d, frames(max(off, -off)), how, delays(good), because),
	}
}

// GuessNone weighs the answer that no delay is safe.
func (p *Plan) GuessNone() Guess {
	good := p.SafeDelays()
	if good.Empty() {
		return Guess{Right: true, Short: "No delay is safe.", Words: "No delay is safe. " + p.Verdict(p.Setup.Delay).Because}
	}
	return Guess{Short: "There is a delay that is safe.", Words: "There is a delay that is safe: " + delays(good) + ". " + p.Verdict(good.First()).Because}
}

// Hints say what to look at, one after the other: the wake-up, then the
// replies that end the safe delays, the later end first. They name frames of
// the rival's alone, no delay.
func (p *Plan) Hints() []string {
	var out []string
	if !p.bait {
		out = append(out, "The attack must be active on "+p.dueWords()+".")
	}
	edges := []int{p.Setup.Delay}
	if good := p.SafeDelays(); !good.Empty() {
		edges = []int{good.Last() + 1, good.First() - 1}
	}
	for _, d := range edges {
		if d < 0 || d > p.last {
			continue
		}
		if rise, line := p.Deciding(d); line >= len(builtIn) {
			if hint := p.hint(rise, line) + "."; !slices.Contains(out, hint) {
				out = append(out, hint)
			}
		}
	}
	return out
}

// dueWords names the frames that the attack has to meet, of every rise.
func (p *Plan) dueWords() string {
	var frames []int
	for r := range p.rises {
		due := p.wakes[r]
		if p.base.nblows > 0 {
			due = p.due(r, &p.base.blows[0])
		}
		frames = append(frames, due)
	}
	slices.Sort(frames)
	var on []string
	for _, f := range slices.Compact(frames) {
		on = append(on, fmt.Sprint(f))
	}
	if len(on) == 1 {
		return fmt.Sprintf("frame %s, the first on which it can touch %s", on[0], p.rivalName())
	}
	return fmt.Sprintf("frames %s, the first on which it can touch %s on each rise", list(on), p.rivalName())
}

// hint says what to compare to find out how the exchange with a reply ends.
func (p *Plan) hint(rise, line int) string {
	who, body := p.subject(rise, line), &p.bodies[rise*len(p.lines)+line]
	if body.nblows == 0 || body.blows[0].Active.Empty() {
		return "Look at " + who + ": where it can be touched, and where not"
	}
	first, me := body.blows[0].Active.First(), p.attackerName()
	if body.blows[0].throws() {
		return fmt.Sprintf("%s is first active on frame %d. No guard stops a throw: by then %s must have touched, or be out of its reach", who, first, me)
	}
	switch p.Setup.Landing {
	case DoGuard:
		return fmt.Sprintf("%s is first active on frame %d. By then %s must have touched it, or guard", who, first, me)
	case DoParry:
		return fmt.Sprintf("%s is first active on frame %d. By then %s must have touched it, or parry", who, first, me)
	}
	return fmt.Sprintf("%s is first active on frame %d. By then %s must have touched it", who, first, me)
}

// pastSafe is how many frames past the last safe delay an exercise may start.
const pastSafe = 8

// StartDelay returns a delay for an exercise to start from: one that isn't
// safe, up to a few frames past the last that is; any where all are safe. pick
// returns a number from 0 to n-1.
func (p *Plan) StartDelay(pick func(n int) int) int {
	good := p.SafeDelays()
	to := min(p.last, max(good.Last(), p.Setup.Delay)+pastSafe)
	if from := between(0, to+1).Minus(good); !from.Empty() {
		n := pick(from.Count())
		for _, s := range from.Spans() {
			if n < s.Len() {
				return s.From + n
			}
			n -= s.Len()
		}
	}
	return pick(p.last + 1)
}

// Asked says what the setup must do, for a student who looks for its delay.
func (p *Plan) Asked() string {
	var survive, beat []string
	for _, l := range p.lines {
		switch l.demand {
		case Survive:
			survive = append(survive, l.title)
		case Beat:
			beat = append(beat, l.title)
		}
	}
	say := "It must meet the wake-up of " + p.rivalName()
	if p.bait {
		say = "It is a bait: it need not touch " + p.rivalName()
	}
	if len(survive) > 0 {
		say += ", survive " + list(survive)
	}
	if len(beat) > 0 {
		say += ", beat " + list(beat)
	}
	if len(p.rises) > 1 {
		var names []string
		for _, r := range p.rises {
			names = append(names, r.Name)
		}
		say += ", on each rise: " + list(names)
	}
	return say + "."
}

// delays writes a set of delays, "delay 3" or "delay 3 to 5 and 9".
func delays(s Set) string {
	var runs []string
	for _, r := range s.Spans() {
		if r.Len() == 1 {
			runs = append(runs, fmt.Sprint(r.From))
		} else {
			runs = append(runs, fmt.Sprintf("%d to %d", r.From, r.To-1))
		}
	}
	return "delay " + list(runs)
}
