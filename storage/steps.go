package storage

import (
	"database/sql"
	"errors"
)

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
