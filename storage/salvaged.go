package storage

import (
	"context"
	"encoding/json"
	"fmt"
	"hash/maphash"
	"slices"
	"strings"
	"time"

	"wakeline/timeline"
)

// Salvaged is what Salvage could save of a damaged file, and what it could not.
type Salvaged struct {
	Saved   []string // how much of each kind is in the new file, such as "12 setups"
	Lost    []string // what is missing, was left out, or may lack something
	Failed  []string // the tables that failed their check
	Copy    *Kept    // the kept copy that the new file was compared with; nil: there is none
	Differs []string // what of that copy is another in the new file, by damage or by an edit made since
}

// Lines tells all of it, a line each, the most important first. It says that
// nothing was lost only where every table passed its check, every row was
// saved, and a kept copy holds the same: damage inside a number or a name can't
// be seen otherwise.
func (s *Salvaged) Lines() []string {
	of := ""
	if s.Copy != nil {
		of = s.Copy.Of.Local().Format(time.DateTime)
	}
	var out []string
	switch unhurt, same := len(s.Lost)+len(s.Failed) == 0, s.Copy != nil && len(s.Differs) == 0; {
	case unhurt && same:
		out = append(out, "Nothing was lost: it is the same as the copy of "+of)
	case same:
		out = append(out, "The ruleset, the fighters and the setups are the same as in the copy of "+of)
	case unhurt && s.Copy == nil:
		out = append(out, "No row is missing. A number or a name that the damage changed can't be told from others: no copy is kept to compare with")
	case unhurt:
		out = append(out, "No row is missing, but it differs from the copy of "+of)
	case s.Copy == nil:
		out = append(out, "Some of it is lost or may be. Numbers and names in what was saved may be changed too: no copy is kept to compare with")
	default:
		out = append(out, "Some of it is lost or may be")
	}
	out = append(out, "Saved: "+strings.Join(s.Saved, ", "))
	for _, l := range s.Lost {
		out = append(out, "Lost: "+l)
	}
	for _, l := range s.Failed {
		out = append(out, "Damaged: "+l)
	}
	for _, l := range s.Differs {
		out = append(out, fmt.Sprintf("Differs from the copy of %s, by damage or by an edit made since: %s", of, l))
	}
	return out
}

// compare holds what was saved against the newest copy of the damaged file.
func (v *salvage) compare(path, to string) {
	for _, kept := range Copies(path) {
		was, err := digest(v.ctx, kept.Path)
		if err != nil {
			continue // a copy that is damaged itself
		}
		is, err := digest(v.ctx, to)
		if err != nil {
			return
		}
		v.out.Copy = &kept
		for _, what := range was.order {
			switch now, there := is.sums[what]; {
			case !there:
				v.out.Differs = append(v.out.Differs, what+" is not there")
			case now != was.sums[what]:
				v.out.Differs = append(v.out.Differs, what)
			}
		}
		for _, what := range is.order {
			if _, there := was.sums[what]; !there {
				v.out.Differs = append(v.out.Differs, what+" is new")
			}
		}
		if len(v.out.Differs) == 0 && !slices.Equal(was.order, is.order) {
			v.out.Differs = append(v.out.Differs, "the order of the fighters, of what they have, or of the setups")
		}
		return
	}
}

// digested is everything of a project that a verdict hangs on, as a number
// each, by what it is called.
type digested struct {
	sums  map[string]uint64
	order []string
}

var seed = maphash.MakeSeed()

func (d *digested) put(what string, v any) {
	text, _ := json.Marshal(v) // values of a project always marshal
	d.sums[what] = maphash.Bytes(seed, text)
	d.order = append(d.order, what)
}

// digest reads the project file at path.
func digest(ctx context.Context, path string) (*digested, error) {
	f, err := OpenToRead(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	d := &digested{sums: map[string]uint64{}}
	data := f.Data()
	d.put("the ruleset", data.Ruleset)
	for i := range data.Fighters {
		one := &data.Fighters[i]
		d.put(fmt.Sprintf("fighter %q", one.Name), one.Own())
		for k := range one.Moves {
			d.put(fmt.Sprintf("move %q of %q", one.Moves[k].Name, one.Name), one.Moves[k])
		}
		for k := range one.Jumps {
			d.put(fmt.Sprintf("jump %q of %q", one.Jumps[k].Name, one.Name), one.Jumps[k])
		}
		for k := range one.Routes {
			d.put(fmt.Sprintf("route %q of %q", one.Routes[k].Name, one.Name), one.Routes[k])
		}
		for k := range one.Rises {
			d.put(fmt.Sprintf("rise %q of %q", one.Rises[k].Name, one.Name), one.Rises[k])
		}
	}
	err = f.EachSetup(ctx, func(_ int, s *timeline.Setup) error {
		d.put(fmt.Sprintf("setup %q", s.Name), s)
		return nil
	})
	if err != nil {
		return d, err
	}
	lists, err := f.Lists()
	for _, l := range lists {
		d.put(fmt.Sprintf("list %q", l.Name), l)
	}
	return d, err
}
