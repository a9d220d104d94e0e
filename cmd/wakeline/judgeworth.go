package main

import (
	"fmt"
	"io"
	"strings"

	"wakeline/timeline/value"
	"wakeline/timeline/words"
)

// sayWorth writes what a setup is worth: what a hit does, what its ender gives
// up, and its string. It is quiet about what the project doesn't give.
func sayWorth(out io.Writer, worth *value.Answer) {
	if n := worth.KillsOnHit; n.Given && n.N > 0 {
		fmt.Fprintf(out, "  A hit %s.\n", words.EndsRound(n.N))
	}
	if n := worth.Forgone; n.Given {
		fmt.Fprintf(out, "  The setup %s.\n", words.CostsPoints(n.N))
	}
	s := worth.String
	if s == nil {
		return
	}
	var said []string
	for _, step := range s.Steps {
		line := step.Move
		if gap := words.Gap(step.Gap, step.BeatenBy); gap != "" {
			line += ", " + gap
		}
		said = append(said, line)
	}
	if turn := words.Turn(s.Advantage, s.PunishedBy); turn != "" {
		said = append(said, turn)
	}
	fmt.Fprintf(out, "  After a block: %s.\n", strings.Join(said, "; "))
}
