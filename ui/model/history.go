package model

import (
	"slices"
	"time"
)

// MostHistory is how many steps are listed.
const MostHistory = 1000

// PastStep is one step of a document's history.
type PastStep struct {
	Date, What, Setup string
	Undone            bool
}

// Past lists the document's last steps, the newest first, at most so many.
func (m *Model) Past(most int) ([]PastStep, error) {
	steps, err := m.doc.file.Steps(most)
	out := make([]PastStep, len(steps))
	for i := range steps {
		out[i] = PastStep{steps[i].Date, steps[i].What, steps[i].Name, steps[i].Undone}
	}
	return out, err
}

// StepsTo is how many steps back, or forward where negative, lead to the state
// right after step i of those listed; past the last, to the state before all.
func StepsTo(steps []PastStep, i int) (back int) {
	for k := range steps {
		switch {
		case k < i && !steps[k].Undone:
			back++
		case k >= i && steps[k].Undone:
			back--
		}
	}
	return back
}

// StepDate writes a step's date in the time of here.
func StepDate(date string) string {
	at, err := time.Parse(time.RFC3339, date)
	if err != nil {
		return date
	}
	return at.Local().Format("2006-01-02 15:04:05")
}

// NowStep is the newest step that is done, len(steps) where none is.
func NowStep(steps []PastStep) int {
	if i := slices.IndexFunc(steps, func(s PastStep) bool { return !s.Undone }); i >= 0 {
		return i
	}
	return len(steps)
}
