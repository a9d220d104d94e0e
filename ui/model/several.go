package model

import (
	"fmt"
	"slices"

	"wakeline/timeline"
)

// MostAtOnce is how many setups are edited as one step at most.
const MostAtOnce = 5000

// Several edits the setups of those places as one step: change makes another
// value of each, and returns false where it stays as it is. Where one can't be,
// none is changed, and the error says which. It returns how many were changed.
// The chosen setup stays chosen.
func (m *Model) Several(what string, places []int, change func(s *timeline.Setup) (bool, error)) (n int, err error) {
	m.Commit()
	if len(places) > MostAtOnce {
		return 0, fmt.Errorf("expected at most %d setups at once, got %d", MostAtOnce, len(places))
	}
	if !m.MayEdit() {
		return 0, ErrHeld
	}
	var edits []timeline.Edit
	for _, i := range places {
		s, err := m.doc.Setup(i)
		if err != nil {
			return 0, err
		}
		before := s.Name
		s.Fillers, s.Rises, s.Tags = slices.Clone(s.Fillers), slices.Clone(s.Rises), slices.Clone(s.Tags)
		if s.Replies != nil { // without its own it is asked the rival's
			s.Replies = slices.Clone(s.Replies)
		}
		changed, err := change(&s)
		if err != nil {
			return 0, fmt.Errorf("“%s”: %w", before, err)
		}
		if changed {
			edits = append(edits, timeline.SetupEdit{Before: before, Setup: &s})
		}
	}
	if len(edits) == 0 {
		return 0, nil
	}
	return len(edits), m.applyTo(what, m.setup.Name, edits)
}

// DeleteSeveral takes the setups of those places away as one step.
func (m *Model) DeleteSeveral(places []int) error {
	m.Commit()
	if len(places) > MostAtOnce {
		return fmt.Errorf("expected at most %d setups at once, got %d", MostAtOnce, len(places))
	}
	if !m.MayEdit() {
		return ErrHeld
	}
	var edits []timeline.Edit
	for _, i := range places {
		edits = append(edits, timeline.SetupEdit{Before: m.doc.Head(i).Name})
	}
	return m.applyTo(fmt.Sprintf("delete %d setups", len(places)), m.setup.Name, edits)
}
