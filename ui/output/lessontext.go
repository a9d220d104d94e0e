package output

import (
	"fmt"
	"strings"

	"wakeline/timeline"
)

// LessonText is a lesson in words: each step with its verdict, what happens,
// and which frame meets what.
func LessonText(l *timeline.Lesson) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n%s vs %s, %s\n", l.Setup, l.Attacker, l.Rival, l.Position)
	if l.Missing != "" {
		fmt.Fprintf(&b, "%s\n", l.Missing)
	}
	for i := range l.Steps {
		s := &l.Steps[i]
		fmt.Fprintf(&b, "\n%s, delay %d: %s\n%s\n", s.Title, s.Delay, s.Scene.Verdict, s.Sentence)
		for _, c := range s.Contacts {
			fmt.Fprintf(&b, "Frame %d, %s, meets: %s", c.Frame, c.Rival, c.Finds)
			if c.Was != "" {
				fmt.Fprintf(&b, " (as it is: %s)", c.Was)
			}
			b.WriteString(".\n")
		}
	}
	return b.String()
}
