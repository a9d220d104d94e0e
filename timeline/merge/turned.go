package merge

import (
	"context"

	"wakeline/timeline"
	"wakeline/timeline/compare"
)

// Turned is a setup whose verdict is another in the result than on its own side.
type Turned struct {
	Setup         string        // as the result calls it
	Theirs        bool          // it comes in from theirs
	Before, After timeline.Word // empty where it can't be judged
}

// Turned finds the setups whose verdicts the merge turns: those of ours, which
// may also be replaced, and those of theirs that come in. Setups of which nothing
// differs are not judged.
func (c *Comparison) Turned(ctx context.Context, r *Result, tell func(done, of int)) (out []Turned, err error) {
	o, t, p := c.ours.Project, c.theirs.Project, r.Project
	mine, other := compare.New(o.Bare(), p.Bare()), compare.New(t.Bare(), p.Bare())
	inOurs, inTheirs, inBoth := timeline.NewIndex(o), timeline.NewIndex(t), timeline.NewIndex(p.Bare())
	from := make(map[int]origin, len(r.setups))
	for _, at := range r.setups {
		from[at.at] = at
	}
	for i := range p.Setups {
		if i%mergeStep == 0 {
			if err := ctx.Err(); err != nil {
				return nil, err
			}
			if tell != nil {
				tell(i, len(p.Setups))
			}
		}
		s := &p.Setups[i]
		at, moved := from[i]
		var before timeline.Word
		turned := Turned{Setup: s.Name, Theirs: moved && at.ours < 0}
		switch {
		case turned.Theirs && other.Touches(s):
			before = wordOf(inTheirs, &t.Setups[at.their])
		case moved && at.ours >= 0:
			before = wordOf(inOurs, &o.Setups[at.ours])
		case !moved && mine.Touches(s):
			before = wordOf(inOurs, s)
		default:
			continue
		}
		turned.Before, turned.After = before, wordOf(inBoth, s)
		if turned.Before != turned.After {
			out = append(out, turned)
		}
	}
	return out, nil
}

// wordOf is the verdict of a setup at its own delay, empty where it can't be
// judged.
func wordOf(ix *timeline.Index, s *timeline.Setup) (w timeline.Word) {
	if ix.With(*s, func(p *timeline.Plan, _ []timeline.Cell) { w = p.Word(s.Delay) }) != nil {
		return ""
	}
	return w
}
