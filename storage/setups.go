package storage

import (
	"context"
	"fmt"
	"strings"

	"wakeline/timeline"
)

// Head is what a list shows of a setup before it is read whole.
type Head struct {
	ID                    int64 // the setup's row number, stable while it exists
	Name, Attacker, Rival string
}

// batch is how many setups are read at a time: edits may come in between.
const batch = 256

// Path is where the file is.
func (f *File) Path() string { return f.path }

// ReadOnly says why the file can't be edited, empty where it can.
func (f *File) ReadOnly() string {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.readOnly
}

// Data returns the ruleset and the fighters, without setups. The value is not
// changed after; an edit makes a new one.
func (f *File) Data() *timeline.Project {
	f.mu.Lock()
	defer f.mu.Unlock()
	return &timeline.Project{Ruleset: f.data.Ruleset, Fighters: f.data.Fighters}
}

// Heads lists the setups in their order.
func (f *File) Heads() ([]Head, error) { return f.heads("", nil) }

// Search lists the setups whose name, note or tags hold text (in any case, for
// letters of ASCII), and that bear tag where it isn't empty.
func (f *File) Search(text, tag string) ([]Head, error) {
	where, args := []string{}, []any{}
	if text != "" {
		like := "%" + strings.NewReplacer("~", "~~", "%", "~%", "_", "~_").Replace(text) + "%"
		where = append(where, `(name LIKE ? ESCAPE '~' OR note LIKE ? ESCAPE '~' OR id IN (SELECT setup FROM tag WHERE name LIKE ? ESCAPE '~'))`)
		args = append(args, like, like, like)
	}
	if tag != "" {
		where = append(where, "id IN (SELECT setup FROM tag WHERE name = ?)")
		args = append(args, tag)
	}
	if len(where) == 0 {
		return f.Heads()
	}
	return f.heads("WHERE "+strings.Join(where, " AND "), args)
}

func (f *File) heads(where string, args []any) ([]Head, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	rows, err := f.db.Query("SELECT id, name, attacker, rival FROM setup "+where+" ORDER BY place, id", args...)
	if err != nil {
		return nil, describe(err)
	}
	defer rows.Close()
	var out []Head
	for rows.Next() {
		var h Head
		var attacker, rival int64
		if err := rows.Scan(&h.ID, &h.Name, &attacker, &rival); err != nil {
			return nil, describe(err)
		}
		h.Attacker, h.Rival = f.ids.fighters[attacker], f.ids.fighters[rival]
		out = append(out, h)
	}
	return out, describe(rows.Err())
}

// Setup reads the setup of that row number.
func (f *File) Setup(id int64) (timeline.Setup, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	var out timeline.Setup
	found := false
	err := f.eachSetup(f.db, fmt.Sprintf("WHERE s.id = %d", id), func(_ int64, _ int, s *timeline.Setup) error {
		out, found = *s, true
		return f.data.CheckSetup("$.setup", s)
	})
	if err == nil && !found {
		err = fmt.Errorf("setup %d: there is none", id)
	}
	return out, describe(err)
}

// EachSetup calls do with every setup in its order, and how many have come
// before it. It ends early when ctx does.
func (f *File) EachSetup(ctx context.Context, do func(at int, s *timeline.Setup) error) error {
	heads, err := f.Heads()
	if err != nil {
		return err
	}
	for from := 0; from < len(heads); from += batch {
		if err := ctx.Err(); err != nil {
			return err
		}
		some, err := f.some(heads[from:min(from+batch, len(heads))])
		if err != nil {
			return err
		}
		for i := range some {
			if err := do(from+i, &some[i]); err != nil {
				return err
			}
		}
	}
	return nil
}

// some reads the setups of those heads, in their order.
func (f *File) some(heads []Head) ([]timeline.Setup, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	var list strings.Builder
	place := make(map[int64]int, len(heads))
	for i, h := range heads {
		if i > 0 {
			list.WriteByte(',')
		}
		fmt.Fprint(&list, h.ID)
		place[h.ID] = i
	}
	out := make([]timeline.Setup, len(heads))
	found := 0
	err := f.eachSetup(f.db, "WHERE s.id IN ("+list.String()+")", func(id int64, _ int, s *timeline.Setup) error {
		out[place[id]] = *s
		found++
		return f.data.CheckSetup("$.setup", s)
	})
	if err == nil && found < len(heads) {
		err = fmt.Errorf("expected %d setups, got %d", len(heads), found)
	}
	return out, describe(err)
}

// Project reads everything that a project text holds.
func (f *File) Project() (*timeline.Project, error) {
	p := f.Data()
	err := f.EachSetup(context.Background(), func(_ int, s *timeline.Setup) error {
		p.Setups = append(p.Setups, *s)
		return nil
	})
	if err != nil {
		return nil, err
	}
	return p, p.Check()
}
