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
		if n > repliesLooked {
			return fmt.Sprintf("The first %d of %d setups. Setups that can't be judged are left out.", repliesLooked, n)
		}
		return model.CountOf(n, "setup") + ". Setups that can't be judged are left out."
	case Booklet:
		say := fmt.Sprintf("%s on %s, contents first.", model.CountOf(n-len(made.Skipped), "setup"), model.CountOf(len(made.Sheets), "page"))
		if left := len(made.Skipped); left > 0 {
			say += fmt.Sprintf(" %d can't be judged and %s left out.", left, map[bool]string{true: "is", false: "are"}[left == 1])
		}
		return say
	}
	return ""
}
