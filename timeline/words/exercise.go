package words

import (
	"fmt"
	"slices"

	"wakeline/timeline"
)

// Guess is what a student's answer comes to who was asked where a setup is
// safe. It is told in steps: Short first, then the hints, then Words.
type Guess struct {
	Right bool
	Off   int    // frames from the nearest delay that is safe; below 0: too early. 0 where Right, and where none is safe
	Short string // right or wrong, and in which direction
	Words string // the whole answer, and why
}

// GuessAt weighs the delay d, from 0 to LastDelay(), as the answer.
func GuessAt(p *timeline.Plan, d int) Guess {
	why := becauseAt(p, d)
	good := p.SafeDelays()
	if good.Empty() {
		return Guess{
			Short: fmt.Sprintf("Delay %d is not safe.", d),
			Words: fmt.Sprintf("Delay %d is not safe, and no other delay is. %s", d, why),
		}
	}
	if good.Has(d) {
		only := "Safe at " + delays(good)
		if good.Count() == 1 {
			only = "No other delay is"
		}
		return Guess{Right: true, Short: fmt.Sprintf("Delay %d is safe.", d), Words: fmt.Sprintf("Delay %d is safe. %s. %s", d, only, why)}
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
		Words: fmt.Sprintf("Delay %d is %s too %s. Safe at %s. %s", d, Frames(max(off, -off)), how, delays(good), why),
	}
}

// GuessNone weighs the answer that no delay is safe.
func GuessNone(p *timeline.Plan) Guess {
	good := p.SafeDelays()
	if good.Empty() {
		return Guess{Right: true, Short: "No delay is safe.", Words: "No delay is safe. " + becauseAt(p, p.Setup.Delay)}
	}
	return Guess{Short: "There is a delay that is safe.", Words: "There is a delay that is safe: " + delays(good) + ". " + becauseAt(p, good.First())}
}

// Hints say what to look at, one after the other: the wake-up, then the
// replies that end the safe delays, the later end first. They name frames of
// the rival's alone, no delay.
func Hints(p *timeline.Plan) []string {
	var out []string
	if !p.Bait() {
		out = append(out, "The attack must be active on "+dueFrames(p)+".")
	}
	edges := []int{p.Setup.Delay}
	if good := p.SafeDelays(); !good.Empty() {
		edges = []int{good.Last() + 1, good.First() - 1}
	}
	for _, d := range edges {
		if d < 0 || d > p.LastDelay() {
			continue
		}
		if rise, line := p.Deciding(d); line >= timeline.FirstReply {
			if hint := hint(p, timeline.Exchange{Rise: rise, Line: line}) + "."; !slices.Contains(out, hint) {
				out = append(out, hint)
			}
		}
	}
	return out
}

// dueFrames names the frames that the attack has to meet, of every rise.
func dueFrames(p *timeline.Plan) string {
	var due []int
	for r := range p.Rises() {
		due = append(due, p.Due(r))
	}
	on := numbers(due)
	if len(on) == 1 {
		return fmt.Sprintf("frame %s, the first on which it can touch %s", on[0], rivalName(p))
	}
	return fmt.Sprintf("frames %s, the first on which it can touch %s on each rise", List(on), rivalName(p))
}

// hint says what to compare to find out how an exchange ends.
func hint(p *timeline.Plan, e timeline.Exchange) string {
	who := subject(p, e)
	first, throws := p.FirstActive(e)
	if !first.Given {
		return "Look at " + who + ": where it can be touched, and where not"
	}
	lead := fmt.Sprintf("%s is first active on frame %d. ", who, first.N)
	if throws {
		return lead + fmt.Sprintf("No guard stops a throw: by then %s must have touched, or be out of its reach", attackerName(p))
	}
	lead += fmt.Sprintf("By then %s must have touched it", attackerName(p))
	switch p.Setup.Landing {
	case timeline.DoGuard:
		return lead + ", or guard"
	case timeline.DoParry:
		return lead + ", or parry"
	}
	return lead
}

// Asked says what the setup must do, for a student who looks for its delay.
func Asked(p *timeline.Plan) string {
	var survive, beat []string
	for i := range p.Lines() {
		switch r := p.Reply(i); r.Demand {
		case timeline.Survive:
			survive = append(survive, r.Title())
		case timeline.Beat:
			beat = append(beat, r.Title())
		}
	}
	say := "It must meet the wake-up of " + rivalName(p)
	if p.Bait() {
		say = "It is a bait: it need not touch " + rivalName(p)
	}
	if len(survive) > 0 {
		say += ", survive " + List(survive)
	}
	if len(beat) > 0 {
		say += ", beat " + List(beat)
	}
	if p.Rises() > 1 {
		var names []string
		for r := range p.Rises() {
			names = append(names, p.Rise(r).Name)
		}
		say += ", on each rise: " + List(names)
	}
	return say + "."
}

// delays writes a set of delays, "delay 3" or "delay 3 to 5 and 9".
func delays(s timeline.Set) string { return "delay " + Runs(s) }
