package ui

import (
	"fmt"
	"path/filepath"
	"strings"

	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/output"
)

// about says what the preview shows, and what it leaves out.
func (e *exportPage) about(a *order, made *output.Made) string {
	n := len(a.listed)
	switch a.kind.name {
	case exportFolder:
		return fmt.Sprintf("The first of %s. Each is exported like this; setups that can't be judged are left out.", model.CountOf(n, "setup"))
	case exportAll:
		if n > repliesLooked {
			return fmt.Sprintf("The first %d of %d setups. Setups that can't be judged are left out.", repliesLooked, n)
		}
		return model.CountOf(n, "setup") + ". Setups that can't be judged are left out."
	case exportBooklet:
		say := fmt.Sprintf("%s on %s, contents first.", model.CountOf(n-len(made.Skipped), "setup"), model.CountOf(len(made.Sheets), "page"))
		if left := len(made.Skipped); left > 0 {
			say += fmt.Sprintf(" %d can't be judged and %s left out.", left, map[bool]string{true: "is", false: "are"}[left == 1])
		}
		return say
	}
	return ""
}

// sourceName is the file that the numbers are of.
func (w *window) sourceName() string {
	if path := w.model.Path(); path != "" {
		return filepath.Base(path)
	}
	return ""
}

// source says in o where the numbers come from.
func (w *window) source(o *output.Order) {
	o.Source.Project = w.sourceName()
	if d, ok := w.model.Document().OnDisk(); ok {
		o.Source.Revision, o.Source.Date, o.Source.Note = d.Latest.Name, d.Latest.Date, d.Latest.Note
	}
}

// ownPlan is the chosen setup compiled as it stands; nil where it can't be.
func (w *window) ownPlan() *timeline.Plan {
	plan, err := timeline.Compile(w.model.Data(), w.model.Setup())
	if err != nil {
		return nil
	}
	return plan
}

// listTitle heads what is made of the setups listed.
func (w *window) listTitle() string {
	if !w.setups.Filtered() {
		return "All setups"
	}
	var of []string
	if words := strings.Join(strings.Fields(w.setups.Field.Text), " "); words != "" {
		of = append(of, "“"+words+"”")
	}
	if words := w.setups.By.Words(); words != "" {
		of = append(of, words)
	}
	return "Setups: " + strings.Join(of, ", ")
}
