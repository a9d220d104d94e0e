package words

import (
	"fmt"
	"slices"
	"strings"

	"wakeline/timeline"
)

// The words for what a setup is worth. They take plain numbers, since package
// value, which works those out, stands above this one.

// Worth is what one exchange comes to, in the attacker's view.
type Worth struct {
	Points timeline.Maybe // absent where the setup can't pay its own moves
	Route  string         // of the attacker, played in it; empty: none
	Kills  timeline.Maybe // the damage done to the rival; absent where there is none
}

// Tells reports whether any of those exchanges has points: where moves have no
// damage, none does, and there is nothing to show.
func Tells(worth [][]Worth) bool {
	for _, rise := range worth {
		for i := range rise {
			if rise[i].Points.Or(0) != 0 || rise[i].Kills.Given {
				return true
			}
		}
	}
	return false
}

// Points says what one exchange comes to, short: "412 points". It is empty where
// it isn't known.
func Points(w Worth) string {
	if !w.Points.Given {
		return ""
	}
	return Count(w.Points.N, "point")
}

// ShortWorth says what one exchange comes to and from what health it ends the
// round, for a cell: "412 points; ends 412". It is empty where it isn't known.
func ShortWorth(w Worth) string {
	out := Points(w)
	if out != "" && w.Kills.Given && w.Kills.N > 0 {
		out += fmt.Sprintf("; ends %d", w.Kills.N)
	}
	return out
}

// WorthSentence says what one exchange comes to, how, and what it ends:
// "Long ladder: 412 points; ends the round from 412 health or less". It is empty
// where it isn't known.
func WorthSentence(w Worth) string {
	if !w.Points.Given {
		return ""
	}
	out := Points(w)
	if w.Route != "" {
		out = w.Route + ": " + out
	}
	if w.Kills.Given && w.Kills.N > 0 {
		out += "; " + EndsRound(w.Kills.N)
	}
	return out
}

// Link says whether one move of a route links to the next, by its margin:
// "links with 1 frame to spare", "doesn't link: 2 frames too slow". It is empty
// where the margin isn't known.
func Link(margin timeline.Maybe) string {
	switch {
	case !margin.Given:
		return ""
	case margin.N < 0:
		return fmt.Sprintf("doesn't link: %s too slow", Frames(-margin.N))
	case margin.N == 0:
		return "links with nothing to spare"
	}
	return fmt.Sprintf("links with %s to spare", Frames(margin.N))
}

// StepLink says how a move of a route comes after the one before: "Jab links
// with 1 frame to spare", "Sweep is a cancel".
func StepLink(move string, throw, cancel bool, margin timeline.Maybe) string {
	switch {
	case throw:
		return move + " is a throw, which doesn't take a body in stun"
	case cancel:
		return move + " is a cancel"
	case !margin.Given:
		return move + " may or may not link: the advantage on hit before it, or its startup, isn't known"
	}
	return move + " " + Link(margin)
}

// StepLinkShort is StepLink for a cell: "1 to spare", "2 too slow", "cancel".
func StepLinkShort(throw, cancel bool, margin timeline.Maybe) string {
	switch {
	case throw:
		return "throw"
	case cancel:
		return "cancel"
	case !margin.Given:
		return "not known"
	case margin.N < 0:
		return fmt.Sprintf("%d too slow", -margin.N)
	}
	return fmt.Sprintf("%d to spare", margin.N)
}

// RouteWorth says what a route comes to: how its steps link, its points and
// gauge, and whether it is used.
func RouteWorth(links []string, damage, cost, gain int, counts bool) string {
	out := append(slices.Clone(links), Count(damage, "point"))
	if cost > 0 {
		out = append(out, "costs "+Count(cost, "segment"))
	}
	if gain > 0 {
		out = append(out, "gains "+Count(gain, "segment"))
	}
	if !counts {
		out = append(out, "not used until it is confirmed")
	}
	return strings.Join(out, "; ") + "."
}

// Gap says what one step of a string leaves: "true string", or "a gap of 3
// frames: Rising cut beats it". It is empty where the gap isn't known.
func Gap(gap timeline.Maybe, beatenBy string) string {
	switch {
	case !gap.Given:
		return ""
	case gap.N == 0:
		return "true string"
	case beatenBy == "":
		return fmt.Sprintf("a gap of %s", Frames(gap.N))
	}
	return fmt.Sprintf("a gap of %s: %s beats it", Frames(gap.N), beatenBy)
}

// Turn says who may act first after a string, by its advantage: "keeps the turn
// by 2 frames", "gives up the turn: Jab punishes". It is empty where the
// advantage isn't known.
func Turn(advantage timeline.Maybe, punishedBy string) string {
	switch {
	case !advantage.Given:
		return ""
	case advantage.N > 0:
		return fmt.Sprintf("keeps the turn by %s", Frames(advantage.N))
	case advantage.N == 0:
		return "both may act on one frame"
	case punishedBy == "":
		return fmt.Sprintf("gives up the turn by %s", Frames(-advantage.N))
	}
	return fmt.Sprintf("gives up the turn: %s punishes", punishedBy)
}

// EndsRound says from how much health that much damage ends the round.
func EndsRound(damage int) string {
	return fmt.Sprintf("ends the round from %d health or less", damage)
}

// CostsPoints says what is given up for a setup against the best route.
func CostsPoints(forgone int) string {
	if forgone == 0 {
		return "costs nothing against the best route"
	}
	return fmt.Sprintf("costs %s against the best route", Count(forgone, "point"))
}
