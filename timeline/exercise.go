package timeline

import (
	"fmt"
)

// Covered is the scene without what tells how the exchange ends: no meeting,
// no judgement, no safe delays, and no name, which may tell them too. What the
// two sides do stays as it is.
func (s Scene) Covered() Scene {
	var plain []Dimension
	for _, d := range s.Dimensions {
		if d.Kind == DimAdvantage || d.Kind == DimDelay {
			plain = append(plain, d)
		}
	}
	s.Hidden, s.Dimensions = true, plain
	s.Setup, s.Sentence, s.Window = "", "", nil
	s.Cell, s.Overlap, s.Judgement, s.Verdict = Cell{}, Span{}, JudgedEven, ""
	return s
}

// Guess is what a student's answer comes to who was asked where a setup is
// safe.
type Guess struct {
	Right bool
	Off   int    // frames from the nearest delay that is safe; below 0: too early. 0 where Right, and where none is safe
	Words string // what it comes to, and why
}

// Guess weighs the delay d, from 0 to LastDelay(), as the answer.
func (p *Plan) Guess(d int) Guess {
	waited := "You waited " + frames(d)
	if d == 0 {
		waited = "You did not wait"
	}
	because := p.Verdict(d).Because
	good := p.SafeDelays()
	if good.Empty() {
		return Guess{Words: waited + ", and no delay of this setup is safe. " + because}
	}
	if good.Has(d) {
		only := "Safe is " + delays(good)
		if good.Count() == 1 {
			only = "No other delay is"
		}
		return Guess{Right: true, Words: waited + ", and it is safe. " + only + ". " + because}
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
	return Guess{Off: off, Words: fmt.Sprintf("%s, which is %s too %s: safe is %s. %s", waited, frames(max(off, -off)), how, delays(good), because)}
}

// GuessNone weighs the answer that no delay is safe.
func (p *Plan) GuessNone() Guess {
	good := p.SafeDelays()
	if good.Empty() {
		return Guess{Right: true, Words: "So it is: no delay of this setup is safe. " + p.Verdict(p.Setup.Delay).Because}
	}
	return Guess{Words: "There is one: safe is " + delays(good) + ". " + p.Verdict(good.First()).Because}
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
	say := "It must meet " + p.rivalName() + " on the first free frame"
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

// delays writes a set of delays, "a delay of 3" or "a delay of 3 to 5 and 9".
func delays(s Set) string {
	var runs []string
	for _, r := range s.Spans() {
		if r.Len() == 1 {
			runs = append(runs, fmt.Sprint(r.From))
		} else {
			runs = append(runs, fmt.Sprintf("%d to %d", r.From, r.To-1))
		}
	}
	return "a delay of " + list(runs)
}
