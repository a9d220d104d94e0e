package output

import (
	"fmt"
	"strings"

	"wakeline/timeline/words"
)

// LessonText is a lesson in words: its answer, then each step with its
// verdict, what happens, and what the attacker does on the frames that matter.
func LessonText(l *words.Lesson) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n%s vs %s, %s\n%s\n", l.Setup, l.Attacker, l.Rival, l.Position, l.Answer)
	for _, line := range []string{l.GivesUp, l.Inputs, noteOf(l), l.Missing} {
		if line != "" {
			fmt.Fprintf(&b, "%s\n", line)
		}
	}
	for i := range l.Steps {
		s := &l.Steps[i]
		fmt.Fprintf(&b, "\n%s, delay %d, against %s: %s\n", s.Title, s.Delay, s.Against, s.Scene.Verdict)
		if s.Changed != "" {
			fmt.Fprintf(&b, "%s\n", s.Changed)
		}
		fmt.Fprintf(&b, "%s\n", s.Sentence)
		if s.Worth != "" {
			fmt.Fprintf(&b, "%s\n", s.Worth)
		}
		for k := range s.Contacts {
			fmt.Fprintf(&b, "%s\n", s.Contacts[k].Words(l.Steps[l.Own].Delay))
		}
	}
	return b.String()
}

// noteOf is a lesson's note with what it is before it; empty where it has none.
func noteOf(l *words.Lesson) string {
	if l.Note == "" {
		return ""
	}
	return "Note: " + l.Note
}
