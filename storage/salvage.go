package storage

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"wakeline/timeline"
)

// Salvage reads what can be read of the damaged project file at path and
// writes it to a new file at to, which keeps all rules of a project. What is
// not in it, lost says, a line each. The damaged file is not written to.
// Numbers, order and uids of what is saved stay. Where ctx ends before, no new
// file is made.
func Salvage(ctx context.Context, path, to string) (lost []string, err error) {
	defer func() {
		if err != nil {
			lost, err = nil, fmt.Errorf("salvage %s: %w", path, describe(err))
		}
	}()
	real, err := filepath.EvalSymlinks(path)
	if err != nil {
		return nil, err
	}
	folder, err := os.MkdirTemp(filepath.Dir(to), ".wakeline-*")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(folder)
	from, err := openRescue(ctx, real, folder)
	if err != nil {
		return nil, err
	}
	defer from.db.Close()
	v := &salvage{from: from}
	if err := create(to, func(f *File) error {
		if err := f.inStep(ctx, v.into); err != nil {
			return err
		}
		found, err := Check(ctx, f.path)
		if err == nil && len(found) > 0 {
			err = fmt.Errorf("what was saved breaks a rule: %s", strings.Join(found, "; "))
		}
		return err
	}); err != nil {
		return nil, err
	}
	return v.lost, nil
}

// salvage is the way of what can be read into a new file.
type salvage struct {
	from *rescue
	s    *Step
	lost []string
	// What of the move data is in the new file, by table and number, and what
	// the old one's index of names tells.
	kept  map[string]map[int64]string
	names map[string]map[int64]knownName
	rules timeline.Ruleset
}

func (v *salvage) lose(format string, args ...any) {
	v.lost = append(v.lost, fmt.Sprintf(format, args...))
}

// into writes everything that can be read through s.
func (v *salvage) into(s *Step) error {
	v.s = s
	v.kept = map[string]map[int64]string{"fighter": {}, "move": {}, "jump": {}, "rise": {}, "setup": {}, "revision": {}}
	v.names = map[string]map[int64]knownName{}
	v.ruleset()
	if err := v.fighters(); err != nil {
		return err
	}
	for _, table := range []string{"move", "jump", "rise"} {
		if err := v.owned(table); err != nil {
			return err
		}
	}
	if err := v.lastRises(); err != nil {
		return err
	}
	if err := s.f.load(s.tx); err != nil {
		return err
	}
	if err := v.setups(); err != nil {
		return err
	}
	if err := v.revisions(); err != nil {
		return err
	}
	v.proofs()
	v.presses()
	return v.history()
}

func (v *salvage) ruleset() {
	v.rules = timeline.DefaultRuleset()
	found := false
	bad := v.from.rows("ruleset", 1, func(id int64, r row) {
		p := timeline.Project{Ruleset: r.ruleset()}
		if p.CheckData() == nil && v.s.lay(place{"ruleset", id}, nil, &image{Row: r}) == nil {
			v.rules, found = p.Ruleset, true
		}
	})
	if !found || len(bad) > 0 && bad[0].from == 1 {
		v.lose("the ruleset: the default stands in its place")
	}
}

// collect reads a table whose rows have names and tells what of it is lost,
// but for those that take refuses: of these it tells itself.
func (v *salvage) collect(table string, take func(id int64, r row)) {
	names, most, all := v.from.names(table)
	v.names[table] = names
	read := map[int64]bool{}
	bad := v.from.rows(table, most, func(id int64, r row) {
		read[id] = true
		if k, ok := names[id]; ok && k.name != r.text("name") {
			v.lose("%s %q: its index calls it %q, so one of the two is damaged", table, r.text("name"), k.name)
		}
		take(id, r)
	})
	lost := map[int64][]string{} // by owner
	for _, id := range slices.Sorted(maps.Keys(names)) {
		if k := names[id]; !read[id] {
			lost[k.owner] = append(lost[k.owner], k.name)
		}
	}
	for _, owner := range slices.Sorted(maps.Keys(lost)) {
		of := ""
		if owner != 0 {
			of = fmt.Sprintf(" of %q", v.nameOf("fighter", owner))
		}
		v.lose("%s%s%s", count(len(lost[owner]), table), of, list(lost[owner]))
	}
	if len(bad) > 0 && !all {
		v.lose("%ss whose names can't be read either", table)
	}
}

// count writes a number of things.
func count(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

// list writes a few names after a count.
func list(names []string) string {
	const most = 5
	var out []string
	for _, n := range names[:min(most, len(names))] {
		out = append(out, fmt.Sprintf("%q", n))
	}
	if more := len(names) - most; more > 0 {
		out = append(out, fmt.Sprintf("and %d more", more))
	}
	return ": " + strings.Join(out, ", ")
}

// nameOf is the best name there is for a row.
func (v *salvage) nameOf(table string, id int64) string {
	if name := v.kept[table][id]; name != "" {
		return name
	}
	if k, ok := v.names[table][id]; ok && k.name != "" {
		return k.name
	}
	return fmt.Sprintf("%s %d", table, id)
}

// put writes a row as it was, or with a new uid where its own is no good.
func (v *salvage) put(table string, id int64, im *image) error {
	if uid := im.Row.text("uid"); len(uid) != 36 {
		im.Row["uid"] = newUID()
	}
	err := v.s.lay(place{table, id}, nil, im)
	if err == nil {
		v.kept[table][id] = im.Row.text("name")
	}
	return err
}

// fighters saves the fighters; one that others' rows name, but that can't be
// read, is made anew with what is known.
func (v *salvage) fighters() error {
	v.collect("fighter", func(id int64, r row) {
		one := timeline.Fighter{Name: r.text("name"), Body: r.maybe("body")}
		err := v.sound(one)
		if err == nil {
			err = v.put("fighter", id, &image{Row: r})
		}
		if err != nil {
			v.lose("fighter %q: %v", one.Name, reason(err))
		}
	})
	owners := map[int64]bool{}
	for _, table := range []string{"move", "jump"} {
		v.from.rows(table, 0, func(_ int64, r row) {
			if owner, ok := r["fighter"].(int64); ok && owner > 0 {
				owners[owner] = true
			}
		})
	}
	for _, id := range slices.Sorted(maps.Keys(owners)) {
		if _, ok := v.kept["fighter"][id]; ok {
			continue
		}
		name := v.nameOf("fighter", id)
		if err := v.put("fighter", id, &image{Row: row{"name": name, "place": id, "body": nil}}); err != nil {
			return err
		}
		v.lose("the body of %q, of which others tell", name)
	}
	return nil
}

// sound asks whether a fighter keeps the rules.
func (v *salvage) sound(f timeline.Fighter) error {
	if len(f.Rises) == 0 {
		f.Rises = timeline.DefaultRises()
	}
	p := timeline.Project{Ruleset: v.rules, Fighters: []timeline.Fighter{f}}
	return p.CheckData()
}

// reason is what an error says, without a place in a project that is no more.
func reason(err error) string {
	if f := (*timeline.FieldError)(nil); errors.As(err, &f) {
		return fmt.Sprintf("expected %s, got %s", f.Want, cmp.Or(f.Got, "nothing"))
	}
	return err.Error()
}

// owned saves a table of things that fighters own.
func (v *salvage) owned(table string) error {
	doings := map[string]bool{} // moves and jumps share their names
	for id, name := range v.kept["move"] {
		doings[fmt.Sprint(v.owner("move", id), " ", name)] = true
	}
	v.collect(table, func(id int64, r row) {
		owner, _ := r["fighter"].(int64)
		name := r.text("name")
		fighter, ok := v.kept["fighter"][owner]
		if !ok {
			v.lose("%s %q, whose fighter is gone", table, name)
			return
		}
		var f timeline.Fighter
		var err error
		switch table {
		case "move":
			var m timeline.Move
			m, err = r.move()
			f.Moves = append(f.Moves, m)
		case "jump":
			f.Jumps = append(f.Jumps, r.jump())
			if doings[fmt.Sprint(owner, " ", name)] {
				err = errors.New("a move bears its name")
			}
		case "rise":
			f.Rises = append(f.Rises, r.rise())
		}
		f.Name = fighter
		if err == nil {
			err = v.sound(f)
		}
		if err == nil {
			err = v.put(table, id, &image{Row: r})
		}
		if err != nil {
			v.lose("%s %q of %q: %v", table, name, fighter, reason(err))
		} else if _, told := v.names[table][id]; !told {
			v.names[table][id] = knownName{owner, name}
		}
	})
	return nil
}

func (v *salvage) owner(table string, id int64) int64 { return v.names[table][id].owner }

// lastRises gives a fighter without a rise a normal one.
func (v *salvage) lastRises() error {
	has := map[int64]bool{}
	most := int64(0)
	for id := range v.kept["rise"] {
		has[v.owner("rise", id)] = true
		most = max(most, id)
	}
	for id := range v.names["rise"] {
		most = max(most, id)
	}
	for _, fighter := range slices.Sorted(maps.Keys(v.kept["fighter"])) {
		if has[fighter] {
			continue
		}
		most++
		r := riseRow(timeline.DefaultRises()[0])
		r["fighter"], r["place"] = fighter, int64(1)
		if err := v.put("rise", most, &image{Row: r}); err != nil {
			return err
		}
		v.lose("all rises of %q: a normal one stands in their place", v.kept["fighter"][fighter])
	}
	return nil
}
