package find

import (
	"fmt"
	"math/big"
	"slices"
	"strings"
	"unicode/utf8"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// Answer is one way to a safe jump.
type Answer struct {
	Rank int // from 1

	// Setups are ready to open, one a target, the query's own first. Their
	// names say what they are made of; a project may hold them already.
	Setups []timeline.Setup
	Word   timeline.Word // the core's verdict: safe or limited

	Frames int            // the fillers' total
	JumpOn int            // the frame on which the jump starts
	Chance float64        // that every press comes off, as Hand has it
	Spare  timeline.Maybe // the least of the demanded replies' on any rise and target
	Gauge  int            // segments, of fillers and attack
	Travel int            // units, of the fillers
	Place  timeline.Maybe // where they leave the attacker, where the distance is known
	Orders *big.Int       // of the same fillers, this one among them; 1 where order matters
	Why    string         // why it ranks where it does
}

// Wait is the counted wait, frames.
func (a *Answer) Wait() int { return a.JumpOn - a.Frames }

// answer makes the answer of a sequence of a group.
func (s *search) answer(g *group, seq []int, place int) Answer {
	w := &s.ways[g.way]
	e := &w.ends[g.end]
	a := Answer{Word: e.word, Frames: g.sum, JumpOn: g.start, Chance: g.chance, Gauge: g.cost,
		Spare: e.spare[g.start], Orders: big.NewInt(1)}
	if s.places != nil {
		a.Place = timeline.Some(place)
	}
	moved := s.places != nil && s.places.back && !s.Ordered // not each order will do
	if moved {
		seq, a.Orders = s.places.arrange(seq, place)
	}
	var names []string
	run := 0 // how many of the same filler stand at the end of seq[:i+1]
	for i, f := range seq {
		names = append(names, s.table.fillers[f].name)
		a.Travel += s.table.fillers[f].room
		if s.Ordered || moved {
			continue
		}
		if i > 0 && seq[i-1] == f {
			run++
		} else {
			run = 1
		}
		// One more of (i+1)! over the factorials of the runs; each step is a
		// multinomial coefficient, so it divides.
		a.Orders.Mul(a.Orders, big.NewInt(int64(i+1))).Quo(a.Orders, big.NewInt(int64(run)))
	}
	for _, t := range s.targets() {
		setup := s.against(t, w.jump, w.attack)
		setup.Fillers, setup.Delay = slices.Clone(names), g.start-g.sum
		setup.Tags, setup.Note = nil, ""
		setup.Name = title(&setup, len(s.Also) > 0)
		a.Setups = append(a.Setups, setup)
	}
	return a
}

// title names a setup by what it is made of.
func title(s *timeline.Setup, withRival bool) string {
	var parts []string
	if s.Ender != "" {
		parts = append(parts, s.Ender)
	}
	parts = append(parts, s.Fillers...)
	if s.Delay > 0 {
		parts = append(parts, fmt.Sprintf("wait %d", s.Delay))
	}
	parts = append(parts, strings.TrimSpace(s.Jump+" "+s.Attack))
	rival := ""
	if withRival {
		rival = timeline.CutName(" vs "+s.Rival, timeline.MaxName/2)
	}
	return timeline.CutName(strings.Join(parts, ", "), utf8.RuneCountInString(rival)) + rival
}

// why says what an answer has, and by what it stands behind the one before.
func why(a *Answer, g, before *group, by rank) string {
	has := []string{"No counted wait"}
	switch {
	case a.Wait() > 0:
		has[0] = fmt.Sprintf("A counted wait of %s, which lands %s of the time", words.Frames(a.Wait()), words.Percent(a.Chance))
	case a.Chance < 1:
		has[0] += fmt.Sprintf(", though without a buffer every link must be timed: %s", words.Percent(a.Chance))
	default:
		has[0] += ": the chain is exact"
	}
	if a.Spare.Given {
		has = append(has, words.Frames(a.Spare.N)+" to spare")
	} else {
		has = append(has, "no demanded reply comes near")
	}
	has = append(has, number(len(a.Setups[0].Fillers), "filler", "no filler"))
	has = append(has, number(a.Gauge, "segment of gauge", "no gauge"))
	out := strings.Join(has, "; ") + "."
	if before == nil || before == g {
		return out
	}
	switch _, reason := by(before, g); reason {
	case byWait:
		out += " It comes after those without a counted wait."
	case byChance:
		if better := words.Percent(before.chance); better != words.Percent(g.chance) {
			out += fmt.Sprintf(" It comes after a better chance, %s.", better)
		} else {
			out += " It comes after a chance that is a little better."
		}
	case bySpare:
		if before.spare == noSpare {
			out += " It comes after those that no demanded reply comes near."
		} else {
			out += fmt.Sprintf(" It comes after more to spare, %s.", words.Frames(before.spare))
		}
	case byCount:
		out += " It comes after fewer fillers."
	case byCost:
		out += " It comes after less gauge."
	}
	return out
}

// number writes "1 filler", "2 fillers", and none for 0.
func number(n int, one, none string) string {
	switch n {
	case 0:
		return none
	case 1:
		return "1 " + one
	}
	first, rest, _ := strings.Cut(one, " ") // segment of gauge, segments of gauge
	return strings.TrimSpace(fmt.Sprintf("%d %ss %s", n, first, rest))
}
