package ui

import (
	"slices"
	"time"
)

// mostHistory is how many steps are listed.
const mostHistory = 1000

// pastStep is one step of a document's history.
type pastStep struct {
	date, what, setup string
	undone            bool
}

// past lists the document's last steps, the newest first, at most so many.
func (m *Model) past(most int) ([]pastStep, error) {
	switch d := m.doc.(type) {
	case *FileDocument:
		steps, err := d.File().Steps(most)
		out := make([]pastStep, len(steps))
		for i := range steps {
			out[i] = pastStep{steps[i].Date, steps[i].What, steps[i].Name, steps[i].Undone}
		}
		return out, err
	case *TextDocument:
		return d.past(most), nil
	}
	return nil, nil
}

// past lists the steps of a project in memory.
func (d *TextDocument) past(most int) (out []pastStep) {
	for i := range d.redo { // the one that was undone first is the newest
		out = append(out, d.redo[i].past(true))
	}
	for i := len(d.undo) - 1; i >= 0; i-- {
		out = append(out, d.undo[i].past(false))
	}
	return out[:min(len(out), most)]
}

func (s *textStep) past(undone bool) pastStep {
	name := s.before.Name
	return pastStep{s.date.UTC().Format(time.RFC3339), s.what, name, undone}
}

// way is how many steps back, or forward where negative, lead to the state
// right after step i of those listed; past the last, to the state before all.
func way(steps []pastStep, i int) (back int) {
	for k := range steps {
		switch {
		case k < i && !steps[k].undone:
			back++
		case k >= i && steps[k].undone:
			back--
		}
	}
	return back
}

// stepDate writes a step's date in the time of here.
func stepDate(date string) string {
	at, err := time.Parse(time.RFC3339, date)
	if err != nil {
		return date
	}
	return at.Local().Format("2006-01-02 15:04:05")
}

// nowStep is the newest step that is done, len(steps) where none is.
func nowStep(steps []pastStep) int {
	if i := slices.IndexFunc(steps, func(s pastStep) bool { return !s.undone }); i >= 0 {
		return i
	}
	return len(steps)
}
