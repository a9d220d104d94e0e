package timeline

import (
	"fmt"
	"slices"
	"strings"
)

// breach is a cell that breaks the setup at a delay.
type breach struct{ rise, line int }

// broken reports whether the cell of line i breaks the setup: a meeting off
// the wake-up's first frame, or a demand not met.
func (p *Plan) broken(i int, c *Cell) bool {
	if i == lineNothing {
		return !p.bait && !(c.Outcome == AttackHits && c.AfterWake.N == 0)
	}
	return !c.meets(p.lines[i].demand)
}

// firstBroken returns the first broken cell by frame of meeting (none last),
// then the replies' order, then the rises'; only among the lines that keep
// lets pass.
func (p *Plan) firstBroken(cells []Cell, keep func(i int) bool) (first breach, ok bool) {
	best := 0
	for i := range p.lines {
		for r := range p.rises {
			c := &cells[r*len(p.lines)+i]
			at := c.Meeting.Or(Width)
			if keep(i) && p.broken(i, c) && (!ok || at < best) {
				first, best, ok = breach{r, i}, at, true
			}
		}
	}
	return first, ok
}

// missed returns the first rise whose wake-up the attack misses.
func (p *Plan) missed(cells []Cell) (breach, bool) {
	return p.firstBroken(cells, func(i int) bool { return i == lineNothing })
}

// breaks returns what an unsafe verdict names, by frames.md, "Verdict": a
// missed wake-up before all; else the first demanded reply that breaks and
// that some timing covers; else the first that breaks.
func (p *Plan) breaks(cells []Cell) (breach, bool) {
	if b, ok := p.missed(cells); ok {
		return b, true
	}
	if b, ok := p.firstBroken(cells, func(i int) bool { return !p.isUncovered(i) }); ok {
		return b, true
	}
	return p.firstBroken(cells, func(int) bool { return true })
}

func (p *Plan) isUncovered(i int) bool { return slices.Contains(p.uncovered, i) }

// Deciding returns the exchange that decides the verdict at delay d, as
// indexes of rise and line: what an unsafe verdict names; else the met demand
// with the least spare; else the rival that does nothing.
func (p *Plan) Deciding(d int) (rise, line int) {
	cells := make([]Cell, len(p.bodies))
	p.Fill(d, cells)
	if p.Word(d) == Unsafe {
		if b, ok := p.breaks(cells); ok {
			return b.rise, b.line
		}
	}
	if b, ok := p.tightest(cells); ok {
		return b.rise, b.line
	}
	return 0, lineNothing
}

// tightest returns the met demand with the least spare.
func (p *Plan) tightest(cells []Cell) (b breach, ok bool) {
	least := 0
	for i := len(builtIn); i < len(p.lines); i++ {
		for r := range p.rises {
			c := &cells[r*len(p.lines)+i]
			if p.lines[i].demand == DemandNone || !c.meets(p.lines[i].demand) || !c.Spare.Given {
				continue
			}
			if !ok || c.Spare.N < least {
				b, least, ok = breach{r, i}, c.Spare.N, true
			}
		}
	}
	return b, ok
}

// because is the verdict's sentence at delay d, from the cells there.
func (p *Plan) because(d int, cells []Cell) string {
	var say []string
	a := p.base.later(d)
	switch word := p.Word(d); {
	case p.Blank():
		return "Nothing is demanded yet: no attack follows the ender, and no reply must be survived or beaten."
	case p.meaty.Empty():
		say = append(say, p.noMeeting())
	case word == Unsafe:
		say = append(say, p.whyUnsafe(d, &a, cells)...)
	case word == Limited:
		say = append(say, "Safe but for "+p.uncoveredList()+", which no timing covers", p.whySafe(d, &a, cells))
	default:
		say = append(say, p.whySafe(d, &a, cells))
	}
	if p.demanded == 0 {
		say = append(say, "No reply is demanded, so only the wake-up is judged")
	}
	if p.ignoresDistance() {
		say = append(say, "Distance is not judged yet")
	}
	return strings.Join(say, ". ") + "."
}

// NoMeeting says why no delay meets the wake-up, as a sentence of its own; it is
// empty where one does.
func (p *Plan) NoMeeting() string {
	if !p.meaty.Empty() {
		return ""
	}
	return p.noMeeting() + "."
}

// whyUnsafe names what breaks; after a missed wake-up also the first demanded
// reply that breaks here and that some timing covers.
func (p *Plan) whyUnsafe(d int, a *Track, cells []Cell) []string {
	first, ok := p.breaks(cells)
	if !ok {
		return []string{fmt.Sprintf("Delay %d is past the last one looked at, %d", d, p.last)}
	}
	say := []string{p.clause(a, first.rise, first.line, cells)}
	if first.line == lineNothing {
		if other, ok := p.firstBroken(cells, func(i int) bool { return i != lineNothing && !p.isUncovered(i) }); ok {
			say = append(say, p.clause(a, other.rise, other.line, cells))
		}
	}
	if len(p.uncovered) > 0 {
		say = append(say, "No timing covers "+p.uncoveredList())
	}
	return say
}

func (p *Plan) uncoveredList() string { return list(p.Uncovered()) }

// whySafe says where the setup meets, lands and guards, and what it has to
// spare against the reply that comes nearest.
func (p *Plan) whySafe(d int, a *Track, cells []Cell) string {
	out := "Meets " + p.wakeList()
	if p.bait {
		out = "A bait, which has no attack"
	}
	if p.Setup.Jump != "" {
		out += fmt.Sprintf(", lands on %d and %s", p.touchdown+d, p.landingWords(d))
	}
	if b, ok := p.tightest(cells); ok {
		out += "; " + p.clause(a, b.rise, b.line, cells)
	}
	return out
}

func (p *Plan) landingWords(d int) string {
	after := ""
	if p.guardsOn > p.touchdown {
		after = fmt.Sprintf(" from %d", p.guardsOn+d)
	}
	switch p.Setup.Landing {
	case DoGuard:
		return "guards" + after
	case DoParry:
		return "parries" + after
	}
	return fmt.Sprintf("does %s from %d", p.Setup.Landing, p.actsOn+d)
}

func (p *Plan) wakeList() string {
	wakes := slices.Clone(p.wakes)
	slices.Sort(wakes)
	wakes = slices.Compact(wakes)
	if len(wakes) == 1 {
		return fmt.Sprintf("the wake-up on %d", wakes[0])
	}
	var out []string
	for _, w := range wakes {
		out = append(out, fmt.Sprint(w))
	}
	return "every wake-up, on " + list(out)
}

// Sentence explains delay d to someone who can't see the drawing: the exchange
// that it shows, and the verdicts one frame earlier and one frame later, which
// another reply may decide.
func (p *Plan) Sentence(d, rise, line int) string {
	cells := make([]Cell, len(p.bodies))
	p.Fill(d, cells)
	a := p.base.later(d)
	out := p.clause(&a, rise, line, cells) + "."
	if p.Blank() {
		return out
	}
	if d > 0 {
		n := p.neighbour(d-1, cells)
		out += fmt.Sprintf(" One frame earlier the setup is %s: %s", n.Word, n.Because)
	}
	if d+1 <= p.last {
		n := p.neighbour(d+1, cells)
		out += fmt.Sprintf(" One frame later the setup is %s: %s", n.Word, n.Because)
	}
	return out
}

// Exchange says in one sentence what one exchange does at delay d.
func (p *Plan) Exchange(d, rise, line int) string {
	cells := make([]Cell, len(p.bodies))
	p.Fill(d, cells)
	a := p.base.later(d)
	return p.clause(&a, rise, line, cells) + "."
}

// clause says what happens in one exchange: which frame, which side, by how
// many.
func (p *Plan) clause(a *Track, rise, i int, cells []Cell) string {
	c := &cells[rise*len(p.lines)+i]
	who := p.subject(rise, i)
	m := c.Meeting.N
	switch c.Outcome {
	case AttackHits:
		return fmt.Sprintf("%s is hit on %d%s%s%s", who, m, afterWakeWords(c), spareWords(c), advantageWords(c))
	case AttackBlocked:
		return fmt.Sprintf("%s blocks the attack on %d%s%s", who, m, afterWakeWords(c), advantageWords(c))
	case ReplyParried:
		return fmt.Sprintf("%s touches on %d and is parried%s", who, m, spareWords(c))
	case ReplyBlocked:
		return fmt.Sprintf("%s touches on %d and is blocked%s%s", who, m, spareWords(c), p.punishWords(i, c))
	case Trade:
		return fmt.Sprintf("%s trades on %d: both sides touch on the same frame", who, m)
	case ReplyHits:
		if c.Spare.Given {
			return fmt.Sprintf("%s hits on %d; the attacker %s only from %d: %s too late", who, m, p.waits(), p.guardsOn+a.wait, frames(-c.Spare.N))
		}
		return fmt.Sprintf("%s hits on %d, while the attacker can't guard", who, m)
	case AttackParried:
		return fmt.Sprintf("%s parries the attack on %d", who, m)
	case AttackAbsorbed:
		return fmt.Sprintf("%s absorbs the attack on %d with its armour", who, m)
	case ReplyThrows:
		return fmt.Sprintf("%s throws on %d: no guard stops a throw", who, m)
	case AttackWhiffs:
		if p.bait {
			return who + " is not touched: the setup is a bait"
		}
		return who + " is not touched: " + p.missWords(a, rise)
	}
	out := who + " makes no contact"
	switch n := c.ToPunish.N; {
	case n > 0:
		out += fmt.Sprintf("; the attacker is free %s before it", frames(n))
	case n < 0:
		out += fmt.Sprintf("; it is free %s before the attacker", frames(-n))
	default:
		out += "; both are free on the same frame"
	}
	return out
}

// waits is the verb of a landing action that waits for the reply.
func (p *Plan) waits() string {
	if p.Setup.Landing == DoParry {
		return "parries"
	}
	return "guards"
}

// spareWords says how many frames were to spare, where that has a meaning.
func spareWords(c *Cell) string {
	switch {
	case !c.Spare.Given:
		return ""
	case c.Spare.N == 0:
		return ", with no frame to spare"
	}
	return fmt.Sprintf(", with %s to spare", frames(c.Spare.N))
}

// punishWords says how many frames there are to punish blocked reply i; where
// there are none, that only of a reply that must be beaten.
func (p *Plan) punishWords(i int, c *Cell) string {
	switch n := c.ToPunish.N; {
	case !c.ToPunish.Given:
		return ""
	case n > 0:
		return fmt.Sprintf(", %s to punish it", frames(n))
	case p.lines[i].demand != Beat:
		return ""
	case n == 0:
		return ", but both are free on the same frame: it can't be punished"
	default:
		return fmt.Sprintf(", but it is free %s before the attacker: it can't be punished", frames(-n))
	}
}

// subject names the reply, and the rise where there are several.
func (p *Plan) subject(rise, i int) string {
	who := p.lines[i].title
	switch i {
	case 0:
		who = "A high guard"
	case 1:
		who = "A low guard"
	case 2:
		who = "A rival that does nothing"
	}
	if len(p.rises) > 1 {
		who += " (" + p.rises[rise].Name + " rise)"
	}
	return who
}

// afterWakeWords says how the meeting stands to the rival's first free frame.
func afterWakeWords(c *Cell) string {
	if c.AfterWake.N == 0 {
		return ", on its first free frame"
	}
	return fmt.Sprintf(", %s after its first free frame", frames(c.AfterWake.N))
}

func advantageWords(c *Cell) string {
	if !c.Advantage.Given {
		return ""
	}
	return fmt.Sprintf(", advantage %+d", c.Advantage.N)
}

// ignoresDistance reports whether the setup's data speak of distance, which
// is kept but not judged.
func (p *Plan) ignoresDistance() bool {
	s := &p.Setup
	if s.Ender != "" && p.attacker.Move(s.Ender).Distance.At(s.Position).Given {
		return true
	}
	if s.Attack != "" && p.attacker.Move(s.Attack).Reach != nil {
		return true
	}
	if m := p.attacker.Move(s.Landing); m != nil && m.Reach != nil {
		return true
	}
	for i := range p.lines {
		if m := p.lines[i].move; m != nil && m.Reach != nil {
			return true
		}
	}
	return false
}

// frames writes a count of frames: "1 frame", "2 frames".
func frames(n int) string {
	if n == 1 {
		return "1 frame"
	}
	return fmt.Sprintf("%d frames", n)
}

// list writes "a", "a and b", "a, b and c".
func list(of []string) string {
	if len(of) < 2 {
		return strings.Join(of, "")
	}
	return strings.Join(of[:len(of)-1], ", ") + " and " + of[len(of)-1]
}
