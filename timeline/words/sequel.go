package words

import (
	"fmt"
	"strings"

	"wakeline/timeline"
)

// Then says what follows an exchange: "Reversal blocked, 24 frames to punish:
// Long ladder, 412 points, and 'Plain crossing' again." It is empty where
// nothing does.
func Then(q *timeline.Sequel) string {
	if q == nil {
		return ""
	}
	switch q.Kind {
	case timeline.Guarded:
		return "After a block: " + strings.Join(stringParts(q), "; ") + "."
	case timeline.HitOn:
		return fmt.Sprintf("After a hit: %s.", route(q))
	}
	why := q.Reply + " blocked"
	if q.Outcome == timeline.NoContact {
		why = q.Reply + " touches nothing"
	}
	if n := q.ToPunish; n.Given && n.N > 0 {
		why += fmt.Sprintf(", %s to punish", Frames(n.N))
	}
	return why + ": " + route(q) + "."
}

// route names a route, its points, and what it leads to.
func route(q *timeline.Sequel) string {
	out := fmt.Sprintf("%s, %s", q.Name, Count(q.Points, "point"))
	switch {
	case q.Again:
		out += fmt.Sprintf(", and '%s' again", q.Setup)
	case q.Ends != "":
		out += fmt.Sprintf(", and %s knocks down", q.Ends)
	}
	return out
}

// stringParts are the steps of a string and who has the turn in the end.
func stringParts(q *timeline.Sequel) (out []string) {
	for i := range q.Steps {
		s := &q.Steps[i]
		say := s.Name
		if gap := Gap(s.Gap, s.BeatenBy); gap != "" {
			say += ", " + gap
		}
		out = append(out, say)
	}
	if turn := Turn(q.Advantage, q.PunishedBy); turn != "" {
		out = append(out, turn)
	}
	return out
}
