package export

import (
	"fmt"

	"wakeline/ui/model"
	"wakeline/ui/output"
)

// about says what the preview shows, and what it leaves out.
func (e *Page) about(a *order, made *output.Made) string {
	n := len(a.listed)
	switch a.kind.name {
	case Folder:
		return fmt.Sprintf("The first of %s. Each is exported like this; setups that can't be judged are left out.", model.CountOf(n, "setup"))
	case AllReplies, CheckList:
		if n > repliesLooked && a.streamed() {
			return fmt.Sprintf("The first %d of %d setups. Setups that can't be judged are left out.", repliesLooked, n)
		}
		return model.CountOf(n, "setup") + ". Setups that can't be judged are left out."
	case Lessons:
		return model.CountOf(n-len(made.Skipped), "setup") + ", contents first." + leftOutWords(len(made.Skipped), a.Exercise)
	case Films:
		return model.CountOf(n-len(made.Skipped), "setup") + ", each after a title." + leftOutWords(len(made.Skipped), false)
	case Booklet:
		say := fmt.Sprintf("%s on %s, contents first.", model.CountOf(n-len(made.Skipped), "setup"), model.CountOf(len(made.Sheets), "page"))
		return say + leftOutWords(len(made.Skipped), false)
	}
	return ""
}

// leftOutWords says how many setups are left out; empty where none is.
func leftOutWords(n int, exercise bool) string {
	why, are := "can't be judged", "are"
	if exercise {
		why = "can't be an exercise"
	}
	if n == 1 {
		are = "is"
	}
	if n == 0 {
		return ""
	}
	return fmt.Sprintf(" %d %s and %s left out.", n, why, are)
}
