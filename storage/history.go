package storage

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"slices"
)

// ErrNoStep is what Undo and Redo answer when there is nothing to take back.
var ErrNoStep = errors.New("no step")

// EditNote is one step of the history.
type EditNote struct {
	Date   string // RFC 3339, UTC
	What   string
	Undone bool
}

// History lists the last steps, the newest first, at most that many.
func (f *File) History(most int) (out []EditNote, err error) {
	err = f.view(func(q querier) error {
		rows, err := q.Query("SELECT date, what, undone FROM edit ORDER BY id DESC LIMIT ?", most)
		if err != nil {
			return err
		}
		defer rows.Close()
		for rows.Next() {
			var n EditNote
			if err := rows.Scan(&n.Date, &n.What, &n.Undone); err != nil {
				return err
			}
			if err := plainTexts("the history", n.Date, n.What); err != nil {
				return err
			}
			out = append(out, n)
		}
		return rows.Err()
	})
	return out, err
}

// Undo takes the last step back and says which it was. The history is on
// disk: it goes back to the file's beginning, whoever had it open. Where
// there is nothing to take back the error is ErrNoStep.
func (f *File) Undo() (what string, err error) {
	return f.undoRedo("undo", "SELECT max(id) FROM edit WHERE undone = 0", true)
}

// Redo does the step again that was undone last.
func (f *File) Redo() (what string, err error) {
	return f.undoRedo("redo", "SELECT min(id) FROM edit WHERE undone = 1", false)
}

func (f *File) undoRedo(word, find string, back bool) (what string, err error) {
	if err := f.lockToEdit(); err != nil {
		return "", err
	}
	defer f.mu.Unlock()
	err = f.inStep(context.Background(), func(s *Step) error {
		var id sql.NullInt64
		if err := s.tx.QueryRow(find).Scan(&id); err != nil {
			return err
		}
		if !id.Valid {
			return ErrNoStep
		}
		if err := s.tx.QueryRow("SELECT what FROM edit WHERE id = ?", id.Int64).Scan(&what); err != nil {
			return err
		}
		notes, err := readNotes(s.tx, id.Int64)
		if err != nil {
			return err
		}
		if back {
			slices.Reverse(notes)
			for i := range notes {
				notes[i].before, notes[i].after = notes[i].after, notes[i].before
			}
		}
		if err := s.replay(notes); err != nil {
			return err
		}
		if err := s.exec("UPDATE edit SET undone = ? WHERE id = ?", back, id.Int64); err != nil {
			return err
		}
		return s.check()
	})
	if err != nil && !errors.Is(err, ErrNoStep) {
		err = fmt.Errorf("%s %q: %w", word, what, describe(err))
	}
	if err == nil && back {
		f.steps--
	} else if err == nil {
		f.steps++
	}
	return what, err
}

// replay puts rows as they are after each note. A step may have passed names
// round, which no two rows may bear at once: so the rows that go, go first, and
// those that are renamed bear their uid for a moment.
func (s *Step) replay(notes []note) error {
	now := make([]*image, len(notes))
	for i, n := range notes {
		var err error
		if now[i], err = s.read(n.place); err != nil {
			return err
		}
		switch {
		case now[i] == nil:
		case n.after == nil:
			err = s.setRow(n.place, now[i], nil)
		case now[i].Row.text("name") != n.after.Row.text("name"):
			err = s.exec("UPDATE "+n.table+" SET name = uid WHERE id = ?", n.id)
		}
		if err != nil {
			return err
		}
	}
	for i, n := range notes {
		if n.after == nil {
			continue
		}
		if err := s.setRow(n.place, now[i], n.after); err != nil {
			return err
		}
	}
	return nil
}

// readNotes reads what a step did, in its order.
func readNotes(q querier, edit int64) ([]note, error) {
	rows, err := q.Query("SELECT in_table, in_row, before, after FROM edit_row WHERE edit = ? ORDER BY place", edit)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var out []note
	for rows.Next() {
		var n note
		var before, after sql.NullString
		if err := rows.Scan(&n.table, &n.id, &before, &after); err != nil {
			return nil, err
		}
		if err := plainTexts("the history", before.String, after.String); err != nil {
			return nil, err
		}
		if _, ok := columns[n.table]; !ok {
			return nil, fmt.Errorf("history: expected a table that edits touch, got %q", n.table)
		}
		if n.before, err = decodeImage(n.table, before); err != nil {
			return nil, err
		}
		if n.after, err = decodeImage(n.table, after); err != nil {
			return nil, err
		}
		out = append(out, n)
	}
	return out, rows.Err()
}

// checkHistory reads every step and says which can't be.
func checkHistory(ctx context.Context, q querier) error {
	steps, err := numbers(q, "SELECT id FROM edit ORDER BY id")
	if err != nil {
		return err
	}
	rows := 0
	for _, id := range steps {
		if err := ctx.Err(); err != nil {
			return err
		}
		notes, err := readNotes(q, id)
		if err != nil {
			return fmt.Errorf("step %d: %w", id, err)
		}
		rows += len(notes)
	}
	all, err := numbers(q, "SELECT count(*) FROM edit_row")
	if err == nil && all[0] != int64(rows) {
		err = fmt.Errorf("%w: the history has rows of no step", ErrDamaged)
	}
	return err
}
