package storage

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"wakeline/timeline"
)

// FirstRevision is the revision that a new project begins with.
const FirstRevision = "first"

// Revision is a dated state of the move data: a patch of the game.
type Revision struct {
	Name, Date, Note string // Date is of the form 2006-01-02
	Latest           bool   // the revision that the tables hold
}

// Revisions lists them, the oldest first.
func (f *File) Revisions() (out []Revision, err error) {
	err = f.view(func(q querier) error {
		rows, err := q.Query("SELECT name, date, note, data IS NULL FROM revision ORDER BY id")
		if err != nil {
			return err
		}
		defer rows.Close()
		for rows.Next() {
			var r Revision
			if err := rows.Scan(&r.Name, &r.Date, &r.Note, &r.Latest); err != nil {
				return err
			}
			if err := timeline.CheckName(timeline.LabelPath("revision"), r.Name); err != nil {
				return fmt.Errorf("%w: %w", ErrDamaged, err)
			}
			if err := plainTexts("a revision", r.Date, r.Note); err != nil {
				return err
			}
			out = append(out, r)
		}
		return rows.Err()
	})
	return out, err
}

// FreeRevision reports whether a revision of that name can begin, and lists the
// names that there are. Where the project holds no fighter yet, its first
// revision takes any name.
func (f *File) FreeRevision(name string) (free bool, names []string, err error) {
	list, err := f.Revisions()
	if err != nil {
		return false, nil, err
	}
	empty := len(f.Data().Fighters) == 0
	free = true
	for _, r := range list {
		names = append(names, r.Name)
		free = free && (r.Name != name || r.Latest && empty)
	}
	return free, names, nil
}

// DataOf returns the ruleset and the fighters as they were in a revision.
func (f *File) DataOf(name string) (p *timeline.Project, err error) {
	var data sql.NullString
	err = f.view(func(q querier) error {
		p = f.data.Bare()
		return q.QueryRow("SELECT data FROM revision WHERE name = ?", name).Scan(&data)
	})
	if err == sql.ErrNoRows {
		_, names, _ := f.FreeRevision("")
		for i := range names {
			names[i] = strconv.Quote(names[i])
		}
		return nil, fmt.Errorf("expected a revision, got %q; there are: %s", name, strings.Join(names, ", "))
	}
	if err != nil || !data.Valid {
		return p, err
	}
	if p, err = timeline.ReadText([]byte(data.String)); err != nil {
		return nil, fmt.Errorf("%w: revision %q: %w", ErrDamaged, name, err)
	}
	return p, nil
}

// BeginRevision starts a revision: what the tables hold is kept as the state
// of the one before, and edits from here on belong to the new one. Where the
// project has no fighter yet, its first revision takes the name.
func (s *Step) BeginRevision(name, note string) error {
	return s.BeginRevisionAfter(name, note, &s.f.data)
}

// BeginRevisionAfter is BeginRevision where the state of the revision before
// is kept, and not what the tables hold: the edits since belong to the new
// one already.
func (s *Step) BeginRevisionAfter(name, note string, kept *timeline.Project) error {
	if s.err != nil {
		return s.err
	}
	if err := timeline.CheckName(timeline.LabelPath("revision"), name); err != nil {
		return s.fail("%w", err)
	}
	var id int64
	if err := s.tx.QueryRow("SELECT id FROM revision WHERE data IS NULL").Scan(&id); err != nil {
		return s.fail("%w: it has no latest revision: %w", ErrDamaged, err)
	}
	before, err := s.read(place{"revision", id})
	if err != nil {
		return err
	}
	if len(s.ids.fighter) == 0 {
		return s.revision(id, name, note, before)
	}
	if before.Row.text("name") == name {
		return s.fail("expected a new revision's name, got %q again", name)
	}
	past := &image{Row: row{}}
	for c, v := range before.Row {
		past.Row[c] = v
	}
	past.Row["data"] = string(timeline.WriteText(kept.Bare()))
	if err := s.write(place{"revision", id}, before, past); err != nil {
		return err
	}
	return s.revision(0, name, note, nil)
}

// revision writes a revision of today's date.
func (s *Step) revision(id int64, name, note string, before *image) error {
	r := row{"name": name, "date": today(), "note": note, "data": nil}
	if before != nil {
		r["uid"] = before.Row["uid"]
	}
	_, err := s.put("revision", id, &image{Row: r})
	return err
}

// Proof is a setup tried in the game.
type Proof struct {
	Setup, Revision, Date, Result, Note string // Result: worked, failed or unclear
}

// AddProof notes that a setup was tried in the game, under the latest revision.
func (s *Step) AddProof(p Proof) error {
	setup, err := s.rowID("setup", p.Setup)
	if err != nil {
		return err
	}
	revision, err := s.rowID("revision", p.Revision)
	if err != nil {
		return err
	}
	_, err = s.put("proof", 0, &image{Row: row{"setup": setup, "revision": revision, "date": p.Date, "result": p.Result, "note": p.Note}})
	return err
}

// Proofs lists what was tried of a setup, the oldest first.
func (f *File) Proofs(setup string) (out []Proof, err error) {
	err = f.view(func(q querier) error {
		rows, err := q.Query(`SELECT s.name, r.name, p.date, p.result, p.note FROM proof p
			JOIN setup s ON s.id = p.setup JOIN revision r ON r.id = p.revision WHERE s.name = ? ORDER BY p.id`, setup)
		if err != nil {
			return err
		}
		defer rows.Close()
		for rows.Next() {
			var p Proof
			if err := rows.Scan(&p.Setup, &p.Revision, &p.Date, &p.Result, &p.Note); err != nil {
				return err
			}
			if err := plainTexts("an in-game test", p.Date, p.Result, p.Note); err != nil {
				return err
			}
			out = append(out, p)
		}
		return rows.Err()
	})
	return out, err
}

// today is the date as revisions have it.
func today() string { return time.Now().Format(time.DateOnly) }

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
			AND EXISTS (SELECT 1 FROM edit_row r WHERE r.edit = e.id AND r.in_table IN ('ruleset', 'fighter', 'move', 'jump', 'rise', 'route'))
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
