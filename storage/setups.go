package storage

import (
	"context"
	"fmt"

	"wakeline/timeline"
)

// Head is what a list shows of a setup before it is read whole.
type Head struct {
	ID                    int64 // the setup's row number, stable while it exists
	Name, Attacker, Rival string
}

// batch is how many setups are read at a time: edits may come in between.
const batch = 256

// Path is where the file is, or the project text that a file in memory is of.
func (f *File) Path() string {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.path
}

// ReadOnly says why the file can't be edited, empty where it can.
func (f *File) ReadOnly() string {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.readOnly == "" && f.answersOnly {
		return AnswersOnly
	}
	return f.readOnly
}

// AnswersOnly is why nothing but answers of exercises can be added, while that is
// asked for.
const AnswersOnly = "student mode is on; only answers of exercises are saved"

// TakeAnswersOnly has every edit refused, but for answers of exercises that are
// added; or ends that.
func (f *File) TakeAnswersOnly(on bool) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.answersOnly = on
}

// Data returns the ruleset and the fighters, without setups. The value is not
// changed after; an edit makes a new one.
func (f *File) Data() *timeline.Project {
	var p *timeline.Project
	bare := func(querier) error {
		p = f.data.Bare()
		return nil
	}
	if err := f.view(bare); err != nil { // as it was read last
		f.mu.Lock()
		defer f.mu.Unlock()
		bare(nil)
	}
	return p
}

// Heads lists the setups in their order.
func (f *File) Heads() (out []Head, err error) {
	err = f.view(func(q querier) error {
		rows, err := q.Query("SELECT id, name, attacker, rival FROM setup ORDER BY place, id")
		if err != nil {
			return err
		}
		defer rows.Close()
		for rows.Next() {
			var h Head
			var attacker, rival int64
			if err := rows.Scan(&h.ID, &h.Name, &attacker, &rival); err != nil {
				return err
			}
			if err := timeline.CheckName(timeline.LabelPath("setup"), h.Name); err != nil {
				return fmt.Errorf("%w: %w", ErrDamaged, err)
			}
			h.Attacker, h.Rival = f.ids.fighters[attacker], f.ids.fighters[rival]
			out = append(out, h)
		}
		return rows.Err()
	})
	return out, err
}

// Setup reads the setup of that row number.
func (f *File) Setup(id int64) (out timeline.Setup, err error) {
	if f.fixedData { // an answer is made of it, which nothing would take back
		if err := f.Sound(); err != nil {
			return out, err
		}
	}
	found := false
	err = f.view(func(q querier) error {
		return f.eachSetup(q, fmt.Sprintf("WHERE s.id = %d", id), func(_ int64, _ int, s *timeline.Setup) error {
			out, found = *s, true
			return asDamage(f.index.CheckSetup((*timeline.Path)(nil).At("setup"), s))
		})
	})
	if err == nil && !found {
		err = fmt.Errorf("setup %d: there is none", id)
	}
	return out, err
}

// EachSetup calls do with every setup in its order, and how many have come
// before it. Edits may come in between: a setup that is removed before its turn
// is left out, and where the move data change it ends with ErrChanged, as the
// setups to come would not fit those before. It ends early when ctx does.
func (f *File) EachSetup(ctx context.Context, do func(at int, s *timeline.Setup) error) error {
	heads, err := f.Heads()
	if err != nil {
		return err
	}
	f.mu.Lock()
	edition := f.edition
	f.mu.Unlock()
	at := 0
	for from := 0; from < len(heads); from += batch {
		if err := ctx.Err(); err != nil {
			return err
		}
		some, err := f.readSetups(edition, heads[from:min(from+batch, len(heads))])
		if err != nil {
			return err
		}
		for i := range some {
			if err := do(at, &some[i]); err != nil {
				return err
			}
			at++
		}
	}
	return f.Sound()
}

// readSetups reads the setups of those heads that are still there, in their order.
func (f *File) readSetups(edition int, heads []Head) (out []timeline.Setup, err error) {
	ids := make([]int64, len(heads))
	for i, h := range heads {
		ids[i] = h.ID
	}
	out = make([]timeline.Setup, 0, len(heads))
	err = f.view(func(q querier) error {
		if f.edition != edition {
			return ErrChanged
		}
		return f.eachSetup(q, "WHERE s.id"+in(ids), func(_ int64, _ int, s *timeline.Setup) error {
			out = append(out, *s)
			return asDamage(f.index.CheckSetup((*timeline.Path)(nil).At("setup"), s))
		})
	})
	return out, err
}

// Project reads everything that a project text holds, as it stands at one
// moment.
func (f *File) Project() (p *timeline.Project, err error) {
	if err := f.Sound(); err != nil {
		return nil, err
	}
	err = f.view(func(q querier) error {
		p = f.data.Bare()
		return f.eachSetup(q, "", func(_ int64, _ int, s *timeline.Setup) error {
			p.Setups = append(p.Setups, *s)
			return nil
		})
	})
	if err == nil {
		err = asDamage(p.Check())
	}
	if err != nil {
		return nil, err
	}
	return p, nil
}

// asDamage is the error of a file that breaks a rule.
func asDamage(err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("%w: %w", ErrDamaged, err)
}

// ByName returns a reader of setups by their names as they are now. ok is false
// where there is none of that name, or it was removed since.
func (f *File) ByName() (read func(name string) (s timeline.Setup, ok bool, err error), err error) {
	heads, err := f.Heads()
	if err != nil {
		return nil, err
	}
	ids := make(map[string]int64, len(heads))
	for _, h := range heads {
		ids[h.Name] = h.ID
	}
	return func(name string) (timeline.Setup, bool, error) {
		id, ok := ids[name]
		if !ok {
			return timeline.Setup{}, false, nil
		}
		var out []timeline.Setup
		err := f.view(func(q querier) error {
			return f.eachSetup(q, fmt.Sprintf("WHERE s.id = %d", id), func(_ int64, _ int, s *timeline.Setup) error {
				out = append(out, *s)
				return asDamage(f.index.CheckSetup((*timeline.Path)(nil).At("setup"), s))
			})
		})
		if err != nil || len(out) == 0 {
			return timeline.Setup{}, false, err
		}
		return out[0], true, nil
	}, nil
}
