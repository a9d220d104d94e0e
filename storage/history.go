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

// StepNote is a step of the history and the one setup that it changed.
type StepNote struct {
	EditNote
	Setup int64  // the setup's row number; 0 where the step changed another thing, or several
	Name  string // the setup's name after the step, or before it where it went
}

// stepSQL reads steps. A step that changed one row alone has one note, at
// place 0.
const stepSQL = `SELECT e.date, e.what, e.undone, r.in_row, r.before, r.after FROM edit e
	LEFT JOIN edit_row r ON r.edit = e.id AND r.place = 0 AND r.in_table = 'setup'
	AND NOT EXISTS (SELECT 1 FROM edit_row m WHERE m.edit = e.id AND m.place > 0) `

// Steps lists the last steps, the newest first, at most that many.
func (f *File) Steps(most int) (out []StepNote, err error) {
	err = f.view(func(q querier) error {
		out, err = readSteps(q, stepSQL+"ORDER BY e.id DESC LIMIT ?", most)
		return err
	})
	return out, err
}

// Next returns the step that Undo would take back and the one that Redo would
// do again; What is empty where there is none.
func (f *File) Next() (undo, redo StepNote, err error) {
	err = f.view(func(q querier) error {
		if undo, err = oneStep(q, "WHERE e.id = (SELECT max(id) FROM edit WHERE undone = 0)"); err != nil {
			return err
		}
		redo, err = oneStep(q, "WHERE e.id = (SELECT min(id) FROM edit WHERE undone = 1)")
		return err
	})
	return undo, redo, err
}

func oneStep(q querier, where string) (StepNote, error) {
	list, err := readSteps(q, stepSQL+where)
	if err != nil || len(list) == 0 {
		return StepNote{}, err
	}
	return list[0], nil
}

func readSteps(q querier, query string, args ...any) (out []StepNote, err error) {
	rows, err := q.Query(query, args...)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	for rows.Next() {
		var n StepNote
		var setup sql.NullInt64
		var before, after sql.NullString
		if err := rows.Scan(&n.Date, &n.What, &n.Undone, &setup, &before, &after); err != nil {
			return nil, err
		}
		if err := plainTexts("the history", n.Date, n.What, before.String, after.String); err != nil {
			return nil, err
		}
		if setup.Valid {
			was, err1 := decodeImage("setup", before)
			is, err2 := decodeImage("setup", after)
			if err := errors.Join(err1, err2); err != nil {
				return nil, err
			}
			n.Setup = setup.Int64
			if is == nil {
				is = was
			}
			if is != nil {
				n.Name = is.Row.text("name")
			}
		}
		out = append(out, n)
	}
	return out, rows.Err()
}
