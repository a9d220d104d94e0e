package storage

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"wakeline/timeline"
)

// DataStep is a step of the history that changed move data.
type DataStep struct {
	EditNote
	ID int64
}

// DataSteps lists the steps that changed move data since the latest revision
// began and were not taken back, the newest first, at most that many.
func (f *File) DataSteps(most int) (out []DataStep, err error) {
	err = f.view(func(q querier) error {
		rows, err := q.Query(`SELECT e.id, e.date, e.what FROM edit e WHERE e.undone = 0
			AND e.id > coalesce((SELECT max(b.id) FROM edit b JOIN edit_row r ON r.edit = b.id WHERE b.undone = 0 AND r.in_table = 'revision'), 0)
			AND EXISTS (SELECT 1 FROM edit_row r WHERE r.edit = e.id AND r.in_table IN ('ruleset', 'fighter', 'move', 'jump', 'rise'))
			ORDER BY e.id DESC LIMIT ?`, most)
		if err != nil {
			return err
		}
		defer rows.Close()
		for rows.Next() {
			var n DataStep
			if err := rows.Scan(&n.ID, &n.Date, &n.What); err != nil {
				return err
			}
			out = append(out, n)
		}
		return rows.Err()
	})
	return out, err
}

// errTakenBack ends a step of which nothing is to be kept.
var errTakenBack = errors.New("taken back")

// DataBefore returns the ruleset and the fighters as they were before a step
// of that number, by taking steps back in a transaction that is given up.
func (f *File) DataBefore(ctx context.Context, step int64) (p *timeline.Project, err error) {
	if err := f.lockToEdit(); err != nil {
		return nil, err
	}
	defer f.mu.Unlock()
	err = f.inStep(ctx, func(s *Step) error {
		steps, err := numbers(s.tx, "SELECT id FROM edit WHERE undone = 0 AND id >= ? ORDER BY id DESC", step)
		if err != nil {
			return err
		}
		s.data = true // so that what is in memory is read again afterwards
		for _, id := range steps {
			notes, err := readNotes(s.tx, id)
			if err != nil {
				return err
			}
			slices.Reverse(notes)
			for i := range notes {
				notes[i].before, notes[i].after = notes[i].after, notes[i].before
			}
			if err := s.replay(notes); err != nil {
				return err
			}
			if err := ctx.Err(); err != nil {
				return err
			}
		}
		if err := f.load(s.tx); err != nil {
			return err
		}
		p = f.data.Bare()
		return errTakenBack
	})
	if !errors.Is(err, errTakenBack) {
		return nil, fmt.Errorf("the move data before step %d: %w", step, describe(err))
	}
	return p, nil
}
